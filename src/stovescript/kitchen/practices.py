"""What cooks say they do that can hurt someone: garlic kept in oil, rice left warm, batter licked off the spoon.

A practice (table ``practices``) is heard where a clause holds one of the phrases in ``said``, the clauses about it
one of ``near`` and one of ``when``; a phrase of ``without`` before what is said ("please do not leave it"), or one of
``unless`` anywhere about it, takes it back. ``#hours`` stands for any time of two hours or more.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .tables import listed, rows


@dataclass(frozen=True, slots=True)
class Practice:
    """One practice, the cautions it calls for, and the question it raises."""

    name: str
    cautions: tuple[str, ...]
    """Ids of the table ``cautions``."""
    about: str
    foods: frozenset[str]
    """Names or categories of foods of which the dish must hold one; empty: any dish."""
    said: tuple[str, ...]
    near: tuple[str, ...]
    when: tuple[str, ...]
    without: tuple[str, ...]
    unless: tuple[str, ...]
    question: str
    """Empty where a caution is enough, as where the cook warns of it herself."""
    source: str


@cache
def practices() -> Mapping[str, Practice]:
    """Name → practice, in the table's order."""
    return {
        row["practice"]: Practice(
            name=row["practice"],
            cautions=listed(row["cautions"]),
            about=row["about"],
            foods=frozenset(listed(row["foods"])),
            said=listed(row["said"]),
            near=listed(row["near"]),
            when=listed(row["when"]),
            without=listed(row["without"]),
            unless=listed(row["unless"]),
            question=row["question"],
            source=row["source"],
        )
        for row in rows("practices")
    }
