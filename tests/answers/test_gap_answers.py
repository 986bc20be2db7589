"""A question answered: it goes, and the draft says what was missing."""

import pytest

from stovescript.answers import Entry, answer_to, example, ref_of, suggestion
from stovescript.recipe.draft import Draft
from tests.answers.kitchen import amount, applied, corrected, does, food, gap, kinds, named, said, soup, step


def reply(draft: Draft, kind: str, text: str, about: str = "") -> Draft:
    return corrected(draft, answer_to(gap(draft, kind, about), text, draft))


def test_the_questions_of_the_soup() -> None:
    assert kinds(soup()) == ["no_servings", "no_size", "promise", "total_mismatch", "unmeasured", "unused"]


def test_a_yield() -> None:
    made = reply(soup(), "no_servings", "4 to 6 people")
    assert made.servings and (made.servings.low, made.servings.high, made.servings.unit) == (4, 6, "serving")
    assert "no_servings" not in kinds(made)


def test_an_amount_makes_the_total() -> None:
    made = reply(soup(), "unmeasured", "1 teaspoon")
    salt = named(made, "salt")
    assert salt.uses[0].amount == salt.total and salt.total and (salt.total.low, salt.total.unit) == (1, "teaspoon")
    assert "unmeasured" not in kinds(made)
    assert [(one.do, one.about, one.text, one.ingredient) for one in made.answered] == [
        ("answer", "salt", "1 teaspoon", "i5")
    ]


def test_to_taste_is_an_answer() -> None:
    made = reply(soup(), "unmeasured", "to taste")
    assert named(made, "salt").total and "vague" not in kinds(made)


def test_a_vague_answer_is_asked_again_once() -> None:
    made = reply(soup(), "unmeasured", "a glug")
    new = gap(made, "vague", "salt")
    assert "vague" not in kinds(corrected(soup(), *(
        answer_to(gap(soup(), "unmeasured"), "a glug", soup()), answer_to(new, "1 teaspoon", made))))  # fmt: skip


def test_leaving_it_out() -> None:
    made = reply(soup(), "unmeasured", "leave out")
    assert "salt" not in [one.name for one in made.ingredients]
    assert made.steps[2].ingredients == ["i3"]
    assert [(one.name, one.why) for one in made.set_aside] == [("salt", "not used")]


def test_a_question_dismissed_says_why() -> None:
    draft = soup()
    made = corrected(draft, Entry("dismiss", ref_of(draft, gap(draft, "promise").id), reason="she knows"))
    assert "promise" not in kinds(made)
    assert made.answered[0].text == "she knows"
    assert made.promises == draft.promises


@pytest.mark.parametrize(("text", "place"), [("in step 3", 2), ("at the end", 4), ("1", 0)])
def test_when_something_set_out_goes_in(text: str, place: int) -> None:
    made = reply(soup(), "unused", text)
    where = made.steps[place]
    assert named(made, "bay leaf").uses[0].step == where.id and "i6" in where.ingredients
    assert where.text.endswith("Add 1 bay leaf.")
    assert "unused" not in kinds(made)


def test_the_size_of_a_can() -> None:
    package = named(reply(soup(), "no_size", "13.5 ounces"), "coconut milk").package
    assert package and package.size and (package.count, package.size.low) == (1, 13.5)


def test_what_adds_up() -> None:
    made = reply(soup(), "total_mismatch", "5 cups")
    assert "total_mismatch" not in kinds(made) and named(made, "vegetable stock").total == amount_of(soup())


def amount_of(draft: Draft) -> object:
    return named(draft, "vegetable stock").total


def test_an_amount_for_each_time_is_told_in_its_step() -> None:
    made = reply(soup(), "total_mismatch", "5 cups, then 1 cup")
    stock = named(made, "vegetable stock")
    assert stock.total and (stock.total.low, stock.total.unit) == (6, "cup")
    assert made.steps[2].text.startswith("Pour in 5 cups of vegetable stock.")
    assert "total_mismatch" not in kinds(made)


def test_a_total_that_the_uses_do_not_make_asks_for_each() -> None:
    draft = soup()
    first = answer_to(gap(draft, "total_mismatch"), "6 cups", draft)
    made = corrected(draft, first)
    again = gap(made, "total_mismatch")
    assert again.question == "6 cups of vegetable stock in all, but 4 cups, then 1 cup go in. How much each time?"
    assert suggestion(again, made) == ["4 cups, then 2 cups", "5 cups, then 1 cup"]
    done = corrected(draft, first, answer_to(again, "4 cups, then 2 cups", made))
    assert "total_mismatch" not in kinds(done)


def test_which_of_two_amounts() -> None:
    cumin = food("i7", "cumin", (amount(1, "teaspoon"), "s2", said(30, "a teaspoon of cumin")),
                 disagreements=[[amount(1, "teaspoon"), amount(2, "teaspoon")]])  # fmt: skip
    draft = soup(ingredients=[cumin])
    assert suggestion(gap(draft, "conflict"), draft) == ["2 teaspoons", "1 teaspoon"]
    made = reply(draft, "conflict", "2 teaspoons")
    assert named(made, "cumin").total and named(made, "cumin").total.low == 2  # type: ignore[union-attr]
    assert "conflict" not in kinds(made)


OVEN = {"appliance": "oven", "temperature": {"low": 400, "high": 400, "unit": "F", "unit_said": False}}


@pytest.mark.parametrize(("text", "heat"), [("yes", (400, "F")), ("Celsius", (400, "C")), ("200 C", (200, "C"))])
def test_the_scale_of_a_temperature(text: str, heat: tuple[float, str]) -> None:
    draft = soup(steps=[step("s1", "Turn on the oven.", 10, [], OVEN)])
    assert suggestion(gap(draft, "temperature_unit"), draft)[0] == "Fahrenheit"
    made = reply(draft, "temperature_unit", text)
    found = made.steps[0].settings[0].temperature
    assert found and (found.low, found.unit, found.unit_said) == (*heat, True)
    assert "temperature_unit" not in kinds(made)


PRESSURE = {
    "appliance": "pressure cooker",
    "program": "pressure cook",
    "level": "high",
    "seconds": {"low": 600, "high": 600},
}


def test_how_the_pressure_is_released() -> None:
    draft = soup(steps=[step("s1", "Cook on high for 10 minutes.", 10, [], PRESSURE)])
    made = reply(draft, "no_release", "natural for 10 minutes")
    assert made.steps[0].settings[1].release == "timed natural"
    assert made.steps[0].text.endswith("Let the pressure fall by itself for 10 minutes, then let out the rest.")
    assert "no_release" not in kinds(made)
    longer = corrected(draft, answer_to(gap(draft, "no_release"), "natural for 10 minutes", draft),
                       does(draft, "time", "s1", "12 minutes"))  # fmt: skip
    assert longer.steps[0].text.startswith(
        "Cook on high for 12 minutes. Let the pressure fall by itself for 10 minutes"
    )
    assert {time.what for time in made.times.stated} >= {"releasing"}


def test_chicken_below_the_safe_minimum_is_asked_again() -> None:
    """165 °F for poultry: FSIS safe minimum internal temperatures."""
    chicken = food("i7", "chicken thighs", (amount(1, "pound"), "s5", said(70, "the chicken thighs go in")))
    draft = soup(ingredients=[chicken])
    asked = gap(draft, "safety")
    assert suggestion(asked, draft) == ["165 F"]
    low = answer_to(asked, "150 F", draft)
    again = gap(corrected(draft, low), "safety")
    assert again.severity == "must" and "165 °F" in again.question
    assert "150" not in corrected(draft, low).steps[4].text
    made = corrected(draft, low, answer_to(again, "165 F", corrected(draft, low)))
    assert made.steps[4].text.endswith("The chicken thighs must reach 165 °F inside.")
    assert "safety" not in kinds(made)


def test_a_promise_is_kept_by_a_link() -> None:
    made = reply(soup(), "promise", "https://soup.example/freeze")
    assert made.promises[0].fulfilled_by == "https://soup.example/freeze" and "promise" not in kinds(made)


def test_a_step_that_the_method_does_not_have() -> None:
    draft = soup()
    outcome = applied(draft, Entry("answer", ref_of(draft, gap(draft, "unused").id), "in step 40"))
    assert [one.why for one in outcome.unplaced] == ["the method has 5 steps, so there is no step 40"]
    assert "unused" in kinds(outcome.draft)


def test_every_question_has_an_example_of_its_answer() -> None:
    for one in soup().gaps:
        assert answer_to(one, example(one).split(" · ")[0], soup()).do == "answer"
