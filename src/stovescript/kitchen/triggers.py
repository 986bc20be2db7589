"""Trigger phrases that say how a clause is meant: not used, an alternative, another dish, chat, a promise ...

The method is ConText (Harkema, Dowling, Thornblade and Chapman, 2009): a trigger is a row of data with a
category, the direction in which it acts, the scope of its action in words, and terminators that end it early.
A row of category ``pseudo`` is a longer phrase that blocks the trigger inside it: "or until" holds no "or".
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from .tables import listed, rows

CATEGORIES = frozenset(
    {
        "alternative",
        "announce",
        "chat",
        "correction",
        "filler",
        "not_used",
        "optional",
        "other_dish",
        "promise",
        "pseudo",
        "recap",
        "refer",
        "taste",
        "tip",
        "yield",
    }
)
_MARKS = '.,;:!?"()[]\u201c\u201d\u2026'
DIRECTIONS = frozenset({"backward", "both", "forward"})


@dataclass(frozen=True, slots=True)
class Trigger:
    """One phrase: "instead of" (not_used) acts forward on four words, or as far as the next "but"."""

    phrase: str
    category: str
    direction: str
    scope: int | None
    """Words it acts on in each direction; 0: itself only; None: to the end of its clause."""
    terminators: tuple[str, ...]
    example: str
    """Invented speech with the target in brackets: "i'm not using [bacon] today"."""
    source: str


@dataclass(frozen=True, slots=True)
class TriggerMatch:
    """A trigger at the words from ``start`` up to, not with, ``end``; ``reach`` are the words it acts on."""

    trigger: Trigger
    start: int
    end: int
    reach: tuple[int, ...]


@cache
def triggers() -> tuple[Trigger, ...]:
    """Every trigger of the table, in its order."""
    return tuple(
        Trigger(
            phrase=row["phrase"],
            category=row["category"],
            direction=row["direction"],
            scope=None if row["scope"] == "clause" else int(row["scope"]),
            terminators=listed(row["terminators"]),
            example=row["example"],
            source=row["source"],
        )
        for row in rows("triggers")
    )


def matches(clause: Sequence[str]) -> list[TriggerMatch]:
    """The triggers in the words of one clause, left to right, pseudo ones included.

    Of two that share a word the longer counts, of two as long the one said first.
    """
    words = [normal(word) for word in clause]
    candidates = [
        TriggerMatch(trigger, at, at + len(phrase), _reach(trigger, words, at, at + len(phrase)))
        for at, word in enumerate(words)
        for phrase, trigger in _by_first_word().get(word, ())
        if tuple(words[at : at + len(phrase)]) == phrase
    ]
    taken: set[int] = set()
    found: list[TriggerMatch] = []
    for match in sorted(candidates, key=lambda match: (match.start - match.end, match.start)):
        if taken.isdisjoint(range(match.start, match.end)):
            taken.update(range(match.start, match.end))
            found.append(match)
    return sorted(found, key=lambda match: match.start)


def normal(word: str) -> str:
    """A word as triggers compare it: lower case, no apostrophe, no mark at its ends ("Don't," is "dont")."""
    return word.lower().replace("\u2019", "").replace("'", "").strip(_MARKS)


@cache
def _by_first_word() -> Mapping[str, Sequence[tuple[tuple[str, ...], Trigger]]]:
    """First word → the phrases that begin with it, as words."""
    found: defaultdict[str, list[tuple[tuple[str, ...], Trigger]]] = defaultdict(list)
    for trigger in triggers():
        phrase = _words(trigger.phrase)
        found[phrase[0]].append((phrase, trigger))
    return found


def _reach(trigger: Trigger, words: Sequence[str], start: int, end: int) -> tuple[int, ...]:
    """Indices of the words that a trigger at ``start`` to ``end`` acts on, in order."""
    if trigger.scope == 0:
        return tuple(range(start, end))
    limit = len(words) if trigger.scope is None else trigger.scope
    stops = [_words(stop) for stop in trigger.terminators]
    before: list[int] = []
    after: list[int] = []
    if trigger.direction in ("backward", "both"):
        for at in range(start - 1, max(start - 1 - limit, -1), -1):
            if any(tuple(words[at + 1 - len(stop) : at + 1]) == stop for stop in stops if len(stop) <= at + 1):
                break
            before.insert(0, at)
    if trigger.direction in ("forward", "both"):
        for at in range(end, min(end + limit, len(words))):
            if any(tuple(words[at : at + len(stop)]) == stop for stop in stops):
                break
            after.append(at)
    return (*before, *after)


def _words(phrase: str) -> tuple[str, ...]:
    return tuple(normal(word) for word in phrase.split())
