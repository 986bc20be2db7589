"""Baking pans: reads one as it is written or said, and reckons its area and volume."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from stovescript.errors import StovescriptError
from stovescript.kitchen.pan_shapes import PanShape, pan_shapes
from stovescript.kitchen.vessels import Vessel, by_form
from stovescript.measure import Quantity, convert, find_quantities
from stovescript.measure.text import number_text
from stovescript.recipe.draft import Draft, Equipment

_LARGEST_INCH = 19.0
"""A side without a unit is in inches up to this, in centimeters above it: common practice."""
_RING_SHARE = 1 - (1 / 3) ** 2  # of a ring's circle, with a tube a third as wide
_CUPS_PER_CUBIC_INCH = 16.387064 / 236.5882365  # inch = 25.4 mm, US cup; exact
_BAKES_IN = ("oven dish", "tin", "pan")


@dataclass(frozen=True, slots=True)
class Pan:
    """A pan: its shape, inner sides and depth in inches; a pan known by what it holds has no sides."""

    shape: PanShape
    sides: tuple[float, ...]
    depth: float | None
    """As given; else the shape's usual depth counts."""
    holds: float | None
    """Cubic inches, where the pan was given by its capacity."""
    count: int
    metric: bool
    """Given in centimeters or liters."""
    unit_said: bool

    @property
    def area(self) -> float | None:
        """Square inches of all the pans together; None where only the capacity is known."""
        if not self.sides:
            return None
        long, wide = self.sides[0], self.sides[-1]
        if self.shape.outline in ("circle", "oval", "ring"):
            share = _RING_SHARE if self.shape.outline == "ring" else 1.0
            return self.count * share * math.pi / 4 * long * wide
        return self.count * long * wide

    @property
    def volume(self) -> float:
        """Cubic inches to the brim of all the pans together."""
        if self.area is None:
            return self.count * (self.holds or 0.0)
        return self.area * (self.depth or self.shape.depth_inch)

    @property
    def cups(self) -> float:
        """US cups to the brim."""
        return self.volume * _CUPS_PER_CUBIC_INCH

    @property
    def size(self) -> str:
        """ "9 by 13 inches", "20 centimeters round"."""
        if not self.sides:
            value = self.cups / self.count
            return f"{number_text(round(value / 4.2267528, 2))} liters" if self.metric else f"{value:g} cups"
        unit, by = ("centimeters", 2.54) if self.metric else ("inches", 1.0)
        sides = [*self.sides, *([self.depth] if self.depth else [])]
        text = " by ".join(number_text(round(side * by, 2)) for side in sides) + f" {unit}"
        return text if len(self.sides) > 1 else f"{text} {'square' if self.shape.outline == 'square' else 'round'}"

    @property
    def text(self) -> str:
        """ "9 by 13 inches, baking pan": the size and what it was taken for."""
        many = f"{self.count} of " if self.count > 1 else ""
        return f"{many}{self.size}, {self.shape.name}"


def read_pan(text: str) -> Pan | None:
    """The pan of a text: "9x13", "8 inch round", "two 9-inch rounds", "20 cm springform"; None if it is none."""
    plain = " ".join(re.sub(r"(?<=\d)\s*[x×*]\s*(?=\d)", " by ", text.lower().replace('"', " inch ")).split())
    found = find_quantities(plain.split())
    size = next((q for q in found if q.kind == "dimension" and _is_length(q)), None)
    if size is None:
        return _by_capacity(plain, found)
    sides = size.sides or (size.high,)
    unit = size.unit or _likely_unit(sides)
    inches = tuple(convert(side, unit, "inch") for side in sides)
    if not all(0 < side <= 60 for side in inches) or len(inches) > 3:
        return None
    flat, depth = (inches[:2], inches[2]) if len(inches) == 3 else (inches, None)
    shape = _shape(plain, flat)
    if shape.outline == "square" and len(flat) == 1:
        flat = (flat[0], flat[0])
    metric = unit in ("centimeter", "millimeter")
    return Pan(shape, flat, depth, None, _count(found, size), metric, bool(size.unit))


def pan_wanted(text: str) -> Pan:
    """The pan that the cook asks for. Raises StovescriptError where it can't be read."""
    pan = read_pan(text) if not text.strip().startswith("-") else None
    if pan is None:
        raise StovescriptError(
            f'"{text}" is no pan size; write it as 9x13, "8 inch round", "20 cm square", "9x5 loaf" or 33x23 cm.'
        )
    return pan


def pan_of(draft: Draft) -> tuple[Equipment, Pan]:
    """The pan in which the draft bakes, of several the first that goes into an oven.

    Raises StovescriptError, with what is known, where no pan has a size.
    """
    found = list(sized_pans(draft))
    if found:
        return min(found, key=lambda pair: _kind_rank(pair[0].name))
    named = [each.name for each in draft.equipment if _kind_rank(each.name) < len(_BAKES_IN)]
    known = f"it has {', '.join(named)}, without a size" if named else "it names no baking pan"
    raise StovescriptError(f"the draft doesn't say how big its pan is ({known}); give --times instead.")


def sized_pans(draft: Draft) -> Iterator[tuple[Equipment, Pan]]:
    """Every vessel that can be a baking pan and has a size."""
    for each in draft.equipment:
        if _kind_rank(each.name) < len(_BAKES_IN) and (pan := read_pan(f"{each.size or ''} {each.name}")):
            yield each, pan


def pan_factor(old: Pan, new: Pan) -> tuple[float, str]:
    """How much more goes into the new pan, and whether its "area" or its "volume" decided.

    Area where both are filled as deep as each other; volume where one is a loaf, a tube or known by what it
    holds, or where both depths are given.
    """
    by_volume = "volume" in (old.shape.compare, new.shape.compare) and old.shape != new.shape
    if old.area is None or new.area is None or by_volume or (old.depth and new.depth):
        return new.volume / old.volume, "volume"
    return new.area / old.area, "area"


def _is_length(quantity: Quantity) -> bool:
    return bool(quantity.sides) or quantity.unit in ("inch", "centimeter", "millimeter", "")


def _likely_unit(sides: tuple[float, ...]) -> str:
    return "inch" if max(sides) <= _LARGEST_INCH else "centimeter"


def _shape(text: str, sides: tuple[float, ...]) -> PanShape:
    """The shape named; else square or rectangle by its sides, and round where there is only one."""
    for shape in pan_shapes():
        if any(re.search(rf"\b{re.escape(form)}", text) for form in shape.forms):
            return shape
    outline = "circle" if len(sides) == 1 else "square" if sides[0] == sides[1] else "rectangle"
    return next(shape for shape in reversed(pan_shapes()) if shape.outline == outline)


def _count(found: list[Quantity], size: Quantity) -> int:
    """ "two 9-inch rounds": how many, where a number stands right before the size."""
    before = [q for q in found if q.kind in ("count", "number") and q.end == size.start and q.low == q.high]
    return int(before[0].low) if before and 1 <= before[0].low <= 24 else 1


def _by_capacity(text: str, found: list[Quantity]) -> Pan | None:
    """ "3 quart", "2-liter baking dish"."""
    for quantity in found:
        if quantity.kind in ("amount", "dimension") and quantity.unit in ("quart", "liter", "cup", "milliliter"):
            cubic = convert(quantity.low, quantity.unit, "milliliter") / 16.387064
            shape = _shape(text, (1.0, 2.0))
            metric = quantity.unit in ("liter", "milliliter")
            return Pan(shape, (), None, cubic, 1, metric, True) if cubic > 0 else None
    return None


def _kind_rank(name: str) -> int:
    """How likely a vessel is the pan that the dish bakes in; the last rank is for what is none."""
    vessel = vessel_named(name)
    return _BAKES_IN.index(vessel.kind) if vessel and vessel.kind in _BAKES_IN else len(_BAKES_IN)


def vessel_named(name: str) -> Vessel | None:
    """The vessel of a name, or of the last words of it: "greased loaf tin"."""
    words = name.lower().split()
    return next(
        (by_form()[" ".join(words[at:])] for at in range(len(words)) if " ".join(words[at:]) in by_form()), None
    )
