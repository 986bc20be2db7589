"""Arithmetic swaps: weights against USDA SR28 and the published samples, ratios and areas by reckoning."""

import csv
import math
import re
from pathlib import Path

import pytest

from stovescript.kitchen.substitutions import Substitution, instead_of, substitutions

SR28 = Path(__file__).parents[3] / "shared" / "data" / "usda-sr28" / "weights.csv"
FROM_SR28 = tuple(row for row in substitutions() if row.source.startswith("USDA SR28"))


def _grams(have: str, instead_unit: str) -> float:
    (row,) = (
        row
        for row in substitutions()
        if row.have == row.instead_of == have and row.have_unit == "gram" and row.instead_unit == instead_unit
    )
    return row.have_amount / row.instead_amount


@pytest.mark.parametrize("row", FROM_SR28, ids=lambda row: f"{row.instead_of} {row.instead_unit}")
def test_weight_against_sr28(row: Substitution) -> None:
    """USDA National Nutrient Database for Standard Reference, release 28, household weights."""
    if not SR28.exists():
        pytest.skip("outside data not present")
    match = re.fullmatch(r"USDA SR28 (\d{5}): ([\d.]+) (.+)", row.source)
    assert match is not None
    ndb_no, amount, measure = match.groups()
    with SR28.open(encoding="utf-8", newline="") as file:
        grams = {
            (line["ndb_no"], float(line["amount"]), line["measure"]): float(line["grams"])
            for line in csv.DictReader(file)
        }
    assert row.have_unit == "gram" and row.have_amount == grams[ndb_no, float(amount), measure]


@pytest.mark.parametrize(
    ("food", "unit", "grams"),
    [
        ("table salt", "teaspoon", 6.0),
        ("egg, small", "", 38),
        ("egg, medium", "", 44),
        ("egg, large", "", 50),
        ("egg, extra large", "", 56),
        ("egg, jumbo", "", 63),
        ("garlic clove", "", 3.0),
        ("granulated sugar", "cup", 200),
        ("all-purpose flour", "cup", 125),
        ("cocoa powder", "cup", 86),
    ],
)
def test_published_sample(food: str, unit: str, grams: float) -> None:
    """The sample weights read from SR28 rows 02047, 01123, 11215, 19335, 20081, 19165."""
    assert _grams(food, unit) == grams


def test_schema() -> None:
    assert all(row.have_amount > 0 and row.instead_amount > 0 for row in substitutions())
    keys = [(row.have, row.have_unit, row.instead_of, row.instead_unit) for row in substitutions()]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("size", ["small", "medium", "extra large", "jumbo"])
def test_eggs_swapped_by_number_weigh_about_the_same(size: str) -> None:
    (row,) = (row for row in substitutions() if row.have == f"egg, {size}" and row.instead_of == "egg, large")
    have = row.have_amount * _grams(f"egg, {size}", "")
    assert have == pytest.approx(row.instead_amount * _grams("egg, large", ""), rel=0.06)


def test_coarse_salt_swapped_by_the_spoon_weighs_the_same() -> None:
    (row,) = (row for row in instead_of("table salt") if row.have == "coarse kosher salt")
    coarse = row.have_amount * _grams("coarse kosher salt", "teaspoon")
    assert coarse == pytest.approx(row.instead_amount * _grams("table salt", "teaspoon"))


def test_dried_herbs_stand_for_three_times_as_much_fresh() -> None:
    """1 tablespoon is 3 teaspoons (NIST Handbook 44, Appendix C)."""
    (row,) = (row for row in instead_of("fresh thyme") if row.have == "dried thyme")
    assert (row.have_amount, row.have_unit, row.instead_amount, row.instead_unit) == (
        1,
        "teaspoon",
        1,
        "tablespoon",
    )


def test_yeast_ratios_are_consistent() -> None:
    """Common practice: 3 of fresh for 1 of instant, 2.5 of fresh for 1 of active dry, by weight."""
    ratio = {(row.have, row.instead_of): row for row in substitutions() if row.have_unit == "gram"}
    assert ratio["fresh yeast", "instant yeast"].have_amount == 3
    assert ratio["fresh yeast", "active dry yeast"].have_amount == 2.5
    assert ratio["instant yeast", "fresh yeast"].have_amount == pytest.approx(1 / 3, abs=0.01)


@pytest.mark.parametrize("diameter", [6, 7, 8, 9, 10, 12])
def test_area_of_a_round_pan(diameter: int) -> None:
    name = f"{diameter}-inch round pan"
    (row,) = (row for row in substitutions() if row.have == row.instead_of == name)
    assert row.have_unit == "square inch"
    assert row.have_amount == pytest.approx(math.pi * diameter**2 / 4, abs=0.06)


@pytest.mark.parametrize(
    ("name", "sides"),
    [("8-inch square pan", (8, 8)), ("9 by 13-inch pan", (9, 13)), ("11 by 7-inch pan", (11, 7))],
)
def test_area_of_a_straight_sided_pan(name: str, sides: tuple[int, int]) -> None:
    (row,) = (row for row in substitutions() if row.have == row.instead_of == name)
    assert row.have_amount == sides[0] * sides[1]


def test_buttermilk_from_milk_and_acid() -> None:
    assert "milk + lemon juice" in {row.have for row in instead_of("buttermilk")}
