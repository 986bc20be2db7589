"""Appliances: their programs, levels and releases, and which bare numbers may be °F or °C."""

from itertools import groupby

import pint
import pytest

from stovescript.kitchen.appliances import (
    NEEDS,
    SETTING_KINDS,
    appliances,
    by_form,
    by_name,
    by_unsure_form,
    settings,
    settings_of,
)


def test_schema() -> None:
    for appliance in appliances():
        assert set(appliance.needs) <= NEEDS
    for setting in settings():
        assert set(setting.needs) <= NEEDS and setting.appliances
        assert set(setting.appliances) <= set(by_name())
    assert {setting.kind for setting in settings()} == SETTING_KINDS


def test_names_and_forms_are_unique() -> None:
    assert len(by_name()) == len(appliances())
    assert len(by_form()) == sum(len(appliance.forms) for appliance in appliances())


def test_a_form_names_one_setting_of_an_appliance() -> None:
    for appliance in by_name():
        own = [setting for setting in settings() if appliance in setting.appliances]
        assert len(settings_of(appliance)) == sum(len(setting.forms) for setting in own), appliance


@pytest.mark.parametrize(
    "name",
    [
        "oven",
        "broiler",
        "stovetop",
        "induction hob",
        "pressure cooker",
        "stovetop pressure cooker",
        "air fryer",
        "slow cooker",
        "rice cooker",
        "microwave",
        "grill",
        "smoker",
        "sous vide circulator",
        "bread machine",
        "stand mixer",
        "hand mixer",
        "blender",
        "immersion blender",
        "food processor",
        "spice grinder",
        "toaster oven",
        "multi-cooker",
        "wok burner",
        "dehydrator",
        "steamer",
        "waffle iron",
        "griddle",
        "panini press",
        "ice cream maker",
        "kettle",
        "tandoor",
        "pizza oven",
        "deep fryer",
        "electric skillet",
        "hot plate",
    ],
)
def test_household_appliances_are_there(name: str) -> None:
    assert name in by_name()


@pytest.mark.parametrize(
    ("form", "name"),
    [("air friar", "air fryer"), ("hob", "stovetop"), ("mixie", "blender"), ("oven grill", "broiler")],
)
def test_spoken_form(form: str, name: str) -> None:
    assert by_form()[form].name == name


def test_the_grill_is_a_broiler_in_one_country_and_a_barbecue_in_another() -> None:
    assert {"broiler", "grill"} <= {appliance.name for appliance in by_unsure_form()["grill"]}
    assert {"stovetop", "pressure cooker"} <= {appliance.name for appliance in by_unsure_form()["cooker"]}


@pytest.mark.parametrize(
    ("appliance", "form", "kind", "name"),
    [
        ("pressure cooker", "let it come down on its own", "release", "natural release"),
        ("pressure cooker", "open the valve", "release", "quick release"),
        ("multi-cooker", "natural then quick", "release", "timed natural release"),
        ("stovetop pressure cooker", "three whistles", "whistle", "whistles"),
        ("pressure cooker", "manual high", "program", "pressure cook"),
        ("slow cooker", "on low", "level", "low"),
        ("stovetop", "medium to high", "level", "medium-high"),
        ("stovetop", "low flame", "level", "low"),
        ("stovetop", "full flame", "level", "high"),
        ("stovetop", "simmer burner", "level", "low"),
        ("microwave", "fifty percent", "power", "half power"),
        ("stand mixer", "speed two", "speed", "low speed"),
        ("bread machine", "dough cycle", "program", "dough"),
        ("oven", "fan forced", "program", "convection"),
    ],
)
def test_spoken_setting(appliance: str, form: str, kind: str, name: str) -> None:
    setting = settings_of(appliance)[form]
    assert (setting.kind, setting.name) == (kind, name)


@pytest.mark.parametrize("appliance", ["stovetop", "slow cooker", "microwave", "stand mixer", "broiler"])
def test_levels_stand_in_order(appliance: str) -> None:
    ranked = [setting for setting in settings() if appliance in setting.appliances and setting.rank]
    for _, scale in groupby(ranked, key=lambda setting: setting.kind):
        ranks = [setting.rank for setting in scale]
        assert ranks == sorted(set(ranks))


@pytest.mark.parametrize(
    ("appliance", "needs"),
    [
        ("oven", {"temperature", "time"}),
        ("stovetop", {"level", "time"}),
        ("pressure cooker", {"program", "time", "release"}),
        ("microwave", {"time", "power"}),
        ("air fryer", {"temperature", "time"}),
    ],
)
def test_what_makes_a_step_cookable(appliance: str, needs: set[str]) -> None:
    assert set(by_name()[appliance].needs) == needs


def test_a_bare_200_in_the_oven_may_be_either_scale_but_350_may_not() -> None:
    low, high = by_name()["oven"].ambiguous_range or (0, 0)
    assert low <= 200 <= high < 350
    assert by_name()["deep fryer"].ambiguous_range is None


def test_the_two_scales_of_an_appliance_agree() -> None:
    """pint converts; household scales are rounded, so 20 °C apart is agreement."""
    quantity = pint.UnitRegistry().Quantity
    for appliance in appliances():
        assert (appliance.fahrenheit is None) == (appliance.celsius is None)
        for fahrenheit, celsius in zip(appliance.fahrenheit or (), appliance.celsius or (), strict=True):
            assert quantity(fahrenheit, "degF").to("degC").magnitude == pytest.approx(celsius, abs=20)


def test_pressure_and_preheat_estimates() -> None:
    """Common practice: a full pot takes about 10 minutes, natural release 10 to 20, quick release 2 to 3."""
    cooker = by_name()["pressure cooker"]
    assert cooker.pressure_minutes == (10, 15)
    assert cooker.natural_release_minutes == (10, 20)
    assert cooker.quick_release_minutes == (2, 3)
    assert cooker.minimum_liquid_ml == 250
    assert by_name()["oven"].preheat_minutes == (10, 15)
    assert by_name()["air fryer"].preheat_minutes == (3, 5)
    assert any("kidney beans" in limit for limit in by_name()["slow cooker"].cannot)
