"""The weight of an amount of a food, by the weights per cup, spoon and item of the foods table."""

import re
from dataclasses import dataclass

from stovescript.kitchen.foods import Food, food_categories
from stovescript.kitchen.sizing import role_foods
from stovescript.kitchen.units import units
from stovescript.measure import convert
from stovescript.recipe.amounts import dimension
from stovescript.recipe.draft import Amount, Package
from stovescript.recipe.naming import name_food

_ONE_OF_IT = frozenset({"piece", "fillet", "head", "ear"})
"""Units of one item that are often left unsaid: two cod fillets, one cauliflower."""
_CUP_IS = re.compile(r"cup is '([^']*)'")


@dataclass(frozen=True, slots=True)
class Weighed:
    """Grams of an amount, and on what they rest, to be read after "weighed by"; `food` is None for plain mass."""

    low: float
    high: float
    basis: str
    food: Food | None

    @property
    def middle(self) -> float:
        """Grams to reckon with."""
        return (self.low + self.high) / 2


def food_of(name: str) -> Food | None:
    """The food of an ingredient's name, where the name is one of its own; never a guess by its last word."""
    named = name_food(name)
    return named.food if named.food and named.key == named.food.name else None


def weigh(name: str, amount: Amount, package: Package | None = None) -> Weighed | None:
    """The weight of an amount; None where no table gives it.

    A mass is its own weight, a package weighs what is printed on it. Where the kind decides and is not said
    (salt, yeast), a spoonful has no weight.
    """
    if dimension(amount.unit) == "mass":
        return _times(amount, convert(1.0, amount.unit, "gram"), "the scale", None)
    food = food_of(name)
    size = package.size if package else None
    if dimension(amount.unit) == "package" and size is not None:
        each = weigh(name, size)
        return _times(amount, each.middle, f"the size of the {amount.unit}", food) if each else None
    if food is None or name.lower().strip() in role_foods("kind not said"):
        return None
    per = _grams_per(food, amount.unit)
    return None if per is None else _times(amount, per[0], per[1], food)


def _grams_per(food: Food, unit: str) -> tuple[float, str] | None:
    own = {"cup": food.g_per_cup, "tablespoon": food.g_per_tablespoon, "teaspoon": food.g_per_teaspoon}
    if unit in own:
        grams = own[unit]
        return None if grams is None else (grams, f"a {_measure(food) if unit == 'cup' else unit} of {grams:g} g")
    if dimension(unit) == "volume":
        if food.g_per_cup is None:
            return None
        return food.g_per_cup * convert(1.0, unit, "cup"), f"a {_measure(food)} of {food.g_per_cup:g} g"
    if food.g_per_each is None or not _one_is(food, unit):
        return None
    return food.g_per_each, f"one ({food.each}) of {food.g_per_each:g} g"


def _measure(food: Food) -> str:
    """ "cup, diced": the measure that the source weighed."""
    found = _CUP_IS.search(food.source)
    return found[1] if found else "cup"


def _one_is(food: Food, unit: str) -> bool:
    """True where the weight of one item is the weight of one `unit` ("" for a whole item)."""
    words = set(re.findall(r"[a-z]+", food.each.lower()))
    if unit:
        return unit in words and unit != "can"
    if food.usual_unit == "":
        return True
    parts = {word for word in words if word in units() and units()[word].dimension in ("count", "package")}
    return food_categories()[food.category] and parts <= _ONE_OF_IT


def _times(amount: Amount, grams: float, basis: str, food: Food | None) -> Weighed:
    return Weighed(amount.low * grams, amount.high * grams, basis, food)
