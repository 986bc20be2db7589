"""How long: verbs that cook or wait, what they stand beside, and words that only look like them."""

import pytest

from tests.recipe.talking import asked, drafted


@pytest.mark.parametrize(
    ("talk", "about"),
    [
        pytest.param("does| {action:take} it out and let it cool in the tin", ["cool"], id="let it cool"),
        pytest.param("does| {action:cover} it and leave it to rest", ["rest"], id="leave it to rest"),
        pytest.param("does| and you let it go a little", ["leave"], id="let it go a little"),
        pytest.param("does| and leave it to marinate a while", ["marinate"], id="marinate a while"),
        pytest.param("does| {action:let} it cool completely", [], id="cooled right down"),
        pytest.param("does| let it cool until you can hold it", [], id="an untagged until"),
        pytest.param("does| {action:leave} a small gap at the side", [], id="leave a gap"),
        pytest.param("does| {action:leave} a bit of paper over the edge", [], id="leave a bit of something"),
        pytest.param("does| you let the steam off", [], id="the steam is a noun"),
        pytest.param("does| {action:serve} it with fried plantain", [], id="a participle"),
        pytest.param("does| {action:add} {amount:a teaspoon} of {food:baking powder}", [], id="baking powder"),
        pytest.param("does| turn {program:saute} off", [], id="a program ends"),
        pytest.param("does| i {action:boiled} the {food:beans} this morning", [], id="done before"),
        pytest.param("does| {action:boil} the {food:water}", [], id="water that boils has boiled"),
        pytest.param("does| {action:zero} the scale", [], id="no verb by its sound"),
    ],
)
def test_no_time(talk: str, about: list[str]) -> None:
    assert asked(drafted(talk), "no_time") == about


def test_the_time_of_another_food_is_not_its_time() -> None:
    draft = drafted(
        """does @s1| {action:fry} the {food:sausage} too
        does| {action:stir} in the {food:onions} for {time:ten minutes}"""
    )
    assert asked(draft, "no_time") == ["fry"]


def test_the_time_of_an_alternative_is_not_its_time() -> None:
    draft = drafted(
        """does @s1| {action:simmer} the {food:lentils}
        alternative| or in the {appliance:oven} for {time:an hour}"""
    )
    assert asked(draft, "no_time") == ["simmer"]
