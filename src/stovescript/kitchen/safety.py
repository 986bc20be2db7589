"""Safe temperatures and times, and the cautions a page must carry; all of it defers to official guidance.

A caution (table ``cautions``) is due where one of its conditions (table ``caution_conditions``, one row each)
holds. A condition holds where each of its filled columns does: of ``foods`` (names or categories),
``allergens`` (US), ``appliances``, ``programs`` (names of settings), ``kinds`` (of actions) and ``words``
(phrases said) at least one is there; of ``without`` (phrases said) none is.
"""

import re
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache

from .tables import listed, rows

CONDITION_COLUMNS = ("foods", "allergens", "appliances", "programs", "kinds", "words", "without")


@dataclass(frozen=True, slots=True)
class SafeValue:
    """A safe minimum temperature inside a food (kind ``minimum``) or another limit (kind ``limit``)."""

    id: str
    kind: str
    what: str
    foods: tuple[str, ...]
    """Names and categories of foods it holds for."""
    fahrenheit: float | None
    celsius: float | None
    minutes: int | None
    """Of a minimum: least rest after cooking; of a limit: longest time."""
    sign: str
    """What to look for where no temperature is published, or beside it."""
    source: str


@dataclass(frozen=True, slots=True)
class Scene:
    """What a talk or one step shows, as the conditions of cautions ask for it."""

    foods: frozenset[str] = frozenset()
    """Names and categories of its foods."""
    allergens: frozenset[str] = frozenset()
    appliances: frozenset[str] = frozenset()
    programs: frozenset[str] = frozenset()
    kinds: frozenset[str] = frozenset()
    """Kinds of its actions."""
    text: str = ""
    """The words said."""


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: its text holds where one of its conditions does."""

    id: str
    when: tuple[Mapping[str, frozenset[str]], ...]
    """Each condition: its filled columns → their values."""
    text: str
    source: str


@cache
def safe_values() -> Mapping[str, SafeValue]:
    """Id → published minimum or limit: "poultry" → 165 °F."""
    return {
        row["id"]: SafeValue(
            id=row["id"],
            kind=row["kind"],
            what=row["what"],
            foods=listed(row["foods"]),
            fahrenheit=float(row["fahrenheit"]) if row["fahrenheit"] else None,
            celsius=float(row["celsius"]) if row["celsius"] else None,
            minutes=int(row["minutes"]) if row["minutes"] else None,
            sign=row["sign"],
            source=row["source"],
        )
        for row in rows("safety")
    }


def safe_minimum(food: str, category: str) -> SafeValue | None:
    """The minimum for a food: that of its name before that of its category; None where none is published."""
    minimums = [value for value in safe_values().values() if value.kind == "minimum"]
    for name in (food, category):
        for value in minimums:
            if name in value.foods:
                return value
    return None


@cache
def cautions() -> tuple[Caution, ...]:
    """Every caution, in its order."""
    conditions: defaultdict[str, list[Mapping[str, frozenset[str]]]] = defaultdict(list)
    for row in rows("caution_conditions"):
        filled = {column: frozenset(listed(row[column])) for column in CONDITION_COLUMNS if row[column]}
        conditions[row["caution"]].append(filled)
    return tuple(
        Caution(id=row["id"], when=tuple(conditions[row["id"]]), text=row["text"], source=row["source"])
        for row in rows("cautions")
    )


def due(scene: Scene) -> tuple[Caution, ...]:
    """The cautions of which a condition holds in a scene, in the table's order."""
    said = frozenset[str]().union(*map(_phrases_in, scene.text.split(". ")))
    return tuple(
        caution for caution in cautions() if any(_holds(condition, scene, said) for condition in caution.when)
    )


@lru_cache(maxsize=8192)  # of a draft that is worked on, most sentences stay as they are
def _phrases_in(text: str) -> frozenset[str]:
    """The phrases of the conditions that stand in a text as whole words."""
    said = " ".join(["", *re.findall(r"[\w'\u2019-]+", text.lower()), ""])
    return frozenset(phrase for phrase in _phrases() if f" {phrase} " in said)


@cache
def _phrases() -> frozenset[str]:
    columns = (condition.get(column, ()) for one in cautions() for condition in one.when for column in _WORDED)
    return frozenset(phrase for phrases in columns for phrase in phrases)


_WORDED = ("words", "without")


def _holds(condition: Mapping[str, frozenset[str]], scene: Scene, said: frozenset[str]) -> bool:
    """``said`` are the phrases of conditions that stand in the scene's text."""
    shown = {
        "foods": scene.foods,
        "allergens": scene.allergens,
        "appliances": scene.appliances,
        "programs": scene.programs,
        "kinds": scene.kinds,
    }
    return all(
        values.isdisjoint(said) != (column == "words") if column in _WORDED else not values.isdisjoint(shown[column])
        for column, values in condition.items()
    )
