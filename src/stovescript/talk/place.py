"""A place in a talk, as a person writes it: around one time, or from one to another."""

import re

from stovescript.errors import StovescriptError
from stovescript.talk.clock import clock_of, seconds_of
from stovescript.talk.types import Talk

AROUND = 20.0
"""Seconds before and after a time that belong to it, where nothing else is said."""


def window(
    talk: Talk, at: str | None, around: float | None, first: str | None, last: str | None
) -> tuple[float, float]:
    """The seconds from and to: around one time, or between two. Raises StovescriptError for what is no such place."""
    if at is not None and (first is not None or last is not None):
        raise StovescriptError("Give either --at, or --from and --to; not both.")
    if at is not None:
        middle, wide = second_in(talk, at), AROUND if around is None else around
        return max(0.0, middle - wide), min(talk.seconds, middle + wide)
    if around is not None:
        raise StovescriptError("--around needs --at, the time that it is around.")
    start = 0.0 if first is None else second_in(talk, first)
    end = talk.seconds if last is None else second_in(talk, last)
    if end < start:
        raise StovescriptError(f"--to {last} is before --from {first}; give the earlier time to --from.")
    return start, end


_PLAIN_SECONDS = re.compile(r"(\d{1,6}(?:\.\d{1,3})?)\s*(?:s|sec|secs|seconds?)?")


def second_in(talk: Talk, text: str) -> float:
    """The second of the talk that a text gives: "4:10", "1:04:10", "250", "250 s". Raises StovescriptError."""
    plain = _PLAIN_SECONDS.fullmatch(text.strip().lower())
    second = float(plain[1]) if plain else seconds_of(text)
    if second is None:
        raise StovescriptError(f"“{text}” is no time; write it like 4:10, 1:04:10 or 250 (seconds).")
    if second > talk.seconds:
        raise StovescriptError(
            f"{talk.file}: {clock_of(second)} is outside the talk, which ends at {clock_of(talk.seconds)}."
        )
    return second
