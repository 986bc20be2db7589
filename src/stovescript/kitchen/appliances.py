"""Appliances, the programs, levels and releases they have, and the settings a cookable step needs on each.

Two tables: ``appliances`` has a row for each appliance; ``settings`` has a row for each program, level,
power, speed, release or whistle count with the ways it is said, for the appliances that have it.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .tables import listed, rows

NEEDS = frozenset({"level", "power", "program", "release", "speed", "temperature", "time"})
SETTING_KINDS = frozenset({"level", "power", "program", "release", "speed", "whistle"})

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Appliance:
    """One appliance by its trade name."""

    name: str
    forms: tuple[str, ...]
    """Ways it is said or mis-heard that mean no other appliance."""
    unsure_forms: tuple[str, ...]
    """Ways it is said that also mean something else: "grill", "cooker", "machine"."""
    needs: tuple[str, ...]
    """Settings a step needs here before a reader can cook it; "time" is met by a doneness cue as well."""
    scale: str
    """The family its levels belong to: heat, pressure, slow cooker, microwave power, speed, browning, ..."""
    fahrenheit: Range | None
    """Lowest and highest setting in °F, or None where no temperature is set."""
    celsius: Range | None
    """Lowest and highest setting in °C."""
    preheat_minutes: Range | None
    minimum_liquid_ml: int | None
    """Least thin liquid in millilitres; the maker's manual decides."""
    pressure_minutes: Range | None
    """Minutes for a full pot to come to pressure."""
    natural_release_minutes: Range | None
    quick_release_minutes: Range | None
    cannot: tuple[str, ...]
    """What it can't do, each to be read after "can't"."""
    source: str

    @property
    def ambiguous_range(self) -> Range | None:
        """Numbers that are a setting in °F as well as in °C here: said bare, one must be asked about."""
        if self.fahrenheit is None or self.celsius is None:
            return None
        low, high = max(self.fahrenheit[0], self.celsius[0]), min(self.fahrenheit[1], self.celsius[1])
        return (low, high) if low <= high else None


@dataclass(frozen=True, slots=True)
class ApplianceSetting:
    """One named setting: the program "sauté", the level "medium-low", the release "natural release"."""

    kind: str
    name: str
    appliances: tuple[str, ...]
    forms: tuple[str, ...]
    needs: tuple[str, ...]
    """What a step needs beside this program; it replaces the appliance's own ``needs``."""
    rank: int
    """Order of the levels of one scale, from 1 for the lowest; 0 where there is no order."""
    source: str


@cache
def appliances() -> tuple[Appliance, ...]:
    """Every appliance of the table, in its order."""
    return tuple(
        Appliance(
            name=row["name"],
            forms=listed(row["forms"]),
            unsure_forms=listed(row["unsure_forms"]),
            needs=listed(row["needs"]),
            scale=row["scale"],
            fahrenheit=_range(row["fahrenheit"]),
            celsius=_range(row["celsius"]),
            preheat_minutes=_range(row["preheat_minutes"]),
            minimum_liquid_ml=int(row["minimum_liquid_ml"]) if row["minimum_liquid_ml"] else None,
            pressure_minutes=_range(row["pressure_minutes"]),
            natural_release_minutes=_range(row["natural_release_minutes"]),
            quick_release_minutes=_range(row["quick_release_minutes"]),
            cannot=listed(row["cannot"]),
            source=row["source"],
        )
        for row in rows("appliances")
    )


@cache
def settings() -> tuple[ApplianceSetting, ...]:
    """Every program, level, power, speed, release and whistle of the table, in its order."""
    return tuple(
        ApplianceSetting(
            kind=row["kind"],
            name=row["name"],
            appliances=listed(row["appliances"]),
            forms=listed(row["forms"]),
            needs=listed(row["needs"]),
            rank=int(row["rank"] or 0),
            source=row["source"],
        )
        for row in rows("settings")
    )


@cache
def by_name() -> Mapping[str, Appliance]:
    """Appliance name → the appliance."""
    return {appliance.name: appliance for appliance in appliances()}


@cache
def by_form() -> Mapping[str, Appliance]:
    """Lower-case spoken form that means one appliance only → the appliance: "air friar" → "air fryer"."""
    return {form: appliance for appliance in appliances() for form in appliance.forms}


@cache
def by_unsure_form() -> Mapping[str, tuple[Appliance, ...]]:
    """Lower-case form that may mean several → the candidates: "grill" → broiler, outdoor grill, ..."""
    found: dict[str, tuple[Appliance, ...]] = {}
    for appliance in appliances():
        for form in appliance.unsure_forms:
            found[form] = (*found.get(form, ()), appliance)
    return found


@cache
def settings_of(appliance: str) -> Mapping[str, ApplianceSetting]:
    """Lower-case spoken form → the setting it names on that appliance; empty where it has none."""
    return _settings_by_appliance().get(appliance, {})


@cache
def _settings_by_appliance() -> Mapping[str, Mapping[str, ApplianceSetting]]:
    found: defaultdict[str, dict[str, ApplianceSetting]] = defaultdict(dict)
    for setting in settings():
        for appliance in setting.appliances:
            for form in setting.forms:
                found[appliance][form] = setting
    return found


def _range(cell: str) -> Range | None:
    """``"10-15"`` is (10, 15); an empty cell is None."""
    low, _, high = cell.partition("-")
    return (int(low), int(high)) if cell else None
