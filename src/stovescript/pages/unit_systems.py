"""Tells amounts, temperatures and lengths in another system: metric, us, or everything by weight."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal, get_args

from stovescript.kitchen.appliances import by_name
from stovescript.kitchen.sizing import has_role
from stovescript.kitchen.units import units
from stovescript.measure import Quantity, UnitError, convert
from stovescript.measure.text import number_text
from stovescript.pages.markdown import temperature_text
from stovescript.pages.pans import Pan
from stovescript.pages.weights import food_of, weigh
from stovescript.recipe.amounts import dimension
from stovescript.recipe.draft import Amount, Package, Setting, Temperature

System = Literal["metric", "us", "weight"]
SYSTEMS: tuple[System, ...] = get_args(System)

_SPOONS = frozenset({"teaspoon", "tablespoon", "metric teaspoon", "metric tablespoon"})
_MOST_SPOONS = 4.0 - 1e-6  # from here on a spoon is no longer what one measures with
_LEAST_OUNCES = 0.25
_BASE: Mapping[tuple[str, str], str] = {
    ("metric", "volume"): "milliliter",
    ("metric", "mass"): "gram",
    ("us", "volume"): "cup",
    ("us", "mass"): "ounce",
}


@dataclass(frozen=True, slots=True)
class Told:
    """An amount in another system; `why` tells why it stayed as it was, `basis` what a weight rests on."""

    amount: Amount
    why: str | None = None
    basis: str | None = None


def told(name: str, amount: Amount, package: Package | None, system: System) -> Told:
    """The amount in the system, exact. What already is of the system, or has no such measure, stays."""
    if system == "weight":
        return _weighed(name, amount, package)
    kind = dimension(amount.unit)
    if (system, kind) not in _BASE or units()[amount.unit].factor is None:
        return Told(amount)
    own = units()[amount.unit].system
    if own == system or (amount.unit in _SPOONS and convert(amount.high, amount.unit, "tablespoon") < _MOST_SPOONS):
        return Told(amount)
    unit = _BASE[system, kind]
    if unit == "ounce" and convert(amount.high, amount.unit, "ounce") < _LEAST_OUNCES:
        return Told(amount, "less than a quarter of an ounce is better weighed in grams")
    return Told(_converted(amount, unit))


def told_package(package: Package | None, system: System) -> Package | None:
    """The size on a package in the system, to 5 g or ml, or to half an ounce."""
    if package is None or package.size is None:
        return package
    wanted = "us" if system == "us" else "metric"
    size = package.size
    kind = dimension(size.unit)
    if (wanted, kind) not in _BASE or units()[size.unit].system == wanted:
        return package
    unit = {"cup": "fluid ounce"}.get(_BASE[wanted, kind], _BASE[wanted, kind])
    step = 0.5 if wanted == "us" else 5.0
    exact = _converted(size, unit)
    low, high = (max(round(value / step) * step, step) for value in (exact.low, exact.high))
    return package.model_copy(update={"size": exact.model_copy(update={"low": low, "high": high})})


def told_setting(setting: Setting, system: System) -> Setting:
    """The setting with its temperature on the system's scale; an oven's is rounded as its dial is."""
    if setting.temperature is None:
        return setting
    appliance = by_name().get(setting.appliance or "")
    dial = appliance is not None and appliance.fahrenheit is not None
    return setting.model_copy(update={"temperature": told_temperature(setting.temperature, system, dial=dial)})


def told_temperature(temperature: Temperature, system: System, *, dial: bool) -> Temperature:
    """The temperature in °C (metric) or °F (us); never told cooler than it is by a degree, except on a dial.

    On a dial the nearest 10 °C or 25 °F is taken where it is less than 5 °C or 7 °F away, else 5 degrees.
    """
    scale: Literal["C", "F"] = "C" if system == "metric" else "F"
    if system == "weight" or temperature.unit == scale:
        return temperature
    try:
        exact = [convert(value, temperature.unit, scale) for value in (temperature.low, temperature.high)]
    except UnitError:
        return temperature
    low, high = (_on_dial(value, scale) if dial else float(math.ceil(value - 0.3)) for value in exact)
    return temperature.model_copy(update={"low": low, "high": high, "unit": scale})


def length_text(quantity: Quantity, system: System) -> str | None:
    """A length or shape in the system's words; None where it is of the system, has no unit, or isn't one."""
    if quantity.kind != "dimension" or system == "weight" or dimension(quantity.unit) != "length":
        return None
    if units()[quantity.unit].system == ("metric" if system == "metric" else "us"):
        return None
    unit = "centimeter" if system == "metric" else "inch"
    sides = quantity.sides or tuple(dict.fromkeys((quantity.low, quantity.high)))
    new = [_neat_length(convert(side, quantity.unit, unit)) for side in sides]
    joint = " by " if quantity.sides else " to "
    name = units()[unit].name if max(new) <= 1 and not quantity.sides else units()[unit].plural
    return f"{'about ' if quantity.approximate else ''}{joint.join(map(number_text, new))} {name}"


def temperature_words(temperature: Temperature) -> str:
    """ "180 °C"."""
    return temperature_text(temperature.low, temperature.high, temperature.unit)


def told_pan(pan: Pan, system: System) -> Pan:
    """The pan in whole centimeters or quarters of an inch."""
    if system == "weight" or pan.metric == (system == "metric"):
        return pan
    step = 1 / 2.54 if system == "metric" else 0.25
    sides = tuple(max(round(side / step), 1) * step for side in pan.sides)
    depth = max(round(pan.depth / step), 1) * step if pan.depth else None
    return replace(pan, sides=sides, depth=depth, metric=system == "metric")


def _weighed(name: str, amount: Amount, package: Package | None) -> Told:
    kind = dimension(amount.unit)
    food = food_of(name)
    if kind == "package":
        return Told(amount)
    if kind == "vague":
        return Told(amount, f"a {amount.unit} has no weight")
    if kind not in ("volume", "mass") and food and has_role(food, "kept whole"):
        return Told(amount, "counted even where the rest is weighed")
    weight = weigh(name, amount, package)
    if weight is None:
        return Told(amount, "its kind isn't said, or no weight is known for it")
    exact = amount.model_copy(update={"low": weight.low, "high": weight.high, "unit": "gram", "said": ""})
    return Told(exact, basis=None if kind == "mass" else weight.basis)


def _converted(amount: Amount, unit: str) -> Amount:
    low, high = (convert(value, amount.unit, unit) for value in (amount.low, amount.high))
    return amount.model_copy(update={"low": low, "high": high, "unit": unit, "said": ""})


def _on_dial(value: float, scale: str) -> float:
    coarse, within = (10.0, 5.0) if scale == "C" else (25.0, 7.0)
    near = round(value / coarse) * coarse
    return near if abs(near - value) < within else round(value / 5.0) * 5.0


def _neat_length(value: float) -> float:
    """Whole, half, quarter or a tenth: the coarsest within 5 %."""
    for step in (1.0, 0.5, 0.25):
        near = round(value / step) * step
        if near and abs(near / value - 1) <= 0.05:
            return near
    return round(value, 1) or value
