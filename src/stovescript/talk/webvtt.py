"""WebVTT (W3C, "WebVTT: The Web Video Text Tracks Format"), read with patience."""

import re
from collections.abc import Sequence

from stovescript.talk.arrow import COUNTER, arrow_times, has_counters
from stovescript.talk.blocks import Block, blocks_under_times

SIGNATURE = "WEBVTT"
_NOT_A_CUE = re.compile(r"(?:NOTE(?:\s|$)|(?:STYLE|REGION)\s*$|WEBVTT(?:\s|$))")


def webvtt_blocks(lines: Sequence[str], name: str) -> list[Block]:
    """The cues of the file; comments, styles, regions and repeated headers are left out."""
    counted = has_counters(lines)

    def is_label(lines: Sequence[str], index: int, bare: bool) -> bool:
        if counted and COUNTER.match(lines[index]):
            return True
        return _is_identifier(lines, index, bare)

    blocks = blocks_under_times(lines, lambda line, number: arrow_times(line, name, number), is_label)
    return [Block(block.start, block.end, _cue_text(block.text), block.line) for block in blocks]


def _is_identifier(lines: Sequence[str], index: int, bare: bool) -> bool:
    """A cue identifier stands between a blank line and the times.

    A line that is no number is taken for the text of a block that would have none without it.
    """
    line_of_times_follows = bool(lines[index + 1].strip())
    starts_block = index == 0 or not lines[index - 1].strip()
    return line_of_times_follows and starts_block and (COUNTER.match(lines[index]) is not None or not bare)


def _cue_text(text: str) -> str:
    """The text without the comments below it; a first line ``NOTE …`` right under the times is text."""
    on_line_of_times, *lines = text.split("\n")
    kept = [on_line_of_times]
    skipping, after_blank = False, False
    for line in lines:
        blank = not line.strip()
        if after_blank and _NOT_A_CUE.match(line):
            skipping = True
        elif blank:
            skipping = False
        if not skipping:
            kept.append(line)
        after_blank = blank
    return "\n".join(kept)
