"""SubRip (.srt): a counter, a line of times with an arrow, the text, a blank line."""

from collections.abc import Sequence

from stovescript.talk.arrow import COUNTER, arrow_times, has_counters
from stovescript.talk.blocks import Block, blocks_under_times


def subrip_blocks(lines: Sequence[str], name: str) -> list[Block]:
    """The blocks of the file. Blank lines may be missing or too many, and counters may be missing."""
    counted = has_counters(lines)

    def is_counter(lines: Sequence[str], index: int, bare: bool) -> bool:
        if COUNTER.match(lines[index]) is None:
            return False
        return counted or (not lines[index - 1].strip() and bool(lines[index + 1].strip()))

    return blocks_under_times(lines, lambda line, number: arrow_times(line, name, number), is_counter)
