"""Shapes and capacities that are no amount of food: "nine by thirteen", "8x8", "six quart pot"."""

from stovescript.kitchen.units import Unit

from .numbers import Number, read_number
from .saidunits import measure_at
from .vocabulary import vocabulary
from .words import Words

LONGEST_SIDE = 120.0  # centimeters or inches; a larger number is no side of a dish
NO_SIDE = frozenset({"few", "dozen", "hundred"})
BOTTOMS = frozenset({2.0, 3.0, 4.0, 8.0})
"""Parts of a cup or spoon that are sold as measures."""
WORDS_TO_VESSEL = 4


def shape(words: Words, i: int) -> tuple[tuple[float, ...], Unit | None, int] | None:
    """ "nine by thirteen inch" at atom i: its sides, its unit of length if said, its end."""
    first = read_number(words, i)
    if first is None or first.kind in NO_SIDE:
        return None
    unit, j = _length(words, first.end)
    if words.phrase("by", j) == 0:
        return None
    sides = [first.low]
    while words.phrase("by", j):
        k = words.phrase("by", j)
        side = read_number(words, k) if "article" not in words.atoms[k].roles else None
        if side is None or side.kind in NO_SIDE or not 0 < side.low <= LONGEST_SIDE:
            break
        sides.append(side.low)
        found, j = _length(words, side.end)
        unit = unit or found
    if len(sides) < 2 or not 0 < sides[0] <= LONGEST_SIDE:
        return None
    return tuple(sides), unit, j


def by_fraction(words: Words, i: int) -> Number | None:
    """ "one by four cup" at atom i, as a fraction is said in India: a quarter; None for a shape."""
    first = read_number(words, i)
    if first is None or first.kind not in ("ones", "digits") or words.atoms[first.end].text != "by":
        return None
    second = read_number(words, first.end + 1)
    if second is None or second.low not in BOTTOMS or not first.low < second.low:
        return None
    if measure_at(words, second.end) is None:
        return None
    value = first.low / second.low
    return Number(value, value, second.end, "fraction")


def holds(words: Words, i: int) -> bool:
    """After a volume or weight that ends at atom i comes a vessel: it is what the vessel holds."""
    rules = vocabulary().words
    for j in range(i, i + WORDS_TO_VESSEL):
        text, after = words.atoms[j].text, words.atoms[j + 1].text
        if text in rules["vessel_modifier"] and (text not in rules["vessel"] or after in rules["vessel"]):
            continue
        return text in rules["vessel"] and after not in rules["no_vessel_after"]
    return False


def vessel_unsaid(words: Words, start: int, end: int) -> bool:
    """ "in my five quart": a capacity whose pot is not named, at atoms [start, end)."""
    atoms = words.atoms
    if not start or not atoms[start - 1].roles & {"article", "determiner"}:
        return False
    return "function" in atoms[end].roles and atoms[end].text != "of"


def _length(words: Words, i: int) -> tuple[Unit | None, int]:
    """The unit of length at atom i and its end; (None, i) where there is none."""
    for phrase in words.atoms[i].units:
        if phrase.unit.dimension == "length" and (phrase.words != ("in",) or words.glued(i)):
            return phrase.unit, i + 1
    return None, i
