"""Spoken numbers with no word between: "ten fifteen minutes", "four twenty five", "two six ounce steaks".

They are a range, one number in short form, or a count and a size; what follows them decides.
"""

from dataclasses import replace

from . import following
from .numbers import Number, read_number, shorthand
from .packages import Size
from .saidunits import unit_after
from .temperatures import degrees_after, fan_after, heat_near
from .terms import Term, with_unit
from .vocabulary import COMMA, UnitPhrase, vocabulary
from .words import Words

NEAR = 2.1
"""Two numbers side by side are the ends of a range up to this ratio: two three, five ten."""
NEAR_IN_TIME = 3.0
"""For minutes the ends may lie further apart: five fifteen."""


def side_by_side(words: Words, first: Term) -> Term | None:
    """Reads a second number right after the bare number ``first``; None where they are two things."""
    atoms = words.atoms
    comma = atoms[first.end].text == COMMA
    start = first.end + comma
    if "article" in atoms[start].roles:
        return None
    second = read_number(words, start)
    if second is None or second.low <= 0:
        short = None if comma else _short_form(words, first)
        return with_unit(words, first.start, short) if short else None  # "two oh three"
    if second.kind in ("few", "dozen"):
        return None
    if first.low == second.low and not comma:
        again = with_unit(words, start, second)  # "two two cups": said twice
        return replace(again, start=first.start) if again and not again.bare else None
    run = _counting(words, first, second)
    if run is not None:
        return run
    found = unit_after(words, second.end, second)
    if not comma:
        one = _one_number(words, first, second) or _count_and_size(words, first, second, found)
        if one is not None:
            return one
    return _range(words, first, second, found, comma=comma)


def _range(
    words: Words, first: Term, second: Number, found: tuple[UnitPhrase, int, bool] | None, *, comma: bool
) -> Term | None:
    """ "ten fifteen minutes", "five six cloves", "six seven hundred grams"."""
    low, high = first.low, second.low
    hundreds = high / 100
    if hundreds.is_integer() and first.number in ("ones", "teen") and low < hundreds <= low * NEAR:
        low *= 100
    if not low < high <= low * NEAR:
        return None
    heat = degrees_after(words, second.end, high, second.kind)
    if found is None and heat is None and (comma or following.counted(words, second.end) != "food"):
        return None
    measured = found is not None and found[0].unit.dimension == "length" and first.low == 1
    if found and measured and words.atoms[found[1]].text in vocabulary().words["piece_noun"]:
        return None  # "one two inch piece"
    last = with_unit(words, first.end + comma, second)
    return replace(last, start=first.start, low=low) if last else None


def _counting(words: Words, first: Term, second: Number) -> Term | None:
    """ "one two three tablespoons", counted aloud as they go in, is three."""
    if first.low != 1 or second.low != 2:
        return None
    start, last, after = first.end, second, read_number(words, second.end)
    while after is not None and after.low == last.low + 1:
        start, last, after = last.end, after, read_number(words, after.end)
    term = with_unit(words, start, last) if last.low > 2 else None
    return replace(term, start=first.start, counted_aloud=True) if term else None


def _short_form(words: Words, first: Term) -> Number | None:
    return shorthand(words, first.start, Number(first.low, first.high, first.end, first.number))


def _one_number(words: Words, first: Term, second: Number) -> Term | None:
    """ "four twenty five", "one fifty ml": one number in short form, where what follows allows it."""
    whole = _short_form(words, first)
    if whole is None:
        return None
    heat = degrees_after(words, whole.end, whole.low, "short") is not None or fan_after(words, whole.end)
    if not heat and not _allows_short_form(words, first, second, whole):
        return None
    return with_unit(words, first.start, whole)


def _allows_short_form(words: Words, first: Term, second: Number, whole: Number) -> bool:
    near = second.low <= first.low * NEAR
    found = unit_after(words, whole.end, whole)
    if found is None:
        return not near or heat_near(words, first.start)
    phrase = found[0]
    dimension = phrase.unit.dimension
    if near or dimension == "length":
        return False
    if dimension == "time":  # "two thirty second bursts", "five fifteen minutes"
        return not phrase.singular and second.low > NEAR_IN_TIME * first.low
    if dimension in ("volume", "mass"):  # "two fifty gram", but "two sixteen ounce"
        return phrase.unit.system == "metric" or not phrase.singular
    return True


def _count_and_size(
    words: Words, first: Term, second: Number, found: tuple[UnitPhrase, int, bool] | None
) -> Term | None:
    """ "two six ounce chicken breasts": so many of that weight each."""
    if found is None or first.number not in ("ones", "teen", "digits") or not first.low.is_integer():
        return None
    phrase, end, _ = found
    if phrase.unit.dimension != "mass" or not phrase.singular or second.low == 1:
        return None
    if phrase.short and not words.glued(end - 1) and first.number != "digits":
        return None
    if not following.food_word(words, end) or not (first.low == 1 or _plural_near(words, end)):
        return None
    size = Size(second.low, second.high, phrase.unit, second.end - 1, end)
    return Term(first.start, end, first.low, first.high, first.number, size=size)


def _plural_near(words: Words, i: int) -> bool:
    """Within four words from atom i stands a plural: the things that are counted."""
    return any(following.food_word(words, j) and words.atoms[j].text.endswith("s") for j in range(i, i + 4))
