"""The time account: clock times said, and prep, cook and total as far as they follow from them."""

import re
from collections.abc import Sequence

from stovescript.kitchen.panel import release_in
from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import Quantity
from stovescript.recipe.draft import Setting, Span, StatedTime, Times
from stovescript.recipe.evidence import clause_heard
from stovescript.recipe.settings import COOKING, NO_PRESSURE
from stovescript.recipe.verbs import actions_of
from stovescript.speech.heard import Clause, Heard

COMING_TO_PRESSURE = Span(low=600, high=900)
"""Seconds for a full pot to come to pressure where the cook gives none: common practice."""
NATURAL_RELEASE = Span(low=600, high=1200)
"""Seconds for pressure to fall by itself where the cook gives none: common practice."""
QUICK_RELEASE = Span(low=120, high=180)
"""Seconds for pressure to be let out: common practice."""

_WHAT = {
    "rest": "resting",
    "rise": "rising",
    "marinate": "marinating",
    "cool": "cooling",
    "preheat": "preheating",
    "bake": "baking",
    "dry-heat": "roasting",
    "fry": "frying",
    "wet-heat": "simmering",
    "pressure": "pressure cooking",
    "release": "releasing",
    "reduce": "reducing",
    "store": "keeping",
    "cut": "prep",
    "shape": "prep",
    "blend": "mixing",
    "combine": "mixing",
}
_ELAPSES = frozenset({"resting", "rising", "marinating", "cooling", "preheating", "coming to pressure", "releasing"})


def times_of(heard: Heard, settings: Sequence[Setting]) -> Times:
    """What was said, and the sums that follow; null where nothing was said to sum."""
    return account([_on_the_heat(time, settings) for time in stated_times(heard)], settings)


def _on_the_heat(time: StatedTime, settings: Sequence[Setting]) -> StatedTime:
    """The time; stirring and leaving alone while the heat is on are cooking."""
    hot = any(
        setting.seconds == time.span and setting.appliance and setting.appliance not in _COLD
        for setting in settings
        if any(said in setting.evidence for said in time.evidence)
    )
    return time.model_copy(update={"what": "cooking"}) if time.what in ("mixing", "resting") and hot else time


_COLD = frozenset({"stand mixer", "hand mixer", "blender", "immersion blender", "food processor", "ice cream maker"})


def account(stated: Sequence[StatedTime], settings: Sequence[Setting]) -> Times:
    """Prep, cook and total as far as they follow from the times stated and the settings."""
    total = next((time.span for time in stated if time.what == "total"), None)
    prep = _sum([time.span for time in stated if time.what == "prep"])
    running = [time.span for time in stated if time.what not in _ELAPSES | {"total", "prep", "keeping"}]
    cook = _sum([*running, *_pressure_overhead(settings, stated)])
    waiting = _sum([time.span for time in stated if time.what in _ELAPSES])
    parts = [span for span in (prep, cook, waiting) if span]
    return Times(prep=prep, cook=cook, total=total or (_sum(parts) if parts else None), stated=list(stated))


def what_verb(kind: str) -> str | None:
    """What a length of time beside a verb of that kind is for: "simmering" of wet heat."""
    return _WHAT.get(kind)


def stated_times(heard: Heard) -> list[StatedTime]:
    """Every length of time said of this cooking, with what it is for."""
    stated: list[StatedTime] = []
    for number, clause in enumerate(heard.clauses):
        if clause.intent not in ("does", "states", "tip", "announce"):
            continue
        for mention in clause.labelled("time"):
            quantity = mention.quantity
            if not quantity or quantity.kind != "duration":
                continue
            what = _what(heard, number, quantity)
            if clause.intent in ("announce", "tip") and what not in ("total", "keeping"):
                continue
            if set(heard.tokens[max(0, quantity.start - 1) : quantity.start]) & wordlist("repeating"):
                continue
            span = Span(low=quantity.low, high=quantity.high)
            if stated and stated[-1].what == what and _says_again(heard, number, stated[-1]):
                low, high = min(span.low, stated[-1].span.low), max(span.high, stated[-1].span.high)
                evidence = [*stated[-1].evidence, clause_heard(heard, number)]
                stated[-1] = StatedTime(what=what, span=Span(low=low, high=high), evidence=evidence)
                continue
            if not any(s.what == what and s.span == span and what != "cooking" for s in stated):
                stated.append(StatedTime(what=what, span=span, evidence=[clause_heard(heard, number)]))
    return stated


def _says_again(heard: Heard, number: int, before: StatedTime) -> bool:
    """True for "overnight, or eight hours at the very least": one wait, told twice."""
    near = [clause_heard(heard, place) for place in range(max(0, number - 2), number)]
    words = " ".join(heard.tokens[heard.clauses[number].start : heard.clauses[number].end])
    return before.evidence[-1] in near and _AT_LEAST.search(words) is not None


_AT_LEAST = re.compile(r"\bat (?:the )?(?:very )?(?:least|most)\b|\bminimum\b|\bif you can't wait\b")
_FROM_START = re.compile(r"\b(?:start to finish|beginning to end|all told|all in all|door to door)\b")
"""Words of a whole time, whatever they are told with."""


def _what(heard: Heard, number: int, quantity: Quantity) -> str:
    clause = heard.clauses[number]
    text = " ".join(heard.tokens[clause.start : clause.end])
    if release_in(text):
        return "releasing"
    for name, what in (
        ("to_pressure", "coming to pressure"),
        ("total_time", "total"),
        ("preheating", "preheating"),
        ("keeping", "keeping"),
        ("active", "prep"),
    ):
        if phrases(name).search(text) and (what != "total" or clause.intent != "does" or _FROM_START.search(text)):
            return what
    by_verb = _what_by_verb(clause, quantity)
    if by_verb == "resting" and clause.labelled("program"):
        return "pressure cooking" if "pressure" in text else "cooking"
    return by_verb or _what_by_verb_before(heard, number) or "cooking"


def _what_by_verb(clause: Clause, quantity: Quantity) -> str | None:
    verbs = [(m, a) for m, a in actions_of(clause) if a and (a.kind in _WHAT or a.kind in COOKING)]
    if not verbs:
        return None
    before = [verb for verb in verbs if verb[0].start < quantity.start] or verbs[:1]
    return _WHAT.get(before[-1][1].kind, "cooking")


def _what_by_verb_before(heard: Heard, number: int) -> str | None:
    """The verb of the clause before where this one only gives the time ("about twenty minutes")."""
    if number == 0:
        return None
    verbs = [a for _, a in actions_of(heard.clauses[number - 1]) if a and a.kind in _WHAT]
    return _WHAT[verbs[-1].kind] if verbs else None


def _pressure_overhead(settings: Sequence[Setting], stated: Sequence[StatedTime]) -> list[Span]:
    """What coming to pressure and releasing take: as said where said, else by common practice."""
    under = [
        s
        for s in settings
        if s.seconds and s.appliance and "pressure" in s.appliance and s.program not in NO_PRESSURE and not s.release
    ]
    if not under:
        return []
    said = {time.what: time.span for time in stated}
    up = said.get("coming to pressure")
    spans = [] if up else [COMING_TO_PRESSURE]
    release = next((s.release for s in settings if s.release), None)
    if release and "releasing" not in said:
        spans.append(QUICK_RELEASE if release == "quick" else NATURAL_RELEASE)
    return spans


def _sum(spans: Sequence[Span]) -> Span | None:
    if not spans:
        return None
    return Span(low=sum(span.low for span in spans), high=sum(span.high for span in spans))
