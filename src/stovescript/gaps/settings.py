"""Questions about heat and time: a step that can't be cooked without a setting that was not said."""

from collections.abc import Iterator

from stovescript.gaps.registry import Question, check
from stovescript.kitchen.panel import appliance_named
from stovescript.kitchen.vessels import vessels
from stovescript.kitchen.words import wordlist
from stovescript.recipe.draft import Draft, Step
from stovescript.recipe.settings import NO_PRESSURE
from stovescript.recipe.verbs import actions_of
from stovescript.speech.heard import Clause, Heard

_HOT = {
    "oven",
    "air fryer",
    "grill",
    "smoker",
    "deep fryer",
    "toaster oven",
    "sous vide circulator",
    "broiler",
}
_LEVELS = {"stovetop", "induction hob", "hot plate"}


def _clauses(step: Step, heard: Heard) -> list[Clause]:
    return [
        clause
        for clause in heard.clauses
        if clause.intent == "does" and step.start - 0.01 <= heard.talk.words[clause.start].start <= step.end
    ]


def _kinds(step: Step, heard: Heard) -> set[str]:
    return {action.kind for clause in _clauses(step, heard) for _, action in actions_of(clause) if action}


@check
def no_temperature(draft: Draft, heard: Heard) -> Iterator[Question]:
    """An appliance that is set by degrees or by level, and neither was said all talk long."""
    settings = [setting for step in draft.steps for setting in step.settings]
    used = {setting.appliance for setting in settings if setting.appliance}
    for appliance in sorted(used & (_HOT | _LEVELS)):
        mine = [setting for setting in settings if setting.appliance == appliance]
        if any(setting.temperature or setting.level for setting in mine):
            continue
        if appliance in _LEVELS:
            question = "How hot is the burner: low, medium or high, and when?"
        else:
            question = f"What temperature is the {appliance} set to?"
        where = next((s.id for s in draft.steps for x in s.settings if x.appliance == appliance), None)
        yield Question("no_temperature", "must", appliance, question, mine[0].evidence, step=where)
    for step in draft.steps:
        for clause in _clauses(step, heard):
            named = [found.name for m in clause.labelled("appliance") if (found := appliance_named(m.text))]
            for appliance in named:
                if appliance in _HOT - used and _is_cooked_on(heard, clause):
                    question = f"What temperature is the {appliance} set to?"
                    used.add(appliance)
                    yield Question("no_temperature", "must", appliance, question, step.evidence[:1], step=step.id)
    if not used:
        for step in draft.steps:
            if _kinds(step, heard) & {"fry", "bake", "dry-heat", "wet-heat"}:
                question = "What is this cooked on, and how hot?"
                yield Question("no_temperature", "must", "heat", question, step.evidence[:1], step=step.id)
                return


def _is_cooked_on(heard: Heard, clause: Clause) -> bool:
    """True where the clause puts food into the appliance or cooks with it, not where it is switched off."""
    kinds = {action.kind for _, action in actions_of(clause) if action}
    idle = {"remove", "close", "open", "release", "rest", "store", "check"}
    return bool(kinds - idle) and not set(heard.tokens[clause.start : clause.end]) & wordlist("off")


@check
def temperature_unit(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A temperature without a scale: asked once for each appliance."""
    asked: set[str] = set()
    heats = [setting.temperature for step in draft.steps for setting in step.settings if setting.temperature]
    scales_said = {heat.unit for heat in heats if heat.unit_said}
    for step in draft.steps:
        for setting in step.settings:
            temperature = setting.temperature
            if temperature is None or temperature.unit_said:
                continue
            appliance = setting.appliance or "oven"
            if appliance in asked or temperature.unit in scales_said:
                continue
            asked.add(appliance)
            yield Question(
                "temperature_unit",
                "should",
                appliance,
                f"Is {temperature.low:g} degrees for the {appliance} {_scale(temperature.unit)}?",
                setting.evidence,
                step=step.id,
            )


def _scale(unit: str) -> str:
    return "Fahrenheit" if unit == "F" else "Celsius"


@check
def vessel_size(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A baking pan, dish or tin without a size."""
    needing = {vessel.name for vessel in vessels() if vessel.needs_size}
    sized = [item for item in draft.equipment if item.size]
    for item in draft.equipment:
        if item.name not in needing or item.size:
            continue
        if any(item.name.split()[-1] in other.name for other in sized):
            continue
        yield Question("no_size", "should", item.name, f"What size is the {item.name}?", item.evidence[:1])
        return


@check
def no_release(draft: Draft, heard: Heard) -> Iterator[Question]:
    """Pressure cooking without a word on how the pressure is let out."""
    settings = [(step, setting) for step in draft.steps for setting in step.settings]
    under = [
        (step, setting)
        for step, setting in settings
        if setting.appliance and "pressure" in setting.appliance and setting.program not in NO_PRESSURE
    ]
    under = [pair for pair in under if pair[1].seconds or pair[1].program]
    if not under or any(setting.release for _, setting in settings):
        return
    step, setting = under[-1]
    yield Question(
        "no_release",
        "must",
        "pressure cooker",
        "How is the pressure released: by itself, at once, or after some minutes?",
        setting.evidence,
        step=step.id,
    )
