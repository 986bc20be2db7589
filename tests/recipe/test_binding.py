"""Which amount belongs to which food, as cooks say it: before, after, in lists, across clauses, corrected."""

import pytest

from stovescript.recipe.binding import bind

from .talking import amount_text, drafted, heard, ingredient, measured


@pytest.mark.parametrize(
    ("talk", "expected"),
    [
        pytest.param(
            "does| {action:add} {amount:two cups} of {food:flour}",
            {"flour": ["2 cup"]},
            id="amount first",
        ),
        pytest.param(
            "does| {action:add} {amount:two cups} {food:flour} and then {amount:1 cup} {food:milk}",
            {"flour": ["2 cup"], "milk": ["1 cup"]},
            id="without of",
        ),
        pytest.param(
            "does| and the {food:sugar} that's {amount:half a cup}",
            {"sugar": ["0.5 cup"]},
            id="food first",
        ),
        pytest.param(
            """states| i've got {food:carrots} {amount:three} of those and {food:celery} {amount:two stalks}
            does| {action:throw in} the {food:carrots} and the {food:celery}""",
            {"carrots": ["3"], "celery": ["2 stalk"]},
            id="two foods, each before its amount",
        ),
        pytest.param(
            """states| {food:flour} is {amount:two cups} {food:sugar} is {amount:one cup}
            does| {action:mix} the {food:flour} and the {food:sugar}""",
            {"flour": ["2 cup"], "sugar": ["1 cup"]},
            id="a list without and",
        ),
        pytest.param(
            """does| {action:put in} {amount:a teaspoon} of {food:cumin} {amount:two teaspoons} of {food:paprika}
            +does| and {amount:half a teaspoon} of {food:turmeric}""",
            {"cumin": ["1 teaspoon"], "paprika": ["2 teaspoon"], "turmeric": ["0.5 teaspoon"]},
            id="a list of three",
        ),
        pytest.param(
            "does| {action:whisk} {amount:three} {food:eggs} with {amount:half a cup} of {food:sugar}",
            {"eggs": ["3"], "sugar": ["0.5 cup"]},
            id="a count and a measure",
        ),
        pytest.param(
            "does| {action:add} {amount:250 grams} of {food:butter} {prep:melted} and {amount:four} {size:large} "
            "{food:eggs}",
            {"butter": ["250 gram"], "eggs": ["4"]},
            id="a size between count and food",
        ),
        pytest.param(
            "does| {action:add} {amount:two or three tablespoons} of {food:soy sauce}",
            {"soy sauce": ["2-3 tablespoon"]},
            id="a range",
        ),
        pytest.param(
            "does| {action:throw in} {amount:for cloves} of {food:garlic}",
            {"garlic": ["4 clove"]},
            id="four, captioned as for",
        ),
        pytest.param(
            """does| {action:add} the {food:lentils}
            +states| {amount:a cup and a half}""",
            {"lentils": ["1.5 cup"]},
            id="the amount a clause later",
        ),
        pytest.param(
            """does| the {food:butter} {action:goes in}
            states| it's about {amount:three tablespoons}""",
            {"butter": ["about 3 tablespoon"]},
            id="the amount a sentence later",
        ),
        pytest.param(
            """does| {action:put in} {amount:two} {food:bay leaves} and some {food:thyme}
            states| {amount:three sprigs}""",
            {"bay leaves": ["2"], "thyme": ["3 sprig"]},
            id="the amount a sentence later, for the last food only",
        ),
        pytest.param(
            """does| {action:add} {food:garlic} {amount:two cloves}
            does| {action:pour in} {amount:a cup} of {food:cream}""",
            {"garlic": ["2 clove"], "cream": ["1 cup"]},
            id="a sentence end parts amounts",
        ),
    ],
)
def test_amount_and_food(talk: str, expected: dict[str, list[str]]) -> None:
    assert measured(drafted(talk)) == expected


@pytest.mark.parametrize(
    ("talk", "expected"),
    [
        pytest.param(
            """does| {action:chop up} {amount:two} {food:onions} about {amount:three cups} {prep:chopped}
            does| {action:throw in} the {food:onions}""",
            {"onions": ["about 3 cup"]},
            id="two onions, about three cups",
        ),
        pytest.param(
            "does| {action:add} {amount:one} {food:cauliflower} that's {amount:six cups} of florets",
            {"cauliflower": ["6 cup"]},
            id="one cauliflower, six cups",
        ),
    ],
)
def test_a_measure_goes_before_a_loose_count(talk: str, expected: dict[str, list[str]]) -> None:
    """A reader measures cups the same in every kitchen; an onion may be any size (common practice)."""
    assert measured(drafted(talk)) == expected


@pytest.mark.parametrize(
    "talk",
    [
        "does| {action:add} {amount:two} no sorry {amount:three cloves} of {food:garlic}",
        "does| {action:add} {amount:two cloves} of {food:garlic} no wait {amount:three cloves}",
        "does| {action:add} {amount:two cloves} of {food:garlic} no sorry {amount:three cloves} of {food:garlic}",
    ],
)
def test_a_correction_replaces_what_it_corrects(talk: str) -> None:
    assert measured(drafted(talk)) == {"garlic": ["3 clove"]}


@pytest.mark.parametrize(
    ("talk", "name", "count", "size"),
    [
        pytest.param(
            "does| {action:add} {amount:two fifteen ounce cans} of {food:chickpeas}",
            "chickpeas",
            2,
            "15 ounce",
            id="size first",
        ),
        pytest.param(
            "does| {action:add} {amount:one can} of {food:black beans} the {size:fifteen ounce} one",
            "black beans",
            1,
            "15 ounce",
            id="size after",
        ),
        pytest.param(
            "does| {action:add} {amount:a tin} of {food:tomatoes} {amount:400 grams}",
            "tomatoes",
            1,
            "400 gram",
            id="size as a second amount",
        ),
        pytest.param(
            """states| i've got {amount:two cans} of {food:white beans} {size:fifteen ounce} each
            does| {action:drain} the {food:beans} and {action:add} them""",
            "white beans",
            2,
            "15 ounce",
            id="size each",
        ),
        pytest.param(
            "does| {action:add} {amount:a seven gram packet} of {food:yeast}", "yeast", 1, "7 gram", id="a packet"
        ),
        pytest.param("does| {action:add} {amount:two jars} of {food:passata}", "passata", 2, "?", id="no size"),
    ],
)
def test_packages(talk: str, name: str, count: float, size: str) -> None:
    found = ingredient(drafted(talk), name)
    assert found.package
    assert (found.package.count, amount_text(found.package.size)) == (count, size)
    assert [use.amount.unit for use in found.uses if use.amount] in (["can"], ["packet"], ["jar"])


def test_every_binding_has_a_reason_to_print() -> None:
    talk = heard("does| {action:add} {amount:two cups} of {food:flour} and {food:sugar} {amount:one cup}")
    (clause,) = talk.clauses
    bindings = bind(talk, clause.labelled("amount"), clause.labelled("food"))
    assert [(b.amount.text, b.food.text, b.reason) for b in bindings] == [
        ("two cups", "flour", "said before the food"),
        ("one cup", "sugar", "said after the food"),
    ]


def test_an_amount_far_from_any_food_is_left_alone() -> None:
    draft = drafted(
        """states| {amount:two cups}
        chat| my neighbor came round with her dog and we talked about the rain for a good long while
        does| {action:stir in} the {food:lentils}"""
    )
    assert measured(draft) == {"lentils": ["?"]}
