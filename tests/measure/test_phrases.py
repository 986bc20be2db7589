"""What cooks of many kitchens say, and what it means: each row of phrases.csv is one example."""

import csv
from pathlib import Path

import pytest

from stovescript.measure import find_quantities

from .notation import expected, told

ROWS = list(csv.DictReader((Path(__file__).parent / "phrases.csv").read_text(encoding="utf-8").splitlines()))


def test_enough_voices_are_heard() -> None:
    assert len(ROWS) >= 250
    assert {row["voice"] for row in ROWS} == {"us", "uk", "au", "in", "nn"}  # nn: English is not their first language


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["says"][:60])
def test_phrase(row: dict[str, str]) -> None:
    wanted = expected(row["means"])
    found = find_quantities(row["says"].split())
    assert len(found) == len(wanted), found
    for fields, quantity in zip(wanted, found, strict=True):
        assert told(quantity, fields) == fields


def test_case_does_not_matter() -> None:
    for row in ROWS:
        if {"T", "t"} & set(row["says"].split()):
            continue  # T is a tablespoon and t a teaspoon
        tokens = row["says"].split()
        plain = [(q.start, q.end, q.low, q.unit) for q in find_quantities(tokens)]
        assert [(q.start, q.end, q.low, q.unit) for q in find_quantities([t.capitalize() for t in tokens])] == plain


def test_phrases_one_after_another_keep_their_meaning() -> None:
    """A talk is one list: with a sentence mark between, each phrase means what it means alone."""
    tokens: list[str] = []
    wanted: list[tuple[int, float, str]] = []
    for row in ROWS:
        alone = row["says"].split()
        wanted += [(q.start + len(tokens), q.low, q.unit) for q in find_quantities(alone)]
        tokens += [*alone, "."]
    assert [(q.start, q.low, q.unit) for q in find_quantities(tokens)] == wanted
