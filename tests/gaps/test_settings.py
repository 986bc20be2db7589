"""Questions about heat and time: how hot, how long, how big a dish, how the pressure is let out, when is it done."""

import pytest

from tests.recipe.talking import asked, drafted


@pytest.mark.parametrize(
    ("talk", "about"),
    [
        pytest.param(
            """does| {action:preheat} the {appliance:oven}
            does| {action:bake} it for {time:an hour} {cue:until it's soft}""",
            ["oven"],
            id="an oven",
        ),
        pytest.param(
            """does| {action:preheat} the {appliance:oven} to {temp:400 fahrenheit}
            does| {action:bake} it for {time:an hour}""",
            [],
            id="an oven with its temperature",
        ),
        pytest.param(
            """does @s1| {action:bake} it in the {appliance:oven} for {time:an hour}
            states| the {appliance:oven} is at {temp:400 fahrenheit}""",
            [],
            id="the temperature told afterwards",
        ),
        pytest.param(
            "does| {action:put} it in the {appliance:air fryer} for {time:ten minutes}",
            ["air fryer"],
            id="an air fryer",
        ),
        pytest.param(
            "does| {action:fry} {amount:two} {food:onions} in the {vessel:pan} for {time:ten minutes}",
            ["stovetop"],
            id="a burner",
        ),
        pytest.param(
            """does @s1| {action:fry} {amount:two} {food:onions} in the {vessel:pan} for {time:ten minutes}
            does @s2| {action:simmer} it for {time:an hour} on {level:low}""",
            [],
            id="a burner whose level is told once",
        ),
        pytest.param("does| {action:simmer} it for {time:an hour}", ["heat"], id="cooked on nothing that was named"),
        pytest.param(
            "does| {action:cook} it in the {appliance:rice cooker} for {time:half an hour}",
            [],
            id="a rice cooker has no temperature",
        ),
        pytest.param("does| {action:chop} {amount:two} {food:onions}", [], id="nothing is cooked"),
        pytest.param("chat| my {appliance:oven} is older than me", [], id="only talked about"),
    ],
)
def test_no_temperature(talk: str, about: list[str]) -> None:
    assert asked(drafted(talk), "no_temperature") == about


@pytest.mark.parametrize(
    ("talk", "about"),
    [
        pytest.param("does| {action:simmer} the {food:lentils}", ["simmer"], id="no time"),
        pytest.param("does| {action:marinate} the {food:chicken}", ["marinate"], id="no waiting time"),
        pytest.param("does| {action:simmer} the {food:lentils} {cue:until they're soft}", [], id="a cue"),
        pytest.param("does| {action:simmer} the {food:lentils} for {time:an hour}", [], id="a time"),
        pytest.param(
            "does| {action:simmer} the {food:lentils}\nstates| about {time:an hour}", [], id="the time a clause later"
        ),
        pytest.param("does| {action:stir} the {food:lentils}", [], id="stirring takes none"),
        pytest.param("does| {action:add} the {food:lentils} to the {vessel:pot}", [], id="adding takes none"),
        pytest.param("tip| {action:simmer} it gently", [], id="a tip is no step"),
    ],
)
def test_no_time(talk: str, about: list[str]) -> None:
    assert asked(drafted(talk), "no_time") == about


def test_no_time_is_asked_for_each_step() -> None:
    draft = drafted(
        """does @s1| {action:simmer} the {food:lentils}
        does| {action:season} it
        does| {action:stir} it well
        does| {action:pour in} {amount:a cup} of {food:stock}
        does| {action:stir} it again
        does @s2| {action:marinate} the {food:tofu}"""
    )
    assert [(gap.about, gap.step) for gap in draft.gaps if gap.kind == "no_time"] == [
        ("simmer", "s1"),
        ("marinate", "s2"),
    ]


@pytest.mark.parametrize(
    ("talk", "about"),
    [
        pytest.param("does| {action:bake} it at {temp:350} for {time:an hour}", ["oven"], id="no scale"),
        pytest.param("does| {action:bake} it at {temp:350 fahrenheit} for {time:an hour}", [], id="Fahrenheit"),
        pytest.param("does| {action:bake} it at {temp:180 celsius} for {time:an hour}", [], id="Celsius"),
        pytest.param("does| {action:bake} it at {temp:gas mark four} for {time:an hour}", [], id="gas mark"),
        pytest.param(
            """does @s1| {action:bake} it at {temp:425} for {time:ten minutes}
            does @s2| then {action:bake} it at {temp:350} for {time:an hour}""",
            ["oven"],
            id="once for the oven",
        ),
        pytest.param(
            """does @s1| {action:bake} it at {temp:425} for {time:ten minutes}
            does @s2| then {action:bake} it at {temp:350 fahrenheit} for {time:an hour}""",
            [],
            id="told later",
        ),
        pytest.param("does| {action:fry} it on {level:high} for {time:five minutes}", [], id="a level has no scale"),
        pytest.param("alternative| or bake it at {temp:350}", [], id="an alternative"),
    ],
)
def test_temperature_unit(talk: str, about: list[str]) -> None:
    assert asked(drafted(talk), "temperature_unit") == about


def test_temperature_unit_names_the_scale_that_is_assumed() -> None:
    draft = drafted("does| {action:bake} it at {temp:425} for {time:ten minutes}")
    (gap,) = [gap for gap in draft.gaps if gap.kind == "temperature_unit"]
    assert "425" in gap.question and "Fahrenheit" in gap.question


@pytest.mark.parametrize(
    ("talk", "about"),
    [
        pytest.param("does| {action:pour} it into a {vessel:baking dish}", ["baking dish"], id="a dish"),
        pytest.param("does| {action:grease} a {vessel:loaf tin}", ["loaf tin"], id="a tin"),
        pytest.param(
            "does| {action:pour} it into a {size:nine by thirteen} {vessel:baking dish}", [], id="a dish with its size"
        ),
        pytest.param(
            """does| {action:pour} it into a {vessel:baking dish}
            states| my {vessel:baking dish} is {size:nine by thirteen}""",
            [],
            id="its size told afterwards",
        ),
        pytest.param("does| {action:stir} it in a {vessel:bowl}", [], id="a bowl may be any size"),
        pytest.param("does| {action:stir} it in the {vessel:pot}", [], id="so may a pot"),
        pytest.param("chat| my {vessel:baking dish} was a wedding gift", [], id="only talked about"),
    ],
)
def test_no_size(talk: str, about: list[str]) -> None:
    """The depth of a batter changes its baking time, a bowl changes nothing (common practice)."""
    assert asked(drafted(talk), "no_size") == about


@pytest.mark.parametrize(
    ("clause", "about"),
    [
        ("does @s2| {action:open} the lid", ["pressure cooker"]),
        ("does @s2| then do a {action:quick release}", []),
        ("does @s2| {action:let} it natural release for {time:ten minutes}", []),
        ("does @s2| {action:let} the pressure come down naturally", []),
    ],
)
def test_no_release(clause: str, about: list[str]) -> None:
    talk = (
        "does @s1| {action:set} the {appliance:pressure cooker} to {program:pressure cook} for {time:eight minutes}\n"
    )
    assert asked(drafted(talk + clause), "no_release") == about


@pytest.mark.parametrize(
    "talk",
    [
        "does| {action:put} the {appliance:pressure cooker} on {program:saute} for {time:five minutes}",
        "does| {action:keep} it in the {appliance:pressure cooker} on {program:keep warm} for {time:an hour}",
        "does| {action:simmer} it on {level:low} for {time:an hour}",
    ],
)
def test_without_pressure_nothing_is_released(talk: str) -> None:
    assert asked(drafted(talk), "no_release") == []


ROAST = """does @s1| {{action:heat}} the {{appliance:oven}} to {{temp:400 fahrenheit}}
~ 90
does @s2| {{action:bake}} {{amount:two pounds}} of {{food:chicken thighs}} for {{time:forty minutes}} {cue}
"""


@pytest.mark.parametrize(
    ("talk", "about"),
    [
        pytest.param(ROAST.format(cue=""), ["chicken thighs"], id="by the clock alone"),
        pytest.param(ROAST.format(cue="{cue:until the juices run clear}"), [], id="with a cue"),
        pytest.param(ROAST.format(cue="") + "tip| {cue:when it's golden} it's done", [], id="the cue as a tip"),
        pytest.param(ROAST.format(cue="") + "states| the thickest part reads {temp:165}", [], id="with a thermometer"),
        pytest.param("does| {action:simmer} it on {level:low} for {time:an hour}", [], id="a simmered soup"),
        pytest.param("does| {action:chop} {amount:two} {food:carrots}", [], id="nothing is cooked"),
    ],
)
def test_no_doneness(talk: str, about: list[str]) -> None:
    """165 °F is FSIS's safe minimum inside poultry, so a thermometer tells when it is done."""
    assert asked(drafted(talk), "no_doneness") == about
