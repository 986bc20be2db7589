"""What became of every food that was named: the ingredient and use it went into and how, or why it is none."""

from collections.abc import Iterator
from dataclasses import dataclass

from stovescript.measure import Quantity
from stovescript.recipe.alternatives import Aside, own_key, set_aside_of
from stovescript.recipe.assemble import Understood
from stovescript.recipe.event import Event
from stovescript.recipe.evidence import clause_heard
from stovescript.recipe.passing import is_denied, is_likened
from stovescript.recipe.world import Addition, Item, pressed
from stovescript.speech.heard import Heard, Mention


@dataclass(frozen=True, slots=True)
class Fate:
    """One naming of a food, or a pronoun or bare amount that stands for one (its mention is in an earlier clause).

    `item` counts the ingredients from 0, `use` its uses; both are None for what is no ingredient, `use` alone where
    nothing was taken from this naming. `what` says how it was used, or why it is no ingredient.
    """

    clause: int
    mention: Mention
    key: str
    amounts: tuple[Quantity, ...]
    item: int | None
    use: int | None
    what: str


def fates_of(heard: Heard, known: Understood) -> list[Fate]:
    """The fates in order of the talk."""
    found: list[Fate] = []
    asides = {aside.mention.start: aside for aside in known.asides}
    for number, clause in enumerate(heard.clauses):
        events = [event for event in known.events if event.clause == number]
        found += [_of_event(heard, event, known) for event in events]
        used = {event.mention.start for event in events}
        for food in clause.labelled("food"):
            if food.start in used:
                continue
            aside = asides.get(food.start)
            found.append(_of_aside(heard, aside, known) if aside else _passed_over(heard, number, food, known))
    return sorted(found, key=lambda fate: fate.clause)


def amount_from(item: Item, addition: Addition) -> str:
    """Where the amount of one use comes from."""
    amount = addition.amount
    if amount is None:
        return "no amount was heard"
    value = (amount.low, amount.high, amount.unit)
    if any((said.low, said.high, said.unit) == value for event in addition.events for said in event.amounts):
        return "said of this use"
    if item.set_out and (item.set_out.low, item.set_out.high, item.set_out.unit) == value:
        return "the amount that was set out"
    return "worked out from what was said in all"


def _of_event(heard: Heard, event: Event, known: Understood) -> Fate:
    def fate(item: int | None, use: int | None, what: str) -> Fate:
        return Fate(event.clause, event.mention, event.key, event.amounts, item, use, what)

    for number, item in enumerate(known.items):
        if item.key == event.key:
            for use, addition in enumerate(item.additions):
                if any(one is event for one in addition.events):
                    return fate(number, use, _joins(heard, event, addition))
            if any(one is event for one in item.set_out_events):
                return fate(number, 0, _set_out(event, used=bool(item.additions)))
            return fate(number, None, "named again: nothing is taken from that")
    if pressed(event.key, {item.key for item in known.items}):
        return fate(None, None, "only set out: its juice or zest is the ingredient")
    reasons = (reason for item, reason in known.left_out if item.key == event.key)
    return fate(None, None, next(reasons, "nothing is done with it"))


def _joins(heard: Heard, event: Event, addition: Addition) -> str:
    clause = heard.clauses[event.clause]
    by_name = clause.start <= event.mention.start < clause.end
    if event is not addition.events[0]:
        how = "named again" if by_name else "meant again by a pronoun"
        if event.reason == "memory":
            how = _RECALLED
        elif event.corrects and event.amounts:
            how = "named again with an amount that corrects the one before"
        elif event.whole and event.amounts:
            how = "named again with what it is in all"
        elif event.amounts:
            how = "named again with an amount"
        return how
    if event.kind != "add":
        return f"{_DOING[event.kind]}, and never heard going in elsewhere: taken for its use"
    if event.by_pronoun:
        return "added under a general name" if by_name else "added by a pronoun"
    if event.stated:
        return "told in the middle of adding: taken for added"
    return "added: the rest of it" if event.rest else "added: more of it" if event.more else "added"


_DOING = {"prepare": "prepared", "refer": "named in passing", "have": "set out"}


_RECALLED = "an amount alone, meant for the food named last"


def _set_out(event: Event, used: bool) -> str:
    how = _RECALLED if event.reason == "memory" else _DOING.get(event.kind, "set out")
    how += ", all that there is of it" if event.whole else ""
    return f"{how}, before it goes in" if used else f"{how}, and not heard going in"


def _of_aside(heard: Heard, aside: Aside, known: Understood) -> Fate:
    offered = _replaces(heard, aside, known) if heard.clauses[aside.clause].intent == "alternative" else ""
    if aside.own:
        why = f"an ingredient too, named here {offered or 'in place of another one'}"
    else:
        why = f"set aside: {set_aside_of(heard, [aside])[0].why}"
        if heard.clauses[aside.clause].intent == "alternative":
            why += f", {offered or 'but no ingredient that it could replace was found'}"
    amounts = (aside.amount,) if aside.amount else ()
    return Fate(aside.clause, aside.mention, aside.name.key, amounts, None, None, why)


def _replaces(heard: Heard, aside: Aside, known: Understood) -> str:
    said = clause_heard(heard, aside.clause)
    offered = [
        (said in other.evidence, item.name.said)
        for item in known.items
        for other in known.alternatives.get(item.key, [])
        if other.name == aside.name.said
    ]
    if not offered:
        return ""
    here, replaced = max(offered)
    return f"in place of {replaced}" if here else f"offered for {replaced} elsewhere"


def _passed_over(heard: Heard, number: int, food: Mention, known: Understood) -> Fate:
    """A food that no event and no aside tells of."""
    name, intent = known.names[food.start], heard.clauses[number].intent
    if intent not in ("does", "states"):
        key = own_key(name, known.own) or name.key
        item = next((n for n, item in enumerate(known.items) if item.key == key), None)
        return Fate(number, food, key, (), item, None, f"named in {_IN[intent]}: nothing is taken from that")
    return Fate(number, food, name.key, (), None, None, next(_not_meant(heard, food)))


def _not_meant(heard: Heard, food: Mention) -> Iterator[str]:
    if is_likened(heard, food):
        yield "a likeness: it only says how something looks or tastes"
    if is_denied(heard, food):
        yield "denied: a word before it says no"
    yield "a general name for foods that are named one by one"


_IN = {
    "alternative": "an alternative",
    "not-done": "what is not done",
    "announce": "an announcement",
    "chat": "chat",
    "promise": "a promise",
    "tip": "a tip",
}
