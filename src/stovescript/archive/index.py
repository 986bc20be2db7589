"""What an archive's out folder shows beside the drafts: index.html and the tables, made from the manifest."""

import os
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote

from stovescript.archive.duplicates import Dish, Pair, pairs
from stovescript.archive.gather import Gathered, PassedOver, shown
from stovescript.archive.manifest import Manifest
from stovescript.archive.rows import Row
from stovescript.archive.small_tables import label_of
from stovescript.archive.tables import csv_tables

TABLES = "tables"
_URGENT = "SELECT * FROM gaps WHERE severity = 'must' OR kind = 'promise' ORDER BY talk, rowid"


@dataclass(frozen=True, slots=True)
class Index:
    """All that the page shows. Talks, questions and ingredients are rows of the manifest."""

    drafted: Sequence[Row]
    failed: Sequence[Row]
    gone: Sequence[Row]
    passed_over: Sequence[PassedOver]
    questions: Mapping[str, Sequence[Row]]
    ingredients: Mapping[str, Sequence[str]]
    by_kind: Sequence[tuple[str, int]]
    likely: Sequence[Pair]
    sources: Mapping[str, str]
    tables: Sequence[str]


def index_files(manifest: Manifest, gathered: Gathered, folder: Path, out: Path) -> dict[str, str]:
    """The page and the tables, by path under the out folder."""
    from stovescript.archive.index_page import index_page

    index, tables = _index(manifest, gathered, folder, out)
    return {"index.html": index_page(index), **{f"{TABLES}/{name}": text for name, text in tables.items()}}


def _index(manifest: Manifest, gathered: Gathered, folder: Path, out: Path) -> tuple[Index, dict[str, str]]:
    talks = list(manifest.records("SELECT * FROM talks ORDER BY must, should, could, talk"))
    found = [talk for talk in talks if talk["found"]]
    drafted = [talk for talk in found if talk["state"] == "drafted"]
    ingredients = _by_talk(manifest, "SELECT talk, name FROM ingredients ORDER BY talk, rowid")
    questions = _by_talk(
        manifest, "SELECT * FROM gaps WHERE severity = 'must' OR kind = 'promise' ORDER BY talk, rowid"
    )
    names = {talk: tuple(str(row["name"]) for row in rows) for talk, rows in ingredients.items()}
    likely = pairs(
        [
            Dish(
                str(talk["talk"]),
                str(talk["title"] or ""),
                frozenset(names.get(str(talk["talk"]), ())),
                str(talk["captions_sha256"]),
            )
            for talk in sorted(drafted, key=lambda talk: str(talk["talk"]))
        ]
    )
    no_talk = [PassedOver(str(t["talk"]), str(t["error"])) for t in found if t["state"] == "no talk"]
    kinds: Counter[str] = Counter()
    for row in manifest.records("SELECT kind FROM gaps JOIN talks USING (talk) WHERE found"):
        kinds[label_of(str(row["kind"]))] += 1
    tables = csv_tables(manifest, likely)
    paths = [path for talk in gathered.talks for path in (talk.path, talk.video) if path]
    index = Index(
        drafted=drafted,
        failed=[talk for talk in found if talk["state"] == "failed"],
        gone=[talk for talk in talks if not talk["found"]],
        passed_over=[*(PassedOver(shown(item.path), item.why) for item in gathered.passed_over), *no_talk],
        questions=questions,
        ingredients=names,
        by_kind=kinds.most_common(),
        likely=likely,
        sources={shown(path): _address(folder / path, out) for path in paths},
        tables=[f"{TABLES}/{name}" for name in tables],
    )
    return index, tables


def _by_talk(manifest: Manifest, query: str) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = {}
    for row in manifest.records(query):
        found.setdefault(str(row["talk"]), []).append(row)
    return found


def _address(path: Path, out: Path) -> str:
    """The address of a file from the out folder, relative where one disk holds both."""
    try:
        return quote(os.fsencode(os.path.relpath(path, out).replace(os.sep, "/")))
    except ValueError:
        return path.resolve().as_uri()
