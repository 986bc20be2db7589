"""What a change of size asks the cook to mind: fill limits, and what does not grow with the amounts."""

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from stovescript.kitchen.foods import Food
from stovescript.kitchen.sizing import FillLimit, ScalingCaution, fill_limits, has_role, scaling_cautions
from stovescript.kitchen.units import unit_called
from stovescript.measure import convert, find_quantities, to_text
from stovescript.pages.weights import food_of, weigh
from stovescript.recipe.amounts import dimension
from stovescript.recipe.draft import Amount, Draft, Ingredient, Step

_QUART_ML = 946.352946
_SHARES = {Fraction(1, 2): "half", Fraction(2, 3): "two thirds", Fraction(3, 4): "three quarters"}
_DENSE = 1.0  # grams per milliliter where no cup is known: most foods are near water
_PRESSURE = "pressure cook"


def what_to_mind(draft: Draft, factor: float) -> list[str]:
    """The cautions of the table that the draft calls for, in the table's order, each once."""
    foods = [food for ingredient in draft.ingredients if (food := food_of(ingredient.name))]
    direction = "up" if factor > 1 else "down"
    return list(
        dict.fromkeys(
            caution.text
            for caution in scaling_cautions()
            if caution.when in ("any", direction) and _called_for(caution, draft, foods)
        )
    )


def fill_notes(draft: Draft) -> list[str]:
    """How full each appliance gets with the draft's amounts, where it has a limit."""
    return [note for limit in fill_limits() for note in _fill(limit, draft)]


def _called_for(caution: ScalingCaution, draft: Draft, foods: list[Food]) -> bool:
    if caution.kind == "word":
        return any(_pattern(caution.match).search(step.text.lower()) for step in draft.steps)
    if caution.kind == "role":
        return any(has_role(food, role) for role in caution.match for food in foods)
    if caution.kind == "category":
        return any(food.category in caution.match for food in foods)
    if caution.kind == "component":
        return any(i.component and _pattern(caution.match).search(i.component.lower()) for i in draft.ingredients)
    if caution.kind == "program":
        return any(s.program in caution.match for step in draft.steps for s in step.settings)
    return any(appliance in caution.match for appliance in _appliances(draft))


def _pattern(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(r"\b(?:" + "|".join(map(re.escape, words)) + ")")


def _appliances(draft: Draft) -> Iterator[str]:
    for step in draft.steps:
        yield from (setting.appliance for setting in step.settings if setting.appliance)
    yield from (each.name for each in draft.equipment)


def _fill(limit: FillLimit, draft: Draft) -> Iterator[str]:
    inside = list(_inside(limit.appliance, draft))
    if not inside:
        return
    parts = [(ingredient, amount, _milliliters(ingredient, amount)) for ingredient, amount in inside]
    filled = sum(volume for _, _, volume in parts if volume)
    swelling = any((food := food_of(i.name)) and has_role(food, "swelling") for i, _, _ in parts)
    share = limit.share_swelling if swelling else limit.share
    capacity = _capacity(limit.appliance, draft)
    words = limit.text.format(share=_SHARES.get(share, str(share)))
    if swelling and share != limit.share:
        words += f" It is {_SHARES[share]} here because of beans, grains or other foods that foam or swell."
    counted = f"What goes in comes to about {_quarts(filled)}"
    if uncounted := [i.name for i, _, volume in parts if volume is None]:
        counted += f" (not counted, as no volume is known: {', '.join(dict.fromkeys(uncounted))})"
    needed = filled / float(share)
    if capacity:
        full = filled / capacity
        verdict = f"the {_quarts(capacity)} {limit.appliance} would be {full:.0%} full"
        too_full = full > float(share)
        remedy = ": TOO FULL, make it in batches or in a larger pot" if too_full else ""
        yield f"{words} {counted}; {verdict}{remedy}."
    else:
        usual = f"a usual one of {_quarts(limit.usual_ml)}"
        fits = f"more than {usual} takes: make it in batches" if needed > limit.usual_ml else f"{usual} will do"
        yield f"{words} {counted}; that asks for one of at least {_quarts(needed)} ({fits}). Its size isn't said."


def _inside(appliance: str, draft: Draft) -> Iterator[tuple[Ingredient, Amount]]:
    """Every measured addition from the appliance's first step to its last under pressure, or its last of all."""
    numbers = [n for n, step in enumerate(draft.steps) if any(s.appliance == appliance for s in step.settings)]
    if not numbers:
        return
    pressed = [n for n in numbers if any(s.program == _PRESSURE for s in draft.steps[n].settings)]
    steps = {
        step.id
        for step in draft.steps[numbers[0] : (pressed or numbers)[-1] + 1]
        if not _elsewhere(step, appliance)
    }  # fmt: skip
    for ingredient in draft.ingredients:
        for use in ingredient.uses:
            if use.amount and use.step in steps:
                yield ingredient, use.amount


def _elsewhere(step: Step, appliance: str) -> bool:
    used = {setting.appliance for setting in step.settings if setting.appliance}
    return bool(used) and appliance not in used


def _milliliters(ingredient: Ingredient, amount: Amount) -> float | None:
    """The volume of an amount at most, in milliliters; a weight counts by its cup, else as water."""
    if dimension(amount.unit) == "volume":
        return convert(amount.high, amount.unit, "milliliter")
    weighed = weigh(ingredient.name, amount, ingredient.package)
    if weighed is None:
        return None
    cup = weighed.food.g_per_cup if weighed.food else None
    packed = ingredient.package is not None
    return weighed.high / (cup / 236.5882365 if cup and not packed else _DENSE)


def _capacity(appliance: str, draft: Draft) -> float | None:
    """What the draft's appliance holds, in milliliters, where its size is said."""
    for each in draft.equipment:
        if each.size and appliance.split()[0] in each.name:
            for quantity in find_quantities(each.size.lower().split()):
                unit = unit_called(quantity.unit) if quantity.unit else None
                if unit and unit.dimension == "volume" and unit.factor:
                    return quantity.high * unit.factor
    return None


def _quarts(milliliters: float) -> str:
    quarts = max(round(milliliters / _QUART_ML * 4) / 4, 0.25)
    liters = max(round(milliliters / 1000, 1), 0.1)
    return f"{to_text(quarts, unit='quart')} ({liters:g} liter{'s' if liters > 1 else ''})"


def joined(items: Iterable[str]) -> str:
    """ "a, b and c"."""
    *most, last = items
    return f"{', '.join(most)} and {last}" if most else last
