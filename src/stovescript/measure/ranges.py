"""Two numbers for one amount: "three to four tablespoons", "a minute or two", "two pounds maybe two and a half"."""

from dataclasses import replace

from . import following
from .dimensions import by_fraction, shape
from .numbers import fraction_after_and, read_number
from .packages import packed_at
from .saidunits import unit_phrases
from .sidebyside import NEAR, side_by_side
from .temperatures import fan_after
from .terms import Term, read_term, same_unit, with_unit
from .vocabulary import COMMA, DASH
from .words import Words

WIDEST = 12.0
"""A range whose second number has no unit of its own spans at most this ratio."""
ONE_SCALE = 1.6
""" "350 or 375 degrees" is a range; "180 or 350 fahrenheit" are two scales."""


def read_range(words: Words, i: int) -> Term | None:
    """The term at atom i, or the range that begins there."""
    between = words.phrase("range_between", i)
    if between:
        return _from_to(words, i, between, "range_and")
    opened = words.phrase("range_from", i)
    if opened:
        return _from_to(words, i, opened, "range_to")
    term = _one(words, i)
    while term is not None:
        longer = _next_end(words, term)
        if longer is None:
            break
        term = longer
    return term


def _from_to(words: Words, i: int, opened: int, joint: str) -> Term | None:
    """ "between one and two", "from ten to fifteen minutes": both ends must be there."""
    start = words.phrase("approx_before", opened) or opened
    first = _one(words, start)
    after = words.phrase(joint, first.end) if first else 0
    if first is None or not after:
        return None
    about = words.phrase("approx_before", after)
    second = _one(words, about or after)
    joined = _join(words, first, second, certain=True) if second else None
    if joined is None:
        return None
    approximate = joined.approximate or bool(about) or start > opened
    return replace(joined, start=i, approximate=approximate)


def _one(words: Words, i: int) -> Term | None:
    """One term at atom i; numbers that stand side by side are read together, and shapes as wholes."""
    part = by_fraction(words, i)
    if part is not None:
        return with_unit(words, i, part)
    if "article" in words.atoms[i].roles and _sets_off_number(words, i):
        return _one(words, i + 1)
    by = shape(words, i)
    if by is not None:
        sides, unit, end = by
        return Term(i, end, min(sides), max(sides), "digits", unit=unit, sides=sides)
    term = read_term(words, i)
    if term is None or not term.bare or term.of_one or term.of_whole or term.number in ("few", "dozen", "fraction"):
        return term
    return side_by_side(words, term) or term


def _sets_off_number(words: Words, i: int) -> bool:
    """ "a nine inch pan", "an eight by eight": the article belongs to the pan, not to the number."""
    if words.atoms[i].text == "another" or read_number(words, i) is not None:
        return False
    return read_number(words, i + 1) is not None and packed_at(words, i + 1) is None


def _next_end(words: Words, term: Term) -> Term | None:
    """The range that goes on after ``term``; None where it is complete."""
    if term.sides or term.of_whole or term.of_one or (term.size is not None and term.unit is None):
        return None
    comma = words.atoms[term.end].text == COMMA
    i = term.end + comma
    joint = words.phrase("range", i)
    if joint:
        return _after_joint(words, term, i, joint)
    if term.bare:
        return None
    second = _one(words, i) or _unit_again(words, term, i)
    if second is None or (second.unit is not None and second.unit is not term.unit):
        return None
    if second.bare and following.counted(words, second.end) != "nothing":
        return None
    if _counts_on(term, second):
        return replace(term, low=second.low, high=second.high, end=second.end, counted_aloud=True)
    joined = _join(words, term, second, certain=False)
    return joined if joined is not None and joined.high <= term.high * NEAR else None


def _after_joint(words: Words, term: Term, i: int, joint: int) -> Term | None:
    """The range whose parting words, such as "to" or "or maybe", stand at [i, joint)."""
    about = words.phrase("approx_before", joint)
    second = _one(words, about or joint) or _unit_again(words, term, joint)
    if second is None:
        return None
    word = words.atoms[i].text
    if word == "or" and second.scale is None and fan_after(words, second.end):
        return None  # "180 or 160 fan" are two settings
    certain = words.phrase("range_soft", i) != joint
    joined = _join(words, term, second, certain=certain, word=word)
    if joined is not None:
        joined.approximate |= bool(about)
    return joined


def _counts_on(term: Term, second: Term) -> bool:
    """ "one cup two cups three cups", counted as they go in: the last number is the amount."""
    begun = term.low == 1 or term.counted_aloud
    return begun and second.unit is term.unit and second.number == "ones" and term.high + 1 == second.low


def _unit_again(words: Words, term: Term, i: int) -> Term | None:
    """ "a cup cup and a half": the unit again without its number."""
    for phrase, end in unit_phrases(words, i):
        tail = fraction_after_and(words, end)
        if phrase.unit is term.unit and tail and term.high == 1:
            return Term(i, tail[1], 1 + tail[0], 1 + tail[0], "bare", unit=phrase.unit)
    return None


def _join(words: Words, first: Term, second: Term, *, certain: bool, word: str = "to") -> Term | None:
    """The range from ``first`` to ``second`` in the unit of the first; None where they are two amounts."""
    if second.sides or second.of_whole or second.of_one:
        return None
    if first.scale is not None or second.scale is not None:
        return _join_heat(first, second, word)
    low = _hundreds(first, second)
    if first.unit is not None and second.unit is not None and first.unit is not second.unit:
        return _join_units(first, second, word)
    if not low < second.high:
        return None
    approximate = first.approximate or second.approximate
    if first.unit is None and second.unit is None:
        if second.ordinal and first.number != "fraction":
            return None
        return replace(
            first, high=second.high, low=low, end=second.end, number="range", size=second.size,
            approximate=approximate, ordinal=False,
        )  # fmt: skip
    if first.unit is None:
        if first.number == "dozen" or second.number == "bare":
            return None
        return replace(second, start=first.start, low=low, approximate=approximate)
    if second.unit is None:
        if first.size is not None and not certain:
            return None
        if word == "or" and second.number == "digits" and following.counted(words, second.end) == "food":
            return None  # "1 cup or 2 eggs"
        if first.high == first.low and second.high > first.low * WIDEST:
            return None
        second = same_unit(second, first.unit)
        return replace(second, start=first.start, low=low, size=first.size, approximate=approximate, ordinal=False)
    return replace(
        first, high=second.high, end=second.end, size=first.size or second.size, approximate=approximate
    )  # fmt: skip


def _join_units(first: Term, second: Term, word: str) -> Term | None:
    """ "a teaspoon to a tablespoon", "45 minutes to an hour": two units of one dimension."""
    one, other = first.unit, second.unit
    if one is None or other is None or one.dimension != other.dimension or first.size or second.size:
        return None
    if one.factor is None or other.factor is None:
        return None
    if word not in ("to", DASH) and one.dimension != "time":
        return None  # "a teaspoon or a tablespoon" are two choices
    high = second.high * other.factor / one.factor
    if not first.low < high:
        return None
    return replace(first, high=high, end=second.end, approximate=first.approximate or second.approximate)


def _join_heat(first: Term, second: Term, word: str) -> Term | None:
    """ "325 to 350 degrees"; but "180 celsius or 350 fahrenheit" are two settings."""
    if first.unit is not None or second.unit is not None:
        return None
    low = _hundreds(first, second)
    if not low < second.high or (first.scale and second.scale and first.scale != second.scale):
        return None
    if word == "or" and second.high > ONE_SCALE * low:
        return None
    approximate = first.approximate or second.approximate
    scale = second.scale or first.scale or ""
    return replace(
        first, low=low, high=second.high, end=second.end, scale=scale, number="range", approximate=approximate
    )  # fmt: skip


def _hundreds(first: Term, second: Term) -> float:
    """The lower end: "two" in "two to three hundred" is two hundred."""
    hundreds = second.high / 100
    plain = first.number in ("ones", "digits") and first.bare and first.low < 10
    if plain and second.number == "hundred" and hundreds.is_integer() and first.low < hundreds:
        return first.low * 100
    return first.low
