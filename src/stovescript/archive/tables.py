"""The archive's tables as CSV (RFC 4180), for a spreadsheet; the same rows stand in the SQLite file."""

import csv
import io
from collections.abc import Iterable, Sequence

from stovescript.archive.duplicates import Pair
from stovescript.archive.manifest import Manifest
from stovescript.archive.rows import Cell

_MARK = "\ufeff"  # without it a spreadsheet takes UTF-8 for the system's old encoding
_FORMULA = ("=", "+", "-", "@", "\t", "\r")  # a text that starts so would be computed (OWASP, CSV injection)

_QUERIES = {
    "talks": "SELECT talk, state, error, title, video, draft, page, length, words, ingredients, steps, must, should,"
    " could, promises, drafting_seconds FROM talks WHERE found ORDER BY talk",
    **{
        table: f"SELECT {table}.*, talks.title FROM {table} JOIN talks USING (talk) WHERE found"
        f" ORDER BY talk, {table}.rowid"
        for table in ("ingredients", "settings", "gaps")
    },
}


def csv_tables(manifest: Manifest, likely: Sequence[Pair]) -> dict[str, str]:
    """The tables by file name: talks, ingredients, settings, gaps, duplicates."""
    made = {}
    for name, query in _QUERIES.items():
        rows = manifest.table(query)
        made[f"{name}.csv"] = _csv(rows.columns, rows.rows)
    pairs = ((p.first, p.second, round(p.titles), round(p.share, 2), ", ".join(p.shared)) for p in likely)
    made["duplicates.csv"] = _csv(("first", "second", "titles_alike", "ingredients_shared", "shared"), pairs)
    return made


def _csv(columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(columns)
    writer.writerows([_safe(cell) for cell in row] for row in rows)
    return _MARK + text.getvalue()


def _safe(cell: Cell) -> Cell:
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(_FORMULA) else cell
