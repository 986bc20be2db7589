"""The tables hold what the drafts hold; a spreadsheet and SQL read the same rows."""

import csv
import sqlite3
from pathlib import Path

import pytest

from stovescript.archive import run as running
from stovescript.archive.run import archive
from stovescript.archive.tables import csv_tables
from stovescript.draft_file import read_draft
from tests.archive.talks import TALKS, here, laid_out


@pytest.fixture
def out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(running, "local", here)
    archive(laid_out(tmp_path / "talks"), tmp_path / "out")
    return tmp_path / "out"


def read(out: Path, table: str) -> list[dict[str, str]]:
    """As Python's csv module reads it, whose default is the dialect of spreadsheets."""
    with (out / "tables" / f"{table}.csv").open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("table", ["ingredients", "settings", "gaps"])
def test_the_csv_table_has_the_rows_of_the_database(out: Path, table: str) -> None:
    database = sqlite3.connect(out / "archive.sqlite")
    kept = database.execute(f"SELECT * FROM {table} ORDER BY talk, rowid").fetchall()
    database.close()
    rows = [tuple(row.values())[:-1] for row in read(out, table)]
    assert rows and rows == [tuple("" if cell is None else str(cell) for cell in row) for row in kept]


def test_the_tables_hold_what_the_drafts_hold(out: Path) -> None:
    drafts = {name: read_draft(out / "drafts" / name.replace(".vtt", ".draft.json")) for name in TALKS}
    for name, draft in drafts.items():
        foods = [row for row in read(out, "ingredients") if row["talk"] == name]
        assert [row["name"] for row in foods] == [ingredient.name for ingredient in draft.ingredients]
        settings = [row for row in read(out, "settings") if row["talk"] == name]
        assert len(settings) == sum(len(step.settings) for step in draft.steps)
        assert {row["id"] for row in read(out, "gaps") if row["talk"] == name} == {gap.id for gap in draft.gaps}
    (soup,) = (row for row in read(out, "talks") if row["talk"] == "2019/soup.vtt")
    assert soup["promises"] == str(len(drafts["2019/soup.vtt"].promises)) == "1"


def test_amounts_are_numbers_with_a_unit_and_a_text(out: Path) -> None:
    (row,) = (row for row in read(out, "ingredients") if row["name"] == "chicken broth")
    assert (row["amount"], row["low"], row["high"], row["unit"]) == ("1 cup", "1.0", "1.0", "cup")


def test_a_name_that_looks_like_a_formula_stays_text(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A cell that starts with = + - or @ would be computed (OWASP, CSV injection); a quote before it prevents it."""
    from stovescript.archive.manifest import opened
    from tests.cli.running import DIP

    monkeypatch.setattr(running, "local", here)
    archive(laid_out(tmp_path / "talks", {"=1+1.vtt": DIP, "-dip.vtt": DIP}), tmp_path / "out")
    with opened(tmp_path / "out") as manifest:
        text = csv_tables(manifest, [])["talks.csv"]
    assert "\n'=1+1.vtt," in text.replace("\r", "") and "\n'-dip.vtt," in text.replace("\r", "")
