"""What amounts say about each other: how exact they are, whether they agree, their sums and parts."""

from stovescript.kitchen.units import units
from stovescript.measure import Quantity, UnitError, convert
from stovescript.recipe.draft import Amount

SPOONS = frozenset({"teaspoon", "tablespoon", "cup"})
_MEASURABLE = frozenset({"pinch", "dash", "drop", "katori", "thumb", "turn", "twist", "grind", "rice bowl"})
"""Vague units with a customary size that readers know: common practice."""


_ROUNDED = 0.15
"""How far apart two systems' amounts for one thing may lie: cooks round to whole ounces (common practice)."""


def dimension(unit: str) -> str:
    """The dimension of a unit: "volume", "package" ...; "vague" for one that no table knows, "" for whole items."""
    if unit == "":
        return ""
    known = units().get(unit)
    return known.dimension if known else "vague"


def is_package(unit: str) -> bool:
    """True for a can, a packet, a jar."""
    return dimension(unit) == "package"


def is_vague(amount: Quantity | Amount) -> bool:
    """True for a glug, a handful, a few: amounts that a stranger can't measure."""
    return dimension(amount.unit) == "vague" and amount.unit not in _MEASURABLE


def rank(amount: Quantity) -> int:
    """How exactly an amount says how much: vague 0, whole items 1, customary units 2, volume or mass 3."""
    if is_vague(amount):
        return 0
    if amount.unit == "":
        return 1
    return 3 if dimension(amount.unit) in ("volume", "mass") else 2


def unit_size(amount: Quantity) -> float:
    """The size of the amount's unit in milliliters, grams or millimeters; 0 where it has none."""
    known = units().get(amount.unit)
    return known.factor or 0.0 if known else 0.0


def agree(a: Quantity, b: Quantity) -> bool:
    """True where two amounts say the same within 1 %, in one unit or in units that convert."""
    low = _in_unit(b, b.low, a.unit)
    high = _in_unit(b, b.high, a.unit)
    if low is None or high is None:
        return False
    return low <= a.high * 1.01 and a.low <= high * 1.01


def restated(a: Quantity, b: Quantity) -> bool:
    """True where `b` says `a` again in a unit of another system, rounded: "175 grams which is 6 ounces"."""
    low = _in_unit(b, b.low, a.unit)
    return a.unit != b.unit and low is not None and abs(low - a.low) <= _ROUNDED * a.low


def comparable(a: Quantity, b: Quantity) -> bool:
    """True where two amounts are in one unit or in units that convert."""
    return _in_unit(b, b.low, a.unit) is not None


def similar(a: Quantity, b: Quantity, times: float) -> bool:
    """True where one amount is at most so many times the other, in one unit or in units that convert."""
    low = _in_unit(b, b.low, a.unit)
    return low is not None and min(a.low, low) > 0 and max(a.low, low) <= times * min(a.low, low)


def scaled(amount: Quantity, by: float) -> Quantity:
    """The amount times `by`."""
    return _with(amount, amount.low * by, amount.high * by)


def subtracted(amount: Quantity, parts: list[Quantity]) -> Quantity | None:
    """What is left of `amount` after `parts`; None where units don't convert or too little is left."""
    total = summed(parts)
    if total is None:
        return None
    low, high = _in_unit(total, total.high, amount.unit), _in_unit(total, total.low, amount.unit)
    if low is None or high is None or amount.low - low <= 0:
        return None
    return _with(amount, amount.low - low, amount.high - high)


def used_up(amount: Quantity, parts: list[Quantity]) -> bool:
    """True where the parts come to the amount or more."""
    total = summed(parts)
    return (
        total is not None
        and (high := _in_unit(total, total.high, amount.unit)) is not None
        and high >= amount.low * 0.99
    )


def summed(parts: list[Quantity]) -> Quantity | None:
    """The sum in the first part's unit; None where units don't convert."""
    first, *others = parts
    low, high = first.low, first.high
    for part in others:
        a, b = _in_unit(part, part.low, first.unit), _in_unit(part, part.high, first.unit)
        if a is None or b is None:
            return None
        low, high = low + a, high + b
    return _with(first, low, high)


def _in_unit(amount: Quantity, value: float, unit: str) -> float | None:
    if amount.unit == unit:
        return value
    try:
        return convert(value, amount.unit, unit)
    except UnitError:
        return None


def _with(amount: Quantity, low: float, high: float) -> Quantity:
    return Quantity(
        kind=amount.kind,
        start=amount.start,
        end=amount.end,
        low=round(low, 6),
        high=round(high, 6),
        unit=amount.unit,
        approximate=amount.approximate,
        said=amount.said,
        size=amount.size,
        fan=False,
        sides=(),
    )
