"""Units of the kitchen: each one's name, exact size and the ways it is said, from one table."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

DIMENSIONS = frozenset({"volume", "mass", "length", "count", "vague", "package", "time", "temperature"})
SYSTEMS = frozenset({"us", "imperial", "metric", "any"})


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: "tablespoon" is a US volume of 14.78676478125 mL, said "tbsp", "table spoon" ..."""

    name: str
    """Singular, in full; for a temperature "F", "C" or "gas mark"."""
    dimension: str
    factor: float | None
    """Its size in milliliters, grams, millimeters or seconds; None where it has no exact one."""
    spoken: tuple[str, ...]
    """Singular, plural, then every other way it is said, written short or mis-spelled; () if never said."""
    system: str
    approximate: bool
    """The unit itself is no exact measure: a pinch, a handful."""
    customary: str
    """What cooks take it for, in words; a custom, never used to convert."""
    source: str

    @property
    def plural(self) -> str:
        """The plural in full: "cups", "leaves", "inches"."""
        return self.spoken[1] if len(self.spoken) > 1 else self.name


@cache
def units() -> Mapping[str, Unit]:
    """Name → unit, in the table's order."""
    from .tables import listed, rows  # late: importing the amount grammar stays quick

    return {
        row["name"]: Unit(
            name=row["name"],
            dimension=row["dimension"],
            factor=float(row["factor"]) if row["factor"] else None,
            spoken=listed(row["spoken"]),
            system=row["system"],
            approximate=row["approximate"] == "1",
            customary=row["customary"],
            source=row["source"],
        )
        for row in rows("units")
    }


@cache
def by_spoken() -> Mapping[str, tuple[Unit, ...]]:
    """Lower-case spoken form → its units; "c" has two, cup and Celsius, and "mil" milliliter and millimeter."""
    found: dict[str, tuple[Unit, ...]] = {}
    for unit in units().values():
        for form in unit.spoken:
            found[form] = (*found.get(form, ()), unit)
    return found


def unit_called(text: str) -> Unit | None:
    """The unit of that name or spoken form ("tbsp", "Litres"), or None; "T" is a tablespoon, "t" a teaspoon."""
    if text == "T":
        return units()["tablespoon"]
    if text in units():
        return units()[text]
    said = by_spoken().get(text.lower().rstrip("."))
    return said[0] if said else None
