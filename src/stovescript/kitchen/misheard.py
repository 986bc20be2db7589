"""Ordinary words that captions show for a cook's verb or tool, where such a word must be: "ferment", "a wrack"."""

from functools import cache

from .tables import listed, rows

KINDS = frozenset({"phrase", "tool", "verb"})


@cache
def misheard(kind: str) -> dict[str, str]:
    """What is meant by what captions show, lower case; `kind` is "verb", "tool" or "phrase" (right anywhere)."""
    return {
        heard: row["meant"] for row in rows("misheard_words") if row["kind"] == kind for heard in listed(row["heard"])
    }
