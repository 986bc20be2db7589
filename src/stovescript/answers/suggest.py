"""Answers to offer for a question, the likeliest first: only what arithmetic, the talk or a table gives."""

from collections.abc import Callable

from stovescript.answers.said import NotUnderstood
from stovescript.answers.totals import total_of
from stovescript.answers.understood import check_answer
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.safety import safe_minimum
from stovescript.kitchen.substitutions import instead_of
from stovescript.measure import UnitError, convert, find_quantities, to_text
from stovescript.pages.markdown import plain_amount
from stovescript.recipe.draft import Amount, Draft, Gap, Ingredient, Use


def suggestion(gap: Gap, draft: Draft) -> list[str]:
    """Answers that can be offered to the question as they stand; none where nothing gives one."""
    make = _BY_KIND.get(gap.kind)
    offered: list[str] = []
    for text in make(gap, draft) if make else []:
        try:
            check_answer(gap.kind, text, gap.about)
        except NotUnderstood:
            continue
        if text not in offered:
            offered.append(text)
    return offered


def _unmeasured(gap: Gap, draft: Draft) -> list[str]:
    """What the stated total leaves for the one addition that was not measured."""
    ingredient = _ingredient(gap, draft)
    if ingredient is None or ingredient.stated_total is None:
        return []
    bare = [use for use in ingredient.uses if use.amount is None]
    rest = _rest(ingredient.stated_total, [use for use in ingredient.uses if use.amount])
    return [rest] if rest and len(bare) == 1 else []


def _rest(total: Amount, uses: list[Use]) -> str | None:
    left = total.low
    for use in uses:
        value = _in_unit(use.amount, total.unit) if use.amount and use.amount.low == use.amount.high else None
        if value is None:
            return None
        left -= value
    return to_text(round(left, 6), unit=total.unit) if left > 1e-6 else None


def _conflict(gap: Gap, draft: Draft) -> list[str]:
    """The amounts that the question names, the later first: it is the one that corrects."""
    said = [one for one in find_quantities(gap.question.lower().split()) if one.kind in ("amount", "package", "count")]
    return [to_text(one) for one in reversed(said)]


def _total(gap: Gap, draft: Draft) -> list[str]:
    """What the uses add up to, and the ways in which each use in turn makes up what the stated total has more."""
    ingredient = _ingredient(gap, draft)
    total = total_of(ingredient) if ingredient else None
    if ingredient is None or total is None or ingredient.stated_total is None:
        return []
    more = _in_unit(ingredient.stated_total, total.unit)
    offered = [] if "in all, but" in gap.question else [plain_amount(total)]
    for n in reversed(range(len(ingredient.uses))):
        parts = [_shifted(use.amount, total, more if k == n else None) for k, use in enumerate(ingredient.uses)]
        if all(parts):
            offered.append(", then ".join(part for part in parts if part))
    return offered


def _shifted(amount: Amount | None, total: Amount, more: float | None) -> str | None:
    """An amount, or what it must be for the total to become `more`."""
    if amount is None or amount.low != amount.high:
        return None
    if more is None:
        return plain_amount(amount)
    own = _in_unit(amount, total.unit)
    new = own + more - total.low if own is not None else 0.0
    return to_text(round(new, 6), unit=total.unit) if new > 1e-6 else None


def _scale(gap: Gap, draft: Draft) -> list[str]:
    for step in draft.steps:
        for setting in step.settings:
            heat = setting.temperature
            if heat and not heat.unit_said and (setting.appliance or "oven") == gap.about:
                return ["Fahrenheit", "Celsius"] if heat.unit == "F" else ["Celsius", "Fahrenheit"]
    return []


def _inside(gap: Gap, draft: Draft) -> list[str]:
    """The published safe minimum for the food."""
    ingredient = _ingredient(gap, draft)
    food = food_named(ingredient.name) if ingredient else None
    least = safe_minimum(food.name, food.category) if food else None
    return [f"{least.fahrenheit:g} F"] if least and least.fahrenheit else []


def _instead(gap: Gap, draft: Draft) -> list[str]:
    """What the substitution table gives for the amount in the recipe."""
    ingredient = _ingredient(gap, draft)
    total = total_of(ingredient) if ingredient else None
    food, other = (food_named(ingredient.name) if ingredient else None), food_named(gap.about)
    if total is None or food is None or other is None:
        return []
    offered = []
    for row in instead_of(food.name):
        own = _in_unit(total, row.instead_unit) if row.have == other.name else None
        if own is not None:
            offered.append(to_text(round(own / row.instead_amount * row.have_amount, 3), unit=row.have_unit))
    return offered


def _size(gap: Gap, draft: Draft) -> list[str]:
    """The size that another package of this dish has."""
    ingredient = _ingredient(gap, draft)
    if ingredient is None:
        return []
    unit = next((use.amount.unit for use in ingredient.uses if use.amount), "")
    return [
        plain_amount(one.package.size)
        for one in draft.ingredients
        if one.package and one.package.size and any(use.amount and use.amount.unit == unit for use in one.uses)
    ]


_CERTAIN = frozenset({"unmeasured", "temperature_unit", "safety", "alternative_unmeasured"})
"""Questions to which one answer follows by arithmetic, from what was assumed, or from a published table."""


def default(gap: Gap, draft: Draft) -> str | None:
    """The answer that may stand unless she gives another; None where she has to choose or to say it."""
    offered = suggestion(gap, draft) if gap.kind in _CERTAIN else []
    return offered[0] if offered else None


_BY_KIND: dict[str, Callable[[Gap, Draft], list[str]]] = {
    "unmeasured": _unmeasured,
    "conflict": _conflict,
    "total_mismatch": _total,
    "temperature_unit": _scale,
    "safety": _inside,
    "alternative_unmeasured": _instead,
    "no_size": _size,
    "no_release": lambda gap, draft: ["quick", "natural", "natural for 10 minutes"],
}


def _ingredient(gap: Gap, draft: Draft) -> Ingredient | None:
    return next((one for one in draft.ingredients if one.id == gap.ingredient), None)


def _in_unit(amount: Amount, unit: str) -> float | None:
    if amount.unit == unit:
        return amount.low
    try:
        return convert(amount.low, amount.unit, unit)
    except UnitError:
        return None
