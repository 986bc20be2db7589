"""What is added after a unit: "a cup and a half", "a cup plus two tablespoons", "one hour twenty"."""

from stovescript.kitchen.units import Unit

from . import following
from .numbers import Number, fraction_after_and, read_number
from .packages import packed_at
from .saidunits import modifiers, unit_after, unit_phrases
from .vocabulary import COMMA, UnitPhrase
from .words import Words

SUMMED = frozenset({"volume", "mass", "time"})
MEASURED = SUMMED | {"length"}
ROUND_MINUTES = 5


def half_after(words: Words, i: int) -> tuple[float, int] | None:
    """ "and a half" at atom i, right after a unit: the fraction and its end; None if it has a unit of its own."""
    tail = fraction_after_and(words, i)
    if tail is None:
        return None
    atoms = words.atoms
    j = tail[1] + (atoms[tail[1]].text == "of")
    if "article" in atoms[j].roles:
        return None  # "a cup and half a teaspoon"
    j, _ = modifiers(words, j)
    if atoms[j].text != "in" and any(phrase.unit.dimension in MEASURED for phrase, _ in unit_phrases(words, j)):
        return None  # "a cup and a half teaspoon"; "in" is no inch here
    return tail


def sum_after(words: Words, i: int, unit: Unit, value: float) -> tuple[float, int, bool] | None:
    """An amount to add to ``value`` of ``unit``, said at atom i: how much in that unit, its end, if loose.

    After "plus" and "minus" any unit of the dimension will do; after "and" or nothing only a smaller one.
    """
    if unit.dimension not in SUMMED or unit.factor is None:
        return None
    atoms = words.atoms
    j = i + (atoms[i].text == COMMA)
    less = words.phrase("sum_less", j)
    plus = words.phrase("sum_plus", j)
    also = words.phrase("sum_and", j)
    beside = not (less or plus or also)
    if beside and not (unit.name in ("hour", "minute", "pound", "kilogram", "liter") and value.is_integer()):
        return None
    j = less or plus or also or j
    number = read_number(words, j)
    if number is None and "article" not in atoms[j].roles:
        return None
    end = number.end if number else j + 1
    found = _unit_of_sum(words, end, number)
    if found is None:
        return _bare_minutes(words, unit, number) or _bare_hundreds(unit, number) if value.is_integer() else None
    phrase, unit_end, loose = found
    if number and number.low != number.high:
        return None
    if not (less or plus) and packed_at(words, end):
        return None  # "a pound and two eight ounce packages"
    if phrase.unit.dimension != unit.dimension or phrase.unit.factor is None:
        return None
    share = (number.low if number else 1.0) * phrase.unit.factor / unit.factor
    if less:
        return (-share, unit_end, loose) if share < value else None
    if not plus and (phrase.unit.factor >= unit.factor or share >= 1):
        return None
    return share, unit_end, loose


def _unit_of_sum(words: Words, i: int, number: Number | None) -> tuple[UnitPhrase, int, bool] | None:
    """The unit at atom i, after a number or "a"; "half a teaspoon" has its article between."""
    if number is not None and number.kind == "fraction":
        j = i + (words.atoms[i].text == "of")
        if "article" in words.atoms[j].roles:
            return unit_after(words, j + 1, number)
    return unit_after(words, i, number)


def _bare_hundreds(unit: Unit, number: Number | None) -> tuple[float, int, bool] | None:
    """ "One kilo two hundred": grams or milliliters, whose unit is not said."""
    told = number is not None and number.low == number.high and 100 <= number.low < 1000 and number.low % 50 == 0
    if unit.name not in ("kilogram", "liter") or number is None or not told:
        return None
    return number.low / 1000, number.end, False


def _bare_minutes(words: Words, unit: Unit, number: Number | None) -> tuple[float, int, bool] | None:
    """ "one hour twenty", "four minutes thirty": the smaller unit is not said and no food follows."""
    if number is None or unit.name not in ("hour", "minute"):
        return None
    if number.kind not in ("teen", "tens", "digits") and not (number.low == ROUND_MINUTES and unit.name == "hour"):
        return None
    if not ROUND_MINUTES <= number.low < 60 or number.low % ROUND_MINUTES:
        return None
    end = number.end
    after = words.atoms[end]
    joint = words.phrase("range", end)
    upper = read_number(words, joint) if joint else None
    if upper or (joint and "article" in words.atoms[joint].roles):
        # "an hour ten to an hour twenty", not "one hour ten to twelve people"
        found = unit_after(words, upper.end if upper else joint + 1, upper)
        if found is None or found[0].unit is not unit:
            return None
    elif following.food_word(words, end) or after.value is not None or after.number or after.roles & {"degree"}:
        return None
    return number.low / 60, end, False
