"""Ordinary words that captions show for a food's name: a food only where something says that a food is meant."""

from functools import cache

from .tables import listed, rows


@cache
def homophones() -> dict[str, str]:
    """The food's name by what captions show for it: "flower" is flour, "time" is thyme."""
    return {heard: row["name"] for row in rows("homophones") for heard in listed(row["heard"])}
