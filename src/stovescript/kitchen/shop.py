"""The shop: its sections in the order one walks them, and the whole thing that is bought for a part of it."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from .foods import Food
from .tables import listed, rows


@dataclass(frozen=True, slots=True)
class Section:
    """One section of a shop: fresh food comes first, frozen food last so that it stays frozen."""

    name: str
    categories: frozenset[str]
    """Food categories that are found here ..."""
    foods: frozenset[str]
    """... and foods of other categories; a food's own row goes before its category's."""
    packed: frozenset[str]
    """Categories that are found here where they are bought in a can or a jar."""
    words: frozenset[str]
    """States and words of a name that bring a food here: "frozen"."""
    source: str


@dataclass(frozen=True, slots=True)
class BoughtWhole:
    """Part of a whole thing: 2 tablespoons of lime juice (`amount`, `unit`) come of one lime (`whole`)."""

    food: str
    amount: float
    unit: str
    whole: str
    source: str


@cache
def sections() -> tuple[Section, ...]:
    """Every section, in the order of the table, which is the order in which one walks a shop."""
    return tuple(
        Section(
            name=row["section"],
            categories=frozenset(listed(row["categories"])),
            foods=frozenset(listed(row["foods"])),
            packed=frozenset(listed(row["packed"])),
            words=frozenset(listed(row["words"])),
            source=row["source"],
        )
        for row in rows("shop_sections")
    )


@cache
def bought_whole() -> dict[str, BoughtWhole]:
    """The whole thing that is bought, by the name of the food that is part of it."""
    return {
        row["food"]: BoughtWhole(row["food"], float(row["amount"]), row["unit"], row["whole"], row["source"])
        for row in rows("bought_whole")
    }


def section_of(food: Food | None, words: Iterable[str] = (), packed: bool = False) -> Section:
    """Where a food is found: by a word said of it, else by its own row, else in cans, else by its category.

    `packed` is true where it is bought in a can or a jar. A food that no table knows is in the last section.
    """
    said = frozenset(words)
    everywhere = sections()
    found = next((section for section in everywhere if section.words & said), None)
    if food is not None:
        found = found or next((section for section in everywhere if food.name in section.foods), None)
        if packed:
            found = found or next((section for section in everywhere if food.category in section.packed), None)
        found = found or next((section for section in everywhere if food.category in section.categories), None)
    return found or everywhere[-1]
