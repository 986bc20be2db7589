"""Units that are not said again: "three tablespoons of salt and two of paprika", "garlic five"."""

from collections.abc import Sequence
from dataclasses import replace

from stovescript.kitchen.foods import food_categories, food_named
from stovescript.measure import Quantity
from stovescript.recipe.amounts import SPOONS, dimension
from stovescript.recipe.binding import corrects
from stovescript.speech.heard import Heard, Mention
from stovescript.speech.words import singular

_WITHIN = 8  # tokens over which a unit said once holds for the next number too
_ONLY_METRIC = 20  # a bare number from here on is grams or milliliters where those stand beside it
_CLOVES = 3  # so many of garlic are cloves, where no unit is said (common practice)
_MEASURED = ("volume", "mass")


def with_units(heard: Heard, amounts: Sequence[Mention], foods: Sequence[Mention]) -> list[Mention]:
    """The amounts, bare numbers with the unit that is meant, in order of the talk."""
    result = list(amounts)
    for place, mention in enumerate(amounts):
        quantity = mention.quantity
        if quantity is None or quantity.unit or quantity.kind not in ("count", "number"):
            continue
        before = result[place - 1] if place and mention.start - result[place - 1].end <= _WITHIN else None
        after = amounts[place + 1] if place + 1 < len(amounts) else None
        unit = _meant(heard, mention, quantity, before, after, foods)
        if unit:
            result[place] = replace(mention, quantity=replace(quantity, unit=unit, kind="amount"))
    return result


def _meant(
    heard: Heard,
    mention: Mention,
    quantity: Quantity,
    before: Mention | None,
    after: Mention | None,
    foods: Sequence[Mention],
) -> str:
    """The unit of a bare number, or "" for a count of whole things."""
    said = before.quantity.unit if before and before.quantity else ""
    if quantity.low >= _ONLY_METRIC:
        near = after.quantity.unit if after and after.quantity and after.start - mention.end <= _WITHIN else ""
        return next((unit for unit in (said, near) if unit in ("gram", "milliliter")), "")
    if any(food.start == mention.end + 1 and heard.tokens[mention.end] == "of" for food in foods):
        return said if dimension(said) in _MEASURED else ""
    if any(0 <= food.start - mention.end <= 1 for food in foods):
        return ""
    if before and said and corrects(heard.tokens[before.end : mention.start]):
        return said
    if heard.tokens[mention.end : mention.end + 1] in (("is",), ("was",)):
        return ""  # "two is my old one"
    owner = next((food for food in foods if 0 <= mention.start - food.end <= 1), None)
    if owner and _in_cloves(owner) and quantity.low >= _CLOVES:
        return "clove"
    return said if owner and _is_uncounted(owner) and dimension(said) in _MEASURED else ""


def _is_uncounted(food: Mention) -> bool:
    """True for a food that nobody counts: a sauce, a ground spice."""
    known, last = food_named(food.text), food.text.split()[-1]
    spooned = known is not None and known.usual_unit in SPOONS and not food_categories()[known.category]
    return spooned and singular(last) == last


def _in_cloves(food: Mention) -> bool:
    known = food_named(food.text)
    return known is not None and known.usual_unit == "clove"
