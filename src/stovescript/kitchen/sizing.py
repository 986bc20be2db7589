"""What a change of size asks for: how full an appliance may be, what does not grow along, which foods need care."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from .foods import Food
from .tables import listed, rows

TRIGGERS = frozenset({"appliance", "category", "component", "program", "role", "word"})
DIRECTIONS = frozenset({"any", "up", "down"})


@dataclass(frozen=True, slots=True)
class FillLimit:
    """How full an appliance may be. `text` has a place for the share in words."""

    appliance: str
    share: Fraction
    share_swelling: Fraction
    """For beans, grains and other foods that foam or swell."""
    usual_ml: int
    """Capacity of the usual size, in milliliters, where none is said."""
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class ScalingCaution:
    """What does not scale by arithmetic: said where one of `match` is in the draft, in that direction."""

    id: str
    kind: str
    match: tuple[str, ...]
    when: str
    text: str
    source: str


@cache
def fill_limits() -> tuple[FillLimit, ...]:
    """Every row of the table, in its order."""
    return tuple(
        FillLimit(
            appliance=row["appliance"],
            share=Fraction(row["share"]),
            share_swelling=Fraction(row["share_swelling"]),
            usual_ml=int(row["usual_ml"]),
            text=row["text"],
            source=row["source"],
        )
        for row in rows("fill_limits")
    )


@cache
def scaling_cautions() -> tuple[ScalingCaution, ...]:
    """Every row of the table, in its order."""
    return tuple(
        ScalingCaution(row["id"], row["kind"], listed(row["match"]), row["when"], row["text"], row["source"])
        for row in rows("scaling_cautions")
    )


@cache
def has_role(food: Food, role: str) -> bool:
    """True where the food needs the care of that role: eggs are "whole", beans are "swelling".

    Raises KeyError where the table has no such role.
    """
    categories, names = _roles()[role]
    return food.category in categories or food.name in names


@cache
def role_foods(role: str) -> frozenset[str]:
    """The foods listed by name for a role."""
    return _roles()[role][1]


@cache
def _roles() -> dict[str, tuple[frozenset[str], frozenset[str]]]:
    return {
        row["role"]: (frozenset(listed(row["categories"])), frozenset(listed(row["foods"])))
        for row in rows("scaling_roles")
    }
