"""The shopping list: sums across dishes and units, whole packages, sections, and what is not bought."""

import csv
import io
import math
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stovescript.errors import StovescriptError
from stovescript.kitchen.foods import food_categories, foods
from stovescript.kitchen.shop import bought_whole, section_of, sections
from stovescript.kitchen.substitutions import instead_of
from stovescript.kitchen.units import units
from stovescript.pages.buying import Needed, merged, portion_text, whole_text
from stovescript.pages.forms import Publication
from stovescript.pages.shopping import Item, dishes_of, shopping_list
from stovescript.pages.shopping_page import amount_text, shopping, shopping_page, shopping_table
from stovescript.recipe.draft import Amount, Draft, Package
from tests.pages.demo import demo_draft
from tests.pages.posts import amount, full_draft, heard
from tests.pages.reading import shown

PINT = pint.UnitRegistry()


def dish(title: str, *ingredients: dict[str, object], gaps: Sequence[dict[str, object]] = ()) -> Draft:
    """A draft that has these ingredients and nothing else."""
    bare = full_draft().model_dump()
    empty = {name: [] for name in ("steps", "tips", "promises", "variations", "equipment", "set_aside", "cautions")}
    made = [{"id": f"i{number}", **each} for number, each in enumerate(ingredients, 1)]
    return Draft.model_validate({**bare, **empty, "title": title, "ingredients": made, "gaps": list(gaps)})


def ingredient(name: str, *uses: Amount | None, size: Amount | None = None, **more: object) -> dict[str, object]:
    """One ingredient with its additions; `None` for one that was not measured."""
    return {
        "name": name,
        "component": None,
        "optional": False,
        "preparation": [],
        "package": Package(count=1, size=size) if size else None,
        "uses": [{"amount": use, "step": None, "evidence": heard(1)} for use in uses],
        "total": uses[0] if len(uses) == 1 else None,
        "alternatives": [],
        "allergens": [],
        **more,
    }


def gap(kind: str, about: str) -> dict[str, object]:
    return {"id": f"{kind}-1", "kind": kind, "severity": "must", "about": about, "question": "Which is right?",
            "ingredient": "i1", "step": None, "evidence": heard(1)}  # fmt: skip


def items(*drafts: Draft) -> dict[str, Item]:
    found = shopping_list(dishes_of([(f"dish{number}", draft) for number, draft in enumerate(drafts)]))
    return {item.name: item for item in found.items}


def bought(name: str, *amounts: Amount, size: Amount | None = None) -> str:
    return " + ".join(map(portion_text, merged(name, [Needed(each, size) for each in amounts])))


@pytest.mark.parametrize(
    ("name", "amounts", "text"),
    [
        ("onion", [amount(1), amount(2)], "3"),
        ("garlic", [amount(2, "clove"), amount(4, "clove")], "6 cloves"),
        ("chicken stock", [amount(4, "cup"), amount(0.5, "cup")], "4 1/2 cups"),
        ("olive oil", [amount(1, "tablespoon"), amount(1, "teaspoon", 2)], "1 tablespoon plus 2 teaspoons"),
        ("milk", [amount(1, "cup"), amount(4, "tablespoon")], "1 1/4 cups"),
        ("milk", [amount(300, "milliliter"), amount(0.7, "liter")], "1 liter"),
        ("ground beef", [amount(1, "pound"), amount(8, "ounce")], "1 1/2 pounds"),
        ("potatoes", [amount(500, "gram"), amount(1, "kilogram")], "1 1/2 kilograms"),
        ("chicken thighs", [amount(1.5, "pound", 2)], "2 pounds"),
        ("salt", [amount(1, "pinch"), amount(2, "pinch")], "3 pinches"),
        ("lemon", [amount(0.5)], "1 (1/2 used)"),
        ("parsley", [amount(0.5, "bunch"), amount(0.25, "bunch")], "1 bunch (3/4 used)"),
        ("orange liqueur", [amount(0.5, "part")], "1/2 part"),
        ("salt", [amount(1, "to taste", approximate=True)], "to taste"),
        ("onion", [amount(1), amount(1, "cup")], "1 + 1 cup"),
    ],
)
def test_amounts_of_one_food_are_added_up(name: str, amounts: list[Amount], text: str) -> None:
    assert bought(name, *amounts) == text


def test_cans_of_one_size_are_added_up_and_bought_whole() -> None:
    assert bought("black beans", amount(1, "can"), amount(1.5, "can"), size=amount(15, "ounce")) == (
        "3 (15-ounce) cans (2 1/2 used)"
    )


def test_cans_of_two_sizes_or_of_none_stand_side_by_side() -> None:
    needed = [Needed(amount(1, "can"), amount(size, "ounce")) for size in (28, 15)]
    found = merged("crushed tomatoes", [*needed, Needed(amount(2, "can"))])
    assert [portion_text(portion) for portion in found] == [
        "2 cans (size not said)", "1 (15-ounce) can", "1 (28-ounce) can",
    ]  # fmt: skip


def test_volume_and_mass_of_a_food_go_together_by_its_weight_per_cup() -> None:
    """USDA SR28 20081: a cup of all-purpose flour weighs 125 g."""
    (portion,) = merged("all-purpose flour", [Needed(amount(2, "cup")), Needed(amount(500, "gram"))])
    assert (portion.unit, portion.turned, portion.approximate) == ("gram", True, True)
    assert portion.value == pytest.approx(500 + 2 * 125)
    assert portion_text(portion) == "about 750 grams"


def test_they_go_into_what_most_of_it_is_told_in() -> None:
    """Stock is mostly told in cups, so that a few grams of it become cups (SR28 06194: 240 g a cup)."""
    assert bought("chicken stock", amount(4, "cup"), amount(240, "gram")) == "about 5 cups"


def test_a_food_of_unknown_weight_is_listed_side_by_side() -> None:
    assert bought("moon berries", amount(2, "cup"), amount(200, "gram")) == "200 grams + 2 cups"


VOLUMES = ("teaspoon", "tablespoon", "cup", "fluid ounce", "pint", "milliliter", "liter")
MASSES = ("gram", "kilogram", "ounce", "pound")
COUNTS = ("", "clove", "can", "bunch", "pinch")
parts = st.builds(
    lambda low, more, unit: Needed(amount(low, unit, low + more)),
    st.integers(1, 400).map(lambda n: n / 8),
    st.sampled_from([0.0, 0.5, 1.0]),
    st.sampled_from([*VOLUMES, *MASSES, *COUNTS]),
)


@given(st.sampled_from(["flour", "onion", "moon berries"]), st.lists(parts, max_size=8), st.randoms())
def test_the_order_of_the_dishes_is_of_no_account(name: str, needed: list[Needed], random: object) -> None:
    shuffled = list(needed)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert merged(name, shuffled) == merged(name, needed)


@given(st.lists(parts, min_size=1, max_size=8))
def test_what_is_bought_is_the_sum_of_the_high_ends(needed: list[Needed]) -> None:
    """Checked by pint's definitions of the units and by exact fractions; a name that no table weighs."""
    found = merged("moon berries", needed)
    for kind, base in (("volume", "milliliter"), ("mass", "gram")):
        told = [each.amount for each in needed if units().get(each.amount.unit) and
                units()[each.amount.unit].dimension == kind]  # fmt: skip
        exact = sum(PINT.Quantity(a.high, a.unit.replace(" ", "_")).to(base).magnitude for a in told)
        sums = [p for p in found if p.unit in units() and units()[p.unit].dimension == kind]
        assert len(sums) == bool(told)
        bought_ = sum(PINT.Quantity(p.value, p.unit.replace(" ", "_")).to(base).magnitude for p in sums)
        assert bought_ == pytest.approx(exact, rel=1e-9)
    for unit in COUNTS:
        exact = sum(Fraction(each.amount.high) for each in needed if each.amount.unit == unit)
        assert sum(portion.value for portion in found if portion.unit == unit) == exact


@given(st.lists(parts, min_size=1, max_size=8))
def test_nobody_runs_short_by_more_than_a_hundredth(needed: list[Needed]) -> None:
    """What the line says, read back by pint, is at least 99 % of the sum, and no more than a tenth above it."""
    for portion in merged("moon berries", needed):
        if portion.unit not in (*VOLUMES, *MASSES):
            continue
        said = portion_text(portion).removeprefix("about ")
        total = sum(_read(each) for each in said.split(" plus "))
        exact = PINT.Quantity(portion.value, portion.unit.replace(" ", "_")).to_base_units().magnitude
        assert 0.99 * exact - 1e-12 <= total
        assert total <= max(1.1 * exact, 1.1 * _least(portion.unit))


def _read(text: str) -> float:
    numbers, unit = [], ""
    for word in text.split():
        try:
            numbers.append(Fraction(word))
        except ValueError:
            unit = f"{unit}_{word}".strip("_")
    return float(PINT.Quantity(float(sum(numbers)), unit).to_base_units().magnitude)


def _least(unit: str) -> float:
    return float(PINT.Quantity(0.25, "ounce" if unit in MASSES else "teaspoon").to_base_units().magnitude)


@given(st.permutations(range(3)))
def test_the_same_list_comes_of_the_same_dishes_in_any_order(order: list[int]) -> None:
    dishes = [
        dish("Soup", ingredient("onions", amount(2)), ingredient("salt", amount(1, "pinch"), None)),
        dish("Stew", ingredient("onion", amount(1, "cup")), ingredient("Salt", None)),
        dish("Bread", ingredient("flour", amount(500, "gram")), ingredient("onions", amount(1))),
    ]
    assert (
        shopping_list(dishes_of([(f"d{n}", dishes[n]) for n in order])).items
        == shopping_list(dishes_of([(f"d{n}", dishes[n]) for n in range(3)])).items
    )


def test_one_food_under_several_names_is_one_line() -> None:
    found = items(
        dish("Soup", ingredient("garbanzo beans", amount(1, "cup"))),
        dish("Salad", ingredient("chickpeas", amount(2, "cup"))),
        dish("Dip", ingredient("chickpeas", amount(1, "cup"))),
    )
    assert amount_text(found["chickpeas"]) == "4 cups"
    assert found["chickpeas"].dishes == ("Dip", "Salad", "Soup")


def test_a_line_says_what_is_not_known_and_what_is_optional() -> None:
    other = {"name": "parsley", "amount": None, "note": None, "evidence": []}
    found = items(
        dish("Soup", ingredient("cilantro", None, optional=True, alternatives=[other])),
        dish("Rice", ingredient("cilantro", amount(1, "bunch"), preparation=["chopped"])),
    )
    page = shopping_page(shopping_list(dishes_of([("a", dish("Soup", ingredient("cilantro", None)))])))
    assert "- [ ] cilantro: amount not said\n" in page
    item = found["cilantro"]
    assert amount_text(item) == "1 bunch + an amount not said"
    assert (item.optional, item.unsaid, item.instead) == (("Soup",), ("Soup",), ("parsley",))
    both = shopping_page(shopping_list(dishes_of([
        ("a", dish("Soup", ingredient("cilantro", None, optional=True, alternatives=[other]))),
        ("b", dish("Rice", ingredient("cilantro", amount(1, "bunch"), preparation=["chopped"]))),
    ])))  # fmt: skip
    assert "cilantro: 1 bunch + an amount not said, or parsley (optional in Soup) – for Rice, Soup" in both
    assert "chopped" not in both


def test_of_a_range_the_high_end_is_bought_and_said_to_be() -> None:
    page = shopping_page(shopping_list(dishes_of([("a", dish("Soup", ingredient("carrots", amount(2, "", 3))))])))
    assert "Where a range was said, its high end is listed." in page
    assert "- [ ] carrots: 3 *(high end of a range)*" in page


def test_a_total_that_was_said_stands_for_additions_that_were_not_measured() -> None:
    oil = ingredient("olive oil", None, amount(1, "tablespoon"), stated_total=amount(0.5, "cup"))
    assert amount_text(items(dish("Soup", oil))["olive oil"]) == "1/2 cup"


def test_of_two_amounts_that_are_still_asked_about_the_larger_is_counted() -> None:
    said = dish("Soup", ingredient("chicken broth", amount(4, "cup"), stated_total=amount(6, "cup")),
                gaps=[gap("total_mismatch", "chicken broth")])  # fmt: skip
    assert amount_text(items(said)["chicken broth"]) == "6 cups"
    settled = said.model_copy(update={"gaps": []})
    assert amount_text(items(settled)["chicken broth"]) == "4 cups"
    pair = (amount(1, "teaspoon"), amount(2, "teaspoon"))
    cumin = ingredient("cumin", amount(1, "teaspoon"), disagreements=[pair])
    twice = dish("Soup", cumin, gaps=[gap("conflict", "cumin")])
    assert amount_text(items(twice)["cumin"]) == "2 teaspoons"
    assert "two amounts were said; the larger is counted" in shopping_page(shopping_list(dishes_of([("a", twice)])))


def test_water_ice_and_what_is_made_in_the_recipe_are_not_bought() -> None:
    found = shopping_list(dishes_of([("a", dish(
        "Salad",
        ingredient("cold water", amount(2, "cup")),
        ingredient("ice", None),
        ingredient("dressing", None),
        ingredient("olive oil", amount(1, "tablespoon"), component="dressing"),
        ingredient("dough", None),
        ingredient("sparkling water", amount(1, "bottle")),
    ))]))  # fmt: skip
    assert {item.name for item in found.items} == {"olive oil", "sparkling water"}
    assert dict(found.not_bought) == {
        "cold water": "at home", "ice": "at home", "dressing": "made in the recipe", "dough": "made in the recipe",
    }  # fmt: skip
    assert "- dough (made in the recipe)" in shopping_page(found)


@pytest.mark.parametrize(
    ("name", "state", "unit", "section"),
    [
        ("onion", [], "", "Fruit and vegetables"),
        ("cilantro", [], "bunch", "Fruit and vegetables"),
        ("corn tortillas", [], "", "Bread and bakery"),
        ("chicken breast", [], "pound", "Meat and poultry"),
        ("shrimp", [], "pound", "Fish and seafood"),
        ("monterey jack", [], "cup", "Milk, eggs and cheese"),
        ("black beans", [], "can", "Cans and jars"),
        ("black beans", [], "cup", "Pasta, rice, grains and beans"),
        ("corn", ["frozen"], "cup", "Frozen"),
        ("frozen peas", [], "cup", "Frozen"),
        ("cumin", [], "teaspoon", "Herbs and spices"),
        ("club soda", [], "can", "Drinks"),
        ("moon berries", [], "cup", "Fruit and vegetables"),
        ("glimmerwort", [], "cup", "Other"),
    ],
)
def test_a_food_is_in_the_section_where_one_finds_it(name: str, state: list[str], unit: str, section: str) -> None:
    """Common practice."""
    assert items(dish("a", ingredient(name, amount(1, unit), preparation=state)))[name].section == section


def test_every_category_has_one_section_and_every_food_of_the_table_is_known() -> None:
    placed = [category for section in sections() for category in section.categories]
    assert sorted(placed) == sorted(food_categories())
    own = [food for section in sections() for food in section.foods]
    assert len(own) == len(set(own))
    assert set(own) <= set(foods())
    assert {category for section in sections() for category in section.packed} <= set(food_categories())
    assert all(section.source for section in sections())
    assert section_of(None).name == sections()[-1].name


def test_the_list_is_in_the_order_of_a_walk_through_the_shop() -> None:
    found = shopping_list(dishes_of([("demo", demo_draft())]))
    order = [section.name for section in sections()]
    places = [order.index(item.section) for item in found.items]
    assert places == sorted(places)


@pytest.mark.parametrize(
    ("name", "needed", "text"),
    [
        ("lime juice", amount(3, "tablespoon"), "about 2 limes"),
        ("lemon juice", amount(1, "tablespoon"), "about 1 lemon"),
        ("egg yolks", amount(3), "about 3 eggs"),
        ("garlic", amount(14, "clove"), "about 2 heads"),
        ("onion", amount(1.5, "cup"), "about 2 medium"),
        ("olive oil", amount(1.5, "cup"), ""),
        ("moon berries", amount(1.5, "cup"), ""),
    ],
)
def test_parts_of_a_whole_say_how_many_to_buy(name: str, needed: Amount, text: str) -> None:
    """A medium onion is 110 g and a cup of it chopped 160 g (USDA SR28 11282); the others are common practice."""
    assert whole_text(name, merged(name, [Needed(needed)])) == text


def test_the_whole_for_a_part_is_what_the_table_of_substitutions_says_too() -> None:
    for part in bought_whole().values():
        assert part.whole in foods() or part.whole in units()
        rows = [row for row in instead_of(part.whole) if row.have == part.food and row.have_unit == part.unit]
        assert all(row.have_amount == part.amount for row in rows)
    assert math.isclose(bought_whole()["lime juice"].amount, 2)


def test_the_table_is_csv_that_no_spreadsheet_takes_for_a_formula() -> None:
    """RFC 4180 line ends and quotes, read by the standard library; OWASP, CSV injection."""
    other = {"name": 'the "good" one, jarred', "amount": None, "note": None, "evidence": []}
    draft = dish("=SUM(A1), mine", ingredient("@cress", amount(1, "bunch"), alternatives=[other]))
    text = shopping_table(shopping_list(dishes_of([("a", draft)])))
    assert text.count("\r\n") == 2
    (row,) = csv.DictReader(io.StringIO(text))
    assert (row["food"], row["for"], row["instead"]) == ("'@cress", "'=SUM(A1), mine", 'the "good" one, jarred')


def test_what_a_talk_says_stays_text_on_the_page() -> None:
    draft = dish("<script>x</script>", ingredient("[salt](javascript:alert(1))", amount(1, "pinch")))
    assert shown(shopping_page(shopping_list(dishes_of([("a", draft)])))).tags <= {"h1", "h2", "p", "ul", "li"}


def test_two_dishes_of_one_title_are_told_apart() -> None:
    labels = [each.label for each in dishes_of([("monday", dish("Soup")), ("friday", dish("Soup"))])]
    assert labels == ["Soup (monday)", "Soup (friday)"]


def test_the_demo_as_a_shopper_reads_it() -> None:
    page = str(shopping(Publication(demo_draft(), "soup"))["soup.shopping.md"])
    for line in (
        "- [ ] onion: about 1 1/2 cups (about 2 medium)",
        "- [ ] chicken breast: 2 pounds, or chicken thighs or rotisserie chicken",
        "- [ ] black beans: 1 (15-ounce) can, or pinto beans",
        "- [ ] diced tomatoes: 1 can (size not said)",
        "- [ ] lime juice: 3 tablespoons (about 2 limes)",
        "- [ ] chicken broth: 6 cups *(two amounts were said; the larger is counted)*",
    ):
        assert line in page


def test_a_draft_without_ingredients_has_no_list() -> None:
    assert shopping(Publication(dish("Nothing"), "nothing")) == {}


def test_the_command_writes_one_list_for_many_drafts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from typer.testing import CliRunner

    from stovescript.cli import app

    for stem, title, onions in (("soup", "Soup", 2), ("pie", "Pie", 1)):
        made = dish(title, ingredient("onion", amount(onions)))
        (tmp_path / f"{stem}.draft.json").write_text(made.model_dump_json(), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(app, ["shopping", "soup.draft.json", "pie.draft.json", "--to", "lists"])
    assert done.exit_code == 0
    assert "- [ ] onion: 3 – for Pie, Soup" in (tmp_path / "lists" / "shopping.md").read_text(encoding="utf-8")
    one = CliRunner().invoke(app, ["shopping", "soup.draft.json"])
    assert "soup.shopping.md" in one.output
    (tmp_path / "bare.draft.json").write_text(dish("Bare").model_dump_json(), encoding="utf-8")
    nothing = CliRunner().invoke(app, ["shopping", "bare.draft.json"])
    assert isinstance(nothing.exception, StovescriptError)
