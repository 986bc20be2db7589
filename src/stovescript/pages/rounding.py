"""Rounds an amount to measures that a kitchen owns, and writes it as a sum of them: "3/4 cup plus 1 tablespoon"."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from stovescript.kitchen.measures import owned
from stovescript.kitchen.units import units
from stovescript.measure import convert, to_text

MOST_OFF = 0.05
"""What rounding may change without a word: 5 %."""
EXACT = 1e-6
_FINE, _FAIR = 0.01, 0.025
_TSP = {"teaspoon": 1.0, "tablespoon": 3.0, "cup": 48.0}
"""Teaspoons in each; US customary, exact."""
_LADDER_UNITS = frozenset({*_TSP, "fluid ounce", "gill", "pint", "quart", "gallon"})
_SMALLEST_CUP = 12.0  # teaspoons: 4 tablespoons are 1/4 cup
_LARGE = {"gram": "kilogram", "milliliter": "liter"}
_METRIC_BASE = {
    "gram": "gram",
    "kilogram": "gram",
    "milligram": "gram",
    "milliliter": "milliliter",
    "centiliter": "milliliter",
    "deciliter": "milliliter",
    "liter": "milliliter",
}
_TENTHS = (0.5, 0.1)
_PARTS = (1.0, 1 / 2, 1 / 3, 1 / 4, 1 / 8)
"""Steps in which whole things and other measures are divided, coarsest first."""


@dataclass(frozen=True, slots=True)
class Rounded:
    """A value in measures that one owns; `off` is the share by which it is more (or less, below 0) than exact."""

    value: float
    unit: str
    off: float

    @property
    def close(self) -> bool:
        """True within 5 % of the exact amount."""
        return abs(self.off) <= MOST_OFF + EXACT


@lru_cache(maxsize=4096)
def rounded(value: float, unit: str, *, plain: bool = False) -> Rounded:
    """The nearest simple measure: within 1 % the simplest there is, else 2.5 %, else 5 %, else the nearest.

    US volumes go up and down through teaspoon, tablespoon and cup; metric ones in steps of 25, 10, 5 and 1;
    pounds and ounces in quarters. `plain` leaves out sums, as for the ends of a range. A unit without such
    measures, or a whole thing, is rounded in its own parts.
    """
    if value <= 0:
        return Rounded(value, unit, 0.0)
    if unit in _LADDER_UNITS:
        return _us_volume(value, unit, plain)
    if unit in _METRIC_BASE:
        return _metric(value, unit)
    if unit in ("pound", "ounce"):
        return _us_mass(value, unit, plain)
    return _in_parts(value, unit, _PARTS)


def measures_text(value: float, unit: str) -> str | None:
    """The value as a sum of two measures one owns; None where one measure says it or two can't.

    ``measures_text(0.8125, "cup")`` is "3/4 cup plus 1 tablespoon".
    """
    if unit in ("tablespoon", "cup"):
        spoons = value * _TSP[unit]
        if any(abs(spoons - each) < EXACT for each in _single(spoons)):
            return None
        for large, small, small_unit in sorted(_sums(spoons), key=_readable):
            if abs(large + small - spoons) < EXACT:
                return f"{_volume_text(large, unit)} plus {_volume_text(small, small_unit)}"
    if unit == "pound" and value > 1 and not _whole(value * 4) and _whole(value * 16):
        whole = math.floor(value)
        return f"{to_text(whole, unit='pound')} plus {to_text(round((value - whole) * 16), unit='ounce')}"
    return None


def _us_volume(value: float, unit: str, plain: bool) -> Rounded:
    if unit not in _TSP:
        own = _nearest(value, (round(value * 2) / 2, round(value)))
        if own > 0 and abs(own / value - 1) <= _FINE:
            return Rounded(own, unit, own / value - 1)
    exact = convert(value, unit, "teaspoon")
    if exact < owned()["teaspoon"][0] * (1 - MOST_OFF):
        return _smallest(exact)
    single = [each for each in _single(exact) if each > 0]
    pairs = [] if plain else [(large + small, unit) for large, small, unit in _sums(exact) if small]
    coarse = [total for total, small in pairs if small != "teaspoon"]
    fine = [total for total, _ in pairs]
    eighths = [round(exact * 8) / 8] if exact < _TSP["tablespoon"] else []
    found = _choose(exact, ((single, _FINE), (coarse, _FINE), (eighths, _FINE), (single, _FAIR), (eighths, _FAIR),
                            (coarse, _FAIR), (fine, _FINE), (single, MOST_OFF), (eighths, MOST_OFF),
                            (coarse, MOST_OFF), (fine, MOST_OFF)))  # fmt: skip
    best = "cup" if found >= _SMALLEST_CUP - EXACT else "tablespoon" if found >= 3 - EXACT else "teaspoon"
    return Rounded(found / _TSP[best], best, found / exact - 1)


def _smallest(exact: float) -> Rounded:
    """Less than the smallest spoon: sixteenths of a teaspoon, or as it is below that."""
    near = round(exact * 16) / 16
    value = near if near and abs(near / exact - 1) <= MOST_OFF else exact
    return Rounded(value, "teaspoon", value / exact - 1)


def _single(spoons: float) -> Iterator[float]:
    """Amounts near `spoons` (teaspoons) that one measure, used once or several times, gives."""
    for unit, low, high in (("teaspoon", 0.0, 3.0), ("tablespoon", 3.0, 12.0), ("cup", 12.0, math.inf)):
        size = _TSP[unit]
        whole = math.floor(spoons / size)
        for part in (0.0, *_singly(unit)):
            each = (whole + part) * size
            if low - EXACT <= each < high - EXACT or (unit == "cup" and abs(each - 12.0) < EXACT):
                yield each
    yield _SMALLEST_CUP
    yield _TSP["tablespoon"]


def _singly(unit: str) -> tuple[float, ...]:
    """Parts of a unit that are said in one breath: 3/4 teaspoon is three of 1/4, but no 3/8."""
    parts = owned()[unit]
    return (*parts, 0.75) if unit == "teaspoon" else parts


def _sums(spoons: float) -> Iterator[tuple[float, float, str]]:
    """Pairs of measures near `spoons`: the larger and the smaller in teaspoons, and the smaller's unit.

    Cups go with up to 3 tablespoons or with teaspoons, tablespoons with teaspoons.
    """
    if spoons >= _SMALLEST_CUP:
        whole = math.floor(spoons / 48)
        bases = sorted({(whole + part) * 48 for part in (0.0, *owned()["cup"])}, reverse=True)
        for base in (b for b in bases if _SMALLEST_CUP <= b <= spoons + EXACT):
            for half_spoons in range(1, 8):
                yield base, half_spoons * 1.5, "tablespoon"
            for quarters in range(1, 12):
                yield base, quarters / 4, "teaspoon"
    elif spoons >= _TSP["tablespoon"]:
        whole = math.floor(spoons / 3)
        for quarters in range(1, 12):
            yield whole * 3.0, quarters / 4, "teaspoon"


def _readable(pair: tuple[float, float, str]) -> tuple[bool, bool, float]:
    """Whole tablespoons first, then halves, then teaspoons; of these the largest first measure."""
    large, small, unit = pair
    return unit == "teaspoon", not _whole(small / _TSP[unit]), -large


def _volume_text(spoons: float, unit: str) -> str:
    return to_text(spoons / _TSP[unit], unit=unit)


def _metric(value: float, unit: str) -> Rounded:
    """Steps of 25, 10, 5 or 1; below 10 halves and tenths, as a fine scale or a spoon gives them."""
    base = _METRIC_BASE[unit]
    factor = (units()[unit].factor or 1.0) / (units()[base].factor or 1.0)
    exact = value * factor
    steps = (*reversed(owned()[base]), *(_TENTHS if exact < 10 else ()))
    found = _in_steps(exact, steps) if exact >= 0.1 else exact
    if unit == base and found >= 1000 and unit in _LARGE:
        return Rounded(found / 1000, _LARGE[unit], found / exact - 1)
    if unit != base and found < 1000 and unit == _LARGE.get(base) and value >= EXACT and found % 250:
        return Rounded(found, base, found / exact - 1)
    return Rounded(found / factor, unit, found / exact - 1)


def _us_mass(value: float, unit: str, plain: bool) -> Rounded:
    ounces = convert(value, unit, "ounce")
    if ounces < 16 - EXACT:
        found = _in_steps(ounces, tuple(reversed(owned()["ounce"])))
        if unit == "ounce" and found >= 16:
            return Rounded(found / 16, "pound", found / ounces - 1)
        return Rounded(found, "ounce", found / ounces - 1) if unit == "ounce" else _part_of_pound(ounces, found)
    pounds = ounces / 16
    quarters = round(pounds * 4) / 4
    whole = round(ounces) / 16
    found = quarters if plain or abs(quarters / pounds - 1) <= _FINE else whole
    return Rounded(found, "pound", found / pounds - 1)


def _part_of_pound(ounces: float, found: float) -> Rounded:
    """Half a pound stays half a pound; what is no quarter of a pound is told in ounces."""
    quarter = round(ounces / 4) / 4
    if quarter and abs(quarter * 16 / ounces - 1) <= _FINE:
        return Rounded(quarter, "pound", quarter * 16 / ounces - 1)
    return Rounded(found, "ounce", found / ounces - 1)


def _in_parts(value: float, unit: str, steps: Iterable[float]) -> Rounded:
    """Whole things, cloves, pinches: as they are in halves to eighths, else in those, never more than 5 % off."""
    for step, most in (*((step, EXACT) for step in steps), *((step, MOST_OFF) for step in steps)):
        found = round(value / step) * step
        if found and abs(found / value - 1) <= most:
            return Rounded(round(found, 9), unit, found / value - 1)
    return Rounded(value, unit, 0.0)


def _in_steps(exact: float, steps: tuple[float, ...]) -> float:
    """The multiple of the coarsest step that is within 1 %, 2.5 % or 5 %; of the finest step where none is."""
    multiples = [(round(exact / step) * step, step) for step in steps]
    for most in (_FINE, _FAIR, MOST_OFF):
        for found, _ in multiples:
            if found and abs(found / exact - 1) <= most:
                return round(found, 6)
    finest = multiples[-1][0]
    return round(finest, 6) if finest else exact


def _choose(exact: float, ladders: Iterable[tuple[list[float], float]]) -> float:
    """The first ladder's nearest value within that ladder's share of `exact`; else the nearest of all."""
    everything: list[float] = []
    for values, most in ladders:
        if values:
            near = _nearest(exact, values)
            if near > 0 and abs(near / exact - 1) <= most + EXACT:
                return near
            everything += values
    return _nearest(exact, [value for value in everything if value > 0])


def _nearest(exact: float, values: Iterable[float]) -> float:
    return min(values, key=lambda value: abs(value - exact))


def _whole(value: float) -> bool:
    return abs(value - round(value)) < EXACT
