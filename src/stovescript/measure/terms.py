"""One number with its unit: "two big handfuls", "three quarters of a cup", "a cup and a half", "a tin".

A term is what a range and a correction are made of; what kind of quantity it is comes later.
"""

from dataclasses import dataclass, replace

from stovescript.kitchen.units import Unit

from . import following
from .numbers import Number, fraction_after_and, read_number
from .packages import Packed, Size, packed_at, size_in_parentheses
from .saidunits import modifiers, unit_after, unit_phrases
from .sums import half_after, sum_after
from .temperatures import degrees_after
from .vocabulary import UnitPhrase, vocabulary
from .words import Words

DESCRIBED = frozenset({"article", "determiner", "modifier_exact", "modifier_loose"})
MEASURED = frozenset({"volume", "mass", "length", "time"})


@dataclass(slots=True)
class Term:
    """A number, with or without its unit, over the atoms [start, end)."""

    start: int
    end: int
    low: float
    high: float
    number: str
    """The kind of its number, see ``Number.kind``; "article" for a, an; "bare" where none is said."""
    unit: Unit | None = None
    singular: bool = True
    """The unit is said in the singular: "fifteen ounce"."""
    approximate: bool = False
    scale: str | None = None
    """For a temperature "F", "C", "gas mark" or "" where degrees without scale are said; else None."""
    ordinal: bool = False
    """ "a third" without unit: a fraction only where one follows."""
    size: Size | None = None
    sides: tuple[float, ...] = ()
    fan: bool = False
    of_whole: bool = False
    """A fraction of something already there: "half the cheese"."""
    of_one: bool = False
    """A fraction of one thing that is named next: "half an onion"."""
    counted_aloud: bool = False
    """ "one two three", "one cup two cups three cups"."""

    @property
    def bare(self) -> bool:
        """It has neither unit nor scale nor shape: a plain number."""
        return self.unit is None and self.scale is None and not self.sides


def read_term(words: Words, i: int) -> Term | None:
    """The term that begins at atom i."""
    atom = words.atoms[i]
    if "article" in atom.roles:
        return _after_article(words, i)
    if "determiner" in atom.roles:
        return _after_determiner(words, i)
    number = read_number(words, i)
    if number is not None:
        return with_unit(words, i, number)
    if atom.roles & {"bare_unit", "dimension_unit"}:
        return _without_number(words, i)
    return None


def with_unit(words: Words, i: int, number: Number) -> Term | None:
    """The term of a number that stands at [i, number.end), with whatever unit follows it."""
    term = Term(i, number.end, number.low, number.high, number.kind)
    term.approximate, term.ordinal = number.approximate, number.ordinal
    scale = degrees_after(words, number.end, number.high, number.kind)
    if scale is not None:
        term.scale, term.end = scale
        return term
    packed = packed_at(words, i)
    if packed is not None and packed.single:  # "fifteen ounce can" is one; "fifteen ounce cans" tells no count
        return _one_packed(i, packed)
    packed = packed_at(words, number.end) if number.kind not in ("fraction", "few") else None
    if packed is not None and packed.size.numbered:
        term.unit, term.size, term.end = packed.unit, packed.size, packed.end
        return term
    if number.kind == "fraction" or (number.kind == "digits" and number.low < 1):
        part = _fraction_of(words, term, number)
        if part is not None:
            return part
    found = unit_after(words, number.end, number)
    if found is not None:
        return None if _is_ordinal(words, i, number, found[0].unit) else _measured(words, term, found)
    return term if following.half_can_stand(words, i, number) else None


def _is_ordinal(words: Words, i: int, number: Number, unit: Unit) -> bool:
    """ "every third day", "the third cup": a place in a row, no fraction."""
    if not number.ordinal or number.end > i + 1:
        return False
    return unit.dimension not in ("volume", "mass") or bool(i and "determiner" in words.atoms[i - 1].roles)


def same_unit(term: Term, unit: Unit) -> Term:
    """The term, which has no unit of its own, in ``unit``."""
    return replace(term, unit=unit, approximate=term.approximate or unit.approximate)


def add_after_unit(words: Words, term: Term) -> Term:
    """Adds what may follow a unit: "and a half", "plus two tablespoons", "and twenty minutes"."""
    if term.unit is None or term.size is not None:
        return term
    more = half_after(words, term.end) if term.low == term.high and term.low.is_integer() else None
    if more is not None:
        return replace(term, low=term.low + more[0], high=term.high + more[0], end=more[1])
    for _ in range(2):
        added = sum_after(words, term.end, term.unit, term.low)
        if added is None:
            break
        share, end, loose = added
        term = replace(term, low=term.low + share, high=term.high + share, end=end)
        term.approximate |= loose
    return term


def _measured(words: Words, term: Term, found: tuple[UnitPhrase, int, bool]) -> Term:
    """The term with the unit found after it, and what may follow that."""
    phrase, end, loose = found
    approximate = term.approximate or loose or phrase.unit.approximate
    term = replace(term, unit=phrase.unit, end=end, singular=phrase.singular, approximate=approximate)
    if phrase.unit.dimension == "package":
        size = size_in_parentheses(words, end)
        if size is not None:
            term.size, term.end = size
    return add_after_unit(words, term)


def _one_packed(start: int, packed: Packed, *, loose: bool = False) -> Term:
    return Term(
        start, packed.end, 1.0, 1.0, "article", unit=packed.unit, size=packed.size, approximate=loose
    )  # fmt: skip


def _fraction_of(words: Words, term: Term, number: Number) -> Term | None:
    """Binds "half" to what it is a half of; None where a unit or a food follows it directly."""
    atoms = words.atoms
    whole = replace(term, of_whole=True, ordinal=False)
    after = term.end + ("article" in atoms[term.end].roles)
    if following.other_half(words, term.start) and unit_after(words, after, number) is None:
        return whole
    j = term.end
    of = atoms[j].text == "of"
    j += of
    if "article" in atoms[j].roles or (of and atoms[j].text == "one"):
        packed = packed_at(words, j + 1)
        if packed is not None:  # "half a fifteen ounce can"
            return replace(term, unit=packed.unit, size=packed.size, end=packed.end)
        found = unit_after(words, j + 1, number)
        if found is not None:
            return _measured(words, term, found)
        food, _ = modifiers(words, j + 1)
        if following.food_word(words, food):
            return replace(term, end=j + 1, of_one=True, ordinal=False)
        return None
    if "owner" in atoms[j].roles and (of or _half_the(words, term)):
        return whole
    ranked = term.start > 0 and "determiner" in atoms[term.start - 1].roles and number.ordinal
    if of and not ranked and following.food_word(words, j) and unit_after(words, j, None) is None:
        return whole
    return None


def _half_the(words: Words, term: Term) -> bool:
    """ "half the cheese", "half my onions", without "of"; not "half it"."""
    return term.number == "fraction" and term.low == 0.5 and "pronoun_owner" not in words.atoms[term.end].roles


def _after_article(words: Words, i: int) -> Term | None:
    """ "a cup", "a good glug", "a third of a cup", "a four hundred gram tin", "another two tablespoons"."""
    atoms = words.atoms
    if "article" in atoms[i + 1].roles and atoms[i + 1].text == atoms[i].text:
        i += 1  # "a a cup"
    j, loose = modifiers(words, i + 1)
    packed = packed_at(words, j)
    if packed is not None:
        return _one_packed(i, packed, loose=loose)
    number = read_number(words, i)
    if number is not None:
        return with_unit(words, i, number)
    number = read_number(words, j) if "article" not in atoms[j].roles else None
    if number is not None:
        term = with_unit(words, j, number)
        if term is None or (term.bare and not term.of_one and j > i + 1):
            return None
        term.approximate |= loose
        if j > i + 1 or atoms[i].text == "another":
            term.start = i
        return term
    found = unit_after(words, i + 1, None)
    if found is None or found[0].unit.name == "second":  # "give me a second"
        return None
    return _measured(words, Term(i, i + 1, 1.0, 1.0, "article"), found)


def _after_determiner(words: Words, i: int) -> Term | None:
    """ "the cup of flour", "this 28 ounce can", "the remaining tablespoon of oil"."""
    j = i + 1
    while words.phrase("the_modifier", j):
        j = words.phrase("the_modifier", j)
    j, _ = modifiers(words, j)
    packed = packed_at(words, j)
    if packed is not None:
        return _one_packed(j, packed) if packed.single else None
    found = unit_after(words, j, None)
    if found is None:
        return None
    phrase, end, loose = found
    unit = phrase.unit
    if not phrase.singular or unit.dimension in ("time", "length"):
        return None
    if unit.name in vocabulary().words["no_determiner"]:
        return None
    if words.atoms[end].text != "of" or "owner" in words.atoms[end + 1].roles:
        return None
    return Term(i, end, 1.0, 1.0, "article", unit=unit, approximate=loose or unit.approximate)


def _without_number(words: Words, i: int) -> Term | None:
    """ "pinch of salt", "inch thick": one of a unit said without number or article."""
    atoms = words.atoms
    rules = vocabulary().words
    before = atoms[i - 1] if i else None
    if before and (before.number or before.roles & DESCRIBED):
        return None
    for phrase, end in unit_phrases(words, i):
        unit = phrase.unit
        if not phrase.singular or phrase.short:
            continue
        term = Term(i, end, 1.0, 1.0, "bare", unit=unit, approximate=unit.approximate)
        half = fraction_after_and(words, end) is not None
        if unit.dimension in MEASURED and (half or (unit.dimension == "length" and _shape_word(words, end))):
            return add_after_unit(words, term)
        if unit.dimension in MEASURED and unit.dimension != "volume":
            continue
        if before and before.text in rules["no_bare_after"]:
            continue
        if atoms[end].text == "of" and following.unit_can_stand(words, phrase, i, end, None):
            return term
    return None


def _shape_word(words: Words, i: int) -> bool:
    """ "thick", "cubes" at atom i, after a length."""
    return words.atoms[i].text in vocabulary().words["dimension_after"]
