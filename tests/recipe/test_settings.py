"""What the cook turns, presses and waits for: appliance, program, level, temperature, time and release."""

import pytest

from stovescript.recipe.draft import Setting

from .talking import drafted, settings_of


def only(talk: str) -> Setting:
    (setting,) = settings_of(drafted(talk))
    return setting


@pytest.mark.parametrize(
    ("said", "low", "unit", "unit_said"),
    [
        ("four hundred fahrenheit", 400, "F", True),
        ("350 degrees fahrenheit", 350, "F", True),
        ("180 celsius", 180, "C", True),
        ("gas mark four", 4, "gas mark", True),
        ("350", 350, "F", False),
        ("four twenty five", 425, "F", False),
        ("180 fan", 180, "C", False),
    ],
)
def test_oven_temperatures(said: str, low: float, unit: str, unit_said: bool) -> None:
    """No household oven goes to 350 °C, and only ovens marked in Celsius speak of fan (common practice)."""
    setting = only(f"does| {{action:heat}} the {{appliance:oven}} to {{temp:{said}}}")
    assert setting.appliance == "oven"
    assert setting.temperature
    found = setting.temperature
    assert (found.low, found.high, found.unit, found.unit_said) == (low, low, unit, unit_said)


def test_a_bare_180_is_celsius_where_the_cook_weighs_in_grams() -> None:
    (setting, *_) = settings_of(
        drafted(
            """does @s1| {action:heat} the {appliance:oven} to {temp:180}
            does @s2| {action:mix} {amount:200 grams} of {food:flour} and {amount:100 milliliters} of {food:milk}
            does @s3| {action:bake} it for {time:thirty minutes}"""
        )
    )
    assert setting.temperature
    assert (setting.temperature.unit, setting.temperature.unit_said) == ("C", False)


def test_a_bare_425_is_fahrenheit_even_where_the_cook_weighs_in_grams() -> None:
    setting = only(
        """does| {action:heat} the {appliance:oven} to {temp:425}
        does| {action:mix} {amount:200 grams} of {food:flour} and {amount:100 milliliters} of {food:milk}"""
    )
    assert setting.temperature
    assert setting.temperature.unit == "F"


@pytest.mark.parametrize(
    "clause",
    [
        "states| it should read {temp:165} on a thermometer",
        "tip| you want {temp:165} in the thickest part",
        "states| the middle should be {temp:165 fahrenheit}",
        "does| {action:check} that the inside is {temp:74 celsius}",
    ],
)
def test_the_food_s_own_temperature_is_no_setting(clause: str) -> None:
    """165 °F (73.9 °C) is the safe minimum inside poultry: FSIS, Safe Minimum Temperature Chart, from memory."""
    setting = only(
        f"""does| {{action:roast}} the {{food:chicken}} in the {{appliance:oven}} at {{temp:425}} for {{time:an hour}}
        {clause}"""
    )
    assert setting.temperature
    assert setting.temperature.low == 425


def test_a_smoker_runs_as_low_as_the_meat_gets_hot() -> None:
    """Smokers are set to about 225 °F (common practice); the meat is done by its own thermometer."""
    setting = only(
        """does| {action:smoke} it in the {appliance:smoker} at {temp:225} for {time:six hours}
        does| {action:pull} it when it's {temp:203} internal"""
    )
    assert setting.temperature
    assert (setting.appliance, setting.temperature.low) == ("smoker", 225)


@pytest.mark.parametrize(
    ("said", "level"),
    [
        ("medium high", "medium-high"),
        ("medium low", "medium-low"),
        ("low", "low"),
        ("high", "high"),
        ("a medium flame", "medium"),
    ],
)
def test_level_words_on_the_stove(said: str, level: str) -> None:
    setting = only(f"does| {{action:fry}} it on {{level:{said}}} for {{time:five minutes}}")
    assert (setting.appliance, setting.level) == ("stovetop", level)


@pytest.mark.parametrize(
    ("talk", "appliance", "program", "level", "seconds"),
    [
        pytest.param(
            "does| {action:cook} it in the {appliance:slow cooker} on {level:high} for {time:four hours}",
            "slow cooker",
            None,
            "high",
            (14400, 14400),
            id="slow cooker",
        ),
        pytest.param(
            "does| {action:put} it in the {appliance:air fryer} at {temp:375} for {time:twelve minutes}",
            "air fryer",
            None,
            None,
            (720, 720),
            id="air fryer",
        ),
        pytest.param(
            "does| {action:cook} it in the {appliance:rice cooker} on {program:white rice}",
            "rice cooker",
            "white rice",
            None,
            None,
            id="rice cooker",
        ),
        pytest.param(
            "does| {action:put} the {appliance:pressure cooker} on {program:saute} for {time:five minutes}",
            "pressure cooker",
            "sauté",
            None,
            (300, 300),
            id="sauté program",
        ),
        pytest.param(
            "does| {action:set} the {appliance:pressure cooker} to {program:manual} for {time:eight minutes}",
            "pressure cooker",
            "pressure cook",
            None,
            (480, 480),
            id="manual is the pressure program",
        ),
        pytest.param(
            "does| {action:knead} it in the {appliance:stand mixer} on {level:low} for {time:eight minutes}",
            "stand mixer",
            None,
            "low",
            (480, 480),
            id="stand mixer",
        ),
        pytest.param(
            "does| {action:bake} it for {time:25 to 30 minutes} {cue:until golden}",
            "oven",
            None,
            None,
            (1500, 1800),
            id="what bakes is in the oven",
        ),
        pytest.param(
            "does| {action:fry} {amount:two} {food:onions} in the {vessel:skillet} for {time:ten minutes}",
            "stovetop",
            None,
            None,
            (600, 600),
            id="what fries in a pan is on the stove",
        ),
    ],
)
def test_appliances(
    talk: str, appliance: str, program: str | None, level: str | None, seconds: tuple[float, float] | None
) -> None:
    setting = only(talk)
    assert (setting.appliance, setting.program, setting.level) == (appliance, program, level)
    assert (setting.seconds and (setting.seconds.low, setting.seconds.high)) == seconds


def test_the_appliance_stays_in_use_in_the_next_step() -> None:
    first, second = settings_of(
        drafted(
            """does @s1| {action:heat} the {appliance:oven} to {temp:400 fahrenheit}
            does @s2| {action:cook} it in there for {time:thirty minutes}"""
        )
    )
    assert first.appliance == second.appliance == "oven"


def test_turned_down_is_a_second_setting() -> None:
    first, second = settings_of(
        drafted(
            """does| {action:bring} it to a boil on {level:high}
            does| then {action:turn} it to {level:medium low} and {action:simmer} {time:ten minutes}"""
        )
    )
    assert (first.level, first.seconds) == ("high", None)
    assert second.level == "medium-low" and second.seconds


def test_hot_first_then_cooler_are_two_settings() -> None:
    found = settings_of(
        drafted(
            """does| {action:bake} it at {temp:425} for {time:ten minutes}
            does| then {action:turn} the {appliance:oven} down to {temp:350}
            +does| and {action:bake} it for another {time:thirty minutes}"""
        )
    )
    assert [(s.temperature.low, s.seconds.low) for s in found if s.temperature and s.seconds] == [
        (425, 600),
        (350, 1800),
    ]


PRESSURE = """
does @s1| {action:set} the {appliance:pressure cooker} to {program:pressure cook} for {time:eight minutes}
"""


@pytest.mark.parametrize(
    ("clauses", "release"),
    [
        ("does @s2| then do a {action:quick release}", "quick"),
        ("does @s2| {action:let} it natural release", "natural"),
        ("does @s2| {action:let} the pressure come down naturally", "natural"),
        ("does @s2| {action:let} it natural release for {time:ten minutes}", "timed natural"),
        (
            "does @s2| {action:let} it natural release for {time:ten minutes}\n"
            "does @s3| then a {action:quick release}",
            "timed natural",
        ),
        ("does @s2| {action:open} the lid", None),
        ("tip| never do a quick release with {food:beans}", None),
    ],
)
def test_releases(clauses: str, release: str | None) -> None:
    """Minutes of natural release with the rest let out are one timed natural release (common practice)."""
    found = [setting.release for setting in settings_of(drafted(PRESSURE + clauses)) if setting.release]
    assert found == [release] * (release is not None)


def test_a_timed_release_keeps_its_minutes() -> None:
    *_, setting = settings_of(
        drafted(
            PRESSURE
            + """does @s2| {action:let} it natural release for {time:ten minutes}
            does @s3| then a {action:quick release}"""
        )
    )
    assert setting.seconds
    assert setting.seconds.low == 600
    assert len(setting.evidence) == 2


def test_keep_warm_turned_off_is_no_setting() -> None:
    setting = only(PRESSURE + "does @s2| {action:turn off} the {program:keep warm}")
    assert setting.program == "pressure cook"


@pytest.mark.parametrize(
    "clause",
    [
        "states| it takes about {time:ten minutes} to come to pressure",
        "states| it keeps for {time:three days} in the fridge",
        "states| the whole thing takes {time:forty minutes}",
        "alternative| in a {appliance:slow cooker} that's {time:six hours} on {level:low}",
        "chat| my oven takes {time:twenty minutes} to do anything",
        "tip| {action:soak} them for {time:an hour} if you have the time",
    ],
)
def test_these_times_set_no_appliance(clause: str) -> None:
    setting = only(f"does| {{action:simmer}} it on {{level:low}} for {{time:twelve minutes}}\n{clause}")
    assert setting.seconds
    assert (setting.level, setting.seconds.low) == ("low", 720)


@pytest.mark.parametrize(
    "clause",
    [
        "does| {action:let} it {action:rest} for {time:ten minutes}",
        "does| {action:marinate} it for {time:two hours}",
        "does| {action:let} it {action:cool} for {time:an hour}",
    ],
)
def test_waiting_sets_no_appliance(clause: str) -> None:
    assert settings_of(drafted(clause)) == []


def test_every_so_many_minutes_is_no_cooking_time() -> None:
    setting = only(
        """does| {action:simmer} it for {time:thirty minutes} on {level:low}
        does| {action:stir} it every {time:five minutes}"""
    )
    assert setting.seconds
    assert setting.seconds.low == 1800


def test_a_setting_has_the_clauses_that_say_it() -> None:
    setting = only(
        """does| {action:preheat} the {appliance:oven} to {temp:350 degrees fahrenheit}
        does| {action:bake} it for {time:25 to 30 minutes}"""
    )
    assert [evidence.text for evidence in setting.evidence] == [
        "preheat the oven to 350 degrees fahrenheit",
        "bake it for 25 to 30 minutes",
    ]
