"""Cooking verbs as home cooks say them, and the neutral verb a written method uses instead."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .tables import listed, rows

KINDS = frozenset(
    {
        "add",
        "bake",
        "blend",
        "check",
        "close",
        "coat",
        "combine",
        "cook",
        "cool",
        "cover",
        "cut",
        "divide",
        "drain",
        "dry-heat",
        "fry",
        "grease",
        "heat",
        "line",
        "marinate",
        "melt",
        "open",
        "preheat",
        "pressure",
        "reduce",
        "release",
        "remove",
        "rest",
        "rise",
        "season",
        "serve",
        "shape",
        "store",
        "taste",
        "transfer",
        "turn",
        "wash",
        "wet-heat",
    }
)


@dataclass(frozen=True, slots=True)
class Action:
    """One spoken verb: "chuck in" is an adding verb that a method writes as "Add"."""

    verb: str
    forms: tuple[str, ...]
    particle: str
    """The part that an object may stand before: "in" of "put in", as in "put the onions in"; else empty."""
    kind: str
    imperative: str
    adds: bool
    """A food that is the verb's object (or, of "go in", its subject) joins what is in the vessel."""
    needs_time: bool
    """A reader can't do the step without a duration or a doneness cue."""
    needs_heat: bool
    """A reader can't do the step without a temperature or a heat level."""
    ambiguous: bool
    """The form is often a noun, an adjective or an everyday word: "cut", "top", "season", "go"."""
    source: str


@cache
def actions() -> tuple[Action, ...]:
    """Every action of the table, in its order."""
    return tuple(
        Action(
            verb=row["verb"],
            forms=listed(row["forms"]),
            particle=row["particle"],
            kind=row["kind"],
            imperative=row["imperative"],
            adds=row["adds"] == "1",
            needs_time=row["needs_time"] == "1",
            needs_heat=row["needs_heat"] == "1",
            ambiguous=row["ambiguous"] == "1",
            source=row["source"],
        )
        for row in rows("actions")
    )


@cache
def by_form() -> Mapping[str, Action]:
    """Lower-case spoken form → its action: "chucked in" → "chuck in". A form belongs to one action only."""
    return {form: action for action in actions() for form in action.forms}
