"""Appliance settings, step by step: what the cook turns, presses and waits for."""

import itertools
import re
from collections.abc import Sequence

from stovescript.kitchen.actions import by_form as actions_by_form
from stovescript.kitchen.appliances import Appliance
from stovescript.kitchen.panel import (
    appliance_named,
    level_named,
    program_named,
    program_text,
    programs_in,
    release_in,
)
from stovescript.kitchen.safety import safe_values
from stovescript.kitchen.units import units
from stovescript.kitchen.vessels import by_form as vessels_by_form
from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import Quantity, number_at
from stovescript.recipe.draft import Setting, Span, Temperature
from stovescript.recipe.evidence import clause_heard
from stovescript.recipe.verbs import actions_of
from stovescript.speech.heard import Clause, Heard, Mention

COOKING = frozenset(
    {
        "cook",
        "heat",
        "dry-heat",
        "wet-heat",
        "fry",
        "bake",
        "pressure",
        "melt",
        "reduce",
        "preheat",
        "release",
    }
)
WAITING = frozenset({"rest", "rise", "marinate", "cool", "store"})


def settings_by_step(heard: Heard, groups: Sequence[Sequence[int]]) -> list[list[Setting]]:
    """The settings of each group of clause numbers; the appliance in use carries over from group to group."""
    appliance: str | None = None
    pressured: str | None = None
    announced = next(
        (named.name for c in heard.clauses if c.intent in ("announce", "states") for m in c.labelled("appliance")
         if (named := appliance_named(m.text))), None
    )  # fmt: skip
    metric = is_metric(heard)
    result: list[list[Setting]] = []
    for group in groups:
        settings: list[Setting] = []
        for number in group:
            clause = heard.clauses[number]
            if clause.intent not in ("does", "states"):
                continue
            appliance = _appliance_in(clause, appliance, announced) or appliance
            pressured = appliance if _under_pressure(appliance) else pressured
            if pressured and not _under_pressure(appliance) and _lets_off(heard, clause):
                appliance = pressured
            for found in _settings_in(heard, number, appliance, metric, settings[-1] if settings else None):
                merged = _merged(settings[-1], found) if settings else None
                if merged:
                    settings[-1] = merged
                else:
                    settings.append(found)
        result.append(settings)
    return _timed_releases(result)


def _timed_releases(groups: list[list[Setting]]) -> list[list[Setting]]:
    """A natural release that a quick one follows is one timed natural release."""
    flat = [(i, j) for i, group in enumerate(groups) for j, setting in enumerate(group) if setting.release]
    for (a, b), (c, d) in itertools.pairwise(flat):
        one, two = groups[a][b], groups[c][d]
        lets_out = two.release == "quick" or (two.release == "timed natural" and two.seconds is None)
        if one.release in ("natural", "timed natural") and lets_out and c - a <= 1:
            groups[a][b] = one.model_copy(
                update={"release": "timed natural", "evidence": [*one.evidence, *two.evidence]}
            )
            groups[c][d] = two.model_copy(update={"release": None})
    return [[s for s in group if s.program or s.level or s.temperature or s.seconds or s.release] for group in groups]


def _appliance_in(clause: Clause, current: str | None, announced: str | None) -> str | None:
    """The appliance that a clause brings into use: named, implied by a program, or by the pan on the heat."""
    named: Appliance | None = None
    for mention in clause.labelled("appliance"):
        named = appliance_named(mention.text) or named
    if named:
        return named.name
    for mention in clause.labelled("program"):
        if program := program_named(mention.text, current):
            owners = [name for name in (current, announced) if name in program.appliances]
            return (owners or list(program.appliances))[0]
    kinds = {action.kind for _, action in actions_of(clause) if action}
    for mention in clause.labelled("vessel"):
        vessel = vessels_by_form().get(mention.text.lower())
        if vessel and vessel.kind in ("pan", "pot") and (kinds & {"heat", "fry"} or clause.labelled("level")):
            return "stovetop"
    if current is None and ("bake" in kinds or "preheat" in kinds):
        return announced if announced in HOT else "oven"
    return None


HOT = frozenset({"oven", "air fryer", "grill", "smoker", "toaster oven", "pizza oven", "broiler"})


def _settings_in(
    heard: Heard, number: int, appliance: str | None, metric: bool, before: Setting | None
) -> list[Setting]:
    """What a clause sets, in order; `before` is the setting of the same step that it may go on with."""
    clause = heard.clauses[number]
    words = heard.tokens[clause.start : clause.end]
    kinds = {action.kind for _, action in actions_of(clause) if action}
    release = release_in(" ".join(words)) if _under_pressure(appliance) else None
    if set(words) & wordlist("sealing") or (clause.intent != "does" and set(words) & wordlist("uncertain")):
        release = None
    programs = [name for m in clause.labelled("program") if (name := _program_at(heard, m, appliance))]
    programs = programs or [program_text(form, appliance) for form in programs_in(" ".join(words), appliance)]
    if set(words) & wordlist("off"):
        programs = []
    said = [m.text for m in clause.labelled("level")] or [
        text
        for found in _LEVEL.finditer(" ".join(words))
        if (text := found[1] or found[2] or (found[3] if level_named(found[3], "stovetop") else ""))
    ]
    levels = [level_named(text, appliance) or text.lower() for text in said]
    levels = [level for place, level in enumerate(levels) if level not in levels[:place]]
    levels = [level for level in levels if level not in _NO_LEVELS]
    worded = [level for level in levels if all(number_at([word], 0) is None for word in level.split())]
    if worded or (before is not None and before.level):
        levels = worded  # "medium, that's five on mine": the dial says it again
    temperature = _temperature_in(heard, clause, appliance, metric)
    heated = before is not None and before.seconds is None and bool(before.level or before.program)
    waits = kinds & WAITING and not kinds & COOKING and not (release or programs or levels or _cooks(words))
    waits = waits and not (heated and set(words) & wordlist("leaving"))
    told = (
        clause.intent == "does" or programs or levels or temperature or clause.labelled("appliance") or _cooks(words)
    )
    times = [] if waits or not told else cooking_times(heard, clause)
    if not (programs or levels or temperature or times or release):
        return []
    if appliance is None and levels:
        appliance = "stovetop"
    if release == "natural" and (times or _waits_beside(heard, number)):
        release = "timed natural"
    if release == "quick" and _waited(heard, number):
        release = "timed natural"
    spans = [Span(low=time.low, high=time.high) for time in _uncorrected(heard, times)]
    first = Setting(
        appliance=appliance,
        program=programs[-1] if programs else None,
        level=(levels[0] if len(spans) > 1 else levels[-1]) if levels else None,
        temperature=temperature,
        seconds=spans[0] if spans else None,
        release=release,
        evidence=[clause_heard(heard, number)],
    )
    later = levels[1:] if len(spans) > 1 else []
    rest = itertools.zip_longest(spans[1:], later)
    plain = first.model_copy(update={"program": None, "temperature": None, "release": None})
    return [first, *(plain.model_copy(update={"seconds": span, "level": level}) for span, level in rest)]


def _uncorrected(heard: Heard, times: Sequence[Quantity]) -> list[Quantity]:
    """The times without those that the next one corrects: "five minutes no more like seven"."""
    correcting = wordlist("correcting")
    return [
        time
        for place, time in enumerate(times)
        if place + 1 == len(times) or not set(heard.tokens[time.end : times[place + 1].start]) & correcting
    ]


_LEVEL = re.compile(
    r"\b(?:on|at|to|over) (?:a )?((?:very )?low|medium[ -]low|medium[ -]high|medium|high)\b(?! (?:pressure|speed))"
    r"|\b((?:very )?low|medium[ -]low|medium[ -]high|medium|high) (?:heat|flame|fire|gas)\b"
    r"|\b(?:heat|flame|fire|gas) (?:is |to |down |up |very |really |nice and )*([a-z]+)\b"
)
"""A heat level in plain words: "over medium heat", "on low", "gas strong"."""


def _program_at(heard: Heard, mention: Mention, appliance: str | None) -> str | None:
    """The program that a mention names, alone or with the word after it; None for a release or no program."""
    if release_in(mention.text):
        return None
    for end in (mention.end, min(mention.end + 1, len(heard.tokens))):
        text = " ".join(heard.tokens[mention.start : end])
        if program_named(text, appliance):
            return program_text(text, appliance)
    return None


def _waits_beside(heard: Heard, number: int) -> bool:
    """True where the clause before or after gives minutes and cooks nothing: "ten minutes, that's your natural"."""
    for clause in heard.clauses[max(0, number - 1) : number] + heard.clauses[number + 1 : number + 2]:
        words = heard.tokens[clause.start : clause.end]
        if clause.labelled("time") and not clause.labelled("program") and not _cooks(words):
            return True
    return False


_WAITED_WITHIN = 3  # clauses before a valve is turned in which the wait for it is told


def _waited(heard: Heard, number: int) -> bool:
    """True where some minutes of standing come before the valve is turned: "leave it ten minutes, then flip it"."""
    words = heard.tokens[heard.clauses[number].start : heard.clauses[number].end]
    if _AFTER_SOME.search(" ".join(words)):
        return True
    for clause in heard.clauses[max(0, number - _WAITED_WITHIN) : number]:
        said = set(heard.tokens[clause.start : clause.end])
        stands = said & _STANDING and not said & {"set", "cook", "pressure"}
        if clause.intent in ("does", "states") and clause.labelled("time") and stands:
            return not clause.labelled("program") and not clause.labelled("level")
    return False


_AFTER_SOME = re.compile(
    r"\bafter (?:the|those|that|your|them)? ?(?:five|eight|ten|twelve|fifteen|twenty|5|8|10|12|15|20)\b"
)
_STANDING = frozenset({"leave", "let", "sit", "sits", "wait", "rest", "stand", "natural", "naturally", "be", "alone"})


def _lets_off(heard: Heard, clause: Clause) -> bool:
    """True where a clause tells in so many words how the pressure goes down."""
    words = heard.tokens[clause.start : clause.end]
    return (
        bool(set(words) & {"pressure", "steam", "valve", "release", "pin"}) and release_in(" ".join(words)) is not None
    )


def _cooks(words: Sequence[str]) -> bool:
    """True where some word is a cooking verb, tagged or not ("let it bubble"), or sets a timer."""
    found = (actions_by_form().get(word) for word in words)
    return "set" in words or any(action and action.kind in COOKING for action in found)


def _under_pressure(appliance: str | None) -> bool:
    return appliance is not None and ("pressure" in appliance or appliance == "multi-cooker")


def cooking_times(heard: Heard, clause: Clause) -> list[Quantity]:
    """The times of a clause that an appliance runs for; waits for pressure or a hot pan are no such times."""
    text = " ".join(heard.tokens[clause.start : clause.end])
    for name in ("to_pressure", "keeping", "total_time"):
        if name == "total_time" and clause.intent == "does":
            continue
        if phrases(name).search(text):
            return []
    times = [m.quantity for m in clause.labelled("time") if m.quantity and m.quantity.kind == "duration"]
    repeating = wordlist("repeating")
    return [
        time
        for time in times
        if time.high <= _LONGEST
        if not set(heard.tokens[max(0, time.start - 1) : time.start]) & repeating
        and not set(heard.tokens[time.end : time.end + 1]) & repeating
    ]


def _temperature_in(heard: Heard, clause: Clause, appliance: str | None, metric: bool) -> Temperature | None:
    for mention in clause.labelled("temp"):
        if mention.quantity and not is_internal(heard, clause, mention, appliance, metric):
            return as_temperature(mention.quantity, appliance, metric)
    return None


def is_internal(
    heard: Heard, clause: Clause, mention: Mention, appliance: str | None = None, metric: bool = True
) -> bool:
    """True where a temperature is the food's own: the thermometer reads 165, or no appliance is set so low."""
    quantity = mention.quantity
    if quantity is None or quantity.unit == "gas mark":
        return False
    if appliance in LOW_HEAT:
        near = heard.tokens[max(clause.start, mention.start - 8) : min(len(heard.tokens), mention.end + 4)]
        return bool(set(near) & (wordlist("internal") - {"temp", "reads", "read", "says", "minimum", "least"}))
    return (
        quantity.high < 100
        if quantity.unit == "C"
        else quantity.high < 215
        and not quantity.fan
        and (
            quantity.unit == "F"
            or quantity.high < 100
            or _thermometer(heard, clause, mention)
            or (not metric and _is_safe_minimum(quantity))
        )
    )


def _is_safe_minimum(quantity: Quantity) -> bool:
    """True for 145, 160 or 165: numbers that a cook who measures in ounces says of the inside of meat."""
    return quantity.high in {value.fahrenheit for value in safe_values().values() if value.kind == "minimum"}


def _thermometer(heard: Heard, clause: Clause, mention: Mention) -> bool:
    near = heard.tokens[max(clause.start - 6, mention.start - 10, 0) : min(len(heard.tokens), mention.end + 6)]
    return bool(set(near) & wordlist("internal"))


_LONGEST = 24 * 3600.0  # seconds: what runs longer is keeping, not cooking
NO_PRESSURE = frozenset({"sauté", "keep warm", "slow cook", "yogurt", "air fry", "sous vide"})
"""Programs of a pressure cooker that build no pressure."""
LOW_HEAT = frozenset({"smoker", "sous vide circulator", "dehydrator", "yogurt maker", "slow cooker"})


def is_metric(heard: Heard) -> bool:
    """True where the cook measures by grams and milliliters more than by cups, ounces and pounds."""
    kinds = [units()[q.unit].system for q in heard.quantities if q.kind == "amount" and q.unit in units()]
    hot = [q for q in heard.quantities if q.kind == "temperature"]
    if any(map(_only_celsius, hot)) and not any(q.unit == "F" or (not q.unit and q.high > _HOTTEST_C) for q in hot):
        return True
    fans = sum(q.fan or q.unit == "C" for q in heard.quantities)
    return kinds.count("metric") + 3 * fans > kinds.count("us") / 3 + 3 * sum(q.unit == "F" for q in heard.quantities)


def _only_celsius(quantity: Quantity) -> bool:
    """True for a bare "one eighty": too cool for an oven in Fahrenheit, and no degree that meat is cooked to."""
    return not quantity.unit and _COOLEST_C <= quantity.high <= _COOLEST_F and not _is_safe_minimum(quantity)


def as_temperature(quantity: Quantity, appliance: str | None, metric: bool) -> Temperature:
    """The scale that was said, or the one that must be meant: over 290 is Fahrenheit, else as the cook measures."""
    if quantity.unit in ("F", "C", "gas mark"):
        unit, said = quantity.unit, True
    else:
        celsius = quantity.fan or (metric and quantity.high <= _HOTTEST_C)
        celsius = celsius or (appliance in HOT - LOW_HEAT and quantity.high <= _COOLEST_F)
        unit, said = ("C" if celsius else "F"), False
    return Temperature.model_validate({"low": quantity.low, "high": quantity.high, "unit": unit, "unit_said": said})


_NO_LEVELS = frozenset({"off", "normal", "regular", "ready"})
"""Words on a panel that set no heat."""

_COOLEST_F = 195  # °F: what recipes set no oven below, so that a bare 180 is Celsius, common practice
_COOLEST_C = 150  # °C: what bare numbers say no meat's inside above, and few ovens are set below, common practice
_HOTTEST_C = 290  # °C: the hottest that household ovens go, common practice


def _merged(a: Setting, b: Setting) -> Setting | None:
    """Both in one where neither contradicts the other; None where they do."""
    values: dict[str, object] = {}
    for name in ("program", "level", "temperature", "seconds", "release"):
        one, two = getattr(a, name), getattr(b, name)
        if one is not None and two is not None and one != two:
            return None
        values[name] = one if one is not None else two
    if a.appliance and b.appliance and a.appliance != b.appliance:
        return None
    return a.model_copy(
        update={**values, "appliance": a.appliance or b.appliance, "evidence": [*a.evidence, *b.evidence]}
    )
