"""This room's two small tables: what a file is by its ending, and what a kind of question is called."""

import csv
from functools import cache
from importlib.resources import files


@cache
def endings(kind: str) -> tuple[str, ...]:
    """The endings of one kind ("captions", "text", "video", "written"), lower case, the preferred first.

    "text" may hold a talk; "written" are files that stovescript writes beside a draft.
    """
    return tuple(row["ending"] for row in _rows("endings.csv") if row["kind"] == kind)


def kind_of(ending: str) -> str | None:
    """ "captions", "text" or "video" for ".SRT", ".txt", ".mov"; None for any other ending."""
    return next((kind for kind in ("captions", "text", "video") if ending.lower() in endings(kind)), None)


def label_of(kind: str) -> str:
    """What a kind of question is about: "no temperature" for "no_temperature"."""
    return _labels().get(kind, kind)


@cache
def _labels() -> dict[str, str]:
    return {row["kind"]: row["label"] for row in _rows("gap_labels.csv")}


def _rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(files(__package__).joinpath(name).read_text(encoding="utf-8").splitlines()))
