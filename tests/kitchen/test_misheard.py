"""Mis-heard verbs and tools: what captions show must sound or look like what is meant, or it is a guess."""

import pytest

from stovescript.kitchen import tables
from stovescript.kitchen.misheard import KINDS, misheard
from stovescript.kitchen.sounds import alike, sound

ROWS = [(kind, heard, meant) for kind in sorted(KINDS) for heard, meant in sorted(misheard(kind).items())]


@pytest.mark.parametrize(("kind", "heard", "meant"), ROWS)
def test_it_sounds_like_what_is_meant(kind: str, heard: str, meant: str) -> None:
    assert heard != meant
    assert sound(heard) == sound(meant) or alike(heard, meant) >= 40, kind


def test_every_row_has_its_kind_and_source() -> None:
    assert all(row["source"] and row["kind"] in KINDS for row in tables.rows("misheard_words"))


@pytest.mark.parametrize(
    ("kind", "heard", "meant"),
    [("verb", "beet", "beat"), ("verb", "great", "grate"), ("tool", "doe", "dough"), ("tool", "wrack", "rack")],
)
def test_english_homophones(kind: str, heard: str, meant: str) -> None:
    """Common English."""
    assert misheard(kind)[heard] == meant
