"""Finds every quantity in a talk's words, from left to right."""

from collections.abc import Sequence

from stovescript.kitchen.units import units

from .corrections import corrected
from .kinds import Place, from_term, span
from .quantity import Quantity
from .ranges import read_range
from .terms import Term, read_term
from .vocabulary import vocabulary
from .words import Words
from .written import odd_amount

NIGHT_HOURS = (8.0, 12.0)  # "overnight"; common practice
MOST_ABOUT = 4
"""Words such as "maybe about like" that are looked past before one amount."""
HIGHEST_MARK = 10.0  # of a gas oven


def find_quantities(tokens: Sequence[str]) -> list[Quantity]:
    """Every quantity said in ``tokens`` (lower-cased words of captions), in order, none overlapping.

    A sentence mark parts amounts, a comma does not. Never raises for any words.
    """
    words = Words(tokens)
    found: list[Quantity] = []
    i, place = 0, Place()
    while i < words.last:
        reading = _read(words, i, place) if words.atoms[i].opens else None
        if reading is None:
            i += 1
            continue
        quantity, end = reading
        if quantity is not None:
            found.append(quantity)
            if quantity.kind == "temperature":
                place.heat_end = end
        while end < words.last and words.glued(end):
            end += 1  # the rest of a token belongs to the quantity that took its beginning
        i = place.free_from = max(end, i + 1)
    return found


def _read(words: Words, i: int, place: Place) -> tuple[Quantity | None, int] | None:
    """The quantity at atom i and its end; (None, end) for a number that is no quantity; None for neither."""
    about = _about(words, i)
    start = about or i
    idiom = _fixed_phrase(words, start)
    if idiom:
        return None, idiom
    night = words.phrase("overnight", start)
    if night:
        return _overnight(words, i, night), night
    if words.atoms[start].value is not None and "odd" in words.atoms[start + 1].roles:
        return odd_amount(words, start), start + 2
    term = _gas_mark(words, start) or read_range(words, start)
    if term is None:
        return None
    after = words.phrase("approx_after", term.end)
    if after:
        term.end, term.approximate = after, True
    if about:
        term.start, term.approximate = i, True
    term = corrected(words, term)
    return from_term(words, term, place), term.end


def _about(words: Words, i: int) -> int:
    """Where words such as "about", "a little over" that begin at atom i end; 0 if there are none."""
    subjects = vocabulary().words["subject_before"]
    end, j = 0, i
    for _ in range(MOST_ABOUT):
        if not words.phrase("approx_before", j):
            break
        if words.phrase("approx_or_verb", j) and j and words.atoms[j - 1].text in subjects:
            break
        j = end = words.phrase("approx_before", j)
    return end


def _fixed_phrase(words: Words, i: int) -> int:
    """Where "half and half", "fifty fifty", "a quarter turn" at atom i ends; 0 if none begins there."""
    if words.atoms[i].roles & {"article", "determiner"}:
        return words.phrase("not_a_quantity", i) or words.phrase("not_a_quantity", i + 1)
    return words.phrase("not_a_quantity", i)


def _overnight(words: Words, i: int, end: int) -> Quantity:
    low, high = (hours * (units()["hour"].factor or 0.0) for hours in NIGHT_HOURS)
    return span(words, "duration", i, end, low, high, "second", approximate=True)


def _gas_mark(words: Words, i: int) -> Term | None:
    """ "gas mark six", "gas four to five"."""
    start = words.phrase("gas_mark", i)
    if not start:
        return None
    term = read_range(words, start)
    if term is not None and term.high > HIGHEST_MARK:
        term = read_term(words, start)  # "gas mark four or one eighty"
    if term is None or not term.bare or not 0 < term.low <= HIGHEST_MARK:
        return None
    term.start, term.scale = i, "gas mark"
    return term
