"""The shapes of baking pans: what they are called, their outline, and how deep they usually are."""

from dataclasses import dataclass
from functools import cache

from .tables import listed, rows

OUTLINES = frozenset({"circle", "oval", "rectangle", "ring", "square"})


@dataclass(frozen=True, slots=True)
class PanShape:
    """One shape; the row without forms is any other pan. `compare` tells whether area or volume decides."""

    name: str
    forms: tuple[str, ...]
    outline: str
    depth_inch: float
    compare: str
    source: str


@cache
def pan_shapes() -> tuple[PanShape, ...]:
    """Every row of the table, in its order; a name is read from the top."""
    return tuple(
        PanShape(
            name=row["shape"],
            forms=listed(row["forms"]),
            outline=row["outline"],
            depth_inch=float(row["depth_inch"]),
            compare=row["compare"],
            source=row["source"],
        )
        for row in rows("pan_shapes")
    )
