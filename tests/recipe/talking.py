"""Short talks for tests: the `.said` clause markup, heard as its author meant it, and drafted.

One clause a line, ``intent @s1| words with {food:spans} marked``, as in the annotated talks: a leading ``+`` goes
on with the sentence of the line before, ``~ 40`` is a silence of 40 seconds. Every word takes 0.4 seconds.
"""

from stovescript.gaps import ask
from stovescript.measure import find_quantities
from stovescript.recipe.assemble import assemble
from stovescript.recipe.draft import Draft, Gap, Ingredient
from stovescript.speech.heard import Clause, Heard
from stovescript.speech.listen import mentions_in
from stovescript.speech.words import plain
from stovescript.talk import Talk, Word
from stovescript.training.corpus import INTENTS, LABELS, LINE, STEP, _pieces

SECONDS_A_WORD = 0.4

Parts = list[tuple[float, float, str]]
"""(low, high, unit) of each use of a food, in order."""


def heard(text: str) -> Heard:
    """What a perfect language core would hear. Raises ValueError for a line that breaks the markup."""
    words: list[Word] = []
    spans: list[tuple[str, int, int]] = []
    cuts: list[tuple[int, int, str, bool, bool]] = []
    clock = 0.0
    for line in filter(None, map(str.strip, text.splitlines())):
        if line.startswith("~"):
            clock += float(line[1:])
            continue
        found = LINE.fullmatch(line)
        if not found or found["intent"] not in INTENTS:
            raise ValueError(f"not a clause line: {line}")
        first = len(words)
        for label, piece in _pieces(found["text"]):
            if label and label not in LABELS:
                raise ValueError(f"unknown span {label!r}: {line}")
            if label:
                spans.append((label, len(words), len(words) + len(piece.split())))
            for word in piece.split():
                words.append(Word(word, clock, clock + SECONDS_A_WORD))
                clock += SECONDS_A_WORD
        new_step = STEP.fullmatch((found["label"] or "")[1:]) is not None
        cuts.append((first, len(words), found["intent"], not found["more"], new_step))
    tokens = tuple(plain(word.text) for word in words)
    quantities = tuple(find_quantities([word.text for word in words]))
    clauses = tuple(
        Clause(start, end, intent, new_sentence, new_step, mentions_in(start, end, spans, quantities, tokens))
        for start, end, intent, new_sentence, new_step in cuts
    )
    return Heard(Talk("talk.said", "0" * 64, clock, tuple(words), ()), tokens, clauses, quantities)


def drafted(text: str) -> Draft:
    """The draft of a short talk, with its questions."""
    talk = heard(text)
    return ask(assemble(talk), talk)


def ingredient(draft: Draft, name: str) -> Ingredient:
    """The one ingredient of that name. Fails where there is none, or where there are two."""
    (found,) = [one for one in draft.ingredients if one.name == name]
    return found


def names(draft: Draft) -> list[str]:
    """The names of the ingredients, in order."""
    return [one.name for one in draft.ingredients]
