"""Done or not: meat, bread and cake that cook by the clock in an oven, a microwave, a slow cooker."""

import pytest

from tests.recipe.talking import asked, drafted

DOUGH = "does @s1| {action:mix} {amount:three cups} of {food:bread flour} with {amount:a cup} of {food:water}\n"


@pytest.mark.parametrize(
    ("talk", "about"),
    [
        pytest.param(
            DOUGH + "does @s2| {action:bake} it in the {appliance:oven} for {time:thirty minutes}",
            ["bread flour"],
            id="bread by the clock",
        ),
        pytest.param(
            DOUGH
            + "does @s2| {action:bake} it in the {appliance:oven} for {time:thirty minutes}\n"
            + "tip| it should sound hollow underneath",
            [],
            id="a sign in plain words",
        ),
        pytest.param(
            """does @s1| {action:put} {amount:two pounds} of {food:ground turkey} in the {appliance:slow cooker}
            does| {action:cook} it on {level:low} for {time:eight hours}""",
            ["ground turkey"],
            id="a slow cooker",
        ),
        pytest.param(
            """does @s1| {action:put} {amount:two pounds} of {food:ground turkey} in the {appliance:pressure cooker}
            does| {action:cook} it on {program:high pressure} for {time:ten minutes}""",
            [],
            id="nobody can look into a pressure cooker",
        ),
        pytest.param(
            """does @s1| {action:roast} {amount:a pound} of {food:carrots} in the {appliance:oven} for {time:an hour}
            does @s2| {action:stir} {amount:a spoon} of {food:flour} into the {food:gravy}""",
            [],
            id="flour that thickens is no bread",
        ),
        pytest.param(
            """does @s1| {action:preheat} the {appliance:air fryer} for {time:three minutes}
            does @s2| {action:add} {amount:a pound} of {food:chicken thighs}""",
            [],
            id="heating up cooks nothing",
        ),
        pytest.param(
            """does @s1| {action:roast} {amount:a pound} of {food:chicken} in the {appliance:oven} for {time:an hour}
            does @s2| {action:roast} the {food:chicken} another {time:ten minutes} {cue:until it's golden}""",
            [],
            id="the sign is told with the last time",
        ),
    ],
)
def test_no_doneness(talk: str, about: list[str]) -> None:
    assert asked(drafted(talk), "no_doneness") == about
