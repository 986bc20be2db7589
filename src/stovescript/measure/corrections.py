"""Slips of the tongue: "four no sorry five", "a teaspoon sorry tablespoon", "two cups i mean three cups"."""

from dataclasses import replace

from . import following
from .ranges import read_range
from .terms import Term, after_unit, same_unit, unit_after
from .vocabulary import COMMA
from .words import Words

WEAK = frozenset({"actually", "rather", "no", "wait", "not that", "let's do", "make it"})
"""Said in many other senses too; with a bare number they correct only if no food follows it."""


def corrected(words: Words, term: Term) -> Term:
    """The term that the cook ends up with, over all the words of the slip; ``term`` itself if there is none."""
    for _ in range(4):
        better = _once(words, term)
        if better is None:
            return term
        term = better
    return term


def _once(words: Words, term: Term) -> Term | None:
    if term.of_whole:
        return None
    atoms = words.atoms
    j = term.end + (atoms[term.end].text == COMMA)
    end = words.phrase("correction", j)
    if not end or words.phrase("approx_before", j) or atoms[j + 1].text in ("more", "less"):
        return None
    start = end + (atoms[end].text == COMMA)
    about = words.phrase("approx_before", start)
    second = read_range(words, about or start)
    if second is None:
        return _unit_only(words, term, start)
    second.approximate |= bool(about)
    weak = " ".join(atom.text for atom in atoms[j:end]) in WEAK
    better = _instead(words, term, second, weak)
    if better is None:
        return None
    return replace(better, start=term.start)


def _instead(words: Words, term: Term, second: Term, weak: bool) -> Term | None:
    """``second`` where it can stand in the place of ``term``."""
    if second.of_whole or (second.ordinal and second.bare):
        return None
    if term.bare:
        if second.bare and term.number == "article":
            return None
        if second.unit is not None and second.number == "bare":
            return replace(second, low=term.low, high=term.high)
        return second
    if second.bare:
        if weak and following.counted(words, second.end) != "nothing":
            return None
        if following.counted(words, second.end) == "idle":
            return None
        if term.scale is not None:
            return replace(second, scale=term.scale)
        if term.unit is not None and not term.sides:
            return replace(same_unit(second, term.unit), singular=term.singular, size=term.size)
        return None
    if term.sides or second.sides:
        return second if bool(term.sides) == bool(second.sides) else None
    if (term.scale is None) != (second.scale is None):
        return None
    if term.unit is not None and second.unit is not None:
        one, other = term.unit.dimension, second.unit.dimension
        if one != other and (one in ("time", "length") or other in ("time", "length")):
            return None
        if second.number == "bare":
            return replace(second, low=term.low, high=term.high)
    return second


def _unit_only(words: Words, term: Term, i: int) -> Term | None:
    """ "a teaspoon sorry tablespoon": the number stays, the unit changes."""
    if term.unit is None:
        return None
    found = unit_after(words, i, None)
    if found is None or found[0].unit.dimension in ("time", "length") != (term.unit.dimension in ("time", "length")):
        return None
    phrase, end, loose = found
    if phrase.unit is term.unit:
        return None
    changed = replace(
        term, unit=phrase.unit, end=end, singular=phrase.singular, approximate=loose or phrase.unit.approximate
    )
    return after_unit(words, changed)
