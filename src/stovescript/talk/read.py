"""The way in: a path, standard input or bytes become one ``Talk``."""

import hashlib
import os
import sys
from collections.abc import Sequence
from pathlib import Path, PurePath
from typing import BinaryIO

from stovescript.talk.arrow import has_counters, is_times, looks_like_times
from stovescript.talk.blocks import Block, in_order, without_blank_lines
from stovescript.talk.clean import Spoken, spoken_lines
from stovescript.talk.decode import decode
from stovescript.talk.marked_text import marked_blocks
from stovescript.talk.rolling import Shown, without_repeats
from stovescript.talk.sbv import is_sbv_times, sbv_blocks
from stovescript.talk.signatures import HEAD_BYTES, what_it_is
from stovescript.talk.speakers import recurring_speakers
from stovescript.talk.subrip import subrip_blocks
from stovescript.talk.timing import SLOWEST_SECONDS_PER_WORD, USUAL_SECONDS_PER_WORD, Timed, settled, spread
from stovescript.talk.types import Cue, Talk
from stovescript.talk.unreadable import unreadable
from stovescript.talk.webvtt import SIGNATURE, webvtt_blocks

MOST_BYTES = 50_000_000
_TOO_LARGE = "the file is larger than 50 MB, which no caption file is; give the captions of one talk"
_FASTEST_SECONDS_PER_WORD = 0.1  # an overlap that leaves less is two people at once


def read_talk(path: str | Path, stdin: BinaryIO | None = None) -> Talk:
    """Read a caption file, or standard input where the path is ``-``.

    Raises TalkError with the file, the place and the remedy.
    """
    if str(path) == "-":
        return read_bytes(_read_stream(stdin), "-")
    return _read(bytes_of(path), str(path), Path(path).name)


def bytes_of(path: str | Path, shown: str | None = None) -> bytes:
    """The bytes of a caption file; ``shown`` is how errors name it. Raises TalkError where it can't be read."""
    shown = shown or str(path)
    try:
        file = Path(path)
        if file.is_dir():
            raise unreadable(shown, "this is a folder; give one caption file in it")
        with file.open("rb") as stream:
            if file.stat().st_size > MOST_BYTES:
                raise unreadable(shown, what_it_is(stream.read(HEAD_BYTES)) or _TOO_LARGE)
            return stream.read(MOST_BYTES + 1)
    except (FileNotFoundError, NotADirectoryError):
        raise unreadable(shown, "there is no such file; check its name and folder") from None
    except PermissionError:
        raise unreadable(shown, "you may not read this file; change its permissions or copy it") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise unreadable(shown, f"the file could not be read ({reason}); check its name and disk") from None


def read_bytes(data: bytes, name: str, shown: str | None = None) -> Talk:
    """Read the bytes of a caption file. Its name's suffix breaks ties; ``shown`` is how errors name it, if not so.

    The format is decided by the content: WebVTT, SubRip, SBV, or text with time marks.
    """
    return _read(data, shown or name, name)


def _read_stream(stdin: BinaryIO | None) -> bytes:
    stream = stdin if stdin is not None else getattr(sys.stdin, "buffer", None)
    if stream is None:
        raise unreadable("-", "there is no standard input; give a file")
    try:
        parts = []
        left = MOST_BYTES + 1
        while left > 0 and (part := stream.read(min(left, 1 << 20))):
            parts.append(part)
            left -= len(part)
    except (OSError, ValueError) as error:
        raise unreadable("-", f"it could not be read ({error}); give a file") from None
    return b"".join(parts)


def _read(data: bytes, shown: str, name: str) -> Talk:
    if len(data) > MOST_BYTES:
        raise unreadable(shown, what_it_is(data[:HEAD_BYTES]) or _TOO_LARGE)
    blocks = in_order(_blocks(decode(data, shown), shown), shown)
    spoken = _spoken(blocks)
    words = settled(_timed(blocks, spoken)) if any(spoken) else ()
    if not words:
        raise unreadable(
            shown,
            "the captions hold no spoken words, only sounds or blank blocks; export captions of the speech",
            blocks[0].line,
        )
    cues = tuple(
        Cue(block.start, end, text, block.line)
        for block, end in zip(blocks, _ends(blocks, spoken), strict=True)
        if (text := without_blank_lines(block.text))
    )
    last = max([words[-1].end, *(max(block.end or 0.0, block.start) for block in blocks)])
    seconds = max([last, *(cue.end for cue in cues)])
    name = os.fsencode(name).decode("utf-8", "replace")
    return Talk(name, hashlib.sha256(data).hexdigest(), round(seconds, 3), words, cues)


def _blocks(text: str, name: str) -> list[Block]:
    """The blocks of the file, by the format that its content shows."""
    lines = text.split("\n")
    first = next(line for line in lines if line.strip())
    if first.lstrip().startswith(SIGNATURE):
        if blocks := webvtt_blocks(lines, name):
            return blocks
        raise unreadable(name, "this WebVTT file holds no captions; export them again with their text")
    if any(is_times(line) or (looks_like_times(line) and line.lstrip()[:1].isdigit()) for line in lines):
        if PurePath(name).suffix.lower() == ".vtt" and not has_counters(lines):
            return webvtt_blocks(lines, name)
        return subrip_blocks(lines, name)
    if any(is_sbv_times(line) for line in lines):
        return sbv_blocks(lines, name)
    if blocks := marked_blocks(lines, name):
        return blocks
    raise unreadable(
        name,
        "there are no time marks in it; export the captions as .vtt or .srt, "
        "or start each paragraph with a mark such as [1:30]",
    )


def _spoken(blocks: Sequence[Block]) -> list[list[Spoken]]:
    """The new words of each block."""
    recurring = recurring_speakers(block.text for block in blocks)
    return without_repeats(
        [
            Shown(block.start, block.start if block.end is None else block.end, lines)
            for block in blocks
            for lines in [spoken_lines(block.text, recurring)]
        ]
    )


def _timed(blocks: Sequence[Block], spoken: Sequence[Sequence[Spoken]]) -> list[Timed]:
    """The words with times. Blocks that start together share their time one after the other."""
    together: list[tuple[float, float | None, list[Spoken]]] = []
    for block, words in zip(blocks, spoken, strict=True):
        if not words:
            continue
        if together and together[-1][0] == block.start:
            start, end, earlier = together[-1]
            end = None if end is None or block.end is None else max(end, block.end)
            together[-1] = (start, end, [*earlier, *words])
        else:
            together.append((block.start, block.end, list(words)))
    timed: list[Timed] = []
    for place, (start, end, words) in enumerate(together):
        following = together[place + 1][0] if place + 1 < len(together) else None
        timed += spread(words, start, _end(start, end, following, len(words)))
    return timed


def _end(start: float, end: float | None, following: float | None, words: int) -> float | None:
    """Where the words of a block must end: at its end, or before where the next words start."""
    if end == start:
        end = None  # a block without length says nothing about its words
    if following is None:
        return end
    if end is None:
        return following
    return following if start + words * _FASTEST_SECONDS_PER_WORD <= following < end else end


def _ends(blocks: Sequence[Block], spoken: Sequence[Sequence[Spoken]]) -> list[float]:
    """The end of each block; where the file gives none, at the next block or when its words are said."""
    ends = []
    for place, (block, words) in enumerate(zip(blocks, spoken, strict=True)):
        if block.end is not None:
            ends.append(block.end)
            continue
        following = blocks[place + 1].start if place + 1 < len(blocks) else None
        pace = USUAL_SECONDS_PER_WORD if following is None else SLOWEST_SECONDS_PER_WORD
        said = block.start + max(1, len(words)) * pace
        ends.append(round(said if following is None else min(said, following), 3))
    return ends
