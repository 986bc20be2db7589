"""Foods that are named and don't go in: not used, another dish, chat; what could stand in; what may be left out."""

import pytest

from stovescript.recipe.draft import Draft

from .talking import amount_text, drafted, ingredient, measured


def set_aside(draft: Draft) -> dict[str, str]:
    return {one.name: one.why for one in draft.set_aside}


COOKED = """does| {action:add} {amount:a cup} of {food:lentils} and {amount:two} {food:carrots}
"""


@pytest.mark.parametrize(
    ("clause", "expected"),
    [
        ("not-done| i'm not using any {food:bacon} in this", {"bacon": "not used"}),
        ("not-done| my mother always put {food:lard} in hers", {"lard": "not used"}),
        ("chat| my gran made {food:trifle} on sundays", {"trifle": "chat"}),
        ("chat| my neighbor puts {food:raisins} in hers {amount:a whole cup}", {"raisins": "chat"}),
        ("promise| the {food:pickled onions} are in the post", {"pickled onions": "another dish"}),
        ("alternative| or you could use {amount:two cups} of {food:split peas}", {"split peas": "alternative"}),
        ("alternative| instead of {food:carrots} use {food:parsnips}", {"parsnips": "alternative"}),
    ],
)
def test_set_aside(clause: str, expected: dict[str, str]) -> None:
    """Whatever the reason, it is no ingredient, and the clause that names it is the evidence."""
    draft = drafted(COOKED + clause)
    assert set_aside(draft) == expected
    assert measured(draft) == {"lentils": ["1 cup"], "carrots": ["2"]}
    assert draft.set_aside[0].evidence[0].start >= draft.steps[-1].end


@pytest.mark.parametrize("intent", ["announce", "chat", "tip", "promise", "not-done", "alternative"])
def test_the_dish_s_own_food_is_never_set_aside(intent: str) -> None:
    assert drafted(COOKED + f"{intent}| those {{food:lentils}} again").set_aside == []


def test_the_general_name_of_an_own_food_is_not_set_aside() -> None:
    draft = drafted(
        """does| {action:add} {amount:two cups} of {food:white beans}
        chat| i could eat {food:beans} every day"""
    )
    assert draft.set_aside == []


def test_another_food_with_the_same_last_word_is_set_aside() -> None:
    draft = drafted(
        """does| {action:add} {amount:two cups} of {food:white beans}
        not-done| don't use {food:kidney beans}"""
    )
    assert set_aside(draft) == {"kidney beans": "not used"}
    assert measured(draft) == {"white beans": ["2 cup"]}


def test_a_food_is_set_aside_once_with_all_its_evidence() -> None:
    draft = drafted(
        """does| {action:add} {amount:a cup} of {food:lentils}
        chat| everybody loves {food:bacon}
        not-done| but i'm leaving out the {food:bacon}"""
    )
    (bacon,) = draft.set_aside
    assert bacon.why == "not used"
    assert len(bacon.evidence) == 2


def test_plain_not_vanilla() -> None:
    """A food right after a word that says no does not go in, though the clause is a doing one."""
    draft = drafted("does| {action:add} {amount:a cup} of {food:yogurt} plain not {food:custard}")
    assert measured(draft) == {"yogurt": ["1 cup"]}


@pytest.mark.parametrize(
    ("clause", "name", "alternative", "amount"),
    [
        pytest.param(
            "alternative| instead of {food:carrots} use {amount:one} {food:parsnip}",
            "carrots",
            "parsnip",
            "1",
            id="instead of",
        ),
        pytest.param(
            "alternative| if you don't have {food:lentils} you can use {amount:two cups} of {food:split peas}",
            "lentils",
            "split peas",
            "2 cup",
            id="if you don't have",
        ),
        pytest.param(
            "alternative| you could swap the {food:lentils} for {food:split peas}",
            "lentils",
            "split peas",
            "?",
            id="swap for",
        ),
        pytest.param("alternative| or {food:parsnips} work too", "carrots", "parsnips", "?", id="likeness of kind"),
    ],
)
def test_alternatives(clause: str, name: str, alternative: str, amount: str) -> None:
    """Each goes to the ingredient it replaces: the one named beside it, else the one most like it."""
    draft = drafted(COOKED + clause)
    (found,) = ingredient(draft, name).alternatives
    assert (found.name, amount_text(found.amount)) == (alternative, amount)
    assert [one.alternatives for one in draft.ingredients if one.name != name] == [[]]


def test_an_alternative_told_before_the_food_itself() -> None:
    draft = drafted(
        """alternative| if you can't get {food:shallots} use {amount:one} {food:onion}
        does| {action:chop} {amount:three} {food:shallots}"""
    )
    assert [one.name for one in ingredient(draft, "shallots").alternatives] == ["onion"]


@pytest.mark.parametrize("words", ["same amount", "the same quantity", "one for one"])
def test_an_alternative_in_the_same_amount(words: str) -> None:
    draft = drafted(
        f"""does| {{action:add}} {{amount:a cup}} of {{food:milk}}
        alternative| or use {{food:oat milk}} {words}"""
    )
    (found,) = ingredient(draft, "milk").alternatives
    assert (found.amount, found.note) == (None, "same amount")


def test_two_alternatives_for_one_food() -> None:
    draft = drafted(
        """does| {action:add} {amount:two tablespoons} of {food:butter}
        alternative| instead of {food:butter} you can use {food:ghee}
        alternative| or {food:margarine}"""
    )
    assert [one.name for one in ingredient(draft, "butter").alternatives] == ["ghee", "margarine"]


@pytest.mark.parametrize(
    ("clause", "optional"),
    [
        ("does| {action:stir in} {amount:a pinch} of {food:chili flakes} if you like", True),
        ("does| {action:sprinkle on} {amount:a pinch} of {food:chili flakes} that's totally optional", True),
        ("does| {action:stir in} {amount:a pinch} of {food:chili flakes}", False),
        ("tip| you can {action:add} more {food:chili flakes} if you like", False),
    ],
)
def test_optional(clause: str, optional: bool) -> None:
    """A tip that more may go in does not make the food itself optional."""
    draft = drafted(f"does| {{action:add}} {{amount:a pinch}} of {{food:chili flakes}}\n{clause}")
    assert ingredient(draft, "chili flakes").optional is optional
