"""The tables that scaling reads: a source in each row, only words that the code knows, only foods there are."""

import pytest

from stovescript.kitchen import tables
from stovescript.kitchen.appliances import by_name
from stovescript.kitchen.foods import food_categories, foods
from stovescript.kitchen.measures import owned
from stovescript.kitchen.pan_shapes import OUTLINES, pan_shapes
from stovescript.kitchen.sizing import DIRECTIONS, TRIGGERS, fill_limits, has_role, scaling_cautions
from stovescript.kitchen.units import units

NAMES = ("fill_limits", "measures", "nutrients", "pan_shapes", "scaling_cautions", "scaling_roles")


@pytest.mark.parametrize("name", NAMES)
def test_every_row_has_its_source_and_trimmed_cells(name: str) -> None:
    for row in tables.rows(name):
        assert row["source"]
        assert all(cell == cell.strip() and "  " not in cell for cell in row.values())


def test_measures_are_units_with_rising_parts() -> None:
    for unit, parts in owned().items():
        assert unit in units() and list(parts) == sorted(parts)


def test_pan_shapes() -> None:
    assert {shape.outline for shape in pan_shapes()} <= OUTLINES
    assert {shape.compare for shape in pan_shapes()} == {"area", "volume"}


def test_fill_limits_are_of_appliances_there_are() -> None:
    assert all(limit.appliance in by_name() and 0 < limit.share_swelling <= limit.share < 1 for limit in fill_limits())


def test_cautions_ask_for_what_there_is() -> None:
    ids = [caution.id for caution in scaling_cautions()]
    assert len(set(ids)) == len(ids)
    for caution in scaling_cautions():
        assert caution.kind in TRIGGERS and caution.when in DIRECTIONS and caution.text.endswith(".")
        if caution.kind == "category":
            assert set(caution.match) <= food_categories().keys()
        if caution.kind == "appliance":
            assert set(caution.match) <= by_name().keys()
        if caution.kind == "role":
            assert all(has_role(foods()["salt"], role) in (True, False) for role in caution.match)


def test_roles_are_of_foods_there_are() -> None:
    for row in tables.rows("scaling_roles"):
        assert set(tables.listed(row["categories"])) <= food_categories().keys()
        assert set(tables.listed(row["foods"])) <= foods().keys(), row["role"]
