"""How much several amounts of one mention come to, and the counts that articles tell."""

from collections.abc import Sequence
from dataclasses import replace

from stovescript.kitchen.foods import food_categories, food_named
from stovescript.measure import Quantity
from stovescript.recipe.amounts import agree, dimension, summed
from stovescript.recipe.binding import corrects
from stovescript.recipe.event import Event
from stovescript.speech.heard import Heard, Mention
from stovescript.speech.words import singular


def one_of(heard: Heard, food: Mention) -> tuple[Quantity, ...]:
    """The count of "one of the onions", which the grammar leaves alone for it may be no count."""
    before = heard.tokens[max(0, food.start - 3) : food.start]
    if len(before) == 3 and before[0] == "one" and before[1] == "of":
        start = food.start - 3
        return (Quantity("count", start, start + 1, 1.0, 1.0, "", False, "one"),)
    return ()


def with_articles(heard: Heard, events: list[Event]) -> list[Event]:
    """The events, "an onion" with its count where nothing else says how much of that food there is."""
    measured = {event.key for event in events if event.amounts or event.fraction}
    result = []
    for event in events:
        open_ = event.key not in measured and event.kind in ("add", "have", "prepare") and not event.by_pronoun
        if open_ and (one := _an(heard, event.mention)):
            event = replace(event, amounts=one)
            measured.add(event.key)
        result.append(event)
    return result


def _an(heard: Heard, food: Mention) -> tuple[Quantity, ...]:
    """The count of "an onion" and "a big bay leaf": one whole thing of a kind that is counted."""
    known, last = food_named(food.text), heard.tokens[food.end - 1]
    counted = known is not None and (food_categories()[known.category] or known.each or last == "leaf")
    if known is None or not counted or (known.category == "fresh herb" and last != "leaf") or singular(last) != last:
        return ()
    start = food.start
    while start > food.start - 3 and start and heard.tokens[start - 1] in _DESCRIBING:
        start -= 1
    if start == 0 or heard.tokens[start - 1] not in ("a", "an") or known.dish_like or known.usual_unit in _AMOUNTS:
        return ()
    return (Quantity("count", start - 1, start, 1.0, 1.0, "", False, heard.tokens[start - 1]),)


_DESCRIBING = frozenset(
    {"big", "large", "small", "medium", "little", "whole", "nice", "good", "fresh", "ripe", "single"}
)

_AMOUNTS = frozenset({"cup", "tablespoon", "teaspoon", "ounce", "gram", "pound", "can", "package"})


def joined(heard: Heard, amounts: tuple[Quantity, ...]) -> tuple[Quantity, ...]:
    """What several amounts of one mention come to: "a cup plus a tablespoon more", "six grams, about two teaspoons".

    A whole that is then shared out ("three, two for the pot and one for the top") counts, its shares don't; of a mass
    and a volume the mass counts, as cooks weigh what they want exact (common practice). Any others stay apart.
    """
    if len(amounts) > 2 and shares_of(amounts):
        return amounts[:1]
    if len(amounts) != 2:
        return amounts
    first, second = amounts
    between = heard.tokens[first.end : second.start]
    after = set(heard.tokens[second.end : second.end + 2])
    total = summed([first, second]) if "plus" in between or ("and" in between and "more" in after) else None
    if total:
        return (total,)
    if heard.tokens[second.end : second.end + 1] == ("for",) and first.unit == second.unit and first.low > second.low:
        return (first,)  # "three, two for the pot …"
    masses = [amount for amount in amounts if dimension(amount.unit) == "mass"]
    if corrects(between) or len(masses) != 1 or dimension((second if masses[0] is first else first).unit) != "volume":
        return amounts
    return tuple(masses)


def shares_of(amounts: Sequence[Quantity]) -> tuple[Quantity, ...]:
    """The shares of the first amount that the others tell: three, of which two and one; none where sums differ."""
    whole, *parts = amounts
    shares = [replace(part, unit=part.unit or whole.unit, kind=whole.kind) for part in parts]
    total = summed(shares) if shares else None
    return tuple(shares) if total and len(shares) > 1 and agree(total, whole) else ()
