"""The scorecard of the talks kept aside stays above floors just under the figures reached (see DEVELOPERS.md)."""

import pytest

from tests.accuracy.__main__ import cards, macro
from tests.accuracy.scorecard import Card

FLOORS = {
    "ingredients": 0.93,
    "amounts": 0.84,
    "settings": 0.89,
    "steps": 0.80,
    "alternatives": 0.75,
    "promises": 0.84,
    "title": 0.74,
    "yield": 0.74,
}


@pytest.fixture(scope="module")
def kept_aside() -> list[Card]:
    return cards("kept-aside")


def test_there_are_talks_kept_aside(kept_aside: list[Card]) -> None:
    assert len(kept_aside) >= 30


@pytest.mark.parametrize("name", FLOORS)
def test_f1_stays_above_its_floor(kept_aside: list[Card], name: str) -> None:
    assert macro(kept_aside, name) >= FLOORS[name]


def test_most_questions_are_asked(kept_aside: list[Card]) -> None:
    assert macro(kept_aside, "gaps", "recall") >= 0.75


def test_after_perfect_hearing_the_draft_is_right() -> None:
    """Gold clauses and spans in: what is left is the assembler's own error."""
    heard = cards("kept-aside", oracle=True)
    assert macro(heard, "ingredients") >= 0.96
    assert macro(heard, "amounts") >= 0.87
