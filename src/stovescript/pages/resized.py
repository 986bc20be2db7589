"""One ingredient in another size: each amount in measures one owns, and what does not come out even."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from stovescript.kitchen.sizing import has_role
from stovescript.kitchen.units import units
from stovescript.measure import UnitError, convert, to_text
from stovescript.measure.text import number_text
from stovescript.pages.markdown import plain_amount
from stovescript.pages.rounding import MOST_OFF, rounded
from stovescript.pages.unit_systems import System, told, told_package
from stovescript.pages.weights import food_of, weigh
from stovescript.pages.wording import counted_name
from stovescript.recipe.amounts import is_package, is_vague
from stovescript.recipe.draft import Alternative, Amount, Ingredient

SAME = 1e-9
"""A factor this near to 1 changes nothing."""

Kind = Literal["size", "units", "whole", "rounding", "fill", "mind", "text"]


@dataclass(frozen=True, slots=True)
class Change:
    """One thing to tell the reader about the variant."""

    kind: Kind
    text: str


@dataclass(frozen=True, slots=True)
class Sized:
    """One amount resized: what it is now, its exact value in that unit, and what to tell."""

    before: Amount
    after: Amount
    exact: float
    why: str | None
    basis: str | None

    @property
    def off(self) -> float:
        return self.after.high / self.exact - 1 if self.exact else 0.0


@dataclass(frozen=True, slots=True)
class Resized:
    """One ingredient before and after, with the amounts that took each other's place."""

    before: Ingredient
    after: Ingredient
    amounts: tuple[Sized, ...]
    changes: tuple[Change, ...]

    @classmethod
    def of(cls, ingredient: Ingredient, factor: float, system: System | None) -> "Resized":
        """The ingredient resized; every use is rounded by itself, and the total is what the uses come to."""

        def sized(amount: Amount) -> Sized:
            return sized_amount(ingredient, amount, factor, system)

        uses = [(use, sized(use.amount) if use.amount else None) for use in ingredient.uses]
        amounts = [each for _, each in uses if each]
        total = _total(ingredient, amounts, sized)
        package = told_package(ingredient.package, system) if system else ingredient.package
        if package:
            package = package.model_copy(update={"count": round(package.count * factor, 6)})
        count = total.after if total else amounts[0].after if amounts else None
        counted = count is not None and count.unit == "" and bool(amounts) and amounts[0].after != amounts[0].before
        after = ingredient.model_copy(
            update={
                "name": counted_name(ingredient.name, count.high) if counted and count else ingredient.name,
                "package": package,
                "uses": [use.model_copy(update={"amount": each.after if each else None}) for use, each in uses],
                "total": total.after if total else None,
                "stated_total": sized(ingredient.stated_total).after if ingredient.stated_total else None,
                "disagreements": [(sized(a).after, sized(b).after) for a, b in ingredient.disagreements],
                "alternatives": [_alternative(other, factor, system) for other in ingredient.alternatives],
            }
        )
        every = [*amounts, *([total] if total and len(amounts) > 1 else [])]
        return cls(ingredient, after, tuple(every), tuple(_changes(after, every, factor)))


def _alternative(other: Alternative, factor: float, system: System | None) -> Alternative:
    if other.amount is None:
        return other
    as_food = Ingredient.model_construct(name=other.name, package=None)
    return other.model_copy(update={"amount": sized_amount(as_food, other.amount, factor, system).after})


def _total(ingredient: Ingredient, uses: list[Sized], sized: Callable[[Amount], Sized]) -> Sized | None:
    """What the rounded uses come to, in measures one owns; the exact total rounded where they don't add up."""
    total = ingredient.total
    if total is None:
        return None
    whole = sized(total)
    if len(uses) == 1 and uses[0].before == total:
        return uses[0]
    if not uses or whole.after == total or whole.after.unit == "":
        return whole
    try:
        low, high = (
            sum(convert(getattr(use.after, end), use.after.unit, whole.after.unit) for use in uses)
            for end in ("low", "high")
        )
    except UnitError:
        return whole
    if low != high or abs(high / whole.exact - 1) > 2 * MOST_OFF:  # a stated total that the uses don't reach
        return whole
    near = rounded(high, whole.after.unit)
    exact = convert(whole.exact, whole.after.unit, near.unit)
    after = whole.after.model_copy(update={"low": near.value, "high": near.value, "unit": near.unit})
    return Sized(total, after, exact, whole.why, whole.basis)


def _changes(ingredient: Ingredient, amounts: list[Sized], factor: float) -> Iterator[Change]:
    """What does not divide, and where rounding is more than 5 % off, each told once."""
    seen: set[str] = set()
    for each in amounts:
        for change in (_whole(ingredient, each), _off(ingredient, each)):
            if change and change.text not in seen:
                seen.add(change.text)
                yield change
    if abs(factor - 1) >= SAME and not ingredient.uses[:1]:
        return
    if abs(factor - 1) >= SAME and any(use.amount is None for use in ingredient.uses):
        yield Change(
            "size", f"{ingredient.name}: no amount was said for one use, so there is nothing to change there."
        )


def _whole(ingredient: Ingredient, each: Sized) -> Change | None:
    """Eggs and packages that come out in parts."""
    amount = each.after
    if amount == each.before or all(abs(v - round(v)) < 1e-6 for v in (amount.low, amount.high)):
        return None
    food = food_of(ingredient.name)
    text = plain_amount(amount, ingredient.package)
    if is_package(amount.unit):
        return Change(
            "whole",
            f"{ingredient.name}: {text}. A {amount.unit} does not divide: open {math.ceil(amount.high)}, measure "
            f"what is asked for and keep the rest cold, or choose a size at which it comes out whole.",
        )
    if amount.unit == "" and food and has_role(food, "whole"):
        return Change(
            "whole",
            f"{ingredient.name}: {text} does not divide in the shell: beat {math.ceil(amount.high)} and use "
            f"{number_text(round(amount.high / math.ceil(amount.high), 3))} of it{_grams(ingredient, amount)}, or "
            f"choose a size at which it comes out whole.",
        )
    return None


def _grams(ingredient: Ingredient, amount: Amount) -> str:
    weight = weigh(ingredient.name, amount)
    if weight is None or weight.food is None:
        return ""
    return f" (about {weight.high:.0f} g, at {weight.food.g_per_each:g} g for one {weight.food.each})"


def _off(ingredient: Ingredient, each: Sized) -> Change | None:
    """More than 5 % off, or less than the smallest spoon."""
    amount = each.after
    if amount == each.before:
        return None
    text = plain_amount(amount, ingredient.package)
    if abs(each.off) > MOST_OFF + 1e-6:
        exact = to_text(each.exact, unit=amount.unit)
        return Change(
            "rounding",
            f"{ingredient.name}: {text} is {abs(each.off):.0%} {'more' if each.off > 0 else 'less'} than the exact "
            f"{exact}, as no measure comes nearer.",
        )
    if amount.unit == "teaspoon" and amount.high < 0.125 - 1e-9:
        return Change(
            "rounding", f"{ingredient.name}: {text} is less than the smallest spoon; a pinch is about 1/16 teaspoon."
        )
    if amount.unit == "gram" and amount.high < 10 and amount.high % 1 > 1e-6:
        return Change("rounding", f"{ingredient.name}: {text} asks for a fine scale.")
    return None


def sized_amount(ingredient: Ingredient, amount: Amount, factor: float, system: System | None) -> Sized:
    """The amount times the factor, in the system, in measures one owns."""
    if is_vague(amount) and amount.unit not in units():
        return Sized(amount, amount, amount.high, "said by eye", None)
    exact = amount.model_copy(update={"low": amount.low * factor, "high": amount.high * factor})
    other = told(ingredient.name, exact, ingredient.package, system) if system else None
    if other:
        exact = other.amount
    why, basis = (other.why, other.basis) if other else (None, None)
    if abs(factor - 1) < SAME and exact.unit == amount.unit:
        return Sized(amount, amount, amount.high, why, basis)
    if exact.low == exact.high:
        one = rounded(exact.high, exact.unit)
        low = high = one.value
        unit = one.unit
    else:
        low, high, unit = _range(exact)
    exact_high = exact.high if unit == exact.unit else convert(exact.high, exact.unit, unit)
    after = exact.model_copy(update={"low": low, "high": high, "unit": unit, "said": ""})
    return Sized(amount, after, exact_high, why, basis)


def _range(exact: Amount) -> tuple[float, float, str]:
    """Both ends in the unit of the lower one."""
    low = rounded(exact.low, exact.unit, plain=True)
    high = rounded(exact.high, exact.unit, plain=True)
    if low.value <= 0:
        return low.value, high.value if high.unit == low.unit else exact.high, exact.unit
    if high.unit == low.unit:
        return low.value, high.value, low.unit
    return low.value, round(convert(high.value, high.unit, low.unit), 6), low.unit
