"""What may stand in for what, in which amount; also the weights and pan areas to reckon such a swap by."""

from dataclasses import dataclass
from functools import cache

from .tables import listed, rows


@dataclass(frozen=True, slots=True)
class Substitution:
    """``have_amount`` of what a cook has does for ``instead_amount`` of what a recipe asks; see the note."""

    have: str
    have_amount: float
    have_unit: str
    """Singular, in full; empty for whole items."""
    instead_of: str
    instead_amount: float
    instead_unit: str
    note: str
    source: str


@cache
def substitutions() -> tuple[Substitution, ...]:
    """Every row of the table, in its order; rows with the same food on both sides give its weight or size."""
    return tuple(
        Substitution(
            have=row["have"],
            have_amount=float(row["have_amount"]),
            have_unit=row["have_unit"],
            instead_of=row["instead_of"],
            instead_amount=float(row["instead_amount"]),
            instead_unit=row["instead_unit"],
            note=row["note"],
            source=row["source"],
        )
        for row in rows("substitutions")
    )


def instead_of(food: str) -> tuple[Substitution, ...]:
    """The rows that stand in for a food: "buttermilk" → milk with lemon juice, and more."""
    return tuple(row for row in substitutions() if row.instead_of == food and row.have != food)


@cache
def _families() -> tuple[frozenset[str], ...]:
    """Food categories whose foods stand in for one another: meats and tofu, butter and oil."""
    return tuple(frozenset(listed(row["categories"])) for row in rows("food_families"))


def one_family(category: str, other: str) -> bool:
    """True where a food of one category is often used instead of one of the other: shrimp for chicken."""
    return any({category, other} <= family for family in _families())


@cache
def known_substitute(food: str, instead: str) -> bool:
    """True where the table of substitutions has `food` instead of the food `instead` (canonical names)."""
    return any(row.have == food for row in instead_of(instead))
