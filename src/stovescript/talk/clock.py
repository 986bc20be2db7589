"""Clock times as captions write them, and the seconds they stand for."""

import re

# 1:02:03.250 · 02:03.250 · 75:30 · 0:01:02,5 · 00:00:01:250 (a colon before the thousandths)
CLOCK = r"(?:[0-9]{1,4}:)?[0-9]{1,3}:[0-9]{1,2}(?:[.,][0-9]{1,9}|:[0-9]{3})?"

_PARTS = re.compile(
    r"(?:(?P<hours>[0-9]{1,4}):)?(?P<minutes>[0-9]{1,3}):(?P<seconds>[0-9]{1,2})"
    r"(?:[.,:](?P<fraction>[0-9]{1,9}))?"
)


def seconds_of(clock: str) -> float | None:
    """Seconds of a clock time, to the millisecond, or None where it is no time (``1:75``, ``0:60:00``).

    Hours may be missing; minutes pass 59 only then.
    """
    parts = _PARTS.fullmatch(clock.strip())
    if parts is None:
        return None
    hours, minutes, seconds = parts["hours"], int(parts["minutes"]), int(parts["seconds"])
    if seconds > 59 or (hours is not None and minutes > 59):
        return None
    fraction = float("0." + (parts["fraction"] or "0"))
    return round(int(hours or 0) * 3600 + minutes * 60 + seconds + fraction, 3)


def clock_of(seconds: float) -> str:
    """A time for people: ``1:02:03`` or ``2:03``."""
    whole = int(seconds)
    hours, minutes = divmod(whole // 60, 60)
    return f"{hours}:{minutes:02}:{whole % 60:02}" if hours else f"{minutes}:{whole % 60:02}"
