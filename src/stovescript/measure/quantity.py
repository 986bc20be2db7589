"""What the grammar returns: one number, amount, time, heat or shape as it was said."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity and the tokens that say it."""

    kind: str
    """ "amount", "package" (a can, with or without the size of each), "temperature", "duration", "dimension"
    (a length, a shape or a vessel's capacity), "count" (of whole things that follow), "fraction" (a part of
    something already there) or "number"."""
    start: int
    end: int
    """Token slice [start, end) of the list given."""
    low: float
    high: float
    """The value, for a duration in seconds; equal when exact. For a shape its smallest and largest side."""
    unit: str
    """Singular in full: "cup", "can", "clove"; "" for whole things or a unit not said. A temperature has "F",
    "C", "gas mark" or ""; a duration "second"."""
    approximate: bool
    said: str
    size: "Quantity | None" = None
    """The amount in each package."""
    fan: bool = False
    """The temperature was said for an oven with its fan on."""
    sides: tuple[float, ...] = ()
    """The sides of a shape in the order said: "nine by thirteen" is (9, 13)."""
