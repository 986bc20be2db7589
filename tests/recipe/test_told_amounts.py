"""Amounts as a cook tells them: shared units, two systems, added while talking, more of what was set out."""

import pytest

from .talking import drafted


def uses(talk: str, name: str) -> list[tuple[float, str] | None]:
    (ingredient,) = [one for one in drafted(talk).ingredients if one.name == name]
    return [(use.amount.low, use.amount.unit) if use.amount else None for use in ingredient.uses]


def test_a_unit_said_once_holds_for_the_next_food() -> None:
    talk = "does @s1| {action:add} {amount:three tablespoons} of {food:salt} and {amount:two} of {food:paprika}"
    assert uses(talk, "paprika") == [(2, "tablespoon")]


def test_the_same_amount_in_another_system_is_said_once() -> None:
    talk = """states| {food:butter} {amount:a hundred and seventy five grams} which is {amount:six ounces}
    does @s1| {action:melt} the {food:butter}"""
    assert uses(talk, "butter") == [(175, "gram")]


def test_what_was_set_out_goes_in_and_more_goes_in_later() -> None:
    talk = """states| i have {amount:two cups} of {food:stock}
    does @s1| {action:pour in} the {food:stock}
    does| {action:stir} in {amount:a teaspoon} of {food:salt}
    chat| my mother rings at this hour
    chat| every day the same
    chat| never mind
    does @s2| {action:add} {amount:one cup} of {food:stock}"""
    assert uses(talk, "stock") == [(2, "cup"), (1, "cup")]


def test_one_more_cup_comes_on_top_of_what_was_set_out() -> None:
    talk = """states| i have {amount:four cups} of {food:stock}
    does @s1| {action:simmer} the {food:onions}
    does @s2| {action:pour in} {amount:one more cup} of {food:stock}"""
    assert uses(talk, "stock") == [(4, "cup"), (1, "cup")]


def test_an_amount_told_while_adding_is_an_addition() -> None:
    talk = """does @s1| {action:stir in} {amount:a teaspoon} of {food:cumin}
    states| {amount:half a teaspoon} of {food:white pepper}
    does| {action:add} {amount:a pinch} of {food:salt}"""
    draft = drafted(talk)
    assert [use.step for one in draft.ingredients for use in one.uses] == ["s1", "s1", "s1"]


@pytest.mark.parametrize("clause", ["does| {action:cook} it thick like a {food:porridge}"])
def test_a_likeness_is_no_ingredient(clause: str) -> None:
    talk = f"does @s1| {{action:add}} {{amount:a cup}} of {{food:lentils}}\n{clause}"
    assert [one.name for one in drafted(talk).ingredients] == ["lentils"]


@pytest.mark.parametrize(
    ("said", "low", "high"),
    [
        ("it feeds six people or eight if they're polite", 6, 8),
        ("it feeds four people or two if my brother comes", 4, 4),
    ],
)
def test_a_yield_with_or(said: str, low: float, high: float) -> None:
    servings = drafted(f"states| {said}\ndoes @s1| {{action:stir}} the {{food:soup}}").servings
    assert servings is not None
    assert (servings.low, servings.high) == (low, high)
