"""Two numbers for one amount: "three to four tablespoons", "six, six and a half ounces", "a minute or two".

Spoken numbers also stand side by side without a word between, and then mean one of three things:
a range ("ten fifteen minutes"), one number ("four twenty five") or a count and a size ("two six ounce steaks").
"""

from dataclasses import replace

from . import following
from .dimensions import by_fraction, shape
from .numbers import Number, read_number, shorthand
from .temperatures import degrees_after, fan_after, heat_near
from .terms import Size, Term, packages, read_term, same_unit, unit_after, with_unit
from .vocabulary import COMMA, DASH, UnitPhrase, vocabulary
from .words import Words

NEAR = 2.1
"""Two numbers side by side are the ends of a range up to this ratio: two three, five ten."""


def read_range(words: Words, i: int) -> Term | None:
    """The term at atom i, or the range that begins there."""
    between = words.phrase("range_between", i)
    if between:
        term = _from_to(words, i, between, {"and"})
        if term is not None:
            return term
    opened = words.phrase("range_from", i)
    if opened and not between:
        return _from_to(words, i, opened, {"to", "-", "up to"})
    if between:
        return None
    term = _one(words, i)
    if term is None:
        return None
    while True:
        longer = _next_end(words, term)
        if longer is None:
            return term
        term = longer


def _from_to(words: Words, i: int, opened: int, joints: set[str]) -> Term | None:
    """ "between one and two", "from ten to fifteen minutes": both ends must be there."""
    start = words.phrase("approx_before", opened) or opened
    first = _one(words, start)
    if first is None or words.atoms[first.end].text not in joints:
        return None
    after = first.end + 1
    about = words.phrase("approx_before", after)
    second = _one(words, about or after)
    joined = _join(words, first, second, certain=True) if second else None
    if joined is None:
        return None
    joined.start = i
    joined.approximate |= bool(about) or start > opened
    return joined


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
        if unit is not None and unit.dimension != "length":
            return None
        return Term(i, end, min(sides), max(sides), "digits", unit=unit, sides=sides)
    term = read_term(words, i)
    if term is None or not term.bare or term.of_one or term.of_whole or term.number in ("few", "dozen", "fraction"):
        return term
    return _side_by_side(words, term) or term


def _sets_off_number(words: Words, i: int) -> bool:
    """ "a nine inch pan", "an eight by eight": the article belongs to the pan, not to the number."""
    if words.atoms[i].text == "another" or read_number(words, i) is not None:
        return False
    return read_number(words, i + 1) is not None and packages(words, i + 1) is None


def _side_by_side(words: Words, first: Term) -> Term | None:
    """Reads a second number right after the bare number ``first``; None where they are two things."""
    atoms = words.atoms
    comma = atoms[first.end].text == COMMA
    start = first.end + comma
    if "article" in atoms[start].roles:
        return None
    second = read_number(words, start)
    if second is None or second.kind in ("few", "dozen") or second.low <= 0:
        return None
    low, high = first.low, second.low
    if low == high and not comma:
        again = with_unit(words, start, second)  # "two two cups": said twice
        return replace(again, start=first.start) if again and not again.bare else None
    found = unit_after(words, second.end, second)
    if not comma:
        short = _short(words, first, second, found)
        if short is not None:
            return short
        sized = _count_and_size(words, first, second, found)
        if sized is not None:
            return sized
    if high >= 100 and high % 100 == 0 and first.number in ("ones", "teen") and low < high / 100 <= low * NEAR:
        low *= 100  # six seven hundred grams
    if not low < high <= low * NEAR:
        return None
    heat = degrees_after(words, second.end, high, second.kind)
    if found is None and heat is None and (comma or following.counted(words, second.end) != "food"):
        return None
    if found and found[0].unit.dimension == "length" and _counts_pieces(words, first, found):
        return None
    run = _counting(words, first, second)
    if run is not None:
        return run
    last = with_unit(words, start, second)
    if last is None:
        return None
    return replace(last, start=first.start, low=low, high=last.high)


def _counts_pieces(words: Words, first: Term, found: tuple[UnitPhrase, int, bool]) -> bool:
    """ "one two inch piece": the first number counts, the second measures."""
    return first.low == 1 and words.atoms[found[1]].text in vocabulary().words["piece_noun"]


def _counting(words: Words, first: Term, second: Number) -> Term | None:
    """ "one two three tablespoons", counted aloud as they go in, is three."""
    if first.low != 1 or second.low != 2:
        return None
    value, end = 2.0, second.end
    start = end
    while True:
        following_number = read_number(words, end)
        if following_number is None or following_number.low != value + 1:
            break
        start, end, value = end, following_number.end, value + 1
    if value < 3:
        return None
    last = read_number(words, start)
    term = with_unit(words, start, last) if last else None
    return replace(term, start=first.start) if term and not term.bare else None


def _short(words: Words, first: Term, second: Number, found: tuple[UnitPhrase, int, bool] | None) -> Term | None:
    """ "four twenty five", "one fifty ml": one number in short form, where what follows allows it."""
    whole = shorthand(words, first.start, Number(first.low, first.high, first.end, first.number))
    if whole is None:
        return None
    near = second.low <= first.low * NEAR
    heat = degrees_after(words, whole.end, whole.low, "short") is not None or fan_after(words, whole.end) > 0
    if not heat:
        found = unit_after(words, whole.end, whole)
        if found is not None:
            phrase = found[0]
            unit = phrase.unit
            if unit.dimension == "length" or near:
                return None
            if unit.dimension == "time" and (phrase.singular or second.low <= 3 * first.low):
                return None
            if unit.dimension in ("volume", "mass") and unit.system != "metric" and phrase.singular:
                return None
        elif near and not heat_near(words, first.start):
            return None
        elif words.glued(whole.end) and words.atoms[whole.end].text == DASH:
            return None
    return with_unit(words, first.start, whole)


def _count_and_size(
    words: Words, first: Term, second: Number, found: tuple[UnitPhrase, int, bool] | None
) -> Term | None:
    """ "two six ounce chicken breasts": so many of that weight each."""
    if found is None or first.number not in ("ones", "teen", "digits") or not first.low.is_integer():
        return None
    phrase, end, _ = found
    ounces = phrase.unit.dimension == "mass"
    if not ounces or not (phrase.singular or phrase.short) or second.low == 1:
        return None
    if phrase.short and not words.glued(end - 1) and first.number != "digits":
        return None
    if not following.food_word(words, end):
        return None
    plural = any(
        words.atoms[k].text.endswith("s") for k in range(end, end + 4) if following.food_word(words, k)
    ) or first.low == 1
    if not plural:
        return None
    size = Size(second.low, second.high, phrase.unit, second.end - 1, end)
    return Term(first.start, end, first.low, first.high, first.number, size=size)


def _next_end(words: Words, term: Term) -> Term | None:
    """The range that goes on after ``term``; None where it is complete."""
    if term.sides or term.of_whole or term.of_one or (term.size is not None and term.unit is None):
        return None
    atoms = words.atoms
    comma = atoms[term.end].text == COMMA
    j = term.end + comma
    joint = words.phrase("range", j)
    if joint:
        soft = words.phrase("range_soft", j) == joint
        about = words.phrase("approx_before", joint)
        second = _one(words, about or joint)
        if second is None:
            return None
        if words.atoms[j].text == "or" and fan_after(words, second.end) and second.scale is None:
            return None  # "180 or 160 fan" are two settings
        joined = _join(words, term, second, certain=not soft, word=atoms[j].text)
        if joined is not None:
            joined.approximate |= bool(about)
        return joined
    if term.bare and not comma:
        return None
    second = _one(words, j)
    if second is None and term.unit is not None:
        second = _unit_again(words, term, j)
    if second is None or (comma and second.number == "bare"):
        return None
    if term.bare:
        return None
    if second.bare and following.counted(words, second.end) != "nothing":
        return None
    if second.unit is not None and second.unit is not term.unit:
        return None
    joined = _join(words, term, second, certain=False)
    return joined if joined is not None and joined.high <= term.high * NEAR else None


def _unit_again(words: Words, term: Term, i: int) -> Term | None:
    """ "a cup cup and a half": the unit again without its number."""
    from .numbers import fraction_after_and

    assert term.unit is not None
    for phrase in words.atoms[i].units:
        end = i + len(phrase.words)
        tail = fraction_after_and(words, end)
        if phrase.unit is term.unit and len(phrase.words) == 1 and tail and term.high == 1:
            return Term(i, tail[1], 1 + tail[0], 1 + tail[0], "bare", unit=phrase.unit)
    return None


def _join(words: Words, first: Term, second: Term, *, certain: bool, word: str = "to") -> Term | None:
    """The range from ``first`` to ``second`` in the unit of the first; None where they are two amounts."""
    if second.sides or second.of_whole or second.of_one or first.of_one or first.of_whole or first.sides:
        return None
    if first.scale is not None or second.scale is not None:
        return _join_heat(words, first, second, word)
    if first.unit is None and second.unit is None:
        if second.number == "fraction" and second.ordinal and first.number != "fraction":
            return None
        low = _hundreds(first, second)
        if not low < second.high:
            return None
        size = second.size
        joined = replace(first, low=low, high=second.high, end=second.end, number="range", size=size)
    elif first.unit is None:
        low = _hundreds(first, second)
        if not low < second.high or first.number == "dozen" or second.number == "bare":
            return None
        joined = replace(second, start=first.start, low=low, approximate=first.approximate or second.approximate)
    elif second.unit is None:
        if first.size is not None and second.size is None and not certain:
            return None
        if word == "or" and second.number == "digits" and following.counted(words, second.end) == "food":
            return None
        if not first.low < second.high or (first.high == first.low and second.high / first.low > 12):
            return None
        joined = replace(same_unit(second, first.unit), start=first.start, low=first.low, size=first.size)
    elif first.unit is second.unit:
        if not first.low < second.high:
            return None
        joined = replace(first, high=second.high, end=second.end, size=first.size or second.size)
    else:
        return _join_units(first, second, word)
    joined.approximate = first.approximate or second.approximate
    joined.ordinal = False
    return joined


def _join_units(first: Term, second: Term, word: str) -> Term | None:
    """ "a teaspoon to a tablespoon", "45 minutes to an hour": two units of one dimension."""
    one, other = first.unit, second.unit
    assert one is not None and other is not None
    if one.factor is None or other.factor is None or one.dimension != other.dimension:
        return None
    if word != "to" and word != DASH and one.dimension != "time":
        return None
    high = second.high * other.factor / one.factor
    if not first.low < high or first.size or second.size:
        return None
    return replace(first, high=high, end=second.end, approximate=first.approximate or second.approximate)


def _join_heat(words: Words, first: Term, second: Term, word: str) -> Term | None:
    """ "325 to 350 degrees"; but "180 celsius or 350 fahrenheit" and "180 or 160 fan" are two settings."""
    if first.unit is not None or second.unit is not None:
        return None
    low = _hundreds(first, second)
    if not low < second.high:
        return None
    if first.scale and second.scale != first.scale and second.scale is not None:
        return None
    if second.scale and not first.scale and second.scale != first.scale and first.scale is not None:
        return None
    if word == "or" and second.high > 1.6 * low:
        return None  # "180 or 350 fahrenheit"
    scale = second.scale or first.scale or ""
    return replace(first, low=low, high=second.high, end=second.end, scale=scale, number="range")


def _hundreds(first: Term, second: Term) -> float:
    """The lower end: "two" in "two to three hundred" is two hundred."""
    top = second.high
    if first.number in ("ones", "digits") and second.number == "hundred" and first.low < 10 and top % 100 == 0:
        if first.low < top / 100 and not (first.unit or first.scale):
            return first.low * 100
    return first.low
