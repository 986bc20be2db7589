"""Whether an entry can be understood before it is kept: what each kind of entry, and of question, takes."""

import re
from collections.abc import Callable

from stovescript.answers.entry import CHANGES, Entry
from stovescript.answers.said import (
    NotUnderstood,
    amount_said,
    amounts_said,
    means,
    release_said,
    servings_said,
    size_said,
    temperature_said,
    time_said,
    yes,
)
from stovescript.kitchen.panel import appliance_named, level_named
from stovescript.kitchen.words import phrases
from stovescript.measure import find_quantities

_STEP = re.compile(r"(?:\b(?P<how>in|into|to|with|at|after|before)\s+)?(?:the\s+)?(?:step\s*|^)(?P<number>\d{1,3})\b")
_ENDS = re.compile(r"(?:\b(?P<how>in|into|to|with|at|after|before)\s+)?(?:the\s+)?(?P<which>first|last|start|end)\b")


def check_entry(entry: Entry) -> None:
    """Raises NotUnderstood, with an example, for an entry that can't be carried out whatever the draft."""
    change = CHANGES.get(entry.do)
    if change is None:
        raise NotUnderstood(f'"{entry.do}" is nothing that can be done; one of: {", ".join(CHANGES)}')
    if change.of and (entry.of is None or entry.of.kind not in change.of):
        raise NotUnderstood(f'"{entry.do}" needs what it is about: of = {{ {" or ".join(change.of)} = "..." }}')
    if not change.of and entry.of is not None:
        raise NotUnderstood(f'"{entry.do}" is about the whole draft; leave out "of"')
    if change.where == "the same" and (entry.where is None or entry.where.kind != (entry.of and entry.of.kind)):
        raise NotUnderstood(f'"{entry.do}" needs where = {{ ... }}: what it is merged into')
    if change.where == "step" and entry.where is not None and entry.where.kind != "step":
        raise NotUnderstood(f'"{entry.do}" takes a step: where = {{ step = "s3" }}')
    if entry.do == "goes in" and entry.where is None:
        raise NotUnderstood('"goes in" needs the step: where = { step = "s3" }')
    if entry.amount:
        amount_said(entry.amount, entry.text)
    if change.to:
        _check_value(entry, change.to, change.may_be_empty)


def gap_kind(gap_id: str) -> str:
    """The kind of question that an id belongs to: "no_size" of "no_size-f76673"."""
    return gap_id.rsplit("-", 1)[0]


def step_said(text: str) -> tuple[str, int]:
    """Where "after step 6", "in 3", "at the end" points: "in", "after" or "before", and the number, -1 for the last.

    Raises NotUnderstood.
    """
    said = " ".join(text.lower().split())
    if found := _STEP.search(said):
        number = int(found["number"])
    elif found := _ENDS.search(said):
        number = 1 if found["which"] in ("first", "start") else -1
    if not found or number == 0:
        raise NotUnderstood(f'"{text}" names no step; write it like "in step 7", "after step 6" or "at the end"')
    how = found["how"] or "in"
    return (how if how in ("after", "before") else "in"), number


def _check_value(entry: Entry, kind: str, may_be_empty: bool) -> None:
    if kind == "yes or no":
        if not isinstance(entry.to, bool):
            raise NotUnderstood(f'"{entry.do}" is true or false')
        return
    if kind == "list":
        if isinstance(entry.to, bool):
            raise NotUnderstood(f'"{entry.do}" is a list: to = ["chopped", "rinsed"]')
        return
    if not isinstance(entry.to, str):
        raise NotUnderstood(f'"{entry.do}" is text in quotation marks')
    if not entry.to.strip():
        if may_be_empty:
            return
        raise NotUnderstood(f'"{entry.do}" needs what it becomes: to = "..."')
    about = entry.of.about if entry.of else ""
    if kind == "answer":
        check_answer(gap_kind(entry.of.id if entry.of else ""), entry.to, about)
    elif kind == "amount":
        amount_said(entry.to, about)
    elif kind == "size":
        _vessel_size(entry.to) if entry.of and entry.of.kind == "equipment" else size_said(entry.to)
    elif kind in _VALUES:
        _VALUES[kind](entry.to)


_VALUES: dict[str, Callable[[str], object]] = {
    "servings": servings_said,
    "time": time_said,
    "temperature": temperature_said,
    "release": release_said,
}


def check_answer(kind: str, text: str, about: str = "") -> None:
    """Raises NotUnderstood, with an example, where a question of that kind can't be answered so."""
    if means(text, "leave_out") or means(text, "not_needed"):
        return
    if not text.strip():
        raise NotUnderstood("an answer needs words")
    if kind in _ANSWERS:
        _ANSWERS[kind](text, about)


def _alternative(text: str, about: str) -> None:
    if not means(text, "same_as"):
        amount_said(text, about)


def _heat(text: str, about: str) -> None:
    if not _has_number(text):
        if level_named(text) is None:
            raise NotUnderstood(f'"{text}" is no heat; write it like "350 F", "180 C" or "medium-high"')
        return
    temperature_said(_without_appliance(text))


def _without_appliance(text: str) -> str:
    return text if appliance_named(text) is None else text.split(",")[-1]


def _time_or_sign(text: str, about: str) -> None:
    if _has_number(text) or (find_quantities(text.lower().split()) and not phrases("signs").search(text.lower())):
        time_said(text)


def _scale(text: str, about: str) -> None:
    if yes(text) is None and scale_named(text) is None:
        try:
            if temperature_said(text).unit_said:
                return
        except NotUnderstood:
            pass
        raise NotUnderstood(f'"{text}" is no scale; write "yes", "Fahrenheit", "Celsius" or "400 F"')


def scale_named(text: str) -> str | None:
    """ "F" for "fahrenheit", "C" for "celsius"; None for anything else."""
    return {"f": "F", "fahrenheit": "F", "c": "C", "celsius": "C", "centigrade": "C"}.get(text.lower().strip(" .°"))


def _package_or_vessel_size(text: str, about: str) -> None:
    try:
        size_said(text)
    except NotUnderstood:
        _vessel_size(text)


def _vessel_size(text: str) -> None:
    if not _has_number(text) and not find_quantities(text.lower().split()):
        raise NotUnderstood(f'"{text}" is no size; write it like "14.5 ounces" or "9 by 13 inches"')


def _has_number(text: str) -> bool:
    return any(letter.isdigit() for letter in text)


def _step(text: str, about: str) -> None:
    step_said(text)


_ANSWERS: dict[str, Callable[[str, str], object]] = {
    "unmeasured": amount_said,
    "vague": amount_said,
    "conflict": amount_said,
    "total_mismatch": amounts_said,
    "alternative_unmeasured": _alternative,
    "unused": _step,
    "order": _step,
    "no_size": _package_or_vessel_size,
    "no_temperature": _heat,
    "no_time": _time_or_sign,
    "temperature_unit": _scale,
    "no_release": lambda text, about: release_said(text),
    "no_servings": lambda text, about: servings_said(text),
}
"""What a question of each kind takes; one that is not here takes any words."""
