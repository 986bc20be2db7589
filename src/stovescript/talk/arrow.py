"""The line of times with an arrow, ``00:00:01.000 --> 00:00:02.500``, of WebVTT and SubRip."""

import re
from collections.abc import Sequence

from stovescript.talk.blocks import Times, bad_times, times_from
from stovescript.talk.clock import CLOCK
from stovescript.talk.signs import LONG_DASHES

# --> and, in files that were edited by hand, -> or a long dash
_ARROW = rf"\s{{0,20}}(?:-{{1,3}}|[{LONG_DASHES}]{{1,2}})\s?>\s{{0,20}}"
_TIMES = re.compile(rf"\s*({CLOCK}){_ARROW}({CLOCK})(?:\s+(.*)|)$")
_LOOSE_COLON = re.compile(r"(?<=[0-9])\s{0,3}([:.,])\s{1,3}(?=[0-9])")  # 00: 00: 01, 200
_TIME_LIKE = re.compile(r"[0-9][:.,][0-9]")
_SETTING = re.compile(r"[\w-]+:\S+")  # position:10% (WebVTT), X1:40 (SubRip)
COUNTER = re.compile(r"\s*[0-9]{1,7}\s*$")


def arrow_times(line: str, name: str, number: int) -> Times | None:
    """The times of a line, or None for a line of text; raises TalkError for times that are none.

    What follows the times are cue settings and ignored; text there is kept.
    """
    if ">" not in line:
        return None
    match = _TIMES.match(line)
    if match is None and "->" in line:
        match = _TIMES.match(_LOOSE_COLON.sub(r"\1", line))
    if match is None:
        if looks_like_times(line):
            raise bad_times(line, name, number)
        return None
    times = times_from(match, name, number)
    only_settings = all(_SETTING.fullmatch(token) for token in times.rest.split())
    return Times(times.start, times.end, "" if only_settings else times.rest)


def looks_like_times(line: str) -> bool:
    """Is the line meant to be times? ``00:00:0x.000 --> 00:00:02`` is, ``mix --> bake`` is not."""
    return "-->" in line and not line.startswith("NOTE") and _TIME_LIKE.search(line) is not None


def has_counters(lines: Sequence[str]) -> bool:
    """Does a counter stand above the first line of times?"""
    above = ""
    for line in lines:
        if is_times(line):
            return COUNTER.match(above) is not None
        if line.strip():
            above = line
    return False


def is_times(line: str) -> bool:
    """Is the line good times with an arrow, at the head of the line?"""
    return ">" in line and _TIMES.match(line) is not None
