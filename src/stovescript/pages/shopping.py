"""The shopping list of one or many drafts: what to buy, for which of them, by sections of the shop."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stovescript.kitchen.foods import Food
from stovescript.kitchen.shop import section_of, sections
from stovescript.kitchen.words import wordlist
from stovescript.measure import UnitError, convert
from stovescript.pages.buying import Needed, Portion, merged
from stovescript.recipe.amounts import is_package, is_vague
from stovescript.recipe.draft import Amount, Draft, Ingredient
from stovescript.recipe.naming import name_food
from stovescript.speech.words import singular


@dataclass(frozen=True, slots=True)
class Dish:
    """A draft and the name under which the list speaks of it."""

    label: str
    draft: Draft


@dataclass(frozen=True, slots=True)
class Item:
    """One food to buy; `unsaid` are the dishes that don't say all of how much."""

    name: str
    section: str
    portions: tuple[Portion, ...]
    dishes: tuple[str, ...]
    unsaid: tuple[str, ...]
    optional: tuple[str, ...]
    """The dishes in which it is optional."""
    instead: tuple[str, ...]
    larger: tuple[str, ...]
    """The dishes that say two amounts, of which the larger is counted ..."""
    unsettled: tuple[str, ...]
    """... and those that also say an amount which the draft doesn't hold."""


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """The items in the order in which one walks a shop, and what needs no buying, with the reason."""

    dishes: tuple[Dish, ...]
    items: tuple[Item, ...]
    not_bought: tuple[tuple[str, str], ...]


def dishes_of(drafts: Sequence[tuple[str, Draft]]) -> tuple[Dish, ...]:
    """The drafts under their titles; where two have the same, or one has none, with the file's stem."""
    titles = Counter(draft.title for _, draft in drafts)
    labels = [
        draft.title if draft.title and titles[draft.title] == 1 else f"{draft.title} ({stem})" if draft.title else stem
        for stem, draft in drafts
    ]
    return tuple(Dish(label, draft) for label, (_, draft) in zip(labels, drafts, strict=True))


def shopping_list(dishes: Sequence[Dish]) -> ShoppingList:
    """What to buy for all the dishes together, each food once; the order of the dishes is of no account for it."""
    wanted: dict[str, list[tuple[Dish, Ingredient]]] = {}
    left: set[tuple[str, str]] = set()
    for dish in dishes:
        parts = {singular(i.component) for i in dish.draft.ingredients if i.component}
        for ingredient in dish.draft.ingredients:
            if why := _not_bought(ingredient, parts):
                left.add((ingredient.name, why))
            else:
                wanted.setdefault(_key(ingredient.name), []).append((dish, ingredient))
    order = [section.name for section in sections()]
    items = sorted(map(_item, wanted.values()), key=lambda item: (order.index(item.section), item.name))
    return ShoppingList(tuple(dishes), tuple(items), tuple(sorted(left)))


def _item(wanted: Sequence[tuple[Dish, Ingredient]]) -> Item:
    names = Counter(ingredient.name for _, ingredient in wanted)
    name = min(names, key=lambda each: (-names[each], each))
    amounts = {id(ingredient): list(_needed(dish, ingredient)) for dish, ingredient in wanted}
    said = [Needed(amount, size) for found in amounts.values() for amount, size in found if amount]
    words = set.intersection(*(_words(ingredient) for _, ingredient in wanted))
    packed = any(needed.amount.unit in wordlist("preserving_packages") for needed in said)
    return Item(
        name=name,
        section=section_of(_food(name), words, packed).name,
        portions=merged(name, said),
        dishes=_labels(dish for dish, _ in wanted),
        unsaid=_labels(dish for dish, i in wanted if any(amount is None for amount, _ in amounts[id(i)])),
        optional=_labels(dish for dish, ingredient in wanted if ingredient.optional),
        instead=tuple(sorted({other.name for _, i in wanted for other in i.alternatives} - {name})),
        larger=_labels(dish for dish, i in wanted if _disputes(dish.draft, i) and _both(i)),
        unsettled=_labels(dish for dish, i in wanted if _disputes(dish.draft, i) and not _both(i)),
    )


def _words(ingredient: Ingredient) -> set[str]:
    """The words and phrases said of it: its name's and those of its state ("frozen")."""
    return {word for text in (ingredient.name, *ingredient.preparation) for word in (text, *text.split())}


def _needed(dish: Dish, ingredient: Ingredient) -> Iterator[tuple[Amount | None, Amount | None]]:
    """The amounts to buy, and the sizes of packages; None for an amount that isn't said.

    What the cook says it comes to in all stands for additions of which one is not measured. Where she said two
    amounts and has not told which is right, the larger is taken.
    """
    disputes = _disputes(dish.draft, ingredient)
    size = ingredient.package.size if ingredient.package else None
    amounts = [use.amount for use in ingredient.uses]
    stated = ingredient.stated_total
    if "conflict" in disputes:
        amounts = [_larger_of(amount, ingredient.disagreements) for amount in amounts]
    elif whole := ingredient.total or stated:
        amounts = [whole]
    if "total_mismatch" in disputes and stated and ingredient.total and _larger(ingredient.total, stated) is stated:
        amounts = [stated]
    for amount in amounts:
        yield amount, size if amount and is_package(amount.unit) else None


def _disputes(draft: Draft, ingredient: Ingredient) -> set[str]:
    kinds = {gap.kind for gap in draft.gaps if gap.ingredient == ingredient.id}
    return {kind for kind in kinds if kind in ("conflict", "total_mismatch")}


def _both(ingredient: Ingredient) -> bool:
    """True where the draft holds both of the amounts that were said."""
    return bool(ingredient.disagreements or (ingredient.stated_total and ingredient.total))


def _larger_of(amount: Amount | None, pairs: Sequence[tuple[Amount, Amount]]) -> Amount | None:
    """The larger amount of a pair that was said for one use."""
    for pair in pairs:
        if amount and any((amount.high, amount.unit) == (each.high, each.unit) for each in pair):
            return _larger(*pair)
    return amount


def _larger(one: Amount, other: Amount) -> Amount:
    """The larger of two amounts; the first where they can't be compared."""
    try:
        high = other.high if one.unit == other.unit else convert(other.high, other.unit, one.unit)
    except UnitError:
        return one
    return other if high > one.high else one


def _not_bought(ingredient: Ingredient, parts: set[str]) -> str:
    """Why a shopper need not look for it; "" for what is bought."""
    named = name_food(ingredient.name)
    if named.key in wordlist("not_bought"):
        return "at home"
    if singular(ingredient.name) in parts:
        return "made in the recipe"
    made = named.food is not None and named.food.dish_like and named.key == named.food.name
    measured = any(use.amount and not is_vague(use.amount) for use in ingredient.uses)
    return "made in the recipe" if made and not measured else ""


def _key(name: str) -> str:
    """The same for every way of naming a food."""
    return name_food(name).key


def _food(name: str) -> Food | None:
    return name_food(name).food


def _labels(dishes: Iterator[Dish]) -> tuple[str, ...]:
    return tuple(sorted({dish.label for dish in dishes}))
