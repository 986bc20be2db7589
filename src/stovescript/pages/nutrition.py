"""An estimate of nutrition per serving, only where every ingredient can be counted; else what is missing for it."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from stovescript.kitchen.nutrients import nutrients
from stovescript.pages.servings import middle
from stovescript.pages.weights import Weighed, food_of, weigh
from stovescript.recipe.draft import Draft, Ingredient

_NEEDED = ("energy_kcal", "fat_g", "sodium_mg", "carbohydrate_g", "protein_g")
"""Without one of these a food can't be counted; the others are left out where a food lacks them."""


@dataclass(frozen=True, slots=True)
class Estimate:
    """Nutrients of one serving, unrounded ("sodium_mg" → 412.3), or the reasons why there is none."""

    per_serving: Mapping[str, float]
    missing: tuple[str, ...]
    left_out: tuple[str, ...]
    """Optional ingredients, which are not counted."""


def nutrition(draft: Draft) -> Estimate:
    """The estimate: every ingredient that is not optional, as weighed out, with nothing lost in cooking."""
    counted = [ingredient for ingredient in draft.ingredients if not ingredient.optional]
    optional = tuple(ingredient.name for ingredient in draft.ingredients if ingredient.optional)
    missing = [] if draft.servings and draft.servings.unit in ("", "serving") else ["how many it serves is not said"]
    if not counted:
        missing.append("there are no ingredients")
    sums: dict[str, float] = {}
    absent: set[str] = set()
    for ingredient in counted:
        parts, why = _parts(ingredient)
        if why:
            missing.append(f"{ingredient.name} ({why})")
        for grams, values in parts:
            absent |= _LINES.keys() - values.keys()
            for name, per_100 in values.items():
                sums[name] = sums.get(name, 0.0) + per_100 * grams / 100
    number = middle(draft.servings) if draft.servings else 0.0
    if missing or number <= 0:
        return Estimate({}, tuple(missing) or ("how many it serves is not said",), optional)
    return Estimate({n: sums.get(n, 0.0) / number for n in _LINES if n not in absent}, (), optional)


def nutrition_lines(draft: Draft) -> list[str]:
    """The estimate in lines for a page, rounded as a label is, and marked as an estimate."""
    estimate = nutrition(draft)
    if estimate.missing:
        return [f"No estimate, as something can't be counted: {'; '.join(estimate.missing)}."]
    lines = [f"{_LINES[name][0]}: {_LINES[name][1](value)}" for name, value in estimate.per_serving.items()]
    counted = (
        "An estimate for one serving, from USDA SR28 values of the ingredients as weighed out; no laboratory figure."
    )
    if estimate.left_out:
        counted += f" Not counted, being optional: {', '.join(estimate.left_out)}."
    return [*lines, counted]


def _parts(ingredient: Ingredient) -> tuple[list[tuple[float, Mapping[str, float]]], str | None]:
    """Grams and nutrients per 100 g of each use; or why they can't be counted."""
    food = food_of(ingredient.name)
    values = nutrients().get(food.ndb_no) if food and food.ndb_no else None
    if any(use.amount is None for use in ingredient.uses) or not ingredient.uses:
        return [], "an amount is not said"
    if values is None or any(name not in values for name in _NEEDED):
        return [], "no nutrients are known for it"
    weights = list(_weights(ingredient))
    if any(weight is None for weight in weights):
        return [], "no weight is known for its amount, or its kind isn't said"
    return [(weight.middle, values) for weight in weights if weight], None


def _weights(ingredient: Ingredient) -> Iterator[Weighed | None]:
    for use in ingredient.uses:
        yield weigh(ingredient.name, use.amount, ingredient.package) if use.amount else None


# Rounding of 21 CFR 101.9(c), from memory: calories (c)(1), fats (c)(2), cholesterol (c)(3), sodium (c)(4),
# carbohydrate and its kinds (c)(6), protein (c)(7).


def calories(value: float) -> str:
    """To 5 up to and including 50, then to 10; less than 5 is 0."""
    return "0" if value < 5 else f"{_near(value, 5 if value <= 50 else 10):g}"


def fat(value: float) -> str:
    """Grams to 0.5 below 5, then to 1; less than 0.5 is 0."""
    return "0 g" if value < 0.5 else f"{_near(value, 0.5 if value < 5 else 1):g} g"


def cholesterol(value: float) -> str:
    """Milligrams to 5; less than 2 is 0, from 2 to 5 "less than 5 mg"."""
    return "0 mg" if value < 2 else "less than 5 mg" if value <= 5 else f"{_near(value, 5):g} mg"


def sodium(value: float) -> str:
    """Milligrams to 5 from 5 to 140, to 10 above; less than 5 is 0."""
    return "0 mg" if value < 5 else f"{_near(value, 5 if value <= 140 else 10):g} mg"


def grams(value: float) -> str:
    """Carbohydrate, fiber, sugars, protein: grams to 1; less than 0.5 is 0, less than 1 "less than 1 g"."""
    return "0 g" if value < 0.5 else "less than 1 g" if value < 1 else f"{_near(value, 1):g} g"


def _near(value: float, step: float) -> float:
    """The nearest multiple, halves up."""
    return int(value / step + 0.5) * step


_LINES: Mapping[str, tuple[str, Callable[[float], str]]] = {
    "energy_kcal": ("Calories", calories),
    "fat_g": ("Total fat", fat),
    "saturated_fat_g": ("Saturated fat", fat),
    "trans_fat_g": ("Trans fat", fat),
    "cholesterol_mg": ("Cholesterol", cholesterol),
    "sodium_mg": ("Sodium", sodium),
    "carbohydrate_g": ("Total carbohydrate", grams),
    "fiber_g": ("Dietary fiber", grams),
    "sugars_g": ("Total sugars", grams),
    "protein_g": ("Protein", grams),
}
