"""Vessels and tools: spoken forms, and which of them need a size."""

import pytest

from stovescript.kitchen.vessels import KINDS, by_form, vessels


def test_schema() -> None:
    assert len(vessels()) >= 150
    assert {vessel.kind for vessel in vessels()} == KINDS
    assert all(vessel.forms[0] == vessel.name == vessel.name.lower() for vessel in vessels())


def test_a_form_belongs_to_one_vessel() -> None:
    assert len(by_form()) == sum(len(vessel.forms) for vessel in vessels())


def test_only_what_bakes_needs_a_size() -> None:
    assert {vessel.kind for vessel in vessels() if vessel.needs_size} == {"oven dish", "tin"}


@pytest.mark.parametrize(
    ("form", "name", "needs_size"),
    [
        ("roasting tray", "roasting tin", True),
        ("spring form tin", "springform pan", True),
        ("kadai", "karahi", False),
        ("calendar", "colander", False),
        ("cling film", "plastic wrap", False),
        ("greaseproof paper", "parchment paper", False),
        ("walk pan", "wok", False),
        ("nine by thirteen", "nine by thirteen dish", False),
        ("inner pot", "inner pot", False),
        ("loaf tins", "loaf tin", True),
    ],
)
def test_spoken_form(form: str, name: str, needs_size: bool) -> None:
    assert (by_form()[form].name, by_form()[form].needs_size) == (name, needs_size)
