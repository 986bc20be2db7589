"""Words for a food's state, size and quality, and where each stands in a written ingredient line."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .tables import rows

PLACES = frozenset({"name", "preparation", "quality", "size"})


@dataclass(frozen=True, slots=True)
class Preparation:
    """One phrase: "chopped fine" is written "finely chopped" and belongs in the preparation list."""

    phrase: str
    written: str
    """As a recipe writes it; empty for praise that a recipe leaves out ("lovely")."""
    place: str
    """``preparation``: after the name ("onion, minced"); ``name``: part of it ("smoked paprika");
    ``size`` and ``quality``: before it ("2 large eggs", "ripe tomatoes")."""
    before: str
    """If not empty, the row holds only right before this word: "rolled" is a name word before "oats"."""
    source: str


@cache
def preparations() -> tuple[Preparation, ...]:
    """Every row of the table, in its order."""
    return tuple(Preparation(**row) for row in rows("preparations"))


@cache
def by_phrase() -> Mapping[str, tuple[Preparation, ...]]:
    """Lower-case phrase → its rows, those that hold only before a certain word first."""
    found: dict[str, tuple[Preparation, ...]] = {}
    for row in sorted(preparations(), key=lambda row: not row.before):
        found[row.phrase] = (*found.get(row.phrase, ()), row)
    return found


def preparation(phrase: str, next_word: str = "") -> Preparation | None:
    """The row for a phrase in front of ``next_word`` (or at the end), or None for a phrase in no row."""
    return next((row for row in by_phrase().get(phrase, ()) if row.before in ("", next_word)), None)
