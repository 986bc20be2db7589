"""Shapes and capacities that are no amount of food: "nine by thirteen", "8x8", "six quart pot"."""

from stovescript.kitchen.units import Unit

from .numbers import Number, read_number
from .vocabulary import vocabulary
from .words import Words

LONGEST_SIDE = 120.0  # centimeters or inches; a larger number is no side of a dish
SPOONED = frozenset({"cup", "teaspoon", "tablespoon", "pound", "liter", "kilogram", "inch"})


def shape(words: Words, i: int) -> tuple[tuple[float, ...], Unit | None, int] | None:
    """ "nine by thirteen inch" at atom i: its sides, its unit of length if said, its end."""
    first = read_number(words, i)
    if first is None or first.kind in ("few", "dozen", "hundred"):
        return None
    unit, j = _length(words, first.end)
    if words.phrase("by", j) == 0:
        return None
    sides = [first.low]
    while words.phrase("by", j):
        k = words.phrase("by", j)
        side = read_number(words, k) if "article" not in words.atoms[k].roles else None
        if side is None or side.kind in ("few", "dozen", "hundred") or not 0 < side.low <= LONGEST_SIDE:
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
    if second is None or second.low not in (2, 3, 4, 8) or not first.low < second.low:
        return None
    for phrase in words.atoms[second.end].units:
        if phrase.unit.name in SPOONED - {"inch"}:
            value = first.low / second.low
            return Number(value, value, second.end, "fraction")
    return None


def holds(words: Words, i: int) -> bool:
    """After a volume or weight that ends at atom i comes a vessel: it is what the vessel holds."""
    atoms = words.atoms
    rules = vocabulary().words
    for j in range(i, i + 4):
        text = atoms[j].text
        if text in rules["vessel"] and not (text in rules["vessel_modifier"] and _vessel(words, j + 1)):
            return atoms[j + 1].text not in rules["no_vessel_after"] - {"of"}
        if text not in rules["vessel_modifier"]:
            return False
    return False


def _vessel(words: Words, i: int) -> bool:
    return words.atoms[i].text in vocabulary().words["vessel"]


def _length(words: Words, i: int) -> tuple[Unit | None, int]:
    """The unit of length at atom i and its end; (None, i) where there is none."""
    for phrase in words.atoms[i].units:
        if phrase.unit.dimension == "length" and (phrase.words[0] not in ("in", "c") or words.glued(i)):
            return phrase.unit, i + 1
    return None, i
