"""Packages and pieces with the size of each: "two fifteen ounce cans", "a pound bag", "1 (14.5 ounce) can"."""

from dataclasses import dataclass

from stovescript.kitchen.units import Unit

from . import following
from .numbers import read_number, shorthand
from .saidunits import measure_at, modifiers, unit_phrases
from .vocabulary import CLOSE, OPEN
from .words import Words


@dataclass
class Size:
    """The amount in each package, over the atoms [start, end)."""

    low: float
    high: float
    unit: Unit
    start: int
    end: int
    numbered: bool = True
    """Said with a number: not the pound of "a pound bag"."""


@dataclass
class Packed:
    """A package with its size, without how many there are."""

    unit: Unit
    size: Size
    end: int
    single: bool
    """Said in the singular: "fifteen ounce can"."""


def packed_at(words: Words, i: int) -> Packed | None:
    """ "fifteen ounce cans", "(14.5 ounce) can", "x 400g tins" at atom i."""
    atoms = words.atoms
    j, _ = modifiers(words, i)
    wrapped = atoms[j].text == OPEN
    j += wrapped
    j = words.phrase("times", j) or j
    size = size_at(words, j)
    if size is None or (wrapped and atoms[size.end].text != CLOSE):
        return None
    j, _ = modifiers(words, size.end + wrapped)
    for phrase, end in unit_phrases(words, j):
        if phrase.unit.dimension == "package":
            stands = following.package_can_stand(words, phrase, end, size.unit)
        else:
            stands = phrase.unit.dimension == "count" and following.sized_piece(words, phrase, end, size.unit)
        if stands:
            return Packed(phrase.unit, size, end, phrase.singular)
    return None


def size_at(words: Words, i: int) -> Size | None:
    """ "fifteen ounce", "fourteen and a half ounce", "fourteen to fifteen ounce", "one fifty gram", "pound"."""
    if "article" in words.atoms[i].roles:
        return None
    number = read_number(words, i)
    if number is None:
        return _one_of_unit(words, i)
    low, high, end = number.low, number.high, number.end
    joint = words.phrase("range", end)
    upper = read_number(words, joint) if joint else None
    if upper is not None and upper.high > low:
        high, end = upper.high, upper.end
    found = measure_at(words, end)
    if found is None and upper is None:
        short = shorthand(words, i, number)
        found = measure_at(words, short.end) if short else None
        if short is None or found is None or found[0].unit.system != "metric":
            return None
        low = high = short.low
    if found is None or low <= 0:
        return None
    return Size(low, high, found[0].unit, i, found[1])


def size_in_parentheses(words: Words, i: int) -> tuple[Size, int] | None:
    """ "(15 ounces each)" at atom i, after the package: the size and the end."""
    if words.atoms[i].text != OPEN:
        return None
    size = size_at(words, i + 1)
    if size is None:
        return None
    end = words.phrase("each", size.end) or size.end
    return (size, end + 1) if words.atoms[end].text == CLOSE else None


def _one_of_unit(words: Words, i: int) -> Size | None:
    """ "pound" in "a pound bag": one of the unit, said without a number."""
    found = measure_at(words, i)
    if found is None or not found[0].singular or found[0].short:
        return None
    return Size(1.0, 1.0, found[0].unit, i, found[1], numbered=False)
