"""Her own words, lightly cleaned: what a cook says, and the sentence that is printed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stovescript.pages.voice import as_meant, cleaned, packages_apart, sentence_case
from stovescript.recipe.draft import Evidence, Mishearing

SAID_AND_PRINTED = [
    ("and um you you want them in one layer", "You want them in one layer."),
    ("so okay don't walk away cause it burns", "Don't walk away because it burns."),
    ("the cause of it is the heat", "The cause of it is the heat."),
    ("i i want i want it thicker okay", "I want it thicker."),
    ("don't skip it it just wakes it up", "Don't skip it, it just wakes it up."),
    ("it's really really good", "It's really really good."),
    ("simmer it for thirty five to forty minutes", "Simmer it for 35 to 40 minutes."),
    ("two cups of tomatoes and a pinch of salt", "2 cups of tomatoes and a pinch of salt."),
    ("that's a cup and a half if i'm honest", "That's 1 1/2 cups if I'm honest."),
    ("it keeps three months and you'll break a tooth on it", "It keeps 3 months and you'll break a tooth on it."),
    ("look at it. if it's dry stir", "Look at it. If it's dry stir."),
    ("so good", "So good."),
    ("Already a sentence?", "Already a sentence?"),
    ("um", ""),
    ("", ""),
]


@pytest.mark.parametrize(("said", "printed"), SAID_AND_PRINTED)
def test_words_are_lightly_cleaned(said: str, printed: str) -> None:
    assert cleaned(said) == printed


@pytest.mark.parametrize("printed", [printed for _, printed in SAID_AND_PRINTED])
def test_what_is_clean_stays(printed: str) -> None:
    assert cleaned(printed) == printed


WORDS = "and so um i the pan stir it it two cups until golden because hot okay"


@given(st.lists(st.sampled_from(WORDS.split(" "))))
def test_cleaning_never_adds_words(words: list[str]) -> None:
    printed = cleaned(" ".join(words)).lower().replace("2", "two")
    assert {word.strip(".,") for word in printed.split()} <= set(words)


def test_a_name_that_captions_mis_heard_is_put_right_only_where_it_was_said() -> None:
    wrong = [Mishearing(heard="come in", meant="cumin", start=12.0, end=13.0)]
    here, elsewhere = ([Evidence(start=start, end=start + 5, text="")] for start in (10.0, 30.0))
    assert as_meant("toast the come in first", here, wrong) == "toast the cumin first"
    assert as_meant("come in everybody", elsewhere, wrong) == "come in everybody"


@pytest.mark.parametrize(
    ("written", "apart"),
    [
        ("1 15-ounce can", "1 (15-ounce) can"),
        ("2 14.5-ounce cans", "2 (14.5-ounce) cans"),
        ("1/2 400-gram can", "1/2 (400-gram) can"),
        ("1 1/2 12-to-14-ounce bags", "1 1/2 (12-to-14-ounce) bags"),
        ("1 1/2 cups", "1 1/2 cups"),
        ("2 (14 1/2-ounce) cans", "2 (14 1/2-ounce) cans"),
    ],
)
def test_the_number_of_packages_and_their_size_are_kept_apart(written: str, apart: str) -> None:
    assert packages_apart(written) == apart


def test_sentence_case_keeps_names() -> None:
    assert sentence_case("chili for Ann") == "Chili for Ann"
    assert sentence_case("") == ""
