"""Parts of the dish: the dough and the filling, the marinade and the salsa; one dish stays one."""

import pytest

from tests.recipe.talking import drafted, ingredient

TURN_TO_THE_GLAZE = [
    "announce| now the glaze",
    "announce| while that's in the oven we make the glaze",
    "announce| glaze next",
    "announce| okay so glaze",
    "does @s9| now for the glaze {action:get} a bowl",
]


def parts(talk: str) -> dict[str, str | None]:
    return {one.name: one.component for one in drafted(talk).ingredients}


@pytest.mark.parametrize("turn", TURN_TO_THE_GLAZE)
def test_a_part_begins_where_the_cook_turns_to_it(turn: str) -> None:
    assert parts(
        f"""announce| so dough first
        does @s1| {{action:mix}} {{amount:two cups}} of {{food:flour}} with {{amount:a cup}} of {{food:milk}}
        {turn}
        does @s2| {{action:whisk}} {{amount:a cup}} of {{food:powdered sugar}} with {{amount:a}} {{food:lemon}}"""
    ) == {"flour": "dough", "milk": "dough", "powdered sugar": "glaze", "lemon": "glaze"}


def test_a_part_lasts_until_the_food_is_put_together() -> None:
    assert parts(
        """announce| salsa first
        does @s1| {action:chop} {amount:four} {food:tomatoes} and {amount:one} {food:onion}
        announce| now the slaw
        does @s2| {action:shred} {amount:half} a {food:cabbage} and {amount:two} {food:carrots}
        does @s3| {action:serve} it on {amount:eight} {food:corn tortillas}"""
    ) == {"tomatoes": "salsa", "onion": "salsa", "cabbage": "slaw", "carrots": "slaw", "corn tortillas": None}


def test_a_food_that_is_set_out_for_a_part_goes_there() -> None:
    found = parts(
        """states| this is {amount:a cup} of {food:powdered sugar} for the glaze
        announce| so dough first
        does @s1| {action:mix} {amount:two cups} of {food:flour} with {amount:a cup} of {food:milk}
        announce| now the glaze
        does @s2| {action:whisk} the {food:powdered sugar} with {amount:a spoon} of {food:lemon juice}"""
    )
    assert found["powdered sugar"] == "glaze"


def test_a_food_in_two_parts_is_one_ingredient_in_the_first() -> None:
    draft = drafted(
        """announce| okay dough first
        does @s1| {action:mix} {amount:two cups} of {food:flour} with {amount:a cup} of {food:butter}
        announce| now the filling
        does @s2| {action:beat} {amount:two} {food:eggs} with {amount:a cup} of {food:sugar}
        does @s3| {action:melt} {amount:a spoon} of {food:butter} and {action:add} it"""
    )
    butter = ingredient(draft, "butter")
    assert (butter.component, len(butter.uses)) == ("dough", 2)


@pytest.mark.parametrize(
    "talk",
    [
        pytest.param(
            """does @s1| {action:fry} {amount:two} {food:onions} in {amount:a spoon} of {food:oil}
            does @s2| {action:add} {amount:a pound} of {food:lentils} and {amount:a liter} of {food:water}""",
            id="nothing is named",
        ),
        pytest.param(
            """announce| dough first
            does @s1| {action:mix} {amount:two cups} of {food:flour} with {amount:a cup} of {food:milk}
            announce| now the glaze
            does @s2| {action:melt} {amount:a cup} of {food:powdered sugar}""",
            id="a part of one food is none",
        ),
        pytest.param(
            """does @s1| {action:add} {amount:a spoon} of {food:golden syrup} and {amount:a cup} of {food:oats}
            does @s2| {action:rub} in {amount:a stick} of {food:butter} and {amount:a cup} of {food:flour}""",
            id="golden syrup is a food, rubbing a verb",
        ),
        pytest.param(
            """does @s1| {action:mix} {amount:two cups} of {food:flour} with {amount:a cup} of {food:milk}
            announce| so to recap that's the dough the filling and the glaze
            does @s2| {action:melt} {amount:a cup} of {food:sugar} with {amount:a spoon} of {food:butter}""",
            id="a recap turns to nothing",
        ),
    ],
)
def test_one_dish_has_no_parts(talk: str) -> None:
    assert set(parts(talk).values()) == {None}
