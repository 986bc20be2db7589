"""Words for a food's state: how they are written and where in the ingredient line they stand."""

import pytest

from stovescript.kitchen.preparations import PLACES, preparation, preparations


def test_schema() -> None:
    assert len(preparations()) >= 250
    assert {row.place for row in preparations()} == PLACES
    assert all(row.phrase == row.phrase.lower() for row in preparations())


def test_a_phrase_before_a_word_is_one_row() -> None:
    keys = [(row.phrase, row.before) for row in preparations()]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize(
    ("phrase", "written", "place"),
    [
        ("minced", "minced", "preparation"),
        ("chopped fine", "finely chopped", "preparation"),
        ("room temperature", "at room temperature", "preparation"),
        ("luke warm", "lukewarm", "preparation"),
        ("skin on", "skin-on", "preparation"),
        ("boneless skinless", "boneless, skinless", "preparation"),
        ("divided", "divided", "preparation"),
        ("to serve", "to serve", "preparation"),
        ("julienned", "julienned", "preparation"),
        ("smoked", "smoked", "name"),
        ("tinned", "canned", "name"),
        ("whole wheat", "whole wheat", "name"),
        ("unsalted", "unsalted", "name"),
        ("big", "large", "size"),
        ("medium sized", "medium", "size"),
        ("ripe", "ripe", "quality"),
        ("good quality", "good-quality", "quality"),
        ("lovely", "", "quality"),
    ],
)
def test_phrase(phrase: str, written: str, place: str) -> None:
    row = preparation(phrase)
    assert row is not None and (row.written, row.place) == (written, place)


@pytest.mark.parametrize(("next_word", "place"), [("almonds", "name"), ("carrots", "preparation")])
def test_ground_almonds_are_bought_but_ground_up_is_done(next_word: str, place: str) -> None:
    row = preparation("blanched" if next_word == "almonds" else "peeled", next_word)
    assert row is not None and row.place == place


def test_diced_tomatoes_from_a_can_against_diced_onion() -> None:
    assert preparation("diced", "tomatoes").place == "name"  # type: ignore[union-attr]
    assert preparation("diced", "onion").place == "preparation"  # type: ignore[union-attr]
    assert preparation("painted") is None
