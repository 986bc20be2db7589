"""Small closed word lists of spoken English that the rules ask for by name."""

import re
from functools import cache

from .tables import listed, rows


@cache
def wordlist(name: str) -> frozenset[str]:
    """The words of one list. Raises KeyError where there is no such list."""
    return _lists()[name]


@cache
def phrases(name: str) -> re.Pattern[str]:
    """A pattern for any phrase of one list as whole words, the longest first."""
    listed_first = sorted(wordlist(name), key=len, reverse=True)
    return re.compile(r"\b(?:" + "|".join(map(re.escape, listed_first)) + r")\b")


@cache
def misheard_numbers() -> dict[str, str]:
    """Ordinary words that captions show for a number word, where an amount must be: "for cloves of garlic"."""
    return {
        heard: number
        for row in rows("misheard_numbers")
        for heard in listed(row["heard"])
        for number in [row["number"]]
    }


@cache
def misheard_before_unit(with_of: bool = False) -> dict[str, str]:
    """Of these the words that captions show for a number just before a measure: "for tablespoons", "too cups".

    `with_of`: those too that stand for a number only where "of" follows: "to cups of flour", not "pour into cups".
    """
    return {
        heard: row["number"]
        for row in rows("misheard_numbers")
        for column in ("before_unit", *(["before_unit_of"] if with_of else []))
        for heard in listed(row[column])
    }


@cache
def _lists() -> dict[str, frozenset[str]]:
    return {row["list"]: frozenset(listed(row["words"])) for row in rows("wordlists")}
