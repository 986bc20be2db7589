"""Doneness cues: the words that open one ("until", "once") and the heads that follow ("golden", "reads 165").

A cue is an opener with a head near behind it; a row of role ``whole`` is a cue without an opener ("a skewer
comes out clean"). ``#`` in a phrase stands for a number as it was said, and the number takes its place in
``written``.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .tables import rows

ROLES = frozenset({"head", "opener", "whole"})
SENSES = frozenset(
    {"color", "look for", "movement", "smell", "sound", "temperature", "test", "texture", "until", "when"}
)


@dataclass(frozen=True, slots=True)
class Cue:
    """One part of a cue: the opener "till", written "until"; the head "nice and brown", written "browned"."""

    phrase: str
    role: str
    sense: str
    """Of an opener: the way it opens; of a head or a whole cue: what tells the cook."""
    written: str
    source: str


@cache
def cues() -> tuple[Cue, ...]:
    """Every row of the table, in its order."""
    return tuple(Cue(**row) for row in rows("cues"))


@cache
def by_phrase() -> Mapping[str, Cue]:
    """Lower-case phrase → its row."""
    return {cue.phrase: cue for cue in cues()}
