"""The talk as its annotator heard it: gold clauses and spans, to measure what comes after hearing alone."""

from stovescript.measure import find_quantities
from stovescript.speech.heard import Clause, Heard
from stovescript.speech.listen import mentions_in
from stovescript.speech.words import plain
from stovescript.talk import Talk, Word
from tests.accuracy.corpus import Said


def heard_by_annotator(said: Said) -> Heard:
    """What a perfect language core would hear."""
    words = tuple(Word(t, a, b) for t, a, b in zip(said.words, said.starts, said.ends, strict=True))
    talk = Talk(said.stem, "0" * 64, words[-1].end, words, ())
    tokens = tuple(plain(word) for word in said.words)
    quantities = tuple(find_quantities(list(said.words)))
    spans = [(span.label, span.start, span.end) for span in said.spans]
    clauses = tuple(
        Clause(
            c.start,
            c.end,
            c.intent,
            c.new_sentence,
            c.label in said.steps,
            mentions_in(c.start, c.end, spans, quantities, tokens),
        )
        for c in said.clauses
    )
    return Heard(talk, tokens, clauses, quantities)
