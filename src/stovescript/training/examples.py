"""Training examples: windows of annotated talks, with the noise and variety that other talks will bring."""

import random
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stovescript.kitchen.foods import foods
from stovescript.speech.labels import BOUNDARIES, INTENTS, TAGS
from stovescript.speech.words import plain

if TYPE_CHECKING:
    from stovescript.training.corpus import Said

IGNORE = -100
_DIGITS = {
    "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8",
    "nine": "9", "ten": "10", "twelve": "12", "fifteen": "15", "twenty": "20", "thirty": "30", "forty": "40",
    "fifty": "50",
}  # fmt: skip


@dataclass(slots=True)
class Example:
    """Words as captioned, and for each: the boundary before it, a step start, its intent, its span tag."""

    words: list[str]
    boundary: list[int]
    step: list[int]
    intent: list[int]
    tag: list[int]


def example_of(said: "Said") -> Example:
    """The whole talk as one example."""
    size = len(said.words)
    example = Example([plain(word) for word in said.words], [0] * size, [IGNORE] * size, [0] * size, [0] * size)
    for clause in said.clauses:
        example.boundary[clause.start] = BOUNDARIES.index("sentence" if clause.new_sentence else "clause")
        if clause.intent == "does":
            example.step[clause.start] = int(clause.label in said.steps)
        for token in range(clause.start, clause.end):
            example.intent[token] = INTENTS.index(clause.intent)
    for span in said.spans:
        for token in range(span.start, span.end):
            example.tag[token] = TAGS.index(("B-" if token == span.start else "I-") + span.label)
    return example


def window(example: Example, size: int, chance: random.Random) -> Example:
    """A random stretch of at most `size` words."""
    start = chance.randrange(-size // 2, max(1, len(example.words) - size // 2))
    start = max(0, start)
    return _slice(example, start, start + size)


def windows(example: Example, size: int) -> list[Example]:
    """The talk cut into stretches of at most `size` words."""
    return [_slice(example, start, start + size) for start in range(0, len(example.words), size)]


def _slice(example: Example, start: int, end: int) -> Example:
    return Example(*(values[start:end] for values in _columns(example)))  # type: ignore[arg-type]


def _columns(example: Example) -> tuple[list[str], list[int], list[int], list[int], list[int]]:
    return example.words, example.boundary, example.step, example.intent, example.tag


def varied(example: Example, chance: random.Random) -> Example:
    """The example with other foods in some food spans, digits for number words, and words dropped or misspelt."""
    names = _food_names()
    rows: list[tuple[str, int, int, int, int]] = []
    token = 0
    food = TAGS.index("B-food")
    food_on = TAGS.index("I-food")
    all_rows = list(zip(*_columns(example), strict=True))
    swap_share = chance.choice((0.0, 0.25, 0.6))
    drop_share = chance.choice((0.0, 0.0, 0.02))
    garble_share = chance.choice((0.0, 0.01, 0.03))
    digits = chance.random() < 0.3
    punctuation = chance.random()
    while token < len(all_rows):
        word, boundary, step, intent, tag = all_rows[token]
        if tag == food and chance.random() < swap_share:
            end = token + 1
            while end < len(all_rows) and all_rows[end][4] == food_on and all_rows[end][1] == 0:
                end += 1
            for number, new in enumerate(chance.choice(names).split()):
                rows.append(
                    (
                        new,
                        0 if number else boundary,
                        IGNORE if number else step,
                        intent,
                        food_on if number else food,
                    )
                )
            token = end
            continue
        if boundary == 0 and tag == 0 and chance.random() < drop_share:
            token += 1
            continue
        if digits:
            word = _DIGITS.get(plain(word), word)
        if len(word) > 3 and chance.random() < garble_share:
            word = _garbled(word, chance)
        if punctuation < 0.3:
            word = plain(word)
        elif punctuation > 0.8:
            word = _punctuated(plain(word), token, all_rows, chance)
        rows.append((word, boundary, step, intent, tag))
        token += 1
    return Example(*(list(column) for column in zip(*rows, strict=True)))  # type: ignore[arg-type]


def _punctuated(word: str, token: int, rows: Sequence[tuple[str, int, int, int, int]], chance: random.Random) -> str:
    """The word as captions with punctuation show it, right most of the time."""
    start = rows[token][1] == 2
    following = rows[token + 1][1] if token + 1 < len(rows) else 2
    mark = (
        chance.choice(("", ",", ".", "."))
        if following == 2
        else chance.choice(("", ",", ""))
        if following == 1
        else ","
        if chance.random() < 0.03
        else ""
    )
    return (word.capitalize() if start and chance.random() < 0.7 else word) + mark


def _garbled(word: str, chance: random.Random) -> str:
    """A word with a vowel changed, a letter doubled or its end cut, as captions spell what they mis-hear."""
    place = chance.randrange(1, len(word))
    vowel = re.sub(r"[aeiou]", lambda _: chance.choice("aeiou"), word, count=1)
    return chance.choice(
        (word[:place] + word[place - 1 :], word[:-1], vowel, word[:place] + " " + word[place:])
    ).split()[0]


def _food_names() -> Sequence[str]:
    return [name for food in foods().values() if not food.ambiguous for name in (food.name, *food.synonyms)]
