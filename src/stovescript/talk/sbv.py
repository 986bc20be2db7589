"""SBV (.sbv): a line ``0:00:01.000,0:00:03.500``, the text, a blank line."""

import re
from collections.abc import Sequence

from stovescript.talk.blocks import Block, Times, bad_times, blocks_under_times, times_from
from stovescript.talk.clock import CLOCK

_TIMES = re.compile(rf"\s*({CLOCK})\s?,\s?({CLOCK})\s*()$")
_TIMES_LIKE = re.compile(r"\s*[0-9]{1,4}:[0-9:.]{4,20}\s?,\s?[0-9][0-9:.]{4,20}\s*$")  # 0:00:61.000,0:00:63
_LINE_BREAK = "[br]"


def sbv_blocks(lines: Sequence[str], name: str) -> list[Block]:
    """The blocks of the file; ``[br]`` in the text is a line break."""

    def times_at(line: str, number: int) -> Times | None:
        if match := _TIMES.match(line):
            return times_from(match, name, number)
        if _TIMES_LIKE.match(line):
            raise bad_times(line, name, number)
        return None

    return [
        Block(block.start, block.end, block.text.replace(_LINE_BREAK, "\n"), block.line)
        for block in blocks_under_times(lines, times_at)
    ]


def is_sbv_times(line: str) -> bool:
    """Is the line a pair of times with a comma?"""
    return "," in line and (_TIMES.match(line) is not None or _TIMES_LIKE.match(line) is not None)
