"""Reminders to the cook of duties beyond the kitchen, each with the rule it defers to."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .tables import rows


@dataclass(frozen=True, slots=True)
class Reminder:
    """What to keep in mind, and the official text that decides."""

    id: str
    text: str
    source: str


@cache
def reminders() -> Mapping[str, Reminder]:
    """Every reminder by its id."""
    return {row["id"]: Reminder(row["id"], row["text"], row["source"]) for row in rows("reminders")}
