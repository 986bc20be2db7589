"""Rolling captions show each line again above the next; each word must come out once."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from stovescript.talk.clean import Spoken
from stovescript.talk.signs import DASHES, QUOTES


@dataclass(frozen=True, slots=True)
class Shown:
    """What is on the screen between two times (seconds): lines of words."""

    start: float
    end: float
    lines: Sequence[Sequence[Spoken]]


@dataclass(frozen=True, slots=True)
class _Repeat:
    words: int  # how many words at the head of the block were shown by the block before
    same: bool  # nothing else is in either block
    sign_of_rolling: bool


_Lines = Sequence[tuple[str, ...]]

_ROLLING_SHARE = 0.2  # of neighbouring blocks that repeat, from which the whole file rolls
_SURE_WORDS = 4  # a repeat this long is no chance, also where the file does not roll
_TAIL_WORDS = 3  # fewer at a cut inside lines may be a speaker's own repeat: "slowly, slowly"
_SURE_TAIL_WORDS = 5
_STILL_SHOWN_SECONDS = 1.0  # the same block again after a longer pause was said again
_MOST_LINES = 10
_MOST_TAIL_WORDS = 60
_EDGES = ".,!?;:…()" + DASHES + QUOTES
_NOTHING = _Repeat(0, False, False)


def without_repeats(blocks: Sequence[Shown]) -> list[list[Spoken]]:
    """The new words of each block.

    A speaker repeats words too, so a short repeat is dropped only in a file that rolls.
    """
    keys = [[tuple(_key(word.text) for word in line) for line in block.lines] for block in blocks]
    repeats = [_NOTHING, *(_repeat(keys[i - 1], keys[i]) for i in range(1, len(keys)))][: len(blocks)]
    pairs = sum(bool(keys[i - 1] and keys[i]) for i in range(1, len(keys)))
    signs = sum(repeat.sign_of_rolling for repeat in repeats)
    rolls = signs > 0 and signs >= _ROLLING_SHARE * pairs
    fresh = []
    for place, (block, repeat) in enumerate(zip(blocks, repeats, strict=True)):
        words = [word for line in block.lines for word in line]
        pause = block.start - blocks[place - 1].end if place else 0.0
        said_again = repeat.same and pause > _STILL_SHOWN_SECONDS
        if not said_again and (rolls or _is_sure(repeat, words)):
            words = words[repeat.words :]
        fresh.append(words)
    return fresh


def _repeat(before: _Lines, now: _Lines) -> _Repeat:
    if not before or not now:
        return _NOTHING
    if before == now:
        return _Repeat(sum(map(len, now)), same=True, sign_of_rolling=False)
    for count in range(min(len(before), len(now), _MOST_LINES), 0, -1):
        if before[-count:] == now[:count]:
            return _Repeat(sum(map(len, now[:count])), same=False, sign_of_rolling=count < len(now))
    words_before = [word for line in before for word in line]
    words_now = [word for line in now for word in line]
    if words_now[: len(words_before)] == words_before:  # the block grows
        return _Repeat(len(words_before), same=False, sign_of_rolling=len(words_before) > 1)
    if now[0][: len(before[-1])] == before[-1]:  # its last line scrolls up and grows
        return _Repeat(len(before[-1]), same=False, sign_of_rolling=len(before[-1]) > 1)
    for count in range(min(len(words_before), len(words_now), _MOST_TAIL_WORDS), _TAIL_WORDS - 1, -1):
        if words_before[-count:] == words_now[:count]:
            return _Repeat(count, same=False, sign_of_rolling=True)
    return _NOTHING


def _is_sure(repeat: _Repeat, words: Sequence[Spoken]) -> bool:
    repeated = {_key(word.text) for word in words[: repeat.words]}
    enough = _SURE_WORDS if repeat.same or repeat.words == len(words) else _SURE_TAIL_WORDS
    return repeat.words >= enough and len(repeated) > 1


@lru_cache(maxsize=4096)
def _key(word: str) -> str:
    return word.casefold().strip(_EDGES) or word
