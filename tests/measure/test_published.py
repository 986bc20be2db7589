"""Units and their conversion, checked against published values and a general library of units (pint)."""

import pint
import pytest

from stovescript.kitchen.units import DIMENSIONS, SYSTEMS, by_spoken, unit_called, units
from stovescript.measure import UnitError, convert

# NIST Handbook 44, Appendix C (gallon 231 cubic inches, 8 fluid ounces a cup, avoirdupois pound), and the UCUM
# definitions that follow from it.
EXACT = [
    (1, "gallon", 3785.411784, "milliliter"),
    (1, "gallon", 231 * 2.54**3, "milliliter"),
    (1, "gallon", 16, "cup"),
    (1, "cup", 8, "fluid ounce"),
    (1, "cup", 236.5882365, "milliliter"),
    (1, "fluid ounce", 29.5735295625, "milliliter"),
    (1, "fluid ounce", 2, "tablespoon"),
    (1, "tablespoon", 3, "teaspoon"),
    (1, "tablespoon", 14.78676478125, "milliliter"),
    (1, "teaspoon", 4.92892159375, "milliliter"),
    (1, "pint", 2, "cup"),
    (1, "quart", 2, "pint"),
    (1, "pound", 453.59237, "gram"),
    (1, "pound", 16, "ounce"),
    (1, "ounce", 28.349523125, "gram"),
    (1, "inch", 25.4, "millimeter"),
    (1, "imperial fluid ounce", 28.4130625, "milliliter"),
    (1, "imperial pint", 568.26125, "milliliter"),
    (1, "imperial gallon", 8, "imperial pint"),
    (212, "F", 100, "C"),
    (32, "F", 0, "C"),
]

# Rounded household measures for nutrition labels: 21 CFR 101.9(b)(5)(viii).
LABEL = [
    ("teaspoon", 5, "ml"),
    ("tablespoon", 15, "ml"),
    ("cup", 240, "ml"),
    ("fluid ounce", 30, "ml"),
    ("oz", 28, "g"),
]

# Safe minimum temperatures, the federal chart's own pairs of degrees.
CHART = [(165, 73.9), (160, 71.1), (145, 62.8), (140, 60.0)]

# Oven words, the metric cooking page of NIST: rounded to tens of degrees Celsius.
OVEN = [(300, 150), (325, 160), (350, 180), (375, 190), (400, 200), (450, 230), (500, 260)]


@pytest.mark.parametrize(("value", "unit", "result", "to"), EXACT)
def test_exact_definitions(value: float, unit: str, result: float, to: str) -> None:
    assert convert(value, unit, to) == pytest.approx(result, rel=1e-12)


@pytest.mark.parametrize(("unit", "rounded", "to"), LABEL)
def test_label_measures_are_within_two_percent(unit: str, rounded: float, to: str) -> None:
    assert convert(1, unit, to) == pytest.approx(rounded, rel=0.02)


@pytest.mark.parametrize(("fahrenheit", "celsius"), CHART)
def test_safe_temperatures(fahrenheit: float, celsius: float) -> None:
    assert convert(fahrenheit, "F", "C") == pytest.approx(celsius, abs=0.05)


@pytest.mark.parametrize(("fahrenheit", "celsius"), OVEN)
def test_oven_temperatures_round_to_the_published_ones(fahrenheit: float, celsius: float) -> None:
    assert convert(fahrenheit, "F", "C") == pytest.approx(celsius, abs=6)


def test_gas_marks() -> None:
    """Common practice in British kitchens: mark 4 is 350 °F, mark 6 is 400 °F."""
    assert convert(4, "gas mark", "F") == 350
    assert convert(400, "F", "gas mark") == 6
    assert round(convert(6, "gas mark", "C"), -1) == 200
    with pytest.raises(UnitError, match="oven marks"):
        convert(90, "F", "gas mark")


def customary(name: str) -> bool:
    """The size is a custom of some kitchens, not a definition that pint would know."""
    source = units()[name].source
    return "common practice" in source or "from memory" in source


def test_pint_agrees_on_every_defined_unit() -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    base = {"volume": "milliliter", "mass": "gram", "length": "millimeter", "time": "second"}
    checked = 0
    for name, unit in units().items():
        if unit.factor is None or customary(name):
            continue
        theirs = registry.Quantity(1.0, name.replace(" ", "_")).to(base[unit.dimension]).magnitude
        assert unit.factor == pytest.approx(theirs, rel=1e-9), name
        checked += 1
    assert checked >= 25
    for value in (50.0, 165.0, 350.0):
        celsius = registry.Quantity(value, "degF").to("degC").magnitude
        assert convert(value, "F", "C") == pytest.approx(celsius, rel=1e-9)


def test_customary_sizes() -> None:
    """Common practice: metric cup, Australian tablespoon, rice cooker cup, a stick of butter, usual cans."""
    assert convert(1, "metric cup", "ml") == 250
    assert convert(1, "australian tablespoon", "ml") == 20
    assert convert(1, "rice cup", "ml") == 180
    assert convert(1, "stick of butter", "g") == pytest.approx(113.4, abs=0.01)
    assert convert(1, "stick of butter", "oz") == pytest.approx(4)
    assert convert(1, "15-ounce can", "oz") == pytest.approx(15)
    assert convert(1, "28-ounce can", "oz") == pytest.approx(28)
    assert convert(1, "400-gram can", "g") == 400


@pytest.mark.parametrize(
    ("value", "unit", "to"),
    [(1, "cup", "gram"), (1, "pinch", "teaspoon"), (1, "clove", "gram"), (1, "cup", "F"), (1, "blorp", "cup")],
)
def test_what_does_not_convert(value: float, unit: str, to: str) -> None:
    with pytest.raises(UnitError):
        convert(value, unit, to)


def test_the_table_is_whole() -> None:
    for name, unit in units().items():
        assert unit.dimension in DIMENSIONS, name
        assert unit.system in SYSTEMS, name
        assert unit.source, name
        assert unit.factor is None or unit.factor > 0, name
        assert (unit.factor is None) == (unit.dimension in {"count", "vague", "package", "temperature"}), name
        assert not unit.spoken or unit.name in unit.spoken or unit.dimension == "temperature", name


def test_a_form_is_said_of_one_unit() -> None:
    several = {form for form, said in by_spoken().items() if len(said) > 1}
    assert several == {"c", "mil", "mils"}  # cup and Celsius, milliliter and millimeter: the grammar tells them apart


def test_units_by_what_is_said() -> None:
    assert [
        unit.name for said in ("tbsp", "litres", "TSP", "T", "t", "lbs.", "mls") if (unit := unit_called(said))
    ] == [
        "tablespoon",
        "liter",
        "teaspoon",
        "tablespoon",
        "teaspoon",
        "pound",
        "milliliter",
    ]
    assert unit_called("blorp") is None
