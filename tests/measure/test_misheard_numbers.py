"""Numbers that captions show as other words ("for tablespoons"), by common English homophones."""

import pytest

from stovescript.measure import find_quantities


@pytest.mark.parametrize(
    ("said", "low", "unit"),
    [
        ("olive oil pour in for table spoons", 4, "tablespoon"),
        ("garlic for cloves crushed", 4, "clove"),
        ("add too cups of flour", 2, "cup"),
        ("to tablespoons of butter", 2, "tablespoon"),
        ("and ate ounces of cream", 8, "ounce"),
        ("eggs too of them", 2, ""),
        ("one plus one quarter cup", 1.25, "cup"),
        ("a good hand full with the stalks", 1, "handful"),
    ],
)
def test_a_number_is_heard_where_only_one_fits(said: str, low: float, unit: str) -> None:
    (quantity,) = find_quantities(said.split())
    assert (quantity.low, quantity.unit) == (low, unit)


@pytest.mark.parametrize("said", ["transfer it to cups", "simmer it for hours", "that is good for you", "use it too"])
def test_other_words_stay_what_they_are(said: str) -> None:
    assert find_quantities(said.split()) == []


@pytest.mark.parametrize(
    ("said", "heat", "seconds"),
    [
        ("preheat the air fryer to four hundred three minutes", 400, 180),
        ("oven at three fifty twenty five minutes", 350, 1500),
    ],
)
def test_heat_and_minutes_that_run_together(said: str, heat: float, seconds: float) -> None:
    temperature, time = find_quantities(said.split())
    assert (temperature.kind, temperature.low, time.kind, time.low) == ("temperature", heat, "duration", seconds)
