"""`python -m tests.scaling [DRAFT]`: milliseconds to load the tables and to scale a draft."""

import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from stovescript.draft_file import read_draft
from stovescript.kitchen import appliances, foods, measures, nutrients, pan_shapes, sizing, units, vessels
from stovescript.pages.scaling import by_factor, in_units
from stovescript.recipe.draft import Draft

from .drafts import draft

TABLES: tuple[Callable[[], object], ...] = (
    foods.foods,
    foods.food_forms,
    units.units,
    appliances.appliances,
    vessels.vessels,
    measures.owned,
    sizing.fill_limits,
    sizing.scaling_cautions,
    pan_shapes.pan_shapes,
    nutrients.nutrients,
)


def milliseconds(what: Callable[[], object], times: int = 5) -> float:
    """The quickest of several runs."""
    found = []
    for _ in range(times):
        started = time.perf_counter()
        what()
        found.append((time.perf_counter() - started) * 1000)
    return min(found)


def clear() -> None:
    """Forget what the tables gave."""
    for module in (foods, units, appliances, vessels, measures, sizing, pan_shapes, nutrients):
        for each in vars(module).values():
            if hasattr(each, "cache_clear"):
                each.cache_clear()


def alone(table: Callable[[], object]) -> None:
    """Read one table, with the tables it rests on, afresh."""
    clear()
    table()


def load() -> None:
    """Read every table that scaling asks for, afresh."""
    clear()
    for table in TABLES:
        table()


def main() -> None:
    """Print the figures."""
    made: Draft = (
        read_draft(Path(sys.argv[1]))
        if len(sys.argv) > 1
        else draft([f"{n} cup: sugar" for n in range(1, 21)], steps=["Stir 2 cups of sugar in until smooth."] * 15)
    )
    print(f"{len(made.ingredients)} ingredients, {len(made.steps)} steps")
    for table in TABLES:
        name = f"{table.__module__.rpartition('.')[2]}.{table.__name__}"
        print(f"  {name:<32} {milliseconds(partial(alone, table)):6.1f} ms")
    print(f"all tables of scaling              {milliseconds(load):6.1f} ms")
    by_factor(made, 3)
    for name, scaled in (
        ("--times 2", lambda: by_factor(made, 2)),
        ("--times 1.5 --units metric", lambda: by_factor(made, 1.5, "metric")),
        ("--units weight", lambda: in_units(made, "weight")),
    ):
        print(f"scale {name:<28} {milliseconds(scaled):6.1f} ms")


if __name__ == "__main__":
    main()
