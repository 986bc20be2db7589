"""What a talk is: words with their seconds, and the caption blocks they came from."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Word:
    """One spoken word; times in seconds from the start of the talk.

    ``text`` keeps its case and trailing punctuation and has no space inside.
    """

    text: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Cue:
    """One caption block as the file has it (tags, speaker marks and all), for writing captions back.

    Blank lines inside the block are left out, because a blank line would end the block when written.
    ``line`` is the line of the block's time, counted from 1.
    """

    start: float
    end: float
    text: str
    line: int


@dataclass(frozen=True, slots=True)
class Talk:
    """A whole talk. ``file`` is the file's name without its folder, or ``-`` for standard input.

    ``words`` starts never go back, and each word ends no earlier than it starts. ``seconds`` is the
    end of the last block or word, whichever is later. ``sha256`` is of the bytes as read.
    """

    file: str
    sha256: str
    seconds: float
    words: tuple[Word, ...]
    cues: tuple[Cue, ...]
