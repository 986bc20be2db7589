"""Turns a value of one unit into another unit of the same dimension."""

from functools import cache
from itertools import pairwise

from stovescript.errors import StovescriptError
from stovescript.kitchen.units import Unit, unit_called


class UnitError(StovescriptError):
    """The unit is unknown, has no exact size, or measures something else."""


def convert(value: float, unit: str, to: str) -> float:
    """``value`` of ``unit`` told in the unit ``to``; both by name or as they are said ("tbsp", "litres").

    Works inside one of volume, mass, length, time and temperature; a gas mark is read from the oven table,
    in between by a straight line. Raises UnitError for anything else: a volume is no weight without a food.
    """
    one, other = _known(unit), _known(to)
    if one.dimension != other.dimension:
        raise UnitError(f"{one.name} is a {one.dimension} and {other.name} a {other.dimension}: they do not convert.")
    if one.dimension == "temperature":
        return _from_fahrenheit(_to_fahrenheit(value, one.name), other.name)
    if one.factor is None or other.factor is None:
        vague = one.name if one.factor is None else other.name
        raise UnitError(f"A {vague} has no exact size, so {value:g} {one.name} does not convert to {other.name}.")
    if one is other:
        return value
    return value * one.factor / other.factor


def _known(unit: str) -> Unit:
    found = unit_called(unit)
    if found is None:
        raise UnitError(f'"{unit}" is no unit of the table units.csv; add a row there or write it in full.')
    return found


def _to_fahrenheit(value: float, scale: str) -> float:
    if scale == "F":
        return value
    if scale == "C":
        return value * 9 / 5 + 32
    return _between(value, list(oven_marks()))


def _from_fahrenheit(value: float, scale: str) -> float:
    if scale == "F":
        return value
    if scale == "C":
        return (value - 32) * 5 / 9
    return _between(value, [(heat, mark) for mark, heat in oven_marks()])


@cache
def oven_marks() -> tuple[tuple[float, float], ...]:
    """Gas mark and its degrees Fahrenheit, rising (common practice)."""
    from stovescript.kitchen.tables import rows  # late: importing the grammar stays quick

    return tuple((float(row["mark"]), float(row["fahrenheit"])) for row in rows("oven_marks"))


def _between(x: float, points: list[tuple[float, float]]) -> float:
    """The value at ``x`` on the line through the two points around it. Raises UnitError outside them all."""
    for (left, low), (right, high) in pairwise(points):
        if left <= x <= right:
            return low + (x - left) * (high - low) / (right - left)
    raise UnitError(f"{x:g} lies outside the oven marks, which go from {points[0][0]:g} to {points[-1][0]:g}.")
