"""The word tables of the grammar: a source in each row, no stray spaces, no word twice, no row without use."""

from pathlib import Path

import pytest

from stovescript import measure
from stovescript.kitchen.tables import listed, rows

TABLES = ("units", "number_words", "quantity_words", "oven_marks")


@pytest.mark.parametrize("name", TABLES)
def test_every_row_has_its_source(name: str) -> None:
    assert all(row["source"] for row in rows(name))


@pytest.mark.parametrize("name", TABLES)
def test_cells_are_trimmed_and_lists_have_no_double_item(name: str) -> None:
    for row in rows(name):
        for cell in row.values():
            items = listed(cell)
            assert cell == cell.strip()
            assert "  " not in cell
            assert all(items)
            assert len(set(items)) == len(items), cell


def test_every_role_is_used() -> None:
    code = "".join(path.read_text(encoding="utf-8") for path in Path(measure.__file__).parent.glob("*.py"))
    assert [row["role"] for row in rows("quantity_words") if f'"{row["role"]}"' not in code] == []
