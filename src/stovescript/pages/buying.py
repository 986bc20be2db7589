"""What to buy of one food: its amounts from many places added up, in measures that a shopper reads."""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from stovescript.kitchen.shop import bought_whole
from stovescript.kitchen.units import units
from stovescript.kitchen.words import wordlist
from stovescript.measure import UnitError, convert
from stovescript.measure.text import number_text
from stovescript.pages.markdown import plain_amount
from stovescript.pages.rounding import rounded
from stovescript.pages.voice import packages_apart
from stovescript.pages.weights import food_of, weigh
from stovescript.recipe.amounts import dimension
from stovescript.recipe.draft import Amount, Package

_BASE = {"volume": "milliliter", "mass": "gram", "length": "millimeter"}
_LADDERS = {
    ("us", "volume"): ("cup", "tablespoon", "teaspoon"),
    ("us", "mass"): ("pound", "ounce"),
    ("metric", "volume"): ("liter", "milliliter"),
    ("metric", "mass"): ("kilogram", "gram"),
}
"""The units in which a sum of several units is told, the largest that fits first."""
_LEAST = {"cup": 0.25}  # four tablespoons are a quarter cup; of the other units, one
_ORDER = ("package", "", "count", "mass", "volume", "length")
_ANY_MEASURE = "part"
_EXACT = 1e-6
_SHORT = 0.01
"""What rounding may leave short: 1 %."""
_NEARLY = 0.25
"""A quarter of an onion more than what is bought is no reason to buy another."""


@dataclass(frozen=True, slots=True)
class Needed:
    """An amount that a recipe asks for; `size` is what is in each package of it. Of a range the high end counts."""

    amount: Amount
    size: Amount | None = None
    turned: bool = False
    """It was a volume and is told as a weight, or the other way round, by the food's weight per cup."""


@dataclass(frozen=True, slots=True)
class Portion:
    """A sum in one unit; `ranged` where the high end of a range went in.

    `turned` where volumes and weights went in, one turned into the other by the food's weight per cup.
    """

    value: float
    unit: str
    size: Amount | None = None
    approximate: bool = False
    ranged: bool = False
    turned: bool = False

    @property
    def bought(self) -> float:
        """The value, in whole things where it counts them: two cans for a can and a half."""
        return math.ceil(self.value - _EXACT) if self.is_counted else self.value

    @property
    def is_counted(self) -> bool:
        return dimension(self.unit) in ("", "count", "package") and self.unit != _ANY_MEASURE

    @property
    def amount(self) -> Amount:
        return Amount(low=self.value, high=self.value, unit=self.unit, approximate=self.approximate, said="")


def merged(name: str, needed: Iterable[Needed]) -> tuple[Portion, ...]:
    """The sums of what is needed of a food, the same in whatever order: one of volume, one of mass, one a count.

    Where there are volume and mass, and the foods table knows what a cup of it weighs, both go into that of the
    two in which most is told.
    """
    everything = list(needed)
    kinds = {dimension(each.amount.unit) for each in everything}
    per_ml = grams_per_milliliter(name) if {"volume", "mass"} <= kinds else None
    if per_ml is not None:
        volume, mass = (_total(kind, [each.amount for each in everything]) for kind in ("volume", "mass"))
        to = "volume" if volume * per_ml > mass else "mass"
        everything = [_turned(each, to, per_ml) for each in everything]
    groups: defaultdict[tuple[str, str, float], list[Needed]] = defaultdict(list)
    for each in everything:
        groups[_group(each)].append(each)
    return tuple(sorted(map(_sum, groups.values()), key=_order))


def grams_per_milliliter(name: str) -> float | None:
    """The weight of a milliliter of a food, by its weight per cup; None where no table gives it."""
    weight = weigh(name, Amount(low=1, high=1, unit="cup", approximate=False, said=""))
    return weight.middle / convert(1, "cup", "milliliter") if weight else None


def portion_text(portion: Portion) -> str:
    """ "2 (15-ounce) cans", "about 1 1/2 pounds", "3 (2 1/2 used)", "1 can (size not said)"."""
    if portion.unit in wordlist("to_taste"):
        return portion.unit
    value, unit = (portion.bought, portion.unit) if portion.is_counted else _not_short(portion)
    amount = portion.amount.model_copy(update={"low": value, "high": value, "unit": unit})
    notes = []
    if dimension(portion.unit) == "package" and portion.size is None:
        notes.append("size not said")
    if portion.bought - portion.value > _EXACT:
        notes.append(f"{number_text(portion.value)} used")
    text = packages_apart(plain_amount(amount, Package(count=value, size=portion.size) if portion.size else None))
    return f"{text} ({', '.join(notes)})" if notes else text


def whole_text(name: str, portions: Sequence[Portion]) -> str:
    """ "about 2 limes" for 3 tablespoons of lime juice, "about 2 medium" for 1 1/2 cups of onion; else ""."""
    food = food_of(name)
    part = bought_whole().get(food.name) if food else None
    if part:
        shares = [_in_unit(portion, part.unit) for portion in portions]
        number = _whole(math.fsum(value for value in shares if value is not None) / part.amount)
        several = units()[part.whole].plural if part.whole in units() else f"{part.whole}s"
        return f"about {number} {part.whole if number == 1 else several}" if any(shares) else ""
    if food is None or food.usual_unit or not food.g_per_each or "volume" not in {dimension(p.unit) for p in portions}:
        return ""
    weights = [weigh(name, portion.amount) for portion in portions]
    if not all(weights):
        return ""
    return f"about {_whole(math.fsum(weight.high for weight in weights if weight) / food.g_per_each)} {food.each}"


def _whole(number: float) -> int:
    return max(math.ceil(number - _NEARLY), 1)


def _turned(each: Needed, to: str, per_ml: float) -> Needed:
    """A volume as a mass or a mass as a volume; anything else as it is."""
    kind = dimension(each.amount.unit)
    if kind == to or kind not in ("volume", "mass"):
        return each
    by = per_ml if to == "mass" else 1 / per_ml
    low, high = (convert(value, each.amount.unit, _BASE[kind]) * by for value in (each.amount.low, each.amount.high))
    new = each.amount.model_copy(update={"low": low, "high": high, "unit": _BASE[to], "approximate": True})
    return replace(each, amount=new, turned=True)


def _total(kind: str, amounts: Iterable[Amount]) -> float:
    """The sum of the high ends of one kind in its base unit; fsum is exact, so that the order is of no account."""
    base = _BASE[kind]
    return math.fsum(convert(amount.high, amount.unit, base) for amount in amounts if dimension(amount.unit) == kind)


def _group(each: Needed) -> tuple[str, str, float]:
    """Amounts of one group add up: all volumes, all masses, or all of one unit and one size."""
    unit, size = each.amount.unit, each.size
    if dimension(unit) in _BASE:
        return dimension(unit), "", 0.0
    return (unit, size.unit, size.high) if size else (unit, "", 0.0)


def _sum(group: Sequence[Needed]) -> Portion:
    amounts = [each.amount for each in group]
    value, unit = _added(amounts, [each.amount for each in group if not each.turned])
    return Portion(
        value,
        unit,
        next((_plainly(each.size) for each in group if each.size), None),
        approximate=any(amount.approximate for amount in amounts),
        ranged=any(amount.low != amount.high for amount in amounts),
        turned=any(each.turned for each in group),
    )


def _plainly(size: Amount) -> Amount:
    """The size as every draft would say it, so that one group has one."""
    return Amount(low=size.high, high=size.high, unit=size.unit, approximate=False, said="")


def _added(amounts: Sequence[Amount], said: Sequence[Amount]) -> tuple[float, str]:
    """The sum of the high ends, and its unit."""
    if len({amount.unit for amount in amounts}) == 1:
        return math.fsum(amount.high for amount in amounts), amounts[0].unit
    kind = dimension(amounts[0].unit)
    total = _total(kind, amounts)
    unit = _unit(kind, total, said)
    return convert(total, _BASE[kind], unit), unit


def _unit(kind: str, total: float, said: Sequence[Amount]) -> str:
    """The unit in which all of it is said; else one of the system in which most is said."""
    names = sorted({amount.unit for amount in said}, key=lambda name: (units()[name].factor or 0.0, name))
    if len(names) == 1:
        return names[0]
    shares: defaultdict[str, list[float]] = defaultdict(list)
    for amount in said:
        shares[units()[amount.unit].system].append(convert(amount.high, amount.unit, _BASE[kind]))
    system = max(sorted(shares), key=lambda name: math.fsum(shares[name]))
    ladder = _LADDERS.get((system, kind), (names[-1],))
    return next((u for u in ladder if convert(total, _BASE[kind], u) >= _LEAST.get(u, 1.0) - _EXACT), ladder[-1])


def _not_short(portion: Portion) -> tuple[float, str]:
    """The simplest measure that leaves no more than 1 % short."""
    for more in (1.0, 1.02, 1.05, 1.1):
        near = rounded(portion.value * more, portion.unit)
        if (1 + near.off) * more >= 1 - _SHORT:
            return near.value, near.unit
    return portion.value, portion.unit


def _in_unit(portion: Portion, unit: str) -> float | None:
    try:
        return portion.value if portion.unit == unit else convert(portion.value, portion.unit, unit)
    except UnitError:
        return None


def _order(portion: Portion) -> tuple[int, str, float]:
    kind = dimension(portion.unit)
    rank = _ORDER.index(kind) if kind in _ORDER else len(_ORDER)
    return rank, portion.unit, portion.size.high if portion.size else 0.0
