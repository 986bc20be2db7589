"""What the post says: its lines as a stranger reads them, on a draft of an invented dish (tests/pages/golden)."""

from typing import Any

import pytest

from stovescript.kitchen.safety import cautions
from stovescript.pages.forms import Publication
from stovescript.pages.post_content import Post, post_of
from stovescript.recipe.draft import Draft, Ingredient, StatedTime, Times
from tests.pages.golden import lentils, unanswered
from tests.pages.posts import amount, heard


def post(**changes: Any) -> Post:
    return post_of(Publication(lentils().model_copy(update=changes), "soup"))


def ingredient(*uses: tuple[Any, str | None], name: str = "salt", **more: Any) -> Ingredient:
    """`ingredient((amount(1, "cup"), "s1"))`: one addition, to step 1."""
    made = {
        "id": "i1",
        "name": name,
        "component": None,
        "optional": False,
        "preparation": [],
        "package": None,
        "uses": [{"amount": said, "step": step, "evidence": heard(60)} for said, step in uses],
        "total": uses[0][0] if len(uses) == 1 else None,
        "alternatives": [],
        "allergens": [],
    }
    return Ingredient.model_validate({**made, **more})


def line(one: Ingredient) -> str:
    return post(ingredients=[one]).components[0].lines[0].text


CUP, HALF, PINCH = amount(1, "cup"), amount(0.5, "cup"), amount(1, "pinch", approximate=True)
GLUG = amount(1, "glug", approximate=True).model_copy(update={"said": "a good glug"})


@pytest.mark.parametrize(
    ("one", "text"),
    [
        (ingredient((CUP, "s1"), name="cream"), "1 cup cream"),
        (ingredient((None, "s1"), name="cilantro"), "Cilantro"),
        (ingredient((PINCH, "s1")), "1 pinch of salt"),
        (ingredient((GLUG, "s1"), name="oil"), "A good glug of oil"),
        (ingredient((amount(1), "s1"), name="onions", preparation=["chopped"]), "1 onion, chopped"),
        (ingredient((amount(2), "s1"), name="egg", optional=True), "2 eggs (optional)"),
        (
            ingredient((CUP, "s2"), (HALF, "s5"), name="cream", total=amount(1.5, "cup")),
            "1 1/2 cups cream, divided: 1 cup in step 2, 1/2 cup in step 5",
        ),
        (
            ingredient((CUP, "s2"), (HALF, "s2"), name="cream", total=amount(1.5, "cup"), preparation=["divided"]),
            "1 1/2 cups cream, divided: 1 cup and 1/2 cup in step 2",
        ),
        (ingredient((GLUG, "s1"), (CUP, "s3"), name="oil"), "Oil, divided: a good glug in step 1, 1 cup in step 3"),
        (ingredient((PINCH, "s1"), (None, "s3")), "Salt, divided: 1 pinch in step 1, some in step 3"),
        (ingredient((None, "s1"), (None, "s3")), "Salt"),
        (
            ingredient(
                (amount(2, "can"), "s1"), name="beans", package={"count": 2, "size": amount(15, "ounce").model_dump()}
            ),
            "2 (15-ounce) cans beans",
        ),
    ],
)
def test_an_ingredient_line(one: Ingredient, text: str) -> None:
    assert line(one) == text


def test_ingredients_stand_by_component_in_order_of_use() -> None:
    parts = post().components
    assert [part.heading for part in parts] == ["For the lentils", "For the yogurt", "For the rest"]
    assert [one.food.split(",")[0] for one in parts[0].lines][:4] == ["olive oil", "onion", "garlic", "ground cumin"]


def test_what_no_step_uses_comes_last() -> None:
    ones = [ingredient((CUP, None), name="limes"), ingredient((CUP, "s6"), name="salsa")]
    assert [one.food for one in post(ingredients=ones).components[0].lines] == ["salsa", "limes"]


def test_heat_time_and_doneness_are_told_in_that_order_where_the_step_does_not_say_them() -> None:
    steps = post().method
    assert steps[3].heat == "Oven: 325 °F, 45 to 50 minutes, until the lentils are tender"
    assert steps[0].heat == "", "the step says medium heat, the minutes and how it looks"


def stated(what: str, minutes: int, start: float = 10) -> StatedTime:
    return StatedTime.model_validate(
        {"what": what, "span": {"low": minutes * 60, "high": minutes * 60}, "evidence": heard(start)}
    )


def times(total: int | None, *parts: StatedTime) -> Times:
    span = {"low": total * 60, "high": total * 60} if total else None
    return Times.model_validate({"prep": None, "cook": None, "total": span, "stated": [*parts]})


@pytest.mark.parametrize(
    ("account", "total", "parts", "note"),
    [
        (
            times(60, stated("baking", 35), stated("total", 60)),
            "1 hour",
            [("Baking", "35 minutes"), ("Preparation and everything else", "25 minutes")],
            "",
        ),
        (
            times(60, stated("baking", 40), stated("prep", 20), stated("total", 60)),
            "1 hour",
            [("Preparation", "20 minutes"), ("Baking", "40 minutes")],
            "",
        ),
        (
            times(30, stated("simmering", 30), stated("roasting", 25), stated("total", 30)),
            "30 minutes",
            [("Simmering", "30 minutes"), ("Roasting", "25 minutes")],
            "Some of it goes on at the same time.",
        ),
        (times(None, stated("baking", 35)), "35 minutes, and what has no time below", [("Baking", "35 minutes")], ""),
        (times(45, stated("keeping", 9000)), "45 minutes", [], ""),
    ],
)
def test_times_add_up(account: Times, total: str, parts: list[tuple[str, str]], note: str) -> None:
    made = post(times=account).time
    assert made is not None
    assert (made.total, [(part.what, part.span) for part in made.parts], made.note) == (total, parts, note)


def test_a_draft_without_times_has_no_account() -> None:
    assert post(times=times(None)).time is None


def test_the_parts_of_the_demo_reach_the_total() -> None:
    """Said: 8 to 10, 1, 45 to 50 and 15 minutes of 80; left are 80 - 76 to 80 - 69."""
    made = post().time
    assert made is not None and (made.parts[-1].what, made.parts[-1].span) == ("Everything else", "4 to 11 minutes")


def test_the_allergens_line_names_those_of_the_foods_and_of_the_substitutions() -> None:
    """US names of the major food allergens: FALCPA and the FASTER Act."""
    assert post().allergens == "Contains milk and wheat. Read the label of everything you buy."
    optional = ingredient((CUP, "s1"), name="walnuts", optional=True, allergens=["tree nuts"])
    swap = {"name": "soy milk", "amount": None, "note": None, "evidence": heard(5)}
    milk = ingredient((CUP, "s1"), name="milk", allergens=["milk"], alternatives=[swap])
    assert post(ingredients=[optional, milk]).allergens.startswith(
        "Contains milk; with the optional ingredients also tree nuts; with a substitution perhaps soybeans."
    )
    assert post(ingredients=[]).allergens.startswith("No major allergen is known")


def cautioned(*names: str, **changes: Any) -> Post:
    texts = {caution.id: caution for caution in cautions()}
    given = [{"text": texts[name].text, "source": texts[name].source} for name in names]
    draft = lentils().model_dump() | {"cautions": given} | changes
    return post_of(Publication(Draft.model_validate(draft), "soup"))


def test_a_caution_stands_where_it_matters() -> None:
    chicken = ingredient((amount(2, "pound"), "s3"), name="chicken thighs")
    steps = [
        step | {"ingredients": ["i1"]} if step["id"] in ("s3", "s4") else step | {"ingredients": []}
        for step in lentils().model_dump()["steps"]
    ]
    made = cautioned("poultry", "leftovers", "mandoline", ingredients=[chicken.model_dump()], steps=steps)
    where = [step.number for step in made.method if any("poultry to 165" in text for text in step.cautions)]
    assert where == [3], "in the first step that has the chicken, and nowhere else"
    assert any("Chill leftovers" in said.text for said in made.keeping)
    assert len(made.cautions) == 1 and "mandoline" in made.cautions[0].lower()


def test_pressure_cautions_wait_until_there_is_pressure() -> None:
    setting = {"appliance": "pressure cooker", "level": None, "temperature": None, "seconds": None, "release": None}
    programs = {"s1": "sauté", "s3": "pressure cook"}
    steps = [
        step | {"settings": [{**setting, "program": programs[step["id"]], "evidence": heard(60)}]}
        if step["id"] in programs
        else step | {"settings": []}
        for step in lentils().model_dump()["steps"]
    ]
    made = cautioned("pressure-fill", "pressure-release", steps=steps)
    assert [step.number for step in made.method if step.cautions] == [3]


def test_no_caution_is_lost() -> None:
    names = [caution.id for caution in cautions() if caution.id != "allergens"]
    made = cautioned(*names)
    shown = [*made.cautions, *(text for step in made.method for text in step.cautions)]
    shown += [said.text.removeprefix("Caution: ") for said in made.keeping]
    assert {caution.text for caution in cautions() if caution.id != "allergens"} <= set(shown)


def test_a_plain_pot_goes_where_there_is_a_heavy_one() -> None:
    assert [each.text for each in post().equipment] == ["Heavy pot, 5 quart", "Oven", "Bowl"]


def test_notes_about_storing_stand_by_themselves() -> None:
    made = post()
    assert [said.text for said in made.keeping][:2] == [
        "It keeps 4 days in the fridge and it's even better the next day.",
        "It also freezes great for like 3 months.",
    ]
    assert not any("freezes" in said.text for said in made.tips)
    assert post(tips=[]).keeping == ()


def test_a_tip_names_its_step_and_two_said_in_one_breath_are_one() -> None:
    assert [(said.step, said.text) for said in post().tips] == [
        (2, "Don't let the garlic go brown because it turns bitter."),
        (4, "Look at it halfway. If it looks dry it wants the stock now."),
    ]


def test_only_promises_that_she_answered_are_printed() -> None:
    assert [said.text.partition(":")[0] for said in post().promised] == ["Spice mix", "The pot"]


def test_the_draft_mark_is_there_while_a_question_must_be_answered() -> None:
    assert post_of(Publication(unanswered(), "soup")).draft_mark.startswith(
        "Draft, not to be published: 1 question is"
    )
    assert post().draft_mark == "", "a question that could be answered is no hindrance"
