"""What the post says first: the dish's name, its yield, and a line of praise in the cook's own words."""

import pytest

from .talking import amount_text, drafted

COOKED = "\ndoes| {action:boil} {amount:a cup} of {food:lentils}"


@pytest.mark.parametrize(
    ("clause", "title"),
    [
        ("announce| hi friends today i'm making my {food:chickpea flatbreads}", "chickpea flatbreads"),
        ("announce| this is a recipe for {food:lemon lentil soup} because it's cold", "lemon lentil soup"),
        ("announce| i'm gonna show you how to make {food:potato dumplings} today", "potato dumplings"),
        ("announce| today we're making {food:mushroom risotto}", "mushroom risotto"),
        ("chat| so i call this {food:sunday beef stew}", "sunday beef stew"),
    ],
)
def test_title(clause: str, title: str) -> None:
    assert drafted(clause + COOKED).title == title


@pytest.mark.parametrize("clause", ["chat| hello everyone welcome back", "chat| it is raining again today"])
def test_no_title_is_made_up(clause: str) -> None:
    assert drafted(clause + COOKED).title is None


def test_a_dish_named_only_at_the_end() -> None:
    assert drafted(COOKED + "\nchat| and this is my {food:lentil soup}").title == "lentil soup"


def test_the_first_announcement_names_the_dish() -> None:
    draft = drafted("announce| today we're making {food:tomato soup}" + COOKED + "\nannounce| now the {food:bread}")
    assert draft.title == "tomato soup"


@pytest.mark.parametrize(
    ("clause", "servings"),
    [
        ("states| it serves {amount:four}", "4 serving"),
        ("states| that feeds {amount:four to six} people", "4-6 serving"),
        ("states| there's enough for {amount:six}", "6 serving"),
        ("announce| this'll do {amount:six} of us", "6 serving"),
        ("states| this makes {amount:two dozen} muffins", "24 muffin"),
        ("states| you'll get {amount:eight} pancakes out of this", "8 pancake"),
        ("states| it makes about {amount:a dozen} rolls", "about 12 roll"),
    ],
)
def test_yield(clause: str, servings: str) -> None:
    """Portions where people are fed, else what the cook counts."""
    assert amount_text(drafted(clause).servings) == servings


@pytest.mark.parametrize(
    "clause",
    [
        "chat| i've been cooking for {amount:six} people every night for years",
        "alternative| if you double it it feeds {amount:eight}",
        "states| i've got {amount:six} {food:eggs}",
        "does| {action:bake} it for {time:ten minutes}",
        "does| {action:set} the {appliance:oven} to {temp:350}",
    ],
)
def test_other_numbers_are_no_yield(clause: str) -> None:
    assert drafted(clause).servings is None


def test_the_yield_keeps_the_words_it_was_said_in() -> None:
    servings = drafted("states| that feeds {amount:four to six} people").servings
    assert servings
    assert servings.said == "that feeds four to six people"


def test_the_number_that_a_dish_makes_measures_no_food() -> None:
    draft = drafted(
        """does| {action:add} the {food:oats} {amount:two cups}
        states| this makes {amount:twelve} {food:oat bars}"""
    )
    assert amount_text(draft.ingredients[0].total) == "2 cup"
    assert len(draft.ingredients) == 1


def test_summary_is_in_her_words() -> None:
    draft = drafted("chat| this soup is my favorite comfort food when it rains" + COOKED)
    assert draft.summary == "this soup is my favorite comfort food when it rains"


def test_no_summary_is_made_up() -> None:
    assert drafted("chat| hello everyone welcome back to my kitchen" + COOKED).summary is None
