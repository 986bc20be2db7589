"""Pans, dishes, bowls, tools and parts of appliances, as they are called in many kitchens."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .tables import listed, rows

KINDS = frozenset({"appliance part", "bowl", "container", "oven dish", "pan", "pot", "tin", "tool"})


@dataclass(frozen=True, slots=True)
class Vessel:
    """One vessel or tool: its written name and the ways it is said or mis-heard."""

    name: str
    forms: tuple[str, ...]
    kind: str
    needs_size: bool
    """A reader needs its size, for the food's depth changes the cooking time."""
    ambiguous: bool
    """The bare word is also a measure, a food or a verb: "jar", "casserole", "whisk"."""
    source: str


@cache
def vessels() -> tuple[Vessel, ...]:
    """Every vessel of the table, in its order."""
    return tuple(
        Vessel(
            name=row["name"],
            forms=listed(row["forms"]),
            kind=row["kind"],
            needs_size=row["needs_size"] == "1",
            ambiguous=row["ambiguous"] == "1",
            source=row["source"],
        )
        for row in rows("vessels")
    )


@cache
def by_form() -> Mapping[str, Vessel]:
    """Lower-case spoken form → its vessel: "roasting tray" → "roasting tin"."""
    return {form: vessel for vessel in vessels() for form in vessel.forms}
