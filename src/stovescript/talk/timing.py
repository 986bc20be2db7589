"""Seconds for words: inside a block they share its time by their length."""

import math
from collections.abc import Sequence

from stovescript.talk.clean import Spoken
from stovescript.talk.types import Word

Timed = tuple[str, float, float]  # a word with its start and end, not yet settled

USUAL_SECONDS_PER_WORD = 0.4  # 150 words a minute, conversational speech: common practice
SLOWEST_SECONDS_PER_WORD = 1.2  # slower than this is silence, not speech: common practice


def spread(words: Sequence[Spoken], start: float, end: float | None) -> list[Timed]:
    """The words with times from ``start`` to ``end`` (seconds; None where the block has no end).

    A word's own time is kept where it lies in the block and does not go back. Between known times
    the words share the time by their length, but never stretch over a silence.
    """
    if end is None:
        end = start + len(words) * USUAL_SECONDS_PER_WORD
    known = [start]
    groups: list[list[Spoken]] = [[]]
    for word in words:
        if word.at is not None and known[-1] <= word.at <= end:
            if groups[-1]:
                groups.append([])
                known.append(word.at)
            else:
                known[-1] = word.at
        groups[-1].append(word)
    timed: list[Timed] = []
    for group, first, last in zip(groups, known, [*known[1:], end], strict=True):
        timed += _share(group, first, last)
    return timed


def _share(words: Sequence[Spoken], start: float, end: float) -> list[Timed]:
    span = min(end - start, len(words) * SLOWEST_SECONDS_PER_WORD)
    if len(words) == 1:
        return [(words[0].text, start, start + span)]
    letters = sum(len(word.text) for word in words)
    timed: list[Timed] = []
    passed = 0
    for word in words:
        first = start + span * passed / letters
        passed += len(word.text)
        timed.append((word.text, first, start + span * passed / letters))
    return timed


def settled(words: Sequence[Timed]) -> tuple[Word, ...]:
    """The words in milliseconds; starts never go back, and a word ends by the start of the next."""
    starts: list[float] = []
    latest = 0.0
    for _, start, _ in words:
        latest = max(latest, round(start, 3))
        starts.append(latest)
    following = [*starts[1:], math.inf]
    return tuple(
        Word(text, start, max(start, min(round(end, 3), after)))
        for (text, _, end), start, after in zip(words, starts, following, strict=True)
    )
