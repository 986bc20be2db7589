"""Questions about ingredients: never measured, vaguely measured, never used, or measured two ways."""

from collections.abc import Iterator

from stovescript.gaps.registry import Question, check
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import UnitError, convert, to_text
from stovescript.recipe.amounts import is_package, is_vague
from stovescript.recipe.binding import bind
from stovescript.recipe.draft import Alternative, Amount, Draft, Ingredient, Use
from stovescript.recipe.evidence import as_amount, clause_heard
from stovescript.recipe.naming import name_food, same_food
from stovescript.speech.heard import Heard
from stovescript.speech.words import singular


def _loose(ingredient: Ingredient) -> bool:
    food = food_named(ingredient.name)
    return bool(food and food.loose)


def _to_taste(use: Use) -> bool:
    text = " ".join(evidence.text.lower() for evidence in use.evidence)
    return any(phrase in text for phrase in wordlist("to_taste"))


def _where(ingredient: Ingredient, use: Use, number: int) -> str:
    if len(ingredient.uses) == 1:
        return ""
    return f" the {('first', 'second', 'third', 'fourth', 'fifth')[min(number, 4)]} time it goes in"


@check
def unmeasured(draft: Draft, heard: Heard) -> Iterator[Question]:
    """An ingredient that goes in and is never measured."""
    for ingredient in draft.ingredients:
        for number, use in enumerate(ingredient.uses):
            if use.amount is not None or use.step is None or _to_taste(use):
                continue
            yield Question(
                "unmeasured",
                "should" if _loose(ingredient) or ingredient.optional else "must",
                ingredient.name,
                f"How much {ingredient.name} goes in{_where(ingredient, use, number)}?",
                use.evidence,
                ingredient=ingredient.id,
                step=use.step,
            )


@check
def vague(draft: Draft, heard: Heard) -> Iterator[Question]:
    """An ingredient with an amount that a stranger can't measure."""
    for ingredient in draft.ingredients:
        for use in ingredient.uses:
            if use.amount is None or not is_vague(use.amount) or _to_taste(use):
                continue
            yield Question(
                "vague",
                "should",
                ingredient.name,
                f"You said “{use.amount.said}” of {ingredient.name}. About how much is that in spoons, cups or grams?",
                use.evidence,
                ingredient=ingredient.id,
                step=use.step,
            )


@check
def unused(draft: Draft, heard: Heard) -> Iterator[Question]:
    """An ingredient that is set out and never goes in."""
    for ingredient in draft.ingredients:
        if all(use.step is None for use in ingredient.uses) and not _named_later(ingredient, heard):
            yield Question(
                "unused",
                "must",
                ingredient.name,
                f"You set out {ingredient.name}, but it was not heard going in. When is it used, or is it not?",
                ingredient.uses[0].evidence,
                ingredient=ingredient.id,
            )


_LATER = 12.0  # seconds after a food is set out from which another mention is one of its use


def _named_later(ingredient: Ingredient, heard: Heard) -> bool:
    """True where the food is spoken of again after it was set out, as something in the dish."""
    last = max((evidence.end for use in ingredient.uses for evidence in use.evidence), default=0.0)
    return any(
        clause.intent in ("does", "announce", "tip")
        and heard.talk.words[clause.start].start > last + _LATER
        and any(_same_name(mention.text, ingredient.name) for mention in clause.labelled("food"))
        for clause in heard.clauses
    )


def _same_name(a: str, b: str) -> bool:
    one, two = name_food(a), name_food(b)
    return one.key == two.key or same_food(one.said, two.said) or same_food(two.said, one.said)


@check
def conflict(draft: Draft, heard: Heard) -> Iterator[Question]:
    """Two different amounts for one use."""
    for ingredient in draft.ingredients:
        for a, b in ingredient.disagreements:
            yield Question(
                "conflict",
                "must",
                ingredient.name,
                f"You said both {_print(a)} and {_print(b)} of {ingredient.name}. Which is right?",
                [evidence for use in ingredient.uses for evidence in use.evidence],
                ingredient=ingredient.id,
            )


@check
def recap_conflict(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A recap that gives another amount than the one that went in."""
    for number, clause in enumerate(heard.clauses):
        if clause.intent != "announce":
            continue
        amounts = [m for m in clause.labelled("amount") if m.quantity and m.quantity.unit]
        for pair in bind(heard, amounts, clause.labelled("food")):
            quantity = pair.amount.quantity
            ingredient = next((i for i in draft.ingredients if _same_name(pair.food.text, i.name)), None)
            if quantity is None or ingredient is None or ingredient.disagreements:
                continue
            said = as_amount(quantity)
            known = [use.amount for use in ingredient.uses] + [ingredient.total]
            measured = [amount for amount in known if amount and amount.unit == said.unit]
            first = ingredient.uses[0].evidence[0].start
            if first < heard.talk.words[clause.start].start and measured and not any(_same(a, said) for a in measured):
                question = (
                    f"You said {_print(measured[0])} of {ingredient.name}, and {_print(said)} later. Which is right?"
                )
                evidence = [ingredient.uses[0].evidence[0], clause_heard(heard, number)]
                yield Question("conflict", "must", ingredient.name, question, evidence, ingredient=ingredient.id)


@check
def total_mismatch(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A stated total that the uses don't add up to."""
    for ingredient in draft.ingredients:
        stated, total = ingredient.stated_total, ingredient.total
        if stated is None or total is None or len(ingredient.uses) < 2 or _same(stated, total):
            continue
        sum_said = to_text(total.low, total.high, total.unit)
        yield Question(
            "total_mismatch",
            "must",
            ingredient.name,
            f"The {ingredient.name} adds up to {sum_said}, but you said {_print(stated)}. Which is right?",
            [evidence for use in ingredient.uses for evidence in use.evidence],
            ingredient=ingredient.id,
        )


@check
def package_size(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A can, packet or jar whose size was not said."""
    for ingredient in draft.ingredients:
        units = {use.amount.unit for use in ingredient.uses if use.amount and is_package(use.amount.unit)}
        if units and not (ingredient.package and ingredient.package.size):
            unit = sorted(units)[0]
            yield Question(
                "no_size",
                "must",
                ingredient.name,
                f"What size is the {unit} of {ingredient.name}?",
                ingredient.uses[0].evidence,
                ingredient=ingredient.id,
            )


@check
def alternative_unmeasured(draft: Draft, heard: Heard) -> Iterator[Question]:
    """An alternative without an amount of its own; of a word that no table knows, nothing is asked."""
    for ingredient in draft.ingredients:
        for alternative in ingredient.alternatives:
            told = alternative.amount is not None or alternative.note is not None
            if not told and name_food(alternative.name).food and not _like_for_like(alternative, ingredient):
                yield Question(
                    "alternative_unmeasured",
                    "could",
                    alternative.name,
                    f"If someone uses {alternative.name} instead of {ingredient.name}, how much should they use?",
                    alternative.evidence,
                    ingredient=ingredient.id,
                )


_STRONG = frozenset({"sauce", "syrup", "condiment", "paste", "spice", "spice blend"})
"""Categories whose foods differ in strength, so that one for another is no even swap."""


def _like_for_like(alternative: Alternative, ingredient: Ingredient) -> bool:
    """True where one food of a kind stands for another in the same form, which needs no amount of its own."""
    said = " ".join(evidence.text.lower() for evidence in alternative.evidence)
    if phrases("other_amount").search(said):
        return False
    forms = wordlist("forms")
    if set(alternative.name.split()) & forms != set(ingredient.name.split()) & forms:
        return False
    one, two = food_named(alternative.name), food_named(ingredient.name)
    if one and two and one.category == two.category:
        return one.category not in _STRONG or one.name == two.name
    greens = one and two and {one.category, two.category} == {"vegetable", "leafy green"}
    head = alternative.name.split()[-1]
    return bool(greens) or (head not in forms and singular(head) == singular(ingredient.name.split()[-1]))


def _print(amount: Amount) -> str:
    return amount.said or f"{amount.low:g} {amount.unit}".strip()


def _same(a: Amount, b: Amount) -> bool:
    try:
        low, high = convert(b.low, b.unit, a.unit), convert(b.high, b.unit, a.unit)
    except UnitError:
        if a.unit != b.unit:
            return False
        low, high = b.low, b.high
    return low <= a.high * 1.02 and a.low <= high * 1.02
