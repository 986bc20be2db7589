"""The ingredients as a shopper and a cook read them: by component, in order of use, with divided amounts explained."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from stovescript.pages.markdown import plain_amount
from stovescript.pages.voice import packages_apart, sentence_case
from stovescript.pages.wording import counted_name
from stovescript.recipe.amounts import dimension
from stovescript.recipe.draft import Amount, Draft, Ingredient, Package, Use

_LAST = 10_000


@dataclass(frozen=True, slots=True)
class IngredientLine:
    """One line: "5 cups" · "chicken broth" · "4 cups in step 7, 1 cup in step 14".

    `amount` is "" where none was said or where only `divided` can tell it; `food` has the preparation with it.
    """

    id: str
    amount: str
    food: str
    divided: str
    at: tuple[float, ...] = ()

    @property
    def text(self) -> str:
        """The whole line."""
        text = " ".join(filter(None, (self.amount, self.food)))
        return f"{text}, divided: {self.divided}" if self.divided else text


@dataclass(frozen=True, slots=True)
class Component:
    """A part of the dish ("For the dressing"; "" where the dish has one) and its lines."""

    heading: str
    lines: tuple[IngredientLine, ...]


def components(draft: Draft) -> tuple[Component, ...]:
    """The ingredients by part of the dish; parts and lines in the order in which they are first used."""
    numbers = {step.id: number for number, step in enumerate(draft.steps, 1)}
    ordered = sorted(draft.ingredients, key=lambda each: _first(each, numbers))
    parts: dict[str | None, list[Ingredient]] = {}
    for ingredient in ordered:
        parts.setdefault(ingredient.component, []).append(ingredient)
    rest = "For the rest" if len(parts) > 1 else ""
    return tuple(
        Component(f"For the {part}" if part else rest, tuple(_line(each, numbers) for each in ingredients))
        for part, ingredients in parts.items()
    )


def measured(amount: Amount, package: Package | None = None) -> str:
    """An amount as it stands before its food: "2 (15-ounce) cans", "a good glug of"."""
    text = packages_apart(plain_amount(amount, package))
    return f"{text} of" if dimension(amount.unit) == "vague" and not text.endswith(" of") else text


def _first(ingredient: Ingredient, numbers: dict[str, int]) -> int:
    """The number of the step that uses it first; what no step uses comes last."""
    return min((numbers.get(use.step or "", _LAST) for use in ingredient.uses), default=_LAST)


def _line(ingredient: Ingredient, numbers: dict[str, int]) -> IngredientLine:
    at = tuple(dict.fromkeys(e.start for use in ingredient.uses for e in use.evidence))
    uses = ingredient.uses
    parted = len(uses) > 1 and any(use.amount for use in uses)
    whole = ingredient.total
    if whole is None or (parted and not all(use.amount for use in uses)):
        whole = None if parted else next((use.amount for use in uses if use.amount), None)
    amount = measured(whole, ingredient.package) if whole else ""
    name = counted_name(ingredient.name, whole.high) if whole and whole.unit == "" else ingredient.name
    states = [state.strip(" ,;.") for state in ingredient.preparation if state != "divided"]
    food = ", ".join([name, *states]) + (" (optional)" if ingredient.optional else "")
    divided = ", ".join(_divided(uses, ingredient.package, numbers)) if parted else ""
    if not amount:
        food = sentence_case(food)
    return IngredientLine(ingredient.id, sentence_case(amount), food, divided, at)


def _divided(uses: Iterable[Use], package: Package | None, numbers: dict[str, int]) -> Iterator[str]:
    """ "1 cup in step 2", "1/2 cup in step 5"; additions to one step together: "1 cup and 2 tablespoons in step 2"."""
    by_step: dict[int, list[str]] = {}
    for use in uses:
        text = packages_apart(plain_amount(use.amount, package)) if use.amount else "some"
        by_step.setdefault(numbers.get(use.step or "", 0), []).append(text)
    for number, texts in by_step.items():
        yield " and ".join(texts) + (f" in step {number}" if number else "")
