"""Two names of one food: "these are the navy beans", "which is garlic chives"."""

from dataclasses import replace

from stovescript.kitchen.words import phrases
from stovescript.recipe.amounts import agree
from stovescript.recipe.event import Event
from stovescript.recipe.naming import Named, collective_of, same_food
from stovescript.speech.heard import Heard


def identifies(heard: Heard, event: Event, before: Event) -> bool:
    """True for "these are the little navy beans", which says of the food just named what it is."""
    start = max(heard.clauses[event.clause].start, event.mention.start - 5)
    words = " ".join(heard.tokens[start : event.mention.start])
    one, two = event.name.food, before.name.food
    related = one is None or two is None or one.category == two.category
    told = before.kind == "have" or two is None
    same = bool(event.amounts and before.amounts) and agree(event.amounts[0], before.amounts[0])
    near = event.clause - before.clause <= 1 + same and event.key != before.key
    near = near and (told or same) and (same or not event.amounts)
    said = phrases("identity").search(words) is not None or _apposed(heard, event, before)
    return (near and related and said) or _said_fuller(event, before)


def _said_fuller(event: Event, before: Event) -> bool:
    """True for "the rice three cups i got three cups basmati": the fuller name with the same amount again."""
    a, b = event.amounts[:1], before.amounts[:1]
    same = bool(a and b) and agree(a[0], b[0]) and a[0].unit == b[0].unit != ""
    return same and event.clause == before.clause and event.key != before.key and _general(before.name, event.name)


def _general(one: Named, other: Named) -> bool:
    categories = collective_of(one.said)
    return same_food(one.said, other.key) or bool(other.food and other.food.category in categories)


def identified(events: list[Event], event: Event) -> tuple[list[Event], Event]:
    """The events with the two names of one food made one: the name that a table knows, else the first."""
    before = events[-1]
    if before.name.food is not None and not _general(before.name, event.name):
        return events, replace(event, key=before.key, kind="refer", name=before.name, amounts=())
    renamed = [replace(e, key=event.key, name=event.name) if e.key == before.key else e for e in events]
    return renamed, replace(event, kind="refer", amounts=())


def _apposed(heard: Heard, event: Event, before: Event) -> bool:
    """True for "potatoes three pounds the russets": only the amount and an article stand between."""
    amounts = {token for amount in before.amounts for token in range(amount.start, amount.end)}
    between = range(before.mention.end, event.mention.start)
    words = [heard.tokens[token] for token in between if token not in amounts]
    return bool(amounts & set(between)) and words == ["the"] and event.name.food is not None
