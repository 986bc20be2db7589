"""Another size of a draft: what changes, what is flagged, what is said not to scale."""

import pytest

from stovescript.errors import StovescriptError
from stovescript.pages.markdown import amount_text
from stovescript.pages.scaling import Variant, by_factor, by_servings, in_units, wanted
from stovescript.recipe.draft import Draft

from .drafts import amount, draft, setting

OVEN = setting(
    "oven", temperature={"low": 350, "high": 350, "unit": "F", "unit_said": True}, seconds={"low": 1800, "high": 1800}
)
PRESSURE = setting("pressure cooker", program="pressure cook", level="high", seconds={"low": 600, "high": 600})


def line(made: Draft, number: int = 0) -> str:
    ingredient = made.ingredients[number]
    assert ingredient.uses[0].amount
    return f"{amount_text(ingredient.uses[0].amount, ingredient.package)} {ingredient.name}"


# Common practice of the kitchen.
SCALED = [
    ("1/2 cup: sugar", 1.5, "3/4 cup sugar"),
    ("1 teaspoon: cumin", 3, "1 tablespoon cumin"),
    ("2 tablespoon: butter", 2, "1/4 cup butter"),
    ("1/4 cup: milk", 1 / 2, "2 tablespoons milk"),
    ("1: egg", 2, "2 eggs"),
    ("2: eggs", 1 / 2, "1 egg"),
    ("1: potato", 3, "3 potatoes"),
    ("1: bay leaf", 2, "2 bay leaves"),
    ("2-3 clove: garlic", 2, "4 to 6 cloves garlic"),
    ("1-2 tablespoon: oil", 2, "2 to 4 tablespoons oil"),
    ("1 can of 15 ounce: black beans", 2, "2 15-ounce cans black beans"),
    ("1 pinch: salt", 2, "2 pinches salt"),
]


@pytest.mark.parametrize(("said", "factor", "expected"), SCALED)
def test_a_line_in_another_size(said: str, factor: float, expected: str) -> None:
    assert line(by_factor(draft([said]), factor).draft) == expected


@pytest.mark.parametrize(
    ("said", "factor", "tells"),
    [
        ("1: egg", 1.5, "1 1/2 does not divide in the shell: beat 2 and use 3/4 of it (about 75 g, at 50 g"),
        ("1 can of 15 ounce: black beans", 1.5, "A can does not divide: open 2"),
        ("3: eggs", 2, None),
        ("2 can of 15 ounce: black beans", 1 / 2, None),
        ("1: onion", 1.5, None),
    ],
)
def test_eggs_and_packages_that_do_not_divide(said: str, factor: float, tells: str | None) -> None:
    """A large egg is 50 g without its shell: USDA SR28 01123."""
    found = by_factor(draft([said]), factor).told("whole")
    assert (tells in found[0]) if tells else not found


def test_more_than_5_percent_off_is_said() -> None:
    variant = by_factor(draft(["1/4 teaspoon: cumin"]), 0.75)
    assert any("cumin" in text and "%" in text for text in variant.told("rounding"))


def test_the_method_says_the_new_amounts() -> None:
    before = draft(
        ["2 cup: flour", "1 teaspoon: salt", "2: eggs"],
        steps=[
            "Whisk 2 cups of flour with 1 teaspoon of salt for 2 minutes.",
            "Beat in 2 eggs, then rest 10 minutes.",
        ],
    )
    after = by_factor(before, 2).draft
    assert [step.text for step in after.steps] == [
        "Whisk 4 cups of flour with 2 teaspoons of salt for 2 minutes.",
        "Beat in 4 eggs, then rest 10 minutes.",
    ]


def test_of_equal_amounts_the_food_named_after_it_counts() -> None:
    before = draft(["1 cup: sugar", "1 cup: all-purpose flour"], steps=["Add 1 cup of sugar and 1 cup of flour."])
    assert in_units(before, "weight").draft.steps[0].text == "Add 200 grams of sugar and 125 grams of flour."


def test_an_amount_that_no_ingredient_has_stays_and_is_said() -> None:
    variant = by_factor(draft(["2 cup: flour"], steps=["Drop 1/4 cup of batter into the pan."]), 2)
    assert variant.draft.steps[0].text == "Drop 1/4 cup of batter into the pan."
    assert "“1/4 cup”" in variant.told("text")[0]


def test_pressure_time_and_oven_heat_stay_and_are_said() -> None:
    variant = by_factor(draft(["2 cup: milk"], settings=[PRESSURE, OVEN]), 2)
    assert variant.draft.steps[0].settings == [PRESSURE, OVEN]
    text = " ".join(variant.told("mind"))
    assert "time under pressure stays" in text
    assert "oven temperature stays" in text
    assert "depth of the food" in text


@pytest.mark.parametrize(
    ("lines", "step", "factor", "words"),
    [
        (["2 teaspoon: baking powder"], "Bake.", 2, "Baking powder and soda"),
        (["2 teaspoon: salt"], "Stir.", 2, "three quarters of the scaled salt"),
        (["2 teaspoon: salt"], "Stir.", 0.5, "taste before adding"),
        (["1 pound: chicken thighs"], "Roast.", 2, "safe internal temperature does not change"),
        (["1 pound: beef"], "Brown the beef.", 2, "in batches"),
        (["1 cup: parmesan"], "Sprinkle it over the top.", 2, "goes by the surface"),
        (["4 cup: strawberries"], "Cook the jam.", 2, "Make two batches"),
        (["4 cup: tomatoes"], "Fill the jars for canning.", 2, "tested recipe"),
        (["1 teaspoon: active dry yeast"], "Knead.", 2, "rises faster"),
    ],
)
def test_what_does_not_scale_is_said(lines: list[str], step: str, factor: float, words: str) -> None:
    assert any(words in text for text in by_factor(draft(lines, steps=[step]), factor).told("mind"))


def test_nothing_is_cautioned_that_is_not_there() -> None:
    assert by_factor(draft(["2 cup: water"], steps=["Stir."]), 2).told("mind") == ()


def fill(lines: list[str], size: str | None, factor: float) -> str:
    pot = draft(lines, pans=[("pressure cooker", size)], settings=[PRESSURE])
    return by_factor(pot, factor).told("fill")[0]


def test_a_pressure_cooker_takes_two_thirds() -> None:
    """Common practice, the maker's manual decides: two thirds, half for beans and grains. 1 quart is 4 cups (NIST)."""
    assert "50% full" in fill(["6 cup: water"], "6 quart", 2) and "TOO FULL" not in fill(
        ["6 cup: water"], "6 quart", 2
    )
    assert "TOO FULL" in fill(["8.5 cup: water"], "6 quart", 2)


def test_half_with_beans() -> None:
    told = fill(["5 cup: water", "2 cup: chickpeas"], "6 quart", 2)
    assert "half here" in told and "58% full" in told and "TOO FULL" in told


def test_a_pot_of_unknown_size_is_reckoned() -> None:
    assert "at least 6 quarts" in fill(["8 cup: water"], None, 2)


def test_to_servings() -> None:
    variant = by_servings(draft(["2 cup: rice"], servings=amount(4, "serving")), 6)
    assert line(variant.draft) == "3 cups rice"
    assert variant.draft.servings and variant.draft.servings.low == 6


def test_to_servings_from_a_range_says_the_middle() -> None:
    variant = by_servings(draft(["2 cup: rice"], servings=amount(4, "serving", 6)), 10)
    assert variant.factor == 2 and "The middle, 5," in variant.told("size")[0]


def test_to_a_number_of_pieces() -> None:
    assert by_servings(draft(["2 cup: flour"], servings=amount(12, "cookie")), 24).factor == 2


def test_an_unmeasured_use_stays_and_is_said() -> None:
    variant = by_factor(draft(["1 teaspoon + ?: salt"]), 2)
    assert variant.draft.ingredients[0].uses[1].amount is None
    assert any("no amount was said" in text for text in variant.told("size"))


def test_several_uses_come_to_the_total() -> None:
    broth = by_factor(draft(["4 cup + 1 cup: chicken stock"]), 1.5).draft.ingredients[0]
    assert [use.amount.low for use in broth.uses if use.amount] == [6, 1.5]
    assert broth.total and broth.total.low == 7.5


def test_dials_and_thermometers_in_celsius() -> None:
    """NIST, metric cooking page: moderate is 350-375 °F, 180-190 °C. FSIS chart (reprint): 165 °F is 73.9 °C."""
    before = draft(
        ["1 cup: milk"], steps=["Heat the oven to 350 degrees."], settings=[OVEN], until="until it reads 165 °F"
    )
    step = in_units(before, "metric").draft.steps[0]
    assert step.text == "Heat the oven to 180 °C."
    assert step.until == "until it reads 74 °C"
    assert step.settings[0].temperature and step.settings[0].temperature.low == 180
    assert step.settings[0].seconds == OVEN.seconds


METRIC = [  # exact: 236.588 mL a cup, 453.592 g a pound (NIST Handbook 44, Appendix C)
    ("1 cup: milk", "235 milliliters milk"),
    ("1 pound: beef", "450 grams beef"),
    ("1 tablespoon: oil", "1 tablespoon oil"),
    ("1 quart: stock", "950 milliliters stock"),
    ("1 can of 15 ounce: black beans", "1 425-gram can black beans"),
    ("2: eggs", "2 eggs"),
]
US = [
    ("450 gram: beef", "1 pound beef"),
    ("240 milliliter: milk", "1 cup milk"),
    ("30 gram: cheddar", "1 ounce cheddar"),
    ("3 gram: saffron", "3 grams saffron"),
]
WEIGHT = [  # USDA SR28: flour 20081, sugar 19335, butter 01145, egg 01123, garlic 11215, table salt 02047, cocoa 19165
    ("1 cup: all-purpose flour", "125 grams all-purpose flour"),
    ("1 cup: granulated sugar", "200 grams granulated sugar"),
    ("1 stick: butter", "113 grams butter"),
    ("2: eggs", "100 grams eggs"),
    ("4 clove: garlic", "12 grams garlic"),
    ("1 teaspoon: table salt", "6 grams table salt"),
    ("1 cup: cocoa powder", "86 grams cocoa powder"),
    ("1 teaspoon: salt", "1 teaspoon salt"),
    ("1 teaspoon: kosher salt", "1 teaspoon kosher salt"),
    ("1 tablespoon: yeast", "1 tablespoon yeast"),
    ("8: corn tortillas", "8 corn tortillas"),
    ("1 handful: corn", "1 handful corn"),
    ("1 cup: moonberries", "1 cup moonberries"),
]


@pytest.mark.parametrize(
    ("system", "said", "expected"),
    [("metric", *row) for row in METRIC] + [("us", *row) for row in US] + [("weight", *row) for row in WEIGHT],
)
def test_a_line_in_another_system(system: str, said: str, expected: str) -> None:
    assert line(asked(draft([said]), units=system).draft) == expected


def test_what_has_no_weight_is_said() -> None:
    told = " ".join(in_units(draft(["1 teaspoon: kosher salt", "1 cup: sugar"]), "weight").told("units"))
    assert "Stayed as said: kosher salt" in told and "sugar (weighed by a cup of 200 g)" in told


def asked(made: Draft, **options: str) -> Variant:
    return wanted(made, **options)


@pytest.mark.parametrize(
    ("options", "tells"),
    [
        ({}, "nothing to do"),
        ({"times": "1"}, "changes nothing"),
        ({"times": "-2"}, "not above 0"),
        ({"times": "0"}, "not above 0"),
        ({"times": "two"}, "no number"),
        ({"times": "nan"}, "no number"),
        ({"times": "1/0"}, "no number"),
        ({"times": "1e9"}, "no kitchen batch"),
        ({"servings": "4"}, "already makes 4 servings"),
        ({"servings": "2", "times": "2"}, "can't go together"),
        ({"units": "imperial"}, "no system of units"),
    ],
)
def test_what_cannot_be_done_is_told(options: dict[str, str], tells: str) -> None:
    with pytest.raises(StovescriptError, match=tells):
        asked(draft(["1 cup: sugar"], servings=amount(4, "serving")), **options)


@pytest.mark.parametrize(("text", "factor"), [("2", 2), ("1/2", 0.5), ("1 1/2", 1.5), ("1,5", 1.5), (" 3 ", 3)])
def test_a_number_as_it_is_written(text: str, factor: float) -> None:
    assert asked(draft(["1 cup: sugar"]), times=text).factor == factor


def test_servings_not_said() -> None:
    with pytest.raises(StovescriptError, match="doesn't say how many it serves"):
        by_servings(draft(["1 cup: sugar"]), 4)


def test_an_ingredient_of_another_step_is_known_by_its_name() -> None:
    before = draft(["2 cup: milk"], steps=["Warm 2 cups of milk.", "Add 2 cups of milk.", "Skim off 2 cups of foam."])
    later = [step.model_copy(update={"ingredients": []}) for step in before.steps]
    texts = [step.text for step in by_factor(before.model_copy(update={"steps": later}), 2).draft.steps]
    assert texts == ["Warm 4 cups of milk.", "Add 4 cups of milk.", "Skim off 2 cups of foam."]
