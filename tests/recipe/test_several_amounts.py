"""Amounts shared out, corrected, restated or left unsaid: what cooks say around one food (common practice)."""

import pytest

from .talking import drafted, measured, settings_of

BROTH = "states| here is the {food:chicken broth} {amount:two and a half cups} all told\n"


@pytest.mark.parametrize(
    ("talk", "expected"),
    [
        pytest.param(
            """states| {food:butter} {amount:two sticks} {amount:one} to start and {amount:one} to finish
            does @s1| the {food:butter} {action:goes in}
            does @s2| {action:stir} the onions
            does| and {action:chop} some chives
            does @s3| {action:wait} a while
            does| and {action:put} the rest of the {food:butter} on top""",
            {"butter": ["1 stick", "1 stick"]},
            id="shares",
        ),
        pytest.param(
            "does| {action:add} {food:garlic} {amount:four cloves} no you know what {amount:five}",
            {"garlic": ["5 clove"]},
            id="a correction without its unit",
        ),
        pytest.param(
            """does @s1| {action:add} {amount:a teaspoon} of {food:paprika}
            does| no hang on {amount:half a teaspoon} of the {food:paprika}""",
            {"paprika": ["0.5 teaspoon"]},
            id="a correction that names the food again",
        ),
        pytest.param(
            "does| {action:add} {amount:six grams} of {food:instant yeast} that's about {amount:two teaspoons}",
            {"instant yeast": ["6 gram"]},
            id="a mass before a volume",
        ),
        pytest.param(
            "does| now {amount:two} {food:eggs} {action:go in} {amount:one} at a time",
            {"eggs": ["2"]},
            id="one at a time",
        ),
        pytest.param(
            """states| i have {amount:four pounds} of {food:pork shoulder}
            does @s1| {amount:half} the {food:pork shoulder} {action:goes in}
            does @s2| then {action:put} the {food:pork shoulder} back""",
            {"pork shoulder": ["4 pound"]},
            id="browned in batches",
        ),
        pytest.param(
            """states| {amount:one} {food:onion}
            does @s1| {amount:half} the {food:onion} {action:goes in}
            does| and {action:stir}
            does @s2| {action:wash} the pan
            does| and {action:dry} it
            does| and {action:heat} it
            does @s3| now my {food:onion} {action:goes in} raw""",
            {"onion": ["0.5", "0.5"]},
            id="the other half without the words",
        ),
        pytest.param(
            BROTH
            + """does @s1| {action:pour in} {amount:two cups} of the {food:broth}
            does @s2| {action:stir} it
            does| and {action:taste} it
            does| and {action:wait}
            does| and {action:wait} more
            does @s3| {action:add} the last half a cup of {food:broth}""",
            {"chicken broth": ["2 cup", "0.5 cup"]},
            id="all told, then its parts",
        ),
        pytest.param(
            """states| {food:flour} {amount:250 grams}
            does @s1| {action:soak} it in a cup
            does @s2| {action:add} {amount:275 grams} of {food:flour}""",
            {"flour": ["275 gram"]},
            id="listed, and another amount when it goes in",
        ),
        pytest.param(
            "states| and a {food:bay leaf}\ndoes| {action:add} the {food:bay leaf}",
            {"bay leaf": ["1"]},
            id="an article",
        ),
        pytest.param(
            """announce| next is the {food:chorizo}
            states| i have {amount:half a pound}
            does @s1| {action:fry} the {food:chorizo}""",
            {"chorizo": ["0.5 pound"]},
            id="a food that was announced",
        ),
        pytest.param(
            """does| {action:brown} the {food:beef}
            does| {action:spoon} {amount:half a cup} of that stuff over the {food:beef}""",
            {"beef": ["?"]},
            id="an amount of something else",
        ),
        pytest.param(
            "does| {action:add} {food:oyster sauce} {amount:2 tablespoons} {food:soy sauce} {amount:1}",
            {"oyster sauce": ["2 tablespoon"], "soy sauce": ["1 tablespoon"]},
            id="a sauce is not counted",
        ),
        pytest.param(
            "does| {action:drop} the {food:peaches} {amount:three pounds} in boiling {food:water}",
            {"peaches": ["3 pound"]},
            id="water that only blanches",
        ),
        pytest.param(
            """does @s1| {action:add} {amount:a cup} of {food:oil}
            does @s2| {action:pour out} the {food:oil}""",
            {"oil": ["1 cup"]},
            id="poured out",
        ),
    ],
)
def test_what_each_use_comes_to(talk: str, expected: dict[str, list[str]]) -> None:
    assert measured(drafted(talk)) == expected


@pytest.mark.parametrize(
    ("said", "release"),
    [
        ("does| after the ten you {action:flip} that valve", "timed natural"),
        ("does| {action:leave} it {time:ten minutes}\ndoes| {action:let} the rest of the steam out", "timed natural"),
        ("does| the pressure {action:goes down} by itself", "natural"),
        ("does| {action:flip} the valve right away", "quick"),
    ],
)
def test_a_release_in_plain_words(said: str, release: str) -> None:
    """Standing some minutes and then letting the rest out is a timed natural release (common practice)."""
    talk = "does @s1| {action:cook} it on {program:pressure cook} in the {appliance:pressure cooker} {time:an hour}\n"
    found = [setting.release for setting in settings_of(drafted(talk + said)) if setting.release]
    assert found == [release]


def test_bare_degrees_of_one_talk_are_of_one_scale() -> None:
    """No oven is set to 180 °F, so that the 200 beside it is Celsius too (common practice)."""
    talk = """does @s1| {action:heat} the {appliance:air fryer} to {temp:one eighty}
    does @s2| {action:turn} it up to {temp:two hundred} for {amount:two pounds} of {food:chicken wings}"""
    assert {setting.temperature.unit for setting in settings_of(drafted(talk)) if setting.temperature} == {"C"}


@pytest.mark.parametrize(
    ("said", "replaced"),
    [
        ("alternative| you can do {food:olive oil} for the {food:butter}", "butter"),
        ("alternative| for vegetarians do the same with {amount:a pound} of firm {food:tofu}", "beef"),
        ("alternative| {food:nutritional yeast} instead of the {food:cheese}", "parmesan"),
        ("alternative| no {food:butter} then use {food:margarine}", "butter"),
    ],
)
def test_what_an_alternative_replaces(said: str, replaced: str) -> None:
    talk = """does @s1| {action:brown} {amount:a pound} of {food:beef}
    does @s2| {action:add} {amount:two tablespoons} of {food:butter} and {amount:a cup} of {food:parmesan}
    """
    draft = drafted(talk + said)
    assert [one.name for one in draft.ingredients if one.alternatives] == [replaced]
