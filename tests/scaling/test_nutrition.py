"""The nutrition estimate: only where everything can be counted, from SR28, rounded as 21 CFR 101.9(c) has it."""

import csv
from pathlib import Path

import pytest

from stovescript.kitchen.derive_nutrients import COLUMNS, derived_nutrients
from stovescript.kitchen.nutrients import nutrients
from stovescript.kitchen.tables import rows
from stovescript.pages.nutrition import calories, cholesterol, fat, grams, nutrition, nutrition_lines, sodium

from .drafts import amount, draft

SR28 = Path(__file__).parents[3] / "shared" / "data" / "usda-sr28"


def test_a_batch_by_hand() -> None:
    """USDA SR28 per 100 g, and grams a cup: flour 20081 364 kcal, 125 g; sugar 19335 387 kcal, 200 g."""
    estimate = nutrition(draft(["1 cup: all-purpose flour", "1 cup: sugar"], servings=amount(4, "serving")))
    assert estimate.missing == ()
    assert estimate.per_serving["energy_kcal"] == pytest.approx((364 * 1.25 + 387 * 2) / 4)


def test_twice_as_many_servings_is_half_of_it() -> None:
    few, many = (nutrition(draft(["1 cup: sugar"], servings=amount(n, "serving"))).per_serving for n in (4, 8))
    assert few["carbohydrate_g"] == pytest.approx(2 * many["carbohydrate_g"])


@pytest.mark.parametrize(
    ("line", "tells"),
    [
        ("?: sugar", "sugar (an amount is not said)"),
        ("1 cup + ?: sugar", "sugar (an amount is not said)"),
        ("1 cup: moonberries", "moonberries (no nutrients are known for it)"),
        ("1 teaspoon: salt", "salt (no weight is known for its amount, or its kind isn't said)"),
        ("1 handful: spinach", "spinach (no weight"),
    ],
)
def test_what_is_missing_is_named_and_nothing_is_estimated(line: str, tells: str) -> None:
    made = draft([line, "1 cup: flour"], servings=amount(4, "serving"))
    assert nutrition(made).per_serving == {}
    assert tells in nutrition_lines(made)[0] and "No estimate" in nutrition_lines(made)[0]


@pytest.mark.parametrize("servings", [None, amount(12, "cookie")])
def test_without_servings_there_is_none(servings: object) -> None:
    made = draft(["1 cup: sugar"]).model_copy(update={"servings": servings})
    assert "how many it serves" in nutrition_lines(made)[0]


def test_it_is_marked_as_an_estimate() -> None:
    assert "An estimate" in nutrition_lines(draft(["1 cup: sugar"], servings=amount(4, "serving")))[-1]


def test_optional_ingredients_are_left_out_and_said() -> None:
    made = draft(["1 cup: sugar", "?: cream"], servings=amount(4, "serving"))
    cream = made.ingredients[1].model_copy(update={"optional": True})
    made = made.model_copy(update={"ingredients": [made.ingredients[0], cream]})
    assert "Not counted, being optional: cream" in nutrition_lines(made)[-1]


def test_label_rounding() -> None:
    """21 CFR 101.9(c)(1) to (7), from memory."""
    assert [calories(x) for x in (4.9, 5, 47, 48, 50, 52, 55, 104)] == ["0", "5", "45", "50", "50", "50", "60", "100"]
    assert [fat(x) for x in (0.49, 0.5, 0.8, 4.7, 4.9, 5.4, 5.5)] == [
        "0 g", "0.5 g", "1 g", "4.5 g", "5 g", "5 g", "6 g",
    ]  # fmt: skip
    assert [cholesterol(x) for x in (1.9, 2, 5, 5.1, 8)] == [
        "0 mg",
        "less than 5 mg",
        "less than 5 mg",
        "5 mg",
        "10 mg",
    ]
    assert [sodium(x) for x in (4.9, 5, 138, 140, 141, 145)] == [
        "0 mg", "5 mg", "140 mg", "140 mg", "140 mg", "150 mg",
    ]  # fmt: skip
    assert [grams(x) for x in (0.49, 0.5, 0.99, 1, 1.5)] == ["0 g", "less than 1 g", "less than 1 g", "1 g", "2 g"]


@pytest.mark.skipif(not SR28.is_dir(), reason="the USDA SR28 files lie beside the checkout only")
def test_the_table_is_what_the_script_derives() -> None:
    assert rows("nutrients") == derived_nutrients(SR28)


@pytest.mark.skipif(not SR28.is_dir(), reason="the USDA SR28 files lie beside the checkout only")
def test_every_value_is_that_of_sr28() -> None:
    with (SR28 / "nutrients_per_100g.csv").open(encoding="utf-8", newline="") as table:
        given = {row["ndb_no"]: row for row in csv.DictReader(table)}
    for number, values in nutrients().items():
        expected = {name: float(given[number][name]) for name in COLUMNS if given[number][name]}
        assert dict(values) == expected
