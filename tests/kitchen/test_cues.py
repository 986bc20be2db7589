"""Doneness cues: openers, heads and whole cues, and how the method writes them."""

import pytest

from stovescript.kitchen.cues import ROLES, SENSES, by_phrase, cues


def test_schema() -> None:
    assert {cue.role for cue in cues()} == ROLES
    assert {cue.sense for cue in cues()} == SENSES
    assert len(by_phrase()) == len(cues()), "a phrase is one row"


@pytest.mark.parametrize(
    ("phrase", "role", "written"),
    [
        ("until", "opener", "until"),
        ("till", "opener", "until"),
        ("once", "opener", "once"),
        ("when it starts to", "opener", "when it starts to"),
        ("golden", "head", "golden"),
        ("nice and brown", "head", "browned"),
        ("the edges set", "head", "the edges are set"),
        ("reads #", "head", "it reads # inside"),
        ("oil separates", "head", "the oil separates"),
        ("a skewer comes out clean", "whole", "a skewer comes out clean"),
        ("coats the back of a spoon", "whole", "it coats the back of a spoon"),
    ],
)
def test_phrase(phrase: str, role: str, written: str) -> None:
    cue = by_phrase()[phrase]
    assert (cue.role, cue.written) == (role, written)


def test_a_number_that_is_said_is_written() -> None:
    assert all(("#" in cue.phrase) == ("#" in cue.written) for cue in cues())
