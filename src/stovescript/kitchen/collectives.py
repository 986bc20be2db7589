"""Names that stand for several foods of a category: the vegetables, the spices, the cheese."""

from functools import cache

from .tables import listed, rows


@cache
def collectives() -> dict[str, frozenset[str]]:
    """Food categories by collective name (singular)."""
    return {row["name"]: frozenset(listed(row["categories"])) for row in rows("collectives")}


@cache
def stands_alone(name: str) -> bool:
    """True for a collective that, measured, means a food of its own beside a specific one: sugar, brown sugar."""
    return any(row["name"] == name and row["alone"] == "1" for row in rows("collectives"))
