"""Remembers what was last worked out of a draft: the draft as heard stays the same from edit to edit."""

from collections.abc import Callable
from typing import TypeVar

from stovescript.recipe.draft import Draft

Value = TypeVar("Value")
_KEPT = 3  # drafts: as read, as numbered, as corrected


def remembered(function: Callable[[Draft], Value]) -> Callable[[Draft], Value]:
    """The pure function, which works out one and the same draft only once as long as few others come between."""
    last: list[tuple[Draft, Value]] = []

    def known(draft: Draft) -> Value:
        for before, value in last[:]:
            if before is draft:
                return value
        value = function(draft)
        last[:] = [(draft, value), *last[: _KEPT - 1]]
        return value

    return known
