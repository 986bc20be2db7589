"""Caption formats in which a line of times stands above its text: the walk they share.

The general caption libraries are not used for reading: they give no line numbers and silently drop
a block that they cannot read, and the cook must be told which line to mend. The tests hold this
reader against them.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from stovescript.errors import TalkError
from stovescript.talk.clock import clock_of, seconds_of
from stovescript.talk.unreadable import unreadable


@dataclass(frozen=True, slots=True)
class Block:
    """One timed block as written. ``end`` is None where the file gives only a start; ``line`` is from 1."""

    start: float
    end: float | None
    text: str
    line: int


@dataclass(frozen=True, slots=True)
class Times:
    """A line of times: its start and end in seconds and the text that follows on the same line."""

    start: float
    end: float
    rest: str


# Is the line at this index, which stands above a line of times, a label (counter, cue identifier)?
# The last argument tells whether the block before would be left without text.
IsLabel = Callable[[Sequence[str], int, bool], bool]


def times_from(match: re.Match[str], name: str, line: int) -> Times:
    """The times of a matched line (groups 1, 2 and 3); raises TalkError where they are none."""
    start, end = seconds_of(match[1]), seconds_of(match[2])
    if start is None or end is None:
        raise bad_times(match[1] if start is None else match[2], name, line)
    if end < start:
        raise unreadable(
            name,
            f"the block ends at {match[2]}, before it starts at {match[1]}; correct the two times",
            line,
        )
    return Times(start, end, match[3] or "")


def bad_times(written: str, name: str, line: int) -> TalkError:
    """The error for a time that is none."""
    shown = written.strip()[:60]
    return unreadable(name, f"“{shown}” is not a time; write it like 0:01:02.500", line)


def blocks_under_times(
    lines: Sequence[str],
    times_at: Callable[[str, int], Times | None],
    is_label: IsLabel = lambda lines, index, bare: False,
) -> list[Block]:
    """Cut the lines into blocks; ``times_at`` reads a line of times (given its number) or says None.

    All lines up to the next line of times belong to a block, so stray blank lines lose no words.
    Lines above the first line of times are the file's header.
    """
    found = [(index, times) for index, line in enumerate(lines) if (times := times_at(line, index + 1))]
    blocks = []
    for place, (index, times) in enumerate(found):
        stop = found[place + 1][0] if place + 1 < len(found) else len(lines)
        body = [times.rest, *lines[index + 1 : stop]]
        if place + 1 < len(found):
            label = _last_written(lines, index + 1, stop)
            if label is not None:
                bare = not any(line.strip() for line in [times.rest, *lines[index + 1 : label]])
                if is_label(lines, label, bare):
                    body = [times.rest, *lines[index + 1 : label]]
        blocks.append(Block(times.start, times.end, "\n".join(body), index + 1))
    return blocks


def _last_written(lines: Sequence[str], first: int, stop: int) -> int | None:
    return next((index for index in range(stop - 1, first - 1, -1) if lines[index].strip()), None)


def without_blank_lines(text: str) -> str:
    """The block's written lines."""
    return "\n".join(line for line in text.split("\n") if line.strip())


_JITTER_SECONDS = 1.0


def in_order(blocks: Sequence[Block], name: str) -> list[Block]:
    """The blocks with starts that never go back.

    Blocks may overlap. A start up to a second early is moved to the start before it (recognisers
    jitter); more is refused with the line.
    """
    ordered: list[Block] = []
    latest = 0.0
    for block in blocks:
        if block.start <= latest - _JITTER_SECONDS:
            raise unreadable(
                name,
                f"the time runs backwards, from {clock_of(latest)} to {clock_of(block.start)}; "
                "put the blocks in the order of their times, or take a chapter list or second talk out",
                block.line,
            )
        latest = max(latest, block.start)
        end = None if block.end is None else max(block.end, latest)
        ordered.append(Block(latest, end, block.text, block.line))
    return ordered
