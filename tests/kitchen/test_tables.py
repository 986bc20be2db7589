"""Every table of trade knowledge: a source in each row, no stray spaces, quick to load."""

import inspect
import time
from collections.abc import Callable

import pytest

from stovescript.kitchen import (
    actions,
    appliances,
    cues,
    made_parts,
    practices,
    preparations,
    safety,
    substitutions,
    tables,
    triggers,
    vessels,
)

NAMES = (
    "actions",
    "appliances",
    "caution_conditions",
    "cautions",
    "cues",
    "made_parts",
    "practices",
    "preparations",
    "safety",
    "settings",
    "substitutions",
    "triggers",
    "vessels",
)
LOADERS: tuple[Callable[[], object], ...] = (
    actions.actions,
    appliances.appliances,
    appliances.settings,
    cues.cues,
    made_parts.made_parts,
    practices.practices,
    preparations.preparations,
    safety.cautions,
    safety.safe_values,
    substitutions.substitutions,
    triggers.triggers,
    vessels.vessels,
)


@pytest.mark.parametrize("name", NAMES)
def test_every_row_has_its_source(name: str) -> None:
    assert all(row["source"] for row in tables.rows(name))


@pytest.mark.parametrize("name", NAMES)
def test_cells_are_trimmed_and_lists_have_no_empty_or_double_item(name: str) -> None:
    for row in tables.rows(name):
        for cell in row.values():
            assert cell == cell.strip() and "  " not in cell
            items = cell.split("|")
            assert len(items) == 1 or (all(items) and len(set(items)) == len(items)), cell


def test_a_quoted_cell_holds_commas() -> None:
    row = next(row for row in tables.rows("safety") if row["id"] == "poultry")
    assert row["what"] == "poultry, whole, parts or ground"


def test_loading_is_quick() -> None:
    """Processor time, the best of three; far above the usual 20 milliseconds, for slow machines."""

    def load() -> float:
        start = time.process_time()
        for loader in LOADERS:
            inspect.unwrap(loader)()
        return time.process_time() - start

    assert min(load() for _ in range(3)) < 0.1
