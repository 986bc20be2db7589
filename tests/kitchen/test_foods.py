"""The foods table: its shape, its forms, its allergens, and its weights against USDA SR28."""

import csv
import inspect
import re
import time
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stovescript.errors import StovescriptError
from stovescript.kitchen.derive_weights import WEIGHT_COLUMNS, derived_weights, fill
from stovescript.kitchen.foods import (
    EU_ALLERGENS,
    US_ALLERGENS,
    Food,
    ambiguous_food_forms,
    food_categories,
    food_forms,
    food_named,
    foods,
)
from stovescript.kitchen.tables import listed, rows, text

SR28 = Path(__file__).parents[3] / "shared" / "data" / "usda-sr28"


def _written(food: Food) -> tuple[str, ...]:
    return (food.name, *food.synonyms, *food.misheard)


def _named(form: str) -> Food:
    food = food_named(form)
    assert food is not None, form
    return food


def test_the_table_is_large_enough() -> None:
    assert len(foods()) >= 1600
    assert sum(bool(food.ndb_no) for food in foods().values()) >= 400


def test_the_columns_are_the_fields_in_order() -> None:
    assert text("foods.csv").splitlines()[0].split(",") == list(Food.__slots__)


@pytest.mark.parametrize("table", ("foods", "food_categories", "sr28_map"))
def test_cells_are_trimmed_and_lists_have_no_empty_or_double_item(table: str) -> None:
    for row in rows(table):
        for column, cell in row.items():
            assert cell == cell.strip() and "  " not in cell, row
            items = cell.split("|")
            assert column == "source" or len(items) == 1 or (all(items) and len(set(items)) == len(items)), row


def test_every_row_has_its_source() -> None:
    assert all(food.source for food in foods().values())
    assert all(row["source"] for row in rows("food_categories"))


def test_categories_are_closed_and_all_in_use() -> None:
    assert {food.category for food in foods().values()} == set(food_categories())


def test_usual_units_are_of_the_units_table() -> None:
    assert {food.usual_unit for food in foods().values()} <= {"", *(row["name"] for row in rows("units"))}


def test_flags_are_0_or_1() -> None:
    assert {row[flag] for row in rows("foods") for flag in ("loose", "ambiguous", "dish_like")} == {"0", "1"}


def test_every_form_belongs_to_one_food_and_is_lower_case() -> None:
    count = Counter(form for food in foods().values() for form in _written(food))
    assert [form for form, times in count.items() if times > 1] == []
    assert all(form == form.lower() for form in count)


def test_written_forms_are_never_taken_by_a_made_one() -> None:
    assert all(food_forms()[form] == food.name for food in foods().values() for form in _written(food))


def test_ambiguous_forms_are_synonyms_of_their_food() -> None:
    assert all(set(food.ambiguous_forms) <= set(food.synonyms) for food in foods().values())


def test_a_weight_of_one_says_what_one_is() -> None:
    for food in foods().values():
        assert (food.g_per_each is None) == (food.each == "")
        assert bool(food.ndb_no) == ("USDA SR28" in food.source)


@pytest.mark.parametrize(
    ("said", "name"),
    (
        ("coriander leaves", "cilantro"),
        ("aubergines", "eggplant"),
        ("courgette", "zucchini"),
        ("capsicum", "bell pepper"),
        ("spring onions", "scallion"),
        ("green onion", "scallion"),
        ("icing sugar", "powdered sugar"),
        ("confectioners' sugar", "powdered sugar"),
        ("castor sugar", "caster sugar"),
        ("plain flour", "all-purpose flour"),
        ("bicarb", "baking soda"),
        ("cornflour", "cornstarch"),
        ("double cream", "heavy cream"),
        ("beef mince", "ground beef"),
        ("prawns", "shrimp"),
        ("atta", "whole wheat flour"),
        ("maida", "all-purpose flour"),
        ("besan", "chickpea flour"),
        ("dahi", "yogurt"),
        ("jeera", "ground cumin"),
        ("haldi", "turmeric"),
        ("hing", "asafoetida"),
        ("garbanzo beans", "chickpeas"),
        ("swede", "rutabaga"),
        ("rocket", "arugula"),
        ("Crème  Fraîche", "creme fraiche"),
        ("jalapeños", "jalapeno"),
        ("half and half", "half-and-half"),
        ("chicken thighs", "chicken thigh"),
        ("legs of lamb", "leg of lamb"),
        ("bay leaves", "bay leaf"),
        ("potatoes", "potato"),
        ("strawberry", "strawberries"),
        ("chickpea", "chickpeas"),
        ("radishes", "radish"),
        ("confectioners sugar", "powdered sugar"),
    ),
)
def test_names_of_the_trade(said: str, name: str) -> None:
    """Regional and transliterated names, plurals and spellings: common practice."""
    assert _named(said).name == name


@pytest.mark.parametrize(
    ("heard", "name"),
    (
        ("tumeric", "turmeric"),
        ("worchester sauce", "worcestershire sauce"),
        ("gochu john", "gochujang"),
        ("cilantra", "cilantro"),
        ("parmesean", "parmesan cheese"),
        ("halapeno", "jalapeno"),
    ),
)
def test_misheard_names(heard: str, name: str) -> None:
    assert _named(heard).name == name
    assert heard in _named(heard).misheard


ORDINARY_ENGLISH = listed(
    "come in|time|til|rose|name|bitter|crisp|fry|green|sprinkle|butter milk|stolen|pan|pot|"
    "stock pot|knife|few silly|corn starts|foul|jimmy|it|one|cup"
)


@pytest.mark.parametrize("word", ORDINARY_ENGLISH)
def test_ordinary_english_is_no_food(word: str) -> None:
    assert food_named(word) is None


EVERYDAY_WORDS = listed(
    "oil|flour|salt|pepper|water|butter|cream|mint|sage|date|plum|mince|rice|stock|chili|"
    "roll|bun|cake|pie|dressing|stuffing|turkey|chips|dough|batter"
)


@pytest.mark.parametrize("form", EVERYDAY_WORDS)
def test_everyday_words_need_context(form: str) -> None:
    assert form in ambiguous_food_forms()


DISHES = listed(
    "sauce|salad dressing|dough|batter|gravy|soup|curry|stew|salad|cake|pie|custard|glaze|"
    "frosting|marinade|rub|filling|slaw|salsa"
)


@pytest.mark.parametrize("name", DISHES)
def test_names_of_dishes_are_marked(name: str) -> None:
    assert foods()[name].dish_like


@pytest.mark.parametrize(
    "name", ("salt", "black pepper", "cooking spray", "parsley", "cilantro", "ice", "water", "pasta water")
)
def test_loose_foods(name: str) -> None:
    assert foods()[name].loose


@given(st.sampled_from(sorted(foods())))
def test_a_name_gives_its_food_however_it_is_written(name: str) -> None:
    for form in (name.upper(), f"  {name} ", name.replace(" ", "  "), name.replace("'", "\u2019")):
        assert _named(form).name == name


# Allergens. US: the nine of FALCPA and the FASTER Act. EU: the fourteen of Regulation 1169/2011, Annex II.


def test_allergens_are_of_the_published_lists_in_their_order() -> None:
    for food in foods().values():
        assert list(food.allergens_us) == [name for name in US_ALLERGENS if name in food.allergens_us]
        assert list(food.allergens_eu) == [name for name in EU_ALLERGENS if name in food.allergens_eu]


def test_the_lists_are_nine_and_fourteen_and_each_is_carried() -> None:
    assert (len(US_ALLERGENS), len(EU_ALLERGENS)) == (9, 14)
    assert {name for food in foods().values() for name in food.allergens_us} == set(US_ALLERGENS)
    assert {name for food in foods().values() for name in food.allergens_eu} == set(EU_ALLERGENS)


@pytest.mark.parametrize(
    ("name", "us", "eu"),
    (
        ("milk", ("milk",), ("milk",)),
        ("ghee", ("milk",), ("milk",)),
        ("egg yolk", ("egg",), ("eggs",)),
        ("mayonnaise", ("egg",), ("eggs",)),
        ("salmon", ("fish",), ("fish",)),
        ("fish sauce", ("fish",), ("fish",)),
        ("shrimp", ("crustacean shellfish",), ("crustaceans",)),
        ("mussels", (), ("molluscs",)),
        ("squid", (), ("molluscs",)),
        ("almonds", ("tree nuts",), ("nuts",)),
        ("pine nuts", ("tree nuts",), ()),
        ("peanut butter", ("peanuts",), ("peanuts",)),
        ("all-purpose flour", ("wheat",), ("cereals containing gluten",)),
        ("barley", (), ("cereals containing gluten",)),
        ("oats", (), ("cereals containing gluten",)),
        ("buckwheat flour", (), ()),
        ("cornstarch", (), ()),
        ("rice noodles", (), ()),
        ("tofu", ("soybeans",), ("soybeans",)),
        ("soy sauce", ("wheat", "soybeans"), ("cereals containing gluten", "soybeans")),
        ("tahini", ("sesame",), ("sesame",)),
        ("za'atar", ("sesame",), ("sesame",)),
        ("celery", (), ("celery",)),
        ("dijon mustard", (), ("mustard", "sulphur dioxide and sulphites")),
        ("white wine", (), ("sulphur dioxide and sulphites",)),
        ("lupin flour", (), ("lupin",)),
        ("coconut milk", (), ()),
        ("eggplant", (), ()),
        ("peanuts", ("peanuts",), ("peanuts",)),
        ("thai red curry paste", ("crustacean shellfish",), ("crustaceans",)),
        ("pesto", ("milk", "tree nuts"), ("milk", "nuts")),
    ),
)
def test_allergens_of_typical_foods(name: str, us: tuple[str, ...], eu: tuple[str, ...]) -> None:
    assert foods()[name].allergens_us == us
    assert foods()[name].allergens_eu == eu


@pytest.mark.parametrize("name", ("worcestershire sauce", "thai red curry paste", "pesto", "oyster sauce", "kimchi"))
def test_compound_foods_tell_to_check(name: str) -> None:
    assert foods()[name].allergen_note


@pytest.mark.parametrize(
    ("category", "us"),
    (
        ("fish", "fish"),
        ("shellfish", "crustacean shellfish"),
        ("egg", "egg"),
        ("milk", "milk"),
        ("cheese", "milk"),
        ("cream", "milk"),
        ("butter", "milk"),
        ("yogurt", "milk"),
        ("soy product", "soybeans"),
    ),
)
def test_a_category_carries_its_allergen(category: str, us: str) -> None:
    lacking = {food.name for food in foods().values() if food.category == category and us not in food.allergens_us}
    assert lacking == set()


# Weights. USDA National Nutrient Database for Standard Reference, release 28 (public domain), household weights.


@pytest.mark.parametrize(
    ("name", "ndb_no", "field", "grams"),
    (
        ("sugar", "19335", "g_per_cup", 200),
        ("sugar", "19335", "g_per_teaspoon", 4.2),
        ("all-purpose flour", "20081", "g_per_cup", 125),
        ("salted butter", "01001", "g_per_tablespoon", 14.2),
        ("salted butter", "01001", "g_per_cup", 227),
        ("salted butter", "01001", "g_per_each", 113),
        ("unsalted butter", "01145", "g_per_tablespoon", 14.2),
        ("unsalted butter", "01145", "g_per_cup", 227),
        ("unsalted butter", "01145", "g_per_each", 113),
        ("egg", "01123", "g_per_each", 50),
        ("garlic", "11215", "g_per_each", 3.0),
        ("salt", "02047", "g_per_teaspoon", 6.0),
        ("cocoa powder", "19165", "g_per_cup", 86),
    ),
)
def test_weights_against_the_published_samples(name: str, ndb_no: str, field: str, grams: float) -> None:
    """The samples of published-values.md, each read from the rows of SR28."""
    food = foods()[name]
    assert food.ndb_no == ndb_no
    assert getattr(food, field) == grams


@pytest.mark.parametrize(
    ("name", "ndb_no", "field", "grams"),
    (
        ("cheddar cheese", "01009", "g_per_cup", 113),
        ("cream cheese", "01017", "g_per_cup", 232),
        ("feta cheese", "01019", "g_per_cup", 150),
        ("parmesan cheese", "01032", "g_per_tablespoon", 5),
        ("heavy cream", "01053", "g_per_cup", 238),
        ("sour cream", "01056", "g_per_cup", 230),
        ("buttermilk", "01088", "g_per_cup", 245),
        ("sweetened condensed milk", "01095", "g_per_cup", 306),
        ("egg white", "01124", "g_per_each", 33),
        ("egg yolk", "01125", "g_per_each", 17),
        ("cinnamon", "02010", "g_per_teaspoon", 2.6),
        ("turmeric", "02043", "g_per_teaspoon", 3.0),
        ("vanilla extract", "02050", "g_per_teaspoon", 4.2),
        ("olive oil", "04053", "g_per_tablespoon", 13.5),
        ("mayonnaise", "04025", "g_per_cup", 220),
        ("banana", "09040", "g_per_each", 118),
        ("blueberries", "09050", "g_per_cup", 148),
        ("lemon juice", "09152", "g_per_each", 48),
        ("raisins", "09298", "g_per_cup", 145),
        ("broccoli", "11090", "g_per_cup", 91),
        ("carrot", "11124", "g_per_each", 61),
        ("celery", "11143", "g_per_each", 40),
        ("ginger", "11216", "g_per_teaspoon", 2.0),
        ("onion", "11282", "g_per_cup", 160),
        ("potato", "11352", "g_per_each", 213),
        ("spinach", "11457", "g_per_cup", 30),
        ("tomato", "11529", "g_per_cup", 180),
        ("ketchup", "11935", "g_per_tablespoon", 17),
        ("almonds", "12061", "g_per_cup", 143),
        ("walnuts", "12155", "g_per_cup", 117),
        ("lentils", "16069", "g_per_cup", 192),
        ("soy sauce", "16123", "g_per_tablespoon", 16),
        ("peanut butter", "16398", "g_per_cup", 258),
        ("baking powder", "18369", "g_per_teaspoon", 4.6),
        ("honey", "19296", "g_per_cup", 339),
        ("maple syrup", "19353", "g_per_cup", 315),
        ("brown sugar", "19334", "g_per_cup", 220),
        ("powdered sugar", "19336", "g_per_cup", 120),
        ("cornstarch", "20027", "g_per_cup", 128),
        ("rice", "20044", "g_per_cup", 185),
        ("oats", "08120", "g_per_cup", 81),
        ("whole wheat flour", "20080", "g_per_cup", 120),
    ),
)
def test_weights_against_sr28_by_hand(name: str, ndb_no: str, field: str, grams: float) -> None:
    """Read by hand from the household weights of SR28."""
    food = foods()[name]
    assert food.ndb_no == ndb_no
    assert getattr(food, field) == grams


def test_a_missing_measure_is_computed_and_says_so() -> None:
    """1 cup = 16 tbsp = 48 tsp = 8 fl oz exactly; SR28 gives cumin seed by the spoon, vodka by the fluid ounce."""
    cumin, vodka = foods()["cumin seeds"], foods()["vodka"]
    assert (cumin.g_per_tablespoon, cumin.g_per_cup) == (6.0, 96.0)
    assert "cup computed from tablespoon" in cumin.source
    assert (vodka.g_per_tablespoon, vodka.g_per_cup) == (13.9, 222.4)
    assert "cup computed from fluid ounce" in vodka.source


@pytest.mark.skipif(not SR28.exists(), reason="outside data not present")
def test_the_weight_columns_are_what_the_script_derives() -> None:
    derived = fill(text("foods.csv"), derived_weights(SR28))
    assert derived == rows("foods")


@pytest.mark.skipif(not SR28.exists(), reason="outside data not present")
def test_mapped_rows_of_sr28_carry_no_brand() -> None:
    """SR28 writes brands in capitals; "USDA" in a description is none."""
    with (SR28 / "foods.csv").open(encoding="utf-8", newline="") as table:
        described = {row["ndb_no"]: row["description"] for row in csv.DictReader(table)}
    for row in rows("sr28_map"):
        capitals = set(re.findall(r"\b[A-Z]{3,}\b", described[row["ndb_no"]]))
        assert capitals <= {"USDA"}, row


def test_weights_are_empty_without_a_map_row() -> None:
    mapped = {row["food"] for row in rows("sr28_map")}
    for row in rows("foods"):
        assert row["name"] in mapped or not any(row[column] for column in WEIGHT_COLUMNS)


def test_a_missing_folder_is_told(tmp_path: Path) -> None:
    with pytest.raises(StovescriptError, match=r"weights\.csv"):
        derived_weights(tmp_path)


def test_a_mapped_food_that_is_no_food_is_told() -> None:
    with pytest.raises(StovescriptError, match="unobtainium"):
        fill(text("foods.csv"), {"unobtainium": dict.fromkeys(WEIGHT_COLUMNS, "")})


def test_loading_is_quick() -> None:
    """Processor time, the best of five; far above the usual 20 milliseconds, for slow machines."""

    def load() -> float:
        start = time.process_time()
        inspect.unwrap(foods)()
        return time.process_time() - start

    assert min(load() for _ in range(5)) < 0.1
