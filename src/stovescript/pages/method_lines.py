"""The numbered method: each step with its heat, time and sign of doneness, in that order, and its cautions."""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass

from stovescript.pages.markdown import span_text, temperature_text
from stovescript.pages.voice import sentence_case
from stovescript.recipe.draft import Draft, Setting, Step

_AFTER = 20.0
"""Seconds after a step in which a remark still is about it."""

_HEAT = re.compile(r"(?:very )?(?:low|medium|high)(?:-(?:low|high))?")


@dataclass(frozen=True, slots=True)
class MethodStep:
    """One step; `heat` is "Oven: 400 °F, 12 to 15 minutes, until crisp", or "" where the text says all of it."""

    id: str
    number: int
    text: str
    heat: str
    cautions: tuple[str, ...]
    start: float


def method(draft: Draft, cautions: Mapping[str, tuple[str, ...]]) -> tuple[MethodStep, ...]:
    """The steps; `cautions` are those of each step by its id."""
    return tuple(
        MethodStep(step.id, number, _sentence(step.text), heat_line(step), cautions.get(step.id, ()), step.start)
        for number, step in enumerate(draft.steps, 1)
    )


def step_at(draft: Draft, second: float) -> int | None:
    """The number of the step that is being told at a second; None before the first and long after one."""
    before = [(number, step) for number, step in enumerate(draft.steps, 1) if step.start <= second]
    if not before:
        return None
    number, step = max(before, key=lambda each: each[1].start)
    return number if second <= step.end + _AFTER else None


def heat_line(step: Step) -> str:
    """What the step's settings say beyond its text, in the order heat, time, doneness; "" where it says it all."""
    said = _plain(step.text)
    if all(_plain(words) in said for setting in step.settings for words in _values(setting)):
        return ""
    told: list[str] = []
    for before, setting in zip([None, *step.settings], step.settings, strict=False):
        same = before is not None and before.appliance == setting.appliance
        told.append(_told(setting, named=not same))
    until = (step.until or "").rstrip(" .") if len(step.settings) == 1 else ""
    return ", ".join(filter(None, ("; then ".join(told), until if _plain(until) not in said else "")))


def _told(setting: Setting, named: bool) -> str:
    """ "Pressure cooker: sauté, medium, 5 minutes"; without the appliance where it is the one before."""
    values = ", ".join(_values(setting))
    appliance = sentence_case(setting.appliance or "") if named else ""
    if appliance and values:
        return f"{appliance}: {values}"
    return appliance or (values if not named else sentence_case(values))


def _values(setting: Setting) -> list[str]:
    heat = setting.temperature
    program = setting.program if setting.program != setting.appliance else None
    return [
        value
        for value in (
            program,
            f"{setting.level} heat" if _HEAT.fullmatch(setting.level or "") and _on_flame(setting) else setting.level,
            temperature_text(heat.low, heat.high, heat.unit) if heat else None,
            span_text(setting.seconds) if setting.seconds else None,
            _released(setting.release) if setting.release else None,
        )
        if value
    ]


def _on_flame(setting: Setting) -> bool:
    return setting.appliance == "stovetop"


def _released(release: str) -> str:
    return f"{release} release of the pressure" if release in ("quick", "natural") else f"{release} release"


def _sentence(text: str) -> str:
    text = sentence_case(" ".join(text.split()))
    return text if not text or text[-1] in ".!?…" else f"{text}."


def _plain(text: str) -> str:
    """Lower case without accents, so that "sauté" is found in "saute"."""
    return unicodedata.normalize("NFD", text.lower()).encode("ascii", "ignore").decode()
