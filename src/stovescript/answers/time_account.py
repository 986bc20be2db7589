"""The time account again, when a length of time in it was corrected: the same sums as for a talk just heard."""

from collections.abc import Sequence

from stovescript.recipe.draft import Setting, StatedTime, Times
from stovescript.recipe.times import _ELAPSES, _WHAT, _pressure_overhead, _sum

_NO_COOKING = _ELAPSES | {"total", "prep", "keeping"}


def account(stated: Sequence[StatedTime], settings: Sequence[Setting]) -> Times:
    """Prep, cook and total as far as they follow from the times stated and the settings."""
    total = next((time.span for time in stated if time.what == "total"), None)
    prep = _sum([time.span for time in stated if time.what == "prep"])
    running = [time.span for time in stated if time.what not in _NO_COOKING]
    cook = _sum([*running, *_pressure_overhead(settings, stated)])
    waiting = _sum([time.span for time in stated if time.what in _ELAPSES])
    parts = [span for span in (prep, cook, waiting) if span]
    return Times(prep=prep, cook=cook, total=total or (_sum(parts) if parts else None), stated=list(stated))


def what_verb(kind: str) -> str | None:
    """What a length of time beside a verb of that kind is for: "simmering" of wet heat."""
    return _WHAT.get(kind)
