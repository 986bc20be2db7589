"""The cook's world: which foods go in, how often, and how much each time."""

from collections import Counter
from dataclasses import dataclass, field, replace

from stovescript.kitchen.foods import Food
from stovescript.kitchen.words import wordlist
from stovescript.measure import Quantity
from stovescript.recipe.amounts import (
    SPOONS,
    agree,
    comparable,
    dimension,
    is_package,
    is_vague,
    rank,
    restated,
    scaled,
    similar,
    subtracted,
    summed,
    used_up,
)
from stovescript.recipe.event import Event
from stovescript.recipe.naming import BY_CUT, Named
from stovescript.speech.words import singular

_SAME_MOMENT = 4  # clauses within which a repeated mention is the same addition


@dataclass(slots=True)
class Addition:
    """One time that a food goes in."""

    events: list[Event]
    amount: Quantity | None = None
    is_rest: bool = False

    @property
    def clause(self) -> int:
        return self.events[0].clause

    @property
    def last_of(self) -> bool:
        """True for "the last of the butter", what is left over of something that is in already."""
        return any(event.last_of for event in self.events)


@dataclass(slots=True)
class Item:
    """A food of this dish: what was set out, what went in, and amounts that disagree."""

    key: str
    events: list[Event] = field(default_factory=list)
    additions: list[Addition] = field(default_factory=list)
    set_out: Quantity | None = None
    set_out_events: list[Event] = field(default_factory=list)
    total_said: Quantity | None = None
    loose_count: Quantity | None = None
    package_size: Quantity | None = None
    conflicts: list[tuple[Quantity, Quantity]] = field(default_factory=list)
    shares: tuple[Quantity, ...] = ()

    @property
    def name(self) -> Named:
        """The fullest of the common ways in which the cook names it."""
        ways = Counter(event.name for event in self.events)
        exact = [way for way in ways if way.key == self.key] or list(ways)
        return max(exact, key=lambda way: (ways[way], len(way.said)))


def items_of(events: list[Event]) -> list[Item]:
    """The foods of the dish in order of first use, each with its additions."""
    items: dict[str, Item] = {}
    for event in events:
        item = items.setdefault(event.key, Item(event.key))
        item.events.append(event)
        _take(item, event)
    for item in items.values():
        _set_back(item)
        _settle(item)
        _complete(item)
    added = {item.key for item in items.values() if item.additions}
    return sorted(
        (
            item
            for item in items.values()
            if item.additions or item.set_out_events
            if not (_only_stated(item) and pressed(item.key, added))
        ),
        key=lambda item: item.additions[0].clause if item.additions else item.events[-1].clause,
    )


def _only_stated(item: Item) -> bool:
    """True for a food that is nowhere done, only shown or told of."""
    return all(event.stated for addition in item.additions for event in addition.events)


def pressed(key: str, added: set[str]) -> bool:
    """True for a fruit that is only set out while its juice or zest goes in: it is the loose count of those."""
    return any(f"{key} {part}" in added or f"{singular(key)} {part}" in added for part in wordlist("parts_of_fruit"))


def _take(item: Item, event: Event) -> None:
    amount = _measure(item, tuple(_with_unit(item, amount) for amount in event.amounts))
    _sized(item, event)
    item.shares = event.shares or item.shares
    last = item.additions[-1] if item.additions else None
    if event.kind == "add":
        _add(item, event, amount, last)
    elif event.kind == "prepare" and last is not None and amount and last.amount and not agree(last.amount, amount):
        item.additions.append(Addition([event], amount))
    elif last is None:
        item.set_out_events.append(event)
        if amount is None:
            return
        if event.whole:
            item.total_said = amount
        if item.set_out and not is_vague(item.set_out) and not agree(item.set_out, amount) and not event.corrects:
            if is_vague(amount) or event.more:
                return
            if comparable(item.set_out, amount):
                if event.reason == "memory":  # a second look at the label, or the amount of something else
                    item.set_out = amount if similar(item.set_out, amount, _SAME_USE) else item.set_out
                    return
                item.conflicts.append((item.set_out, amount))
            elif rank(amount) < rank(item.set_out):
                return
        if (
            item.set_out is None
            or event.corrects
            or not (agree(item.set_out, amount) or restated(item.set_out, amount))
        ):
            item.set_out = amount
    elif amount is not None:
        _refine(item, event, amount, last)


def _add(item: Item, event: Event, amount: Quantity | None, last: Addition | None) -> None:
    if amount and item.set_out and amount.unit == "" and dimension(item.set_out.unit) in ("package", "count"):
        amount = replace(amount, unit=item.set_out.unit)  # "both of those" cans
    if last is None:
        told = event.more and amount and item.set_out and not is_vague(item.set_out)
        if told and item.set_out and (event.another or not agree(item.set_out, amount or item.set_out)):
            item.additions.append(Addition(item.set_out_events[-1:] or [event], item.set_out))  # "one more cup"
        item.additions.append(Addition([event], amount))
        return
    recent = event.clause - last.events[-1].clause <= _SAME_MOMENT
    same = recent and event.step == last.events[-1].step
    if event.corrects and amount and recent and last.amount and comparable(last.amount, amount):
        last.events.append(event)
        last.amount = amount
        return
    if event.rest or event.more:
        if recent and amount and event.more and last.amount is None:
            last.amount = amount
            last.events.append(event)
            return
        item.additions.append(Addition([event], amount, is_rest=event.rest))
    elif amount is None and not recent and (_anew(event) or _other_half(item, event)):
        item.additions.append(Addition([event]))
    elif amount is None or (
        last.amount and agree(last.amount, amount) and (same or event.by_pronoun or last.events[-1].stated)
    ):
        last.events.append(event)
    elif last.amount is None or (is_vague(last.amount) and event.step == last.events[-1].step):
        if last.amount is None and not recent and _set_out_for(item, last, amount):
            item.additions.append(Addition([event], amount))
        elif recent or not is_vague(amount):
            last.events.append(event)
            last.amount = amount
    else:
        item.additions.append(Addition([event], amount))


def _set_out_for(item: Item, addition: Addition, amount: Quantity) -> bool:
    """True where what was set out went in with the bare `addition`, so that another amount later is a second one."""
    out = item.set_out
    return out is not None and addition is item.additions[0] and rank(out) >= rank(amount) and not agree(out, amount)


_POURED = frozenset({"salt", "oil"})


def is_poured(food: Food | None) -> bool:
    """True for salt, oil and pepper, which go in without being measured and more than once."""
    return food is not None and (food.loose or food.category in _POURED)


def _other_half(item: Item, event: Event) -> bool:
    """True for "now my onion, chopped", after half of the one onion went in elsewhere: it is the other half."""
    first = item.additions[0]
    halved = any(one.fraction for one in first.events) and not first.is_rest
    whole = item.set_out is not None and item.set_out.unit == "" and item.set_out.low == 1
    return len(item.additions) == 1 and halved and whole and event.kind == "add" and not event.by_pronoun


def _anew(event: Event) -> bool:
    """True for salt, oil or pepper named again much later: it goes in once more, not measured."""
    return is_poured(event.name.food) and not event.by_pronoun


def _refine(item: Item, event: Event, amount: Quantity, last: Addition) -> None:
    """A statement about a food that is in already: it measures the last addition, totals, or disagrees."""
    last.events.append(event)
    measured = [addition.amount for addition in item.additions if addition.amount]
    if event.whole or (len(item.additions) > 1 and not measured and event.kind == "have"):
        item.total_said = amount
    elif last.amount is None or (is_vague(last.amount) and not is_vague(amount)):
        last.amount = amount
    elif agree(last.amount, amount) or is_vague(amount):
        return
    elif event.corrects:
        last.amount = amount
    elif len(measured) > 1 and (total := summed(measured)) and agree(total, amount):
        item.total_said = amount
    elif _completes(item, measured, amount):
        item.additions.append(Addition([event], amount))
    elif event.kind == "have" and comparable(last.amount, amount):
        if event.reason != "memory":
            item.conflicts.append((last.amount, amount))
    elif rank(amount) > rank(last.amount) and len(item.additions) == 1:
        last.amount = amount


def _in_batches(item: Item) -> bool:
    """True for meat of which half goes in first: it is browned in batches, and all of it is used (common practice)."""
    food = item.name.food
    return food is not None and food.category in BY_CUT


def _completes(item: Item, measured: list[Quantity], amount: Quantity) -> bool:
    """True where the amount is just what is left of the whole: of the "stick and a half", after "half a stick"."""
    whole = item.total_said or item.set_out
    total = summed([*measured, amount])
    return bool(whole and total and agree(whole, total))


def _set_back(item: Item) -> None:
    """Takes an amount that was only stated for what was set out, where later additions share it out or say it anew."""
    if len(item.additions) < 2:
        return
    first, *later = item.additions
    if item.set_out:
        told = [one.amount for one in later if one.amount]
        total = summed(told) if told and len(told) == len(later) > 1 else None
        if total and agree(total, item.set_out) and all(event.by_pronoun for event in first.events):
            item.additions = later  # "those go in" meant other things
        return
    if first.amount is None or not all(event.stated for event in first.events):
        return
    parted = any(one.is_rest or any(event.fraction or event.part_of for event in one.events) for one in later)
    measured = [one.amount for one in later if one.amount]
    total = summed(measured) if measured and len(measured) == len(later) else None
    anew = len(later) == 1 and total is not None and comparable(first.amount, total) and _said_anew(first, later[0])
    if parted or anew or (total and agree(total, first.amount)):
        item.set_out, item.set_out_events, item.additions = first.amount, first.events, later


def _said_anew(first: Addition, later: Addition) -> bool:
    """True where an amount was listed, and another one is told when the food really goes in."""
    event, amount = later.events[0], later.amount
    alike = first.amount and amount and similar(first.amount, amount, _SAME_USE)
    return bool(alike) and not (event.stated or event.more or event.rest) and event.step > first.events[-1].step


_SAME_USE = 2.0  # how many times as much two amounts told for one use may differ


def _settle(item: Item) -> None:
    """Gives the amount that was set out to the addition it was set out for, and the rest to "the rest".

    A food that is only cut, washed or served goes in there.
    """
    if not item.additions:
        doing = [event for event in item.set_out_events if event.kind in ("prepare", "refer")]
        if doing:
            item.additions.append(Addition([doing[-1]]))
            item.set_out_events.remove(doing[-1])
    if item.shares and len(item.additions) == len(item.shares) and all(a.amount is None for a in item.additions[1:]):
        _share(item)
        return
    _readied(item)
    if item.additions and not item.set_out:
        _halve(item)
    if not item.additions or not item.set_out:
        return
    bare = [addition for addition in item.additions if addition.amount is None]
    given = [addition.amount for addition in item.additions if addition.amount]
    first = item.additions[0]
    fraction = next((event.fraction for event in first.events if event.fraction), None)
    if len(item.additions) == 1:
        if first.amount is None or (is_vague(first.amount) and not is_vague(item.set_out)):
            part = fraction if fraction and not first.is_rest and not _in_batches(item) else None
            first.amount = scaled(item.set_out, part) if part else item.set_out
        elif first.events[0].part_of and comparable(first.amount, item.set_out):
            item.total_said = item.total_said or item.set_out
        elif comparable(first.amount, item.set_out) and not agree(first.amount, item.set_out) and not fraction:
            item.conflicts.append((item.set_out, first.amount))
        return
    if not given and fraction:
        first.amount = scaled(item.set_out, fraction)
        given, bare = [first.amount], bare[1:]
    if bare and given and (bare[0].is_rest or fraction):
        if len(bare) == 1:
            bare[0].amount = subtracted(item.set_out, given)
            if bare[0].amount is None and used_up(item.set_out, given):
                item.additions.remove(bare[0])
        item.total_said = item.total_said or item.set_out
    elif bare and not given and not fraction:
        if len(bare) == 2 and bare[1].is_rest and bare[1].last_of:
            first.amount = item.set_out
            item.additions.remove(bare[1])
        elif any(addition.is_rest for addition in bare):
            item.total_said = item.total_said or item.set_out
        else:
            bare[0].amount = item.set_out
    elif bare and given and bare[0] is first and not is_vague(item.set_out):
        first.amount = item.set_out
    elif not bare and first.amount is not item.set_out:
        item.total_said = item.total_said or item.set_out


def _readied(item: Item) -> None:
    """ "Ten cloves; six i smash … the other four go in": the part that was only readied is used as well."""
    if len(item.additions) != 1 or not item.set_out or not item.additions[0].amount:
        return
    readied = [
        (event, event.amounts[0])
        for event in item.set_out_events
        if event.kind == "prepare" and event.amounts and comparable(event.amounts[0], item.set_out)
    ]
    if (
        len(readied) == 1
        and (total := summed([readied[0][1], item.additions[0].amount]))
        and agree(total, item.set_out)
    ):
        item.additions.insert(0, Addition([readied[0][0]], readied[0][1]))


def _share(item: Item) -> None:
    """ "Two sticks, one to start and one to finish": each use gets its share."""
    item.total_said = summed(list(item.shares))
    for addition, share in zip(item.additions, item.shares, strict=True):
        addition.amount = share


def _complete(item: Item) -> None:
    """Where a total was said and one addition was not measured, that one is what the others leave."""
    bare = [addition for addition in item.additions if addition.amount is None]
    given = [addition.amount for addition in item.additions if addition.amount]
    if item.total_said and len(bare) == 1 and given:
        bare[0].amount = subtracted(item.total_said, given)


def _halve(item: Item) -> None:
    """ "A bunch of scallions, half of it goes in … and the other half": each use gets its part."""
    first = item.additions[0]
    fraction = next((e.fraction for e in first.events if e.fraction and e.amounts), None)
    if fraction and first.amount and len(item.additions) > 1 and item.additions[1].amount is None:
        item.total_said = first.amount
        item.additions[1].amount = scaled(first.amount, 1 - fraction)
        first.amount = scaled(first.amount, fraction)


def _measure(item: Item, amounts: tuple[Quantity, ...]) -> Quantity | None:
    """The one amount that counts: a measure before a loose count, a package with its size."""
    best: Quantity | None = None
    for amount in amounts:
        if best is None:
            best = amount
        elif is_package(best.unit) and dimension(amount.unit) in ("mass", "volume") and amount.unit not in SPOONS:
            item.package_size = amount
        elif rank(amount) > rank(best):
            item.loose_count, best = best, amount
        elif rank(amount) == rank(best):
            best = best if restated(best, amount) else amount  # the later one corrects
        else:
            item.loose_count = amount
    if best and best.size:
        item.package_size = best.size
    return best


_COUNTED = 20  # whole items beyond this are a measure whose unit was not said


def _with_unit(item: Item, amount: Quantity) -> Quantity:
    """ "Six hundred of milk" after "a hundred mils of milk" is milliliters."""
    if amount.unit or amount.low < _COUNTED:
        return amount
    known = [a.amount.unit for a in item.additions if a.amount] + ([item.set_out.unit] if item.set_out else [])
    metric = [unit for unit in known if unit in ("gram", "milliliter")]
    return replace(amount, unit=metric[0]) if metric else amount


def _sized(item: Item, event: Event) -> None:
    """Takes up the size of a package said beside it: "the twenty-eight-ounce one"."""
    if event.size and item.package_size is None:
        item.package_size = event.size
