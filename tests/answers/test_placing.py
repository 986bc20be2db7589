"""Answers find their place again in a talk that has changed; one whose target is gone is kept and reported."""

from stovescript.answers import Answers, Entry, Ref, answered, numbered, put
from stovescript.recipe.draft import Draft
from tests.answers.kitchen import amount, applied, corrected, does, food, gap, named, said, soup, step


def later(draft: Draft, seconds: float = 30) -> Draft:
    """The same talk with an opening before it: another ingredient and step first, everything later, ids moved on."""

    def moved(value: object) -> object:
        if isinstance(value, dict):
            return {
                key: one + seconds if key in ("start", "end") else moved(_renumbered(key, one))
                for key, one in value.items()
                if key != "id" or not isinstance(one, str) or "." not in one
            }
        return [moved(one) for one in value] if isinstance(value, list) else value

    def _renumbered(key: str, value: object) -> object:
        if key in ("id", "step", "ingredient") and isinstance(value, str) and value[1:].isdigit():
            return f"{value[0]}{int(value[1:]) + 1}"
        if key == "ingredients" and isinstance(value, list) and all(isinstance(one, str) for one in value):
            return [f"{one[0]}{int(one[1:]) + 1}" for one in value]
        return value

    data = moved(draft.model_dump())
    assert isinstance(data, dict)
    data["ingredients"].insert(0, food("i1", "onion", (amount(1, ""), "s1", said(2, "chop an onion first"))))
    data["steps"].insert(0, step("s1", "Chop 1 onion.", 2, ["i1"]))
    data["source"]["seconds"] += seconds
    return numbered(Draft.model_validate(data))


ENTRIES = [
    does(soup(), "rename", "i5", "sea salt"),
    does(soup(), "amount", "i3.u2", "2 cups"),
    does(soup(), "words", "s4", "Stir in the coconut milk."),
    does(soup(), "time", "s5.g1", "25 minutes"),
    does(soup(), "answer", gap(soup(), "no_size").id, "400 grams"),
    does(soup(), "move", "s4", where="s2"),
    does(soup(), "drop", "t1"),
]


def test_a_changed_talk_has_the_same_answers() -> None:
    made = corrected(later(soup()), *ENTRIES)
    assert [one.name for one in made.ingredients][:2] == ["onion", "butter"]
    assert named(made, "sea salt").id == "i6"
    assert named(made, "vegetable stock").total.low == 6  # type: ignore[union-attr]
    assert [one.id for one in made.steps] == ["s1", "s2", "s3", "s5", "s4", "s6"]
    assert made.steps[3].text == "Stir in the coconut milk."
    assert made.steps[5].text == "Simmer for 25 minutes."
    assert made.tips == [] and named(made, "coconut milk").package.size.low == 400  # type: ignore[union-attr]


def test_a_correction_after_the_talk_changed_does_not_replace_that_of_another_food() -> None:
    """i5 was the salt; in the changed talk it is the coconut milk."""
    answers = put(Answers(), ENTRIES[0], soup())
    changed = later(soup())
    answers = put(answers, does(changed, "rename", "i5", "coconut cream"), changed)
    made = answered(changed, answers.entries).draft
    assert {"sea salt", "coconut cream"} <= {one.name for one in made.ingredients}


def test_an_answer_whose_target_is_gone_is_kept_and_reported() -> None:
    draft = soup()
    answers = put(put(Answers(), does(draft, "rename", "i2", "parsnips"), draft), ENTRIES[0], draft)
    without = draft.model_copy(update={"ingredients": [one for one in draft.ingredients if one.name != "carrots"]})
    outcome = answered(without, answers.entries)
    assert [one.text for one in outcome.unplaced] == [
        'rename "parsnips" of carrots: that ingredient is no longer in the draft'
    ]
    assert named(outcome.draft, "sea salt")
    assert put(answers, does(without, "title", to="Soup"), without).entries[0] == answers.entries[0]


def test_a_step_named_by_hand_with_its_first_words() -> None:
    ref = Ref("step", "s3", "Pour in 4 cups")
    assert corrected(soup(), Entry("until", ref, "until hot")).steps[2].until == "until hot"


def test_another_food_in_the_same_words_is_not_taken_for_it() -> None:
    words = said(44, "salt and pepper go in")
    both = soup(ingredients=[food("i1", "salt", (None, "s3", words)), food("i2", "pepper", (None, "s3", words))])
    alone = soup(ingredients=[food("i1", "salt", (None, "s3", words))])
    outcome = applied(alone, does(both, "rename", "i2", "white pepper"))
    assert len(outcome.unplaced) == 1 and outcome.draft.ingredients[0].name == "salt"


def test_a_name_heard_better_is_the_same_food() -> None:
    words = said(44, "so now the chicken brought goes in")
    mis_heard = soup(ingredients=[food("i1", "chicken brought", (None, "s3", words))])
    better = soup(ingredients=[food("i4", "chicken broth", (None, "s3", words))])
    made = corrected(better, does(mis_heard, "amount", "i1.u1", "4 cups"))
    assert made.ingredients[0].total and made.ingredients[0].total.low == 4
