"""The measures that a home kitchen owns, and the steps it can weigh in."""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache

from .tables import listed, rows


@cache
def owned() -> Mapping[str, tuple[float, ...]]:
    """Unit → the sizes of it that one has, rising: "cup" → 1/4, 1/3, 1/2, 2/3, 3/4, 1."""
    return {row["unit"]: tuple(float(Fraction(part)) for part in listed(row["parts"])) for row in rows("measures")}
