"""Appliance settings, step by step: what the cook turns, presses and waits for."""

import re
from collections.abc import Sequence

from stovescript.kitchen.appliances import Appliance
from stovescript.kitchen.panel import appliance_named, level_named, program_named, release_in
from stovescript.kitchen.vessels import by_form as vessels_by_form
from stovescript.kitchen.words import wordlist
from stovescript.measure import Quantity
from stovescript.recipe.draft import Setting, Span, Temperature
from stovescript.recipe.events import actions_of
from stovescript.recipe.evidence import clause_heard
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
    result: list[list[Setting]] = []
    for group in groups:
        settings: list[Setting] = []
        for number in group:
            clause = heard.clauses[number]
            if clause.intent not in ("does", "states"):
                continue
            appliance = _appliance_in(heard, clause) or appliance
            found = _setting_in(heard, number, appliance)
            if found is None:
                continue
            merged = _merged(settings[-1], found) if settings else None
            if merged:
                settings[-1] = merged
            else:
                settings.append(found)
        result.append(settings)
    return result


def _appliance_in(heard: Heard, clause: Clause) -> str | None:
    """The appliance that a clause brings into use: named, implied by a program, or by the pan on the heat."""
    named: Appliance | None = None
    for mention in clause.labelled("appliance"):
        named = appliance_named(mention.text) or named
    if named:
        return named.name
    for mention in clause.labelled("program"):
        program = program_named(mention.text)
        if program and len(program.appliances) == 1:
            return program.appliances[0]
    kinds = {action.kind for _, action in actions_of(clause) if action}
    if "bake" in kinds or "preheat" in kinds:
        return "oven"
    for mention in clause.labelled("vessel"):
        vessel = vessels_by_form().get(mention.text.lower())
        if vessel and vessel.kind in ("pan", "pot") and (kinds & {"heat", "fry"} or clause.labelled("level")):
            return "stovetop"
    return None


def _setting_in(heard: Heard, number: int, appliance: str | None) -> Setting | None:
    clause = heard.clauses[number]
    kinds = {action.kind for _, action in actions_of(clause) if action}
    programs = [p.name for m in clause.labelled("program") if (p := program_named(m.text))]
    programs = programs or [m.text.lower() for m in clause.labelled("program")]
    levels = [level_named(m.text) or m.text.lower() for m in clause.labelled("level")]
    temperature = _temperature_in(heard, clause, appliance)
    seconds = None
    waits = bool(kinds & WAITING) and not kinds & COOKING
    if not waits and (times := cooking_times(heard, clause)):
        seconds = Span(low=times[0].low, high=times[-1].high if len(times) == 1 else times[0].high)
    release = release_in(" ".join(heard.tokens[clause.start : clause.end])) if _under_pressure(appliance) else None
    if release and not (kinds & {"release", "open", "rest"} or clause.labelled("time") or programs or seconds):
        release = release if clause.intent == "does" else None
    if not (programs or levels or temperature or seconds or release):
        return None
    if seconds and not (programs or levels or temperature or release) and not kinds & COOKING and kinds:
        if kinds & WAITING:
            return None
    if appliance is None and levels:
        appliance = "stovetop"
    return Setting(
        appliance=appliance,
        program=programs[-1] if programs else None,
        level=levels[-1] if levels else None,
        temperature=temperature,
        seconds=seconds,
        release=release,
        evidence=[clause_heard(heard, number)],
    )


def _under_pressure(appliance: str | None) -> bool:
    return appliance is not None and ("pressure" in appliance or appliance == "multi-cooker")


def cooking_times(heard: Heard, clause: Clause) -> list[Quantity]:
    """The times of a clause that an appliance runs for; waits for pressure or a hot pan are no such times."""
    text = " ".join(heard.tokens[clause.start : clause.end])
    if any(re.search(rf"\b{re.escape(phrase)}\b", text) for phrase in wordlist("to_pressure")):
        return []
    return [m.quantity for m in clause.labelled("time") if m.quantity and m.quantity.kind == "duration"]


def _temperature_in(heard: Heard, clause: Clause, appliance: str | None) -> Temperature | None:
    for mention in clause.labelled("temp"):
        if mention.quantity and not is_internal(heard, clause, mention):
            return as_temperature(mention.quantity, appliance)
    return None


def is_internal(heard: Heard, clause: Clause, mention: Mention) -> bool:
    """True where a temperature is the food's own: the thermometer reads 165."""
    near = heard.tokens[max(clause.start, mention.start - 10) : min(len(heard.tokens), mention.end + 5)]
    quantity = mention.quantity
    low = quantity is not None and quantity.high < 215 and quantity.unit in ("F", "")
    return (low and bool(set(near) & wordlist("internal"))) or bool(
        quantity and quantity.high < 100 and quantity.unit != "gas mark"
    )


def as_temperature(quantity: Quantity, appliance: str | None) -> Temperature:
    """The scale that was said, or the one that must be meant: an oven at 250 or less is Celsius."""
    if quantity.unit in ("F", "C", "gas mark"):
        unit, said = quantity.unit, True
    else:
        unit, said = ("C" if quantity.fan or quantity.high <= 240 else "F"), False
    return Temperature.model_validate({"low": quantity.low, "high": quantity.high, "unit": unit, "unit_said": said})


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
