"""Everything that happens to a food in the talk, in order: set out, prepared, added, referred to."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from stovescript.kitchen.actions import Action
from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import Quantity
from stovescript.recipe.amounts import dimension, rank
from stovescript.recipe.binding import Binding, bind
from stovescript.recipe.counted import joined, one_of, shares_of, with_articles
from stovescript.recipe.event import Event
from stovescript.recipe.identity import identified, identifies
from stovescript.recipe.naming import Named, collective_of, gather
from stovescript.recipe.passing import (
    is_content,
    is_denied,
    is_destination,
    is_kind_of,
    is_portion,
    is_taken_out,
    is_washing_water,
)
from stovescript.recipe.recalled import by_pronoun, recalled
from stovescript.recipe.unsaid_units import with_units
from stovescript.recipe.verbs import PREPARING, REFERRING, actions_of
from stovescript.speech.heard import Clause, Heard, Mention


def events_of(heard: Heard, names: Mapping[int, Named]) -> list[Event]:
    """The events of the talk's own dish, in order: clauses that do or state, and what pronouns stand for.

    `names` gives the food named at each food mention's first token.
    """
    own = _own(heard)
    foods, amounts, bindings = measured_foods(heard)
    bound: dict[int, list[Binding]] = {}
    for binding in bindings:
        bound.setdefault(binding.food.start, []).append(binding)
    measuring = {binding.amount.start for binding in bindings}
    loose = {m.start: m.quantity for m in amounts if m.start not in measuring and m.quantity}
    keys = dict(
        zip(
            (food.start for food in foods),
            gather((names[f.start], _measured_in(heard, f, bound), _definite(heard, f)) for f in foods),
            strict=True,
        )
    )
    events: list[Event] = []
    previous_adds = False
    for number in own:
        clause = heard.clauses[number]
        verbs = actions_of(clause)
        for food in clause.labelled("food"):
            if is_denied(heard, food) or is_kind_of(heard, clause, food) or is_content(heard, clause, food):
                continue
            mine = bound.get(food.start, [])
            said = tuple(b.amount.quantity for b in mine if b.amount.quantity)
            shared = _shared(clause) if said else ()
            said = shared or said
            measured = joined(heard, said)
            kind = _kind(clause, food, verbs, previous_adds, measured=bool(measured))
            event = Event(
                kind,
                number,
                food,
                names[food.start],
                keys[food.start],
                measured or one_of(heard, food),
                "; ".join(b.reason for b in mine),
                shares=shares_of(shared) if shared else (),
            )
            if not measured and is_taken_out(heard, clause, event):
                if all(other.key != event.key for other in events):
                    continue  # it was in something that was bought, or has gone in under another name
                event = replace(event, kind="refer")
            aside = is_destination(heard, clause, event, events) or is_washing_water(heard, clause, event)
            if event.kind == "add" and not measured and aside:
                event = replace(event, kind="refer")
            if is_portion(heard, food) and any(other.key == event.key for other in events):
                event = replace(event, kind="refer", amounts=())
            event = _flagged(event, heard, clause)
            if events and identifies(heard, event, events[-1]):
                events, event = identified(events, event)
            events.append(event)
        if not clause.labelled("food") and (meant := recalled(heard, number, events, loose, names)):
            events.append(meant)
            continue
        if clause.intent == "does":
            if verbs:
                previous_adds = any(a is None or a.kind not in PREPARING for _, a in verbs)
            if not clause.labelled("food"):
                events += by_pronoun(heard, number, events, loose)
    return _narrated(heard, with_articles(heard, _singled(events)))


def _shared(clause: Clause) -> tuple[Quantity, ...]:
    """The amounts of a clause that shares out its one food: "two sticks, one to start and one to finish"."""
    told = tuple(m.quantity for m in clause.labelled("amount") if m.quantity)
    return told if len(clause.labelled("food")) == 1 and len(told) > 2 and shares_of(told) else ()


def _own(heard: Heard) -> list[int]:
    return [number for number, clause in enumerate(heard.clauses) if clause.intent in ("does", "states")]


def measured_foods(heard: Heard) -> tuple[list[Mention], list[Mention], list[Binding]]:
    """The foods of the clauses that do or state, the amounts there that can measure one, and which measures which."""
    own = _own(heard)
    foods = [
        m
        for n in own
        for m in heard.clauses[n].labelled("food")
        if not is_denied(heard, m) and not is_kind_of(heard, heard.clauses[n], m)
    ]
    amounts = [
        m
        for n in own
        for m in heard.clauses[n].labelled("amount")
        if m.quantity and m.quantity.kind in ("amount", "package", "count", "number", "dimension")
        if not set(heard.tokens[max(heard.clauses[n].start, m.start - 3) : m.start]) & wordlist("yield_verbs")
    ]
    amounts = with_units(heard, amounts, foods)
    return foods, amounts, bind(heard, amounts, foods)


_RUN_BEFORE, _RUN_AFTER = 4, 4  # clauses: an amount told between two additions of one step is one too


def _narrated(heard: Heard, events: list[Event]) -> list[Event]:
    """The events with amounts that are only stated, in the middle of adding, taken for additions.

    "Stir in the cumin, honey one tablespoon, garlic three cloves grated, and a squeeze of lemon goes in".
    """
    added: set[str] = set()
    result = []
    for event in events:
        told = event.kind == "have" and event.amounts and not (event.whole or event.corrects or event.key in added)
        if told and event.reason != "memory" and (_amid_adding(event, events) or _tells_no_setting_out(heard, event)):
            event = replace(event, kind="add", stated=True)
        if event.kind == "add":
            added.add(event.key)
        result.append(event)
    return result


def _tells_no_setting_out(heard: Heard, event: Event) -> bool:
    """True where the cooking is under way and nothing says that the food is only shown: "a teaspoon of pepper"."""
    clause = heard.clauses[event.clause]
    return event.step > 0 and not phrases("setting_out").search(" ".join(heard.tokens[clause.start : clause.end]))


def _amid_adding(event: Event, events: Sequence[Event]) -> bool:
    others = [
        other.clause - event.clause
        for other in events
        if other.kind == "add" and other.key != event.key and other.step == event.step and not other.by_pronoun
    ]
    return any(-_RUN_BEFORE <= place <= 0 for place in others) and any(0 < place <= _RUN_AFTER for place in others)


def _measured_in(heard: Heard, food: Mention, bound: Mapping[int, Sequence[Binding]]) -> str:
    """The intent of the clause that gives a food an amount to measure by (not "a whole mess of"); else ""."""
    if not any(one.amount.quantity and rank(one.amount.quantity) for one in bound.get(food.start, ())):
        return ""
    return max(
        (clause for clause in heard.clauses if clause.start <= food.start), key=lambda clause: clause.start
    ).intent


def _definite(heard: Heard, food: Mention) -> bool:
    """True where the words of the food's own phrase point back: "half of the", "your last two tablespoons of"."""
    start = max(clause.start for clause in heard.clauses if clause.start <= food.start)
    near = range(max(start, food.start - 6), food.start + 1)
    opened = max((place for place in near[:-1] if heard.tokens[place] in _OPENING), default=start - 1)
    return any(heard.tokens[place] in wordlist("definite") for place in near if place >= opened)


_OPENING = frozenset({"a", "an", "and", "some", "with", "plus"})
"""Words at which a phrase that names a food starts anew."""


def _kind(
    clause: Clause, food: Mention, verbs: Sequence[tuple[Mention, Action | None]], previous_adds: bool, measured: bool
) -> str:
    if clause.intent == "states":
        told_in = measured and any(a and a.adds and not a.ambiguous for _, a in verbs)
        return "add" if told_in else "have"
    if not verbs:
        return "add" if previous_adds or clause.labelled("amount") else "prepare"
    before = [verb for verb in verbs if verb[0].start < food.start]
    _, action = before[-1] if before else verbs[0]
    if action is None or action.adds:
        return "add"
    if action.kind in PREPARING:
        later = [a for _, a in verbs if a and a.adds]
        return "add" if later else "prepare"
    taken_out = action.verb.split()[-1] in ("out", "off", "away", "aside")
    return "refer" if action.kind in REFERRING and (taken_out or not measured) else "add"


def _flagged(event: Event, heard: Heard, clause: Clause) -> Event:
    """The event with what the words around it say: more, the rest, half of it, altogether."""
    start = max(clause.start, event.mention.start - 6)
    before = heard.tokens[start : event.mention.start]
    near = before[-3:]
    words = " ".join(heard.tokens[clause.start : clause.end])
    whole = phrases("whole").search(words) is not None
    fraction = None
    for mention in clause.mentions:
        quantity = mention.quantity
        if not quantity or quantity.kind != "fraction":
            continue
        follows = quantity.start >= event.mention.end and not any(
            event.mention.end <= food.start < quantity.start for food in clause.labelled("food")
        )
        beside = 0 <= quantity.start - event.mention.end <= 1
        if -1 <= event.mention.start - quantity.end <= 3 or (follows and (event.amounts or beside)):
            fraction = quantity.low
    sizes = [
        m.quantity
        for m in clause.labelled("size")
        if m.quantity and dimension(m.quantity.unit) in ("mass", "volume") and abs(m.start - event.mention.end) <= 10
    ]
    rest = any(word in wordlist("rest") for word in before) or bool(
        re.search(
            r"\bother(?: half| part| bit| third| cup| one| two)?\b(?: of)?(?: the| them| those| that| your| my)*$",
            " ".join(before),
        )
    )
    return replace(
        event,
        kind="add" if rest and event.kind == "refer" else event.kind,
        more=any(word in wordlist("more") for word in near),
        another="another" in near,
        rest=rest,
        last_of="last" in near and "of" in near and not event.amounts,
        corrects=bool(set(heard.tokens[clause.start : clause.start + 4]) & wordlist("correcting")),
        step=sum(other.new_step for other in heard.clauses[: event.clause + 1]),
        size=sizes[0] if sizes else _size_after(heard, event.clause),
        whole=whole and clause.intent == "states" and event.mention.start == _last_measured(clause, event),
        part_of=re.search(r"\bof (?:the|those|these|that|my|your|our)(?: \w+)?$", " ".join(before)) is not None,
        fraction=fraction,
    )


def _last_measured(clause: Clause, event: Event) -> int:
    """The last mention of the event's food in the clause, which a total that is said there is of."""
    name = event.mention.text
    return max((food.start for food in clause.labelled("food") if food.text == name), default=event.mention.start)


def _size_after(heard: Heard, number: int) -> Quantity | None:
    """The package size that the next clause gives without naming a food: "that's a fourteen ounce can"."""
    for clause in heard.clauses[number + 1 : number + 2]:
        if clause.intent == "states" and not clause.labelled("food"):
            for mention in clause.labelled("size"):
                if mention.quantity and dimension(mention.quantity.unit) in ("mass", "volume"):
                    return mention.quantity
    return None


def _singled(events: list[Event]) -> list[Event]:
    """The events with collective names ("the vegetables") resolved to the members that are named as well.

    A collective that goes in takes along the members that wait; one that is measured is a food of its own.
    """
    known = {event.key: event for event in events}
    kept: list[Event] = []
    for event in events:
        categories = collective_of(event.name.said)
        measured = any(e.amounts for e in events if e.key == event.key)
        if not categories or event.key != event.name.key or measured:
            kept.append(event)
            continue
        members = {
            key: other
            for key, other in known.items()
            if key != event.key and other.name.food and other.name.food.category in categories
        }
        if not members:
            if event.kind != "refer":
                kept.append(event)
        elif len(members) == 1:
            (other,) = members.values()
            kept.append(replace(event, key=other.key, name=other.name))
        elif event.kind == "add":
            added = {e.key for e in kept if e.kind == "add"}
            waiting = {e.key: e for e in kept if e.key in members and e.key not in added}
            kept += [replace(event, key=e.key, name=e.name, by_pronoun=True) for e in waiting.values()]
    return kept
