"""What amounts and pronouns without a food stand for: "i have half a pound", "those go in"."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import Quantity
from stovescript.recipe.amounts import restated
from stovescript.recipe.event import Event
from stovescript.recipe.naming import Named, collective_of, same_food
from stovescript.recipe.verbs import COOKED, actions_of
from stovescript.speech.heard import Heard

_RECALLED_WITHIN = 3  # clauses in which a bare amount can still mean the food named last


def recalled(
    heard: Heard, number: int, events: Sequence[Event], loose: Mapping[int, Quantity], names: Mapping[int, Named]
) -> Event | None:
    """A statement that gives only an amount, of the food named last: "no sorry, this one is two pounds".

    That food may be named by an announcement: "next is the chorizo", "i have half a pound".
    """
    clause = heard.clauses[number]
    amounts = [m for m in clause.labelled("amount") if m.start in loose and loose[m.start].unit]
    if len(amounts) == 2 and restated(loose[amounts[0].start], loose[amounts[1].start]):
        amounts = amounts[:1]
    before = next((event for event in reversed(events) if not event.by_pronoun), None)
    turned = _turned_to(heard, number, before.clause if before else -1, events, names)
    before = turned or before
    if clause.intent != "states" or len(amounts) != 1 or before is None or number - before.clause > _RECALLED_WITHIN:
        return None
    words = [word for word in heard.tokens[clause.start : amounts[0].start] if word not in wordlist("openers")]
    if words and not set(words) & wordlist("recalling"):
        return None
    between = set(heard.tokens[heard.clauses[before.clause].end : amounts[0].start])
    return replace(
        before,
        kind="have",
        clause=number,
        amounts=(loose[amounts[0].start],),
        reason="memory",
        corrects=bool(between & wordlist("correcting")),
        more=False,
        rest=False,
        whole=False,
        fraction=None,
    )


def _turned_to(
    heard: Heard, number: int, after: int, events: Sequence[Event], names: Mapping[int, Named]
) -> Event | None:
    """The one food that an announcement just before names, later than the clause `after`."""
    for place in range(number - 1, max(after, number - 1 - _RECALLED_WITHIN), -1):
        clause = heard.clauses[place]
        foods = clause.labelled("food")
        if clause.intent == "announce" and len(foods) == 1 and clause.end - clause.start <= _TURN:
            name = names[foods[0].start]
            known = [e for e in events if e.name.key == name.key or same_food(name.said, e.name.said)]
            key = known[-1].key if known else name.key
            return Event("have", place, foods[0], name, key, (), "memory")
        if foods or clause.intent in ("alternative", "not-done"):
            return None
    return None


_TURN = 8  # words of an announcement that only turns to a food


def _noun(text: str, end: int) -> str:
    """The noun of "all that seasoning"; "" where the pronoun stands alone."""
    before, after = text[:end].split()[-1], text[end:].split()[:1]
    own = before in ("that", "this", "those", "these") and after and after[0] not in _AFTER_EVERYTHING
    return after[0] if own else ""


_AFTER_EVERYTHING = frozenset(
    {
        *("goes", "go", "going", "gets", "get", "in", "into", "on", "onto", "over", "up", "together", "and", "to"),
        *("with", "for", "until", "till", "back", "right", "down", "is", "are", "then", "now", "so", "out", "off"),
        *("at", "about", "around", "really", "well", "good", "just", "inside", "through", "all", "a", "the", "it"),
        *("you", "we", "i"),
    }
)
"""Words that may follow "all of that" where it stands alone."""


def by_pronoun(heard: Heard, number: int, events: Sequence[Event], loose: Mapping[int, Quantity]) -> list[Event]:
    """Additions by "those go in" or "everything goes in": the foods set out and not yet in.

    "everything" takes all that waits; "it" and "those" take what was named in the clauses just before, with the
    amount said beside the pronoun (`loose`: amounts without a food, by first token).
    """
    clause = heard.clauses[number]
    verbs = actions_of(clause)
    words = heard.tokens[clause.start : clause.end]
    text = " ".join(words)
    told = [_noun(text, found.end()) for found in phrases("everything").finditer(text)]
    kinds = next((kinds for noun in told if noun and (kinds := collective_of(noun))), None)
    everything = "" in told or kinds is not None
    adds = any(action is None or action.adds for _, action in verbs)
    cooks = any(action and action.kind in COOKED for _, action in verbs)
    if not (adds or cooks) or (not everything and not set(words) & wordlist("pronoun")):
        return []
    moved = adds and clause.labelled("appliance") and not everything
    added = {event.key for event in events if event.kind == "add"}
    waiting = [event for event in events if event.key not in added and event.kind in ("have", "prepare")]
    if not everything or not adds:
        reach = 1 if moved else 2 if not adds else 3
        waiting = [event for event in waiting if number - event.clause <= reach]
        if waiting and not set(words) & {"those", "these", "them", "they", "both"}:
            waiting = waiting[-1:]
    if kinds is not None and "" not in told:
        waiting = [event for event in waiting if event.name.food and event.name.food.category in kinds]
    latest = {event.key: event for event in waiting}
    said = tuple(loose[m.start] for m in clause.labelled("amount") if m.start in loose)
    return [
        replace(
            event,
            kind="add",
            clause=number,
            amounts=said if len(latest) == 1 else (),
            reason="pronoun",
            by_pronoun=True,
        )
        for event in latest.values()
    ]
