"""Baking pans: read as they are written, their areas and volumes, and what the draft becomes in another."""

import math

import pytest

from stovescript.errors import StovescriptError
from stovescript.pages.pans import Pan, pan_factor, read_pan
from stovescript.pages.scaling import by_pan

from .drafts import draft

# Square inches by plain geometry: π/4 d², a × b; 1 inch = 2.54 cm exactly (NIST Handbook 44, Appendix C).
AREAS = [
    ("9x13", 117),
    ("13 x 9", 117),
    ("9 by 13 inches", 117),
    ("eighteen by thirteen", 234),
    ("8 inch round", math.pi * 16),
    ("9-inch springform", math.pi * 4.5**2),
    ("8-inch square", 64),
    ("8x8", 64),
    ("two 9 inch rounds", 2 * math.pi * 4.5**2),
    ("20 cm round", math.pi * 10**2 / 2.54**2),
    ("23x33 cm", 23 * 33 / 2.54**2),
    ("33 by 23 by 5 cm", 23 * 33 / 2.54**2),
    ("26", None),
    ("big", None),
    ("9x", None),
    ("0x9", None),
]


def pan(text: str) -> Pan:
    found = read_pan(text)
    assert found is not None
    return found


@pytest.mark.parametrize(("text", "area"), AREAS)
def test_area(text: str, area: float | None) -> None:
    found = read_pan(text)
    assert (found.area if found else None) == (pytest.approx(area) if area else None)


@pytest.mark.parametrize(
    ("text", "cups", "off"),
    [
        # Capacity as sold, common practice: to the brim, within a cup or so of the geometry of straight sides.
        ("8x8x2", 8, 1.0),
        ("9x9x2", 10, 1.3),
        ("9x13x2", 15, 1.3),
        ("9x5 loaf", 8, 0.7),
        ("9 inch pie plate", 5, 0.7),
        ("3 quart baking dish", 12, 0.01),
    ],
)
def test_capacity(text: str, cups: float, off: float) -> None:
    assert pan(text).cups == pytest.approx(cups, abs=off)


def test_a_round_of_9_inches_takes_the_place_of_a_square_of_8() -> None:
    """Common practice of bakers: "the same area, about"."""
    factor, by = pan_factor(pan("8x8"), pan("9 inch round"))
    assert by == "area" and factor == pytest.approx(0.994, abs=0.001)


def test_a_loaf_goes_by_volume() -> None:
    factor, by = pan_factor(pan("8x8"), pan("9x5 loaf"))
    assert by == "volume" and factor == pytest.approx(45 * 2.75 / 128)


BROWNIES = draft(["1 cup: sugar", "2: eggs"], pans=[("mixing bowl", None), ("baking dish", "8 by 8")])


def test_another_pan() -> None:
    variant = by_pan(BROWNIES, "9x13")
    assert variant.factor == pytest.approx(117 / 64)
    assert [e.size for e in variant.draft.equipment] == [None, "9 by 13 inches"]
    first = variant.told("size")[0]
    assert "8 by 8 inches" in first and "64 square inches" in first and "117 square inches" in first
    assert "(2)" not in variant.draft.equipment[1].name


def test_the_size_in_the_method_changes_along() -> None:
    brownies = BROWNIES.model_copy(
        update={"steps": [BROWNIES.steps[0].model_copy(update={"text": "Pour it into the 8 by 8 inch dish."})]}
    )
    assert by_pan(brownies, "9x13").draft.steps[0].text == "Pour it into the 9 by 13 inches dish."


@pytest.mark.parametrize(
    ("pans", "wanted", "tells"),
    [
        ([], "9x13", "names no baking pan"),
        ([("baking dish", None)], "9x13", "baking dish, without a size"),
        ([("baking dish", "8x8")], "huge", "no pan size"),
        ([("baking dish", "8x8")], "8x8", "as large"),
        ([("baking dish", "8x8")], "-8x8", "no pan size"),
    ],
)
def test_what_is_not_known_is_told(pans: list[tuple[str, str | None]], wanted: str, tells: str) -> None:
    with pytest.raises(StovescriptError, match=tells):
        by_pan(draft(["1 cup: sugar"], pans=pans), wanted)
