"""Which words name a food: names in two pieces, talk that trails after a name, words that only describe."""

import pytest

from stovescript.speech.food_spans import joined, without_strays


@pytest.mark.parametrize(
    ("words", "spans", "kept"),
    [
        ("a teaspoon of poetry seasoning", [(3, 4), (4, 5)], [(3, 5)]),
        ("salt pepper and oil", [(0, 1), (1, 2), (3, 4)], [(0, 1), (1, 2), (3, 4)]),
    ],
)
def test_two_pieces_of_one_name(words: str, spans: list[tuple[int, int]], kept: list[tuple[int, int]]) -> None:
    """ "Poetry seasoning" sounds like poultry seasoning; a list of two foods stays two."""
    assert joined([("food", a, b) for a, b in spans], words.split()) == [("food", a, b) for a, b in kept]


@pytest.mark.parametrize(
    ("words", "span", "kept"),
    [
        ("one orange alright", (1, 3), [(1, 2)]),
        ("one big old onion", (2, 3), []),
        ("two um", (1, 2), []),
        ("a smoked paprika", (1, 3), [(1, 3)]),
        ("a pinch of time", (3, 4), [(3, 4)]),
    ],
)
def test_what_is_no_part_of_a_name_is_cut(words: str, span: tuple[int, int], kept: list[tuple[int, int]]) -> None:
    assert without_strays([("food", *span)], words.split()) == [("food", a, b) for a, b in kept]
