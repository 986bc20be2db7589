"""Times that add up: what the whole takes and what it consists of."""

from dataclasses import dataclass

from stovescript.pages.markdown import span_text
from stovescript.pages.method_lines import step_at
from stovescript.pages.voice import sentence_case
from stovescript.recipe.draft import Draft, Span, StatedTime

_GENERAL = frozenset({"cooking", "mixing"})
"""What a time is for, where the draft knows no better: the appliance says more."""
_LEAST = 60.0
"""Seconds of everything else that are worth a line."""
_NO_PART = frozenset({"total", "keeping"})


@dataclass(frozen=True, slots=True)
class TimePart:
    """One part of the time: "In the oven (step 3)" · "12 to 15 minutes"."""

    what: str
    span: str
    at: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class TimeAccount:
    """The whole time, its parts, and a word on why the parts come to more, where they do."""

    total: str
    parts: tuple[TimePart, ...]
    note: str
    at: tuple[float, ...] = ()


def time_account(draft: Draft) -> TimeAccount | None:
    """The account of the draft's times; None where no time is known."""
    stated = [each for each in draft.times.stated if each.what not in _NO_PART]
    stated.sort(key=lambda each: each.what != "prep")
    whole_said = next((each for each in draft.times.stated if each.what == "total"), None)
    parts = [_part(draft, each) for each in stated]
    spans = [each.span for each in stated]
    if draft.times.prep and not any(each.what == "prep" for each in stated):
        parts.insert(0, TimePart("Preparation", span_text(draft.times.prep)))
        spans.append(draft.times.prep)
    together = Span(low=sum(span.low for span in spans), high=sum(span.high for span in spans))
    total = draft.times.total
    if total is None:
        if not spans:
            return None
        return TimeAccount(f"{span_text(together)}, and what has no time below", tuple(parts), "")
    note = ""
    if together.low > total.high:
        note = "Some of it goes on at the same time."
    elif parts and total.high - together.low >= _LEAST:
        least, most = max(total.low - together.high, 0), total.high - together.low
        span = span_text(Span(low=least, high=most)) if least else f"up to {span_text(Span(low=most, high=most))}"
        if least or whole_said:  # a computed total that only parts make up leaves nothing else
            parts.append(TimePart("Everything else" if draft.times.prep else "Preparation and everything else", span))
    at = tuple(e.start for e in whole_said.evidence) if whole_said else ()
    return TimeAccount(span_text(total), tuple(parts), note, at)


def _part(draft: Draft, stated: StatedTime) -> TimePart:
    at = tuple(e.start for e in stated.evidence)
    number = step_at(draft, at[0]) if at else None
    what = {"prep": "preparation"}.get(stated.what, stated.what)
    if number and what in _GENERAL:
        step = draft.steps[number - 1]
        used = next((s.appliance for s in step.settings if s.appliance and s.seconds == stated.span), None)
        what = _on(used) if used else what
    return TimePart(sentence_case(what) + (f" (step {number})" if number else ""), span_text(stated.span), at)


def _on(appliance: str) -> str:
    return f"on the {appliance}" if appliance in ("stovetop", "grill", "griddle") else f"in the {appliance}"
