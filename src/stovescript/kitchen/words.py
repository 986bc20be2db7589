"""Small closed word lists of spoken English that the rules ask for by name."""

from functools import cache

from .tables import listed, rows


@cache
def wordlist(name: str) -> frozenset[str]:
    """The words of one list. Raises KeyError where there is no such list."""
    return _lists()[name]


@cache
def _lists() -> dict[str, frozenset[str]]:
    return {row["list"]: frozenset(listed(row["words"])) for row in rows("wordlists")}
