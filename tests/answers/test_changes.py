"""Corrections to anything drafted, and what follows from each."""

from tests.answers.kitchen import amount, applied, corrected, does, food, gap, kinds, named, said, soup


def test_a_new_name_is_told_in_its_steps_and_brings_its_allergens() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "rename", "i1", "peanut butter"))
    assert made.ingredients[0].allergens == ["peanuts"]
    assert made.steps[0].text == "Melt 2 tablespoons of peanut butter."


def test_a_question_about_something_renamed_keeps_its_id() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "rename", "i5", "sea salt"))
    before, now = gap(draft, "unmeasured"), gap(made, "unmeasured")
    assert (now.id, now.about, now.question) == (before.id, "sea salt", "How much sea salt goes in?")


def test_an_amount_is_told_in_its_step_and_in_the_total() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "amount", "i3.u2", "2 cups"))
    assert named(made, "vegetable stock").total.low == 6  # type: ignore[union-attr]
    assert "total_mismatch" not in kinds(made)


def test_an_amount_taken_back_is_asked() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "amount", "i2.u1", ""))
    assert gap(made, "unmeasured", "carrots").step == "s2"


def test_two_cans_count_as_packages() -> None:
    draft = soup()
    package = named(corrected(draft, does(draft, "amount", "i4.u1", "2 13.5-ounce cans")), "coconut milk").package
    assert package and package.size and (package.count, package.size.low) == (2, 13.5)


def test_something_added_without_an_amount_is_asked() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "add ingredient", to="ginger", where="s2", new="in1"))
    assert made.steps[1].ingredients == ["i2", "in1"] and made.steps[1].text == "Add the carrots. Add the ginger."
    asked = gap(made, "unmeasured", "ginger")
    assert asked.ingredient == "in1"
    assert asked.id == gap(corrected(draft, does(draft, "rename", "i1", "oil"),
                                     does(draft, "add ingredient", to="ginger", where="s2", new="in1")),
                           "unmeasured", "ginger").id  # fmt: skip


def test_cream_added_brings_milk_and_its_caution() -> None:
    """Milk is one of the major food allergens: FALCPA, US."""
    draft = soup(ingredients=[food("i2", "carrots", (amount(1, "pound"), "s2", said(20, "carrots go in")))])
    made = corrected(draft, does(draft, "add ingredient", to="heavy cream", where="s4", amount="1/2 cup", new="in1"))
    assert named(made, "heavy cream").allergens == ["milk"]
    assert any("allergens" in caution.text for caution in made.cautions) and draft.cautions == []
    assert made.steps[3].text.endswith("Add 1/2 cup of heavy cream.")


def test_one_addition_as_an_ingredient_of_its_own() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "split", "i3.u2", "mushroom stock", new="in1"))
    assert [one.name for one in made.ingredients][2:4] == ["vegetable stock", "mushroom stock"]
    assert named(made, "vegetable stock").total.low == 4  # type: ignore[union-attr]
    assert made.steps[4].ingredients == ["in1"]


def test_two_foods_taken_for_one() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "split", "i5", "pepper", new="in1"))
    assert [gap(made, "unmeasured", name).step for name in ("salt", "pepper")] == ["s3", "s3"]


def test_one_food_taken_for_two() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "merge", "i5", where="i6"))
    kept = named(made, "bay leaf")
    assert [use.step for use in kept.uses] == ["s3"] and kept.total and kept.total.low == 1
    assert made.steps[2].ingredients == ["i3", "i6"]
    assert not {"unused", "unmeasured"} & set(kinds(made))


def test_something_left_out_that_a_step_still_names() -> None:
    draft = soup()
    outcome = applied(draft, does(draft, "drop", "i2"))
    assert outcome.notices == ("Step 2 still names carrots, which is left out: “Add the carrots.”",)


def test_another_step_for_an_addition() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "goes in", "i4.u1", where="s5"))
    assert (made.steps[3].ingredients, made.steps[4].ingredients) == ([], ["i3", "i4"])


def test_steps_moved_merged_dropped_and_added() -> None:
    draft = soup()
    made = corrected(
        draft,
        does(draft, "move", "s4", where="s1"),
        does(draft, "merge", "s3", where="s2"),
        does(draft, "add step", to="Blend the carrots.", where="s5", new="sn1"),
    )
    assert [one.id for one in made.steps] == ["s1", "s4", "s2", "s5", "sn1"]
    assert made.steps[2].text == "Add the carrots. Pour in 4 cups of vegetable stock. Salt it."
    assert named(made, "salt").uses[0].step == "s2" and gap(made, "unmeasured").step == "s2"
    assert made.steps[4].ingredients == ["i2"]


def test_what_went_into_a_step_that_is_dropped_is_asked() -> None:
    draft = soup()
    assert gap(corrected(draft, does(draft, "drop", "s2")), "unused", "carrots").ingredient == "i2"


def test_another_time_is_told_and_counted() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "time", "s5.g1", "25-30 minutes"))
    assert made.steps[4].text == "Simmer for 25 to 30 minutes."
    assert made.times.cook and (made.times.cook.low, made.times.cook.high) == (1500, 1800)
    assert made.times.stated[0].span == made.times.cook


def test_settings_of_a_step() -> None:
    draft = soup()
    made = corrected(
        draft,
        does(draft, "level", "s1", "low"),
        does(draft, "appliance", "s4", "oven"),
        does(draft, "temperature", "s4", "350 F"),
    )
    assert made.steps[0].settings[0].level == "low"
    heat = made.steps[3].settings[0].temperature
    assert heat and (made.steps[3].settings[0].appliance, heat.low, heat.unit_said) == ("oven", 350, True)


def test_a_time_for_a_step_that_has_none() -> None:
    draft = soup()
    made = corrected(draft, does(draft, "time", "s4", "5 minutes"))
    assert made.times.cook and made.times.cook.low == 1500


def test_tips_promises_times_and_the_title() -> None:
    draft = soup()
    made = corrected(
        draft,
        does(draft, "words", "t1", "Let the carrots soften first."),
        does(draft, "fulfil", "p1", "It keeps three months frozen."),
        does(draft, "title", to="Coconut carrot soup"),
        does(draft, "prep time", to="15 minutes"),
        does(draft, "servings", to="4"),
        does(draft, "add tip", to="Warm the bowls.", new="tn1"),
    )
    assert [tip.text for tip in made.tips] == ["Let the carrots soften first.", "Warm the bowls."]
    assert made.promises[0].fulfilled_by == "It keeps three months frozen."
    assert (made.title, made.times.prep and made.times.prep.low) == ("Coconut carrot soup", 900)
    assert not {"promise", "no_servings"} & set(kinds(made))


def test_no_entries_change_nothing() -> None:
    assert applied(soup()).draft == soup()
