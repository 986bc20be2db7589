"""Names of the parts that a dish is made of: a dough and a filling, a marinade and a salsa."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .tables import listed, rows


@dataclass(frozen=True, slots=True)
class MadePart:
    """One kind of part; ``main`` names a whole dish that something else goes with: a stew and its rice."""

    part: str
    forms: tuple[str, ...]
    misheard: tuple[str, ...]
    """What captions show for it: "doe"."""
    main: bool
    source: str


@cache
def made_parts() -> Mapping[tuple[str, ...], MadePart]:
    """The words of each form as heard → its part."""
    table = [
        MadePart(row["part"], listed(row["forms"]), listed(row["misheard"]), row["main"] == "1", row["source"])
        for row in rows("made_parts")
    ]
    return {tuple(form.split()): part for part in table for form in (*part.forms, *part.misheard)}
