"""Slips of the tongue: "four no sorry five", "a teaspoon sorry tablespoon", "two cups i mean three cups"."""

from dataclasses import replace

from . import following
from .ranges import read_range
from .saidunits import unit_after
from .terms import Term, add_after_unit, same_unit
from .vocabulary import COMMA
from .words import Words

MOST_SLIPS = 4
LONGEST_FOOD = 4
"""Words of a food that may stand between an amount and its correction, with "of"."""
LONGEST_LEAD_IN = 4
"""Words before an amount that may be said again after a slip: "i put in three no wait i put in four"."""
UNLIKE = frozenset({"time", "length"})
"""A time or a length is corrected only by its like; a weight may be corrected by a volume."""


def corrected(words: Words, term: Term) -> Term:
    """The term that the cook ends up with, over all the words of the slip; ``term`` itself if there is none."""
    for _ in range(MOST_SLIPS):
        better = None if term.of_whole else _once(words, term)
        if better is None:
            return term
        term = replace(better, start=term.start)
    return term


def _once(words: Words, term: Term) -> Term | None:
    """The term that one slip right after ``term`` puts in its place."""
    i = term.end + (words.atoms[term.end].text == COMMA)
    end = _slip(words, i)
    if not end:
        return _food_again(words, term, i)
    start = _past_lead_in(words, term, end)
    second = _second(words, start)
    if second is None:
        return _unit_only(words, term, start)
    weak = words.phrase("weak_correction", i) == end
    return _instead(words, term, second, weak=weak)


def _slip(words: Words, i: int) -> int:
    """Where "no wait", "oh no i'm sorry" at atom i ends; 0 if there is no correction."""
    if words.phrase("approx_before", i) or words.phrase("no_correction", i):
        return 0
    end, corrects = i, False
    while True:
        slip = words.phrase("correction", end)
        step = slip or words.phrase("interjection", end)
        if not step:
            return end if corrects else 0
        corrects |= bool(slip)
        end = step + (words.atoms[step].text == COMMA)


def _second(words: Words, i: int) -> Term | None:
    """The corrected amount at atom i, with or without "about"."""
    about = words.phrase("approx_before", i)
    second = read_range(words, about or i)
    if second is not None:
        second.approximate |= bool(about)
    return second


def _past_lead_in(words: Words, term: Term, i: int) -> int:
    """Past the words at atom i that are said again from before the term."""
    atoms = words.atoms
    for length in range(min(LONGEST_LEAD_IN, term.start), 0, -1):
        before = [atom.text for atom in atoms[term.start - length : term.start]]
        if [atom.text for atom in atoms[i : i + length]] == before:
            return i + length
    return i


def _food_again(words: Words, term: Term, i: int) -> Term | None:
    """ "three eggs no wait four eggs": the food is said again, so the span may run over its first mention."""
    atoms = words.atoms
    for length in range(1, LONGEST_FOOD + 1):
        if "break" in atoms[i + length - 1].roles:
            return None
        end = _slip(words, i + length)
        if not end:
            continue
        second = _second(words, end)
        if second is None:
            return None
        first_food = [atom.text for atom in atoms[i : i + length]]
        if [atom.text for atom in atoms[second.end : second.end + length]] != first_food:
            return None
        return _instead(words, term, second, weak=False)
    return None


def _instead(words: Words, term: Term, second: Term, *, weak: bool) -> Term | None:
    """``second`` where it can stand in the place of ``term``; after a weak word a bare number needs care."""
    if second.of_whole or (second.ordinal and second.bare):
        return None
    if term.bare:
        if second.unit is not None and second.number == "bare":
            return replace(second, low=term.low, high=term.high)
        return second
    if second.bare:
        return _number_only(words, term, second, weak=weak)
    if bool(term.sides) != bool(second.sides) or (term.scale is None) != (second.scale is None):
        return None
    if term.unit is not None and second.unit is not None:
        one, other = term.unit.dimension, second.unit.dimension
        if one != other and {one, other} & UNLIKE:
            return None
    return second


def _number_only(words: Words, term: Term, second: Term, *, weak: bool) -> Term | None:
    """ "two tablespoons wait no three": the unit stays, the number changes."""
    counted = following.counted(words, second.end)
    if counted == "idle" or (weak and counted == "food") or term.sides:
        return None
    if term.scale is not None:
        return replace(second, scale=term.scale)
    if term.unit is None:
        return None
    return replace(same_unit(second, term.unit), singular=term.singular, size=term.size)


def _unit_only(words: Words, term: Term, i: int) -> Term | None:
    """ "a teaspoon sorry tablespoon": the number stays, the unit changes."""
    found = unit_after(words, i, None)
    if term.unit is None or found is None or found[0].unit is term.unit:
        return None
    phrase, end, loose = found
    one, other = term.unit.dimension, phrase.unit.dimension
    if one != other and {one, other} & UNLIKE:
        return None
    approximate = loose or phrase.unit.approximate
    changed = replace(term, unit=phrase.unit, end=end, singular=phrase.singular, approximate=approximate)
    return add_after_unit(words, changed)
