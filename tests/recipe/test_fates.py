"""What became of each food that was named: the use it went into and how, or why it is no ingredient."""

import pytest

from stovescript.recipe.assemble import understood
from stovescript.recipe.fates import amount_from, fates_of

from .talking import heard

COUSCOUS = """
announce| today it's {food:lentil} couscous
states| i've got {amount:two cups} of {food:couscous} and a {food:lemon}
does @s1| {action:pour} the {food:couscous} into the bowl
does| {action:stir in} {amount:a teaspoon} of {food:salt}
not-done| i'm not using {food:butter} today
alternative| you could use {food:bulgur} instead of the {food:couscous}
does @s2| {action:fluff} it until it looks like a {food:crumble}
does| {action:add} the rest of the {food:salt}
"""


def told(talk: str) -> list[tuple[str, str | None, str]]:
    """(name, use, what became of it) of each naming."""
    listened = heard(talk)
    known = understood(listened)
    return [
        (
            fate.mention.text,
            None if fate.use is None or fate.item is None else f"i{fate.item + 1}.u{fate.use + 1}",
            fate.what,
        )
        for fate in fates_of(listened, known)
    ]


@pytest.mark.parametrize(
    "expected",
    [
        ("couscous", "i2.u1", "set out, before it goes in"),
        ("couscous", "i2.u1", "added"),
        ("salt", "i3.u1", "added"),
        ("salt", "i3.u2", "added: the rest of it"),
        ("couscous", None, "named in an alternative: nothing is taken from that"),
        ("butter", None, "set aside: not used"),
        ("bulgur", None, "set aside: alternative, in place of couscous"),
        ("crumble", None, "a likeness: it only says how something looks or tastes"),
        ("lemon", "i1.u1", "set out, and not heard going in"),
    ],
    ids=lambda expected: f"{expected[0]} {expected[2]}",
)
def test_each_naming_has_its_fate(expected: tuple[str, str | None, str]) -> None:
    assert expected in told(COUSCOUS)


@pytest.mark.parametrize(
    ("talk", "expected"),
    [
        pytest.param(
            "does @s1| {action:add} {amount:a cup} of {food:yogurt} plain not {food:vanilla}",
            ("vanilla", None, "denied: a word before it says no"),
            id="denied",
        ),
        pytest.param(
            "does @s1| {action:add} the {food:oil}\ndoes| and now the {food:quux} {action:goes in}",
            ("quux", None, "a word that no table knows, named once"),
            id="a word of no table",
        ),
        pytest.param(
            "states| there's {food:oil} and {food:garlic}\ndoes @s1| everything {action:goes in}",
            ("garlic", "i2.u1", "added by a pronoun"),
            id="everything goes in",
        ),
        pytest.param(
            """states| this is {amount:a pound} of {food:chicken breast}
            chat| no sorry that is the pack for my neighbor and the dog who comes by here every week
            states| this one is {amount:two pounds}
            does @s1| {action:add} the {food:chicken breast}""",
            ("chicken breast", "i1.u1", "an amount alone, meant for the food named last, before it goes in"),
            id="an amount alone",
        ),
        pytest.param(
            "states| that's the {food:limes}\ndoes @s1| {action:add} {amount:two tablespoons} of {food:lime juice}",
            ("limes", None, "only set out: its juice or zest is the ingredient"),
            id="the fruit of the juice",
        ),
    ],
)
def test_why_a_food_is_none_or_one(talk: str, expected: tuple[str, str | None, str]) -> None:
    assert expected in told(talk)


@pytest.mark.parametrize(
    ("talk", "sources"),
    [
        ("does @s1| {action:add} {amount:a cup} of {food:rice}", ["said of this use"]),
        (
            "states| i've got {amount:a cup} of {food:rice}\ndoes @s1| {action:add} the {food:rice}",
            ["the amount that was set out"],
        ),
        ("does @s1| {action:add} the {food:rice}", ["no amount was heard"]),
        (
            """states| i've got {amount:three cups} of {food:rice}
            does @s1| {action:add} {amount:one cup} of the {food:rice}
            ~ 60
            does @s2| {action:add} the rest of the {food:rice}""",
            ["said of this use", "worked out from what was said in all"],
        ),
    ],
)
def test_where_an_amount_comes_from(talk: str, sources: list[str]) -> None:
    (item,) = understood(heard(talk)).items
    assert [amount_from(item, addition) for addition in item.additions] == sources


def test_every_food_of_a_draft_is_told_of() -> None:
    """Each event and each naming has one fate, and each ingredient at least one that leads to it."""
    listened = heard(COUSCOUS)
    known = understood(listened)
    fates = fates_of(listened, known)
    named = [food.start for clause in listened.clauses for food in clause.labelled("food")]
    assert set(named) == {fate.mention.start for fate in fates}
    assert {fate.item for fate in fates} >= set(range(len(known.items)))
