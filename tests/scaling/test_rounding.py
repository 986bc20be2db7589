"""Amounts in measures that a kitchen owns: examples of the trade, and laws over any amount."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stovescript.kitchen.measures import owned
from stovescript.measure import convert, find_quantities, to_text
from stovescript.pages.rounding import MOST_OFF, Rounded, measures_text, rounded

# Common practice of US and metric kitchens: exact value → what is measured.
EXAMPLES = [
    (1 / 3, "cup", "1/3 cup"),
    (0.3333, "cup", "1/3 cup"),
    (3, "teaspoon", "1 tablespoon"),
    (4, "tablespoon", "1/4 cup"),
    (13, "tablespoon", "3/4 cup plus 1 tablespoon"),
    (6, "tablespoon", "1/4 cup plus 2 tablespoons"),
    (4, "teaspoon", "1 tablespoon plus 1 teaspoon"),
    (1.5, "tablespoon", "1 1/2 tablespoons"),
    (2, "cup", "2 cups"),
    (7 / 3, "cup", "2 1/3 cups"),
    (0.75, "teaspoon", "3/4 teaspoon"),
    (0.25, "pint", "1/2 cup"),
    (1.5, "quart", "1 1/2 quarts"),
    (24, "ounce", "1 1/2 pounds"),
    (19, "ounce", "1 pound plus 3 ounces"),
    (227, "gram", "225 grams"),
    (113, "gram", "113 grams"),
    (366, "gram", "365 grams"),
    (1500, "gram", "1 1/2 kilograms"),
    (473.2, "milliliter", "475 milliliters"),
    (4 / 3, "", "1 1/3"),
    (7.3, "clove", "7 cloves"),
]

UNITS = ["teaspoon", "tablespoon", "cup", "pint", "quart", "fluid ounce", "gram", "kilogram", "milliliter", "liter",
         "ounce", "pound", "clove", "", "can", "metric cup", "imperial pint"]  # fmt: skip
PINT: pint.UnitRegistry[float] = pint.UnitRegistry()
PINT.define("metric_cup = 250 milliliter")  # Australia, Canada: common practice
PINT_NAMES = {"fluid ounce": "fluid_ounce", "metric cup": "metric_cup", "imperial pint": "imperial_pint"}
values = st.floats(min_value=1e-3, max_value=1e4, allow_nan=False)


def text(found: Rounded) -> str:
    return measures_text(found.value, found.unit) or to_text(found.value, unit=found.unit)


@pytest.mark.parametrize(("value", "unit", "expected"), EXAMPLES)
def test_what_one_measures(value: float, unit: str, expected: str) -> None:
    assert text(rounded(value, unit)) == expected


@pytest.mark.parametrize("unit", ["teaspoon", "tablespoon", "cup"])
def test_every_measure_one_owns_stays(unit: str) -> None:
    for part in owned()[unit]:
        assert rounded(part, unit).off == pytest.approx(0, abs=1e-9)


@given(values, st.sampled_from(UNITS))
def test_off_tells_the_truth(value: float, unit: str) -> None:
    """The share it is off by, reckoned again by pint, a general library of units."""
    found = rounded(value, unit)
    assert found.value > 0
    if unit in ("", "clove", "can"):
        assert found.unit == unit
        back = found.value
    else:
        back = float(
            PINT.Quantity(found.value, PINT_NAMES.get(found.unit, found.unit)).m_as(PINT_NAMES.get(unit, unit))
        )
    assert back / value - 1 == pytest.approx(found.off, abs=1e-5)


@given(values, st.sampled_from(UNITS))
def test_within_5_percent_but_for_less_than_a_teaspoon_or_a_gram(value: float, unit: str) -> None:
    found = rounded(value, unit)
    small = found.unit in ("teaspoon", "ounce") and found.value <= 1.25
    small |= found.unit in ("gram", "milliliter", "kilogram", "liter") and value < 1.0
    assert found.close or small


@given(values, st.sampled_from(UNITS))
def test_rounding_again_changes_nothing_that_matters(value: float, unit: str) -> None:
    once = rounded(value, unit)
    again = rounded(once.value, once.unit)
    back = again.value if again.unit == once.unit else convert(again.value, again.unit, once.unit)
    assert back == pytest.approx(once.value, rel=0.011)


@given(st.floats(min_value=0.13, max_value=200), st.sampled_from(["teaspoon", "tablespoon", "cup", "gram", "ounce"]))
def test_what_is_printed_reads_back(value: float, unit: str) -> None:
    found = rounded(value, unit)
    read = find_quantities([*text(found).split(), "of", "flour"])
    assert [quantity.unit for quantity in read] == [found.unit]
    assert read[0].low == pytest.approx(found.value, rel=1e-3, abs=5e-4)


@given(st.integers(1, 40), st.sampled_from(owned()["cup"]))
def test_cups_are_written_in_parts_one_owns(whole: int, part: float) -> None:
    assert rounded(whole + part, "cup").off == pytest.approx(0, abs=1e-9)


def test_nothing_stays_nothing() -> None:
    assert rounded(0.0, "cup") == Rounded(0.0, "cup", 0.0)


def test_the_limit_is_5_percent() -> None:
    assert math.isclose(MOST_OFF, 0.05)
