"""Answers as people write them."""

import pytest

from stovescript.answers.said import (
    NotUnderstood,
    amount_said,
    amounts_said,
    release_said,
    servings_said,
    size_said,
    temperature_said,
    time_said,
)
from stovescript.answers.understood import check_answer, step_said


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("1 1/2 cups", 1.5, 1.5, "cup"),
        ("1½ cups", 1.5, 1.5, "cup"),
        ("2 tbsp", 2, 2, "tablespoon"),
        ("100 g", 100, 100, "gram"),
        ("3-4 tablespoons", 3, 4, "tablespoon"),
        ("2 15-ounce cans", 2, 2, "can"),
        ("3 large eggs", 3, 3, ""),
        ("8", 8, 8, ""),
        ("a pinch", 1, 1, "pinch"),
        ("two cups of eggs", 2, 2, "cup"),
        ("to taste", 1, 1, "to taste"),
        ("enough to cover the beans", 1, 1, "to taste"),
    ],
)
def test_an_amount(text: str, low: float, high: float, unit: str) -> None:
    amount, _ = amount_said(text, "eggs")
    assert (amount.low, amount.high, amount.unit) == (low, high, unit)


def test_packages_have_their_count_and_size() -> None:
    _, package = amount_said("2 15-ounce cans", "black beans")
    assert package is not None and package.size is not None
    assert (package.count, package.size.low, package.size.unit) == (2, 15, "ounce")


def test_an_amount_for_each_time() -> None:
    assert [amount.low for amount in amounts_said("4 cups, then 2 cups")] == [4, 2]


@pytest.mark.parametrize("text", ["", "cupz", "1,5 dl", "some 14 blah", "2 cups and a bit of luck 3", "350 F"])
def test_what_is_no_amount_is_told_with_an_example(text: str) -> None:
    if text:
        with pytest.raises(NotUnderstood, match="1 1/2 cups"):
            amount_said(text, "flour")
    else:
        with pytest.raises(NotUnderstood):
            check_answer("unmeasured", text)


@pytest.mark.parametrize(
    ("text", "low", "high", "unit", "unit_said"),
    [
        ("350 F", 350, 350, "F", True),
        ("180c", 180, 180, "C", True),
        ("gas mark 4", 4, 4, "gas mark", True),
        ("375 to 400 F", 375, 400, "F", True),
        ("400", 400, 400, "F", False),
        ("180", 180, 180, "C", False),
    ],
)
def test_a_temperature(text: str, low: float, high: float, unit: str, unit_said: bool) -> None:
    heat = temperature_said(text)
    assert (heat.low, heat.high, heat.unit, heat.unit_said) == (low, high, unit, unit_said)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [("25-30 minutes", 1500, 1800), ("1 hour 15 minutes", 4500, 4500), ("10 min", 600, 600)],
)
def test_a_length_of_time(text: str, low: float, high: float) -> None:
    span = time_said(text)
    assert (span.low, span.high) == (low, high)


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("6", 6, 6, "serving"),
        ("serves 4 to 6", 4, 6, "serving"),
        ("4-6 people", 4, 6, "serving"),
        ("24 cookies", 24, 24, "cookie"),
        ("2 loaves", 2, 2, "loaf"),
        ("6 bowls", 6, 6, "serving"),
    ],
)
def test_a_yield(text: str, low: float, high: float, unit: str) -> None:
    amount = servings_said(text)
    assert (amount.low, amount.high, amount.unit) == (low, high, unit)


@pytest.mark.parametrize("text", ["14.5 ounces", "14.5-ounce", "one 14.5 ounce can", "14.5 oz"])
def test_the_size_of_a_can(text: str) -> None:
    assert (size_said(text).low, size_said(text).unit) == (14.5, "ounce")


@pytest.mark.parametrize(
    ("text", "release"),
    [
        ("quick", "quick"),
        ("open the valve at once", "quick"),
        ("natural", "natural"),
        ("by itself", "natural"),
        ("natural for 10 minutes", "timed natural"),
        ("natural 10 minutes then quick", "timed natural"),
    ],
)
def test_a_pressure_release(text: str, release: str) -> None:
    assert release_said(text) == release


@pytest.mark.parametrize(
    ("text", "how", "number"),
    [
        ("step 7", "in", 7),
        ("in step 7", "in", 7),
        ("after step 12", "after", 12),
        ("before step 3", "before", 3),
        ("3", "in", 3),
        ("at the end", "in", -1),
        ("before the first step", "before", 1),
    ],
)
def test_a_step(text: str, how: str, number: int) -> None:
    assert step_said(text) == (how, number)


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        ("no_servings", "lots"),
        ("no_size", "big"),
        ("no_temperature", "hotter"),
        ("temperature_unit", "kelvin"),
        ("no_release", "carefully"),
        ("unused", "with the broth"),
        ("no_time", "for 10 blorps"),
        ("total_mismatch", "more"),
    ],
)
def test_an_answer_that_does_not_fit_its_question(kind: str, text: str) -> None:
    with pytest.raises(NotUnderstood, match="write"):
        check_answer(kind, text)


@pytest.mark.parametrize("kind", ["unmeasured", "no_servings", "no_release", "unused", "no_time"])
@pytest.mark.parametrize("text", ["not needed", "leave out"])
def test_every_question_may_be_let_go(kind: str, text: str) -> None:
    check_answer(kind, text)
