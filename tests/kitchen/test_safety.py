"""Safe temperatures against the published chart, and cautions that come when they should."""

import re
from dataclasses import replace

import pint
import pytest

from stovescript.kitchen.actions import KINDS
from stovescript.kitchen.appliances import by_name, settings
from stovescript.kitchen.foods import food_categories, foods
from stovescript.kitchen.safety import CONDITION_COLUMNS, Scene, cautions, due, safe_minimum, safe_values

CHART = "FSIS safe minimum temperatures, reprint"


@pytest.mark.parametrize(
    ("id", "fahrenheit", "celsius", "rest_minutes"),
    [
        ("poultry", 165, 73.9, None),
        ("stuffing", 165, 73.9, None),
        ("ground-meat", 160, 71.1, None),
        ("whole-cuts", 145, 62.8, 3),
        ("raw-ham", 145, 62.8, 3),
        ("cooked-ham-inspected", 140, 60.0, None),
        ("cooked-ham-other", 165, 73.9, None),
        ("eggs", None, None, None),
        ("egg-dishes", 160, 71.1, None),
        ("fish", 145, 62.8, None),
        ("crustaceans", None, None, None),
        ("bivalves", None, None, None),
        ("leftovers", 165, 73.9, None),
    ],
)
def test_published_minimum(id: str, fahrenheit: float | None, celsius: float | None, rest_minutes: int | None) -> None:
    """The federal chart of safe minimum internal temperatures, seen in reprints."""
    value = safe_values()[id]
    assert (value.fahrenheit, value.celsius, value.minutes) == (fahrenheit, celsius, rest_minutes)
    assert value.source == CHART and value.kind == "minimum"
    assert value.fahrenheit or value.sign, "what has no temperature has a sign to look for"


def test_the_chart_has_no_other_minimum() -> None:
    assert sum(value.kind == "minimum" for value in safe_values().values()) == 13


@pytest.mark.parametrize(
    ("id", "fahrenheit", "minutes"),
    [
        ("danger-zone-low", 40, None),
        ("danger-zone-high", 140, None),
        ("out-of-fridge", None, 120),
        ("out-of-fridge-hot", 90, 60),
        ("reheating", 165, None),
    ],
)
def test_limits(id: str, fahrenheit: float | None, minutes: int | None) -> None:
    """Danger zone and two-hour rule: FSIS, from memory; reheating: the reprinted chart."""
    value = safe_values()[id]
    assert (value.kind, value.fahrenheit, value.minutes) == ("limit", fahrenheit, minutes)


def test_fahrenheit_and_celsius_agree() -> None:
    """pint converts; the table is rounded to a tenth of a degree."""
    quantity = pint.UnitRegistry().Quantity
    for value in safe_values().values():
        assert (value.fahrenheit is None) == (value.celsius is None)
        if value.fahrenheit is not None:
            celsius = quantity(value.fahrenheit, "degF").to("degC").magnitude
            assert value.celsius == pytest.approx(celsius, abs=0.051), value.id


@pytest.mark.parametrize(
    ("food", "category", "id"),
    [
        ("chicken thigh", "poultry", "poultry"),
        ("ground beef", "ground meat", "ground-meat"),
        ("pork chop", "red meat", "whole-cuts"),
        ("scallops", "mollusc", "crustaceans"),
        ("mussels", "mollusc", "bivalves"),
        ("salmon", "fish", "fish"),
    ],
)
def test_minimum_of_a_food(food: str, category: str, id: str) -> None:
    value = safe_minimum(food, category)
    assert value is not None and value.id == id


def test_no_minimum_is_made_up() -> None:
    assert safe_minimum("carrot", "root vegetable") is None


def test_cautions_schema() -> None:
    ids = [caution.id for caution in cautions()]
    assert len(ids) == len(set(ids))
    programs = {setting.name for setting in settings()}
    for caution in cautions():
        assert caution.when, f"{caution.id} has no condition"
        assert len(re.findall(r"[.!?](?=\s|$)", caution.text)) <= 2, f"{caution.id}: one or two sentences"
        for condition in caution.when:
            assert condition and set(condition) <= set(CONDITION_COLUMNS)
            assert set(condition) != {"without"}
            assert condition.get("foods", frozenset()) <= foods().keys() | food_categories().keys(), caution.id
            assert condition.get("appliances", frozenset()) <= by_name().keys(), caution.id
            assert condition.get("programs", frozenset()) <= programs, caution.id
            assert condition.get("kinds", frozenset()) <= KINDS, caution.id


def test_temperatures_in_a_caution_agree_with_each_other() -> None:
    """Each "165 °F (73.9 °C)" in a text, by pint, to the degree it is rounded to."""
    quantity = pint.UnitRegistry().Quantity
    minus = "\N{MINUS SIGN}"
    pair = re.compile(rf"([{minus}-]?\d+) °F \(([{minus}-]?[\d.]+) °C\)")
    found = [match for caution in cautions() for match in pair.findall(caution.text)]
    assert len(found) > 10
    for fahrenheit, celsius in found:
        exact = quantity(float(fahrenheit.replace(minus, "-")), "degF").to("degC").magnitude
        assert float(celsius.replace(minus, "-")) == pytest.approx(exact, abs=0.51)


@pytest.mark.parametrize(
    ("scene", "id"),
    [
        (Scene(foods=frozenset({"chicken", "poultry"})), "poultry"),
        (Scene(foods=frozenset({"honey"})), "honey-infants"),
        (Scene(kinds=frozenset({"release"})), "pressure-release"),
        (Scene(appliances=frozenset({"pressure cooker"})), "pressure-fill"),
        (Scene(foods=frozenset({"garlic"}), text="So that's my garlic confit."), "garlic-oil"),
        (Scene(text="we're canning these for the winter"), "home-canning"),
        (Scene(appliances=frozenset({"sous vide circulator"})), "sous-vide-low"),
        (Scene(text="pour the brandy and flambé it"), "flambe"),
        (Scene(foods=frozenset({"cassava"})), "cassava"),
        (Scene(allergens=frozenset({"sesame"})), "allergens"),
        (Scene(foods=frozenset({"rice"}), kinds=frozenset({"cool"})), "rice-cooling"),
        (Scene(foods=frozenset({"grapes"}), text="cut them up for the little ones"), "choking"),
        (Scene(foods=frozenset({"potato"}), text="i cut off the green bits"), "green-potatoes"),
        (Scene(foods=frozenset({"rhubarb"})), "rhubarb-leaves"),
        (Scene(foods=frozenset({"fish"}), text="it's a ceviche"), "raw-fish"),
    ],
)
def test_caution_is_due(scene: Scene, id: str) -> None:
    assert id in {caution.id for caution in due(scene)}


def test_an_empty_scene_needs_no_caution() -> None:
    assert due(Scene()) == ()


def test_kidney_beans_in_a_slow_cooker_unless_they_are_canned() -> None:
    dried = Scene(
        foods=frozenset({"kidney beans"}), appliances=frozenset({"slow cooker"}), text="a cup of kidney beans"
    )
    canned = replace(dried, text="two cans of kidney beans")
    assert "kidney-beans-slow" in {caution.id for caution in due(dried)}
    assert "kidney-beans-slow" not in {caution.id for caution in due(canned)}


def test_a_phrase_is_matched_as_whole_words() -> None:
    scene = Scene(foods=frozenset({"ground meat"}), text="compare the prices")
    assert "rare-ground-meat" not in {caution.id for caution in due(scene)}
