"""Fills the weight columns of the foods table from the USDA SR28 household weights.

Run ``python -m stovescript.kitchen.derive_weights SR28_DIR``, where SR28_DIR holds ``weights.csv`` (columns
ndb_no, seq, amount, measure, grams). Each row of ``tables/sr28_map.csv`` names a food, its SR28 row and the
measure text chosen for a cup, a tablespoon, a teaspoon, a fluid ounce and one item; ``items`` is how many
items that measure holds. A volume that SR28 does not give is computed from one it gives, and the source says so.
"""

import argparse
import csv
from collections import defaultdict
from pathlib import Path

from stovescript.errors import StovescriptError

from .tables import rows, text

FOODS = Path(__file__).parent / "tables" / "foods.csv"

TEASPOONS = {"cup": 48, "fluid_ounce": 6, "tablespoon": 3, "teaspoon": 1}
"""US customary: 1 cup = 8 fl oz = 16 tbsp, 1 tbsp = 3 tsp, exactly."""

COMPUTED_FROM = {
    "cup": ("fluid_ounce", "tablespoon", "teaspoon"),
    "tablespoon": ("fluid_ounce", "cup", "teaspoon"),
    "teaspoon": ("tablespoon", "fluid_ounce", "cup"),
}
"""Which measure stands in for a missing one, best first: the larger, as SR28 rounds small ones to 0.1 g."""

WEIGHT_COLUMNS = ("ndb_no", "g_per_cup", "g_per_tablespoon", "g_per_teaspoon", "g_per_each", "each")

Household = dict[str, list[tuple[float, float]]]
"""(amount, grams) by measure text, for one SR28 row."""


def derived_weights(sr28: Path) -> dict[str, dict[str, str]]:
    """The weight columns and the source of every mapped food, as the table's text.

    Raises StovescriptError where the SR28 file or a mapped measure is missing.
    """
    household = _household_weights(sr28 / "weights.csv")
    return {row["food"]: _weights(row, household) for row in rows("sr28_map")}


def fill(table: str, weights: dict[str, dict[str, str]]) -> list[dict[str, str]]:
    """The rows of the foods table with the weight columns as derived, and empty where nothing is derived."""
    header, *body = csv.reader(table.splitlines())
    foods = [dict(zip(header, cells, strict=True)) for cells in body]
    unknown = weights.keys() - {food["name"] for food in foods}
    if unknown:
        raise StovescriptError(f"sr28_map.csv names foods that foods.csv lacks: {', '.join(sorted(unknown))}")
    for food in foods:
        origin = food["source"].partition("; weights:")[0]
        derived = weights.get(food["name"], dict.fromkeys(WEIGHT_COLUMNS, ""))
        food.update({column: derived[column] for column in WEIGHT_COLUMNS})
        food["source"] = f"{origin}; {derived['source']}" if "source" in derived else origin
    return foods


def main() -> None:
    """Rewrite foods.csv in place."""
    parser = argparse.ArgumentParser(description="Fill the weights of foods.csv from the USDA SR28 files.")
    parser.add_argument("sr28", type=Path, metavar="SR28_DIR", help="folder with weights.csv")
    foods = fill(text("foods.csv"), derived_weights(parser.parse_args().sr28))
    with FOODS.open("w", encoding="utf-8", newline="") as table:
        writer = csv.DictWriter(table, list(foods[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(foods)
    print(f"{sum(bool(food['ndb_no']) for food in foods)} of {len(foods)} foods have a weight")


def _household_weights(path: Path) -> dict[str, Household]:
    if not path.is_file():
        raise StovescriptError(f"{path}: no such file; give the folder that holds the SR28 weights.csv")
    weights: dict[str, Household] = defaultdict(lambda: defaultdict(list))
    with path.open(encoding="utf-8", newline="") as table:
        for row in csv.DictReader(table):
            weights[row["ndb_no"]][row["measure"]].append((float(row["amount"]), float(row["grams"])))
    return weights


def _weights(row: dict[str, str], household: dict[str, Household]) -> dict[str, str]:
    measures = household[row["ndb_no"]]
    given = {unit: _grams_of_one(row, row[unit], measures) for unit in TEASPOONS if row[unit]}
    cells = {"ndb_no": row["ndb_no"], "g_per_each": "", "each": row["each_is"]}
    notes = [f"{unit.replace('_', ' ')} is '{row[unit]}'" for unit in given if "," in row[unit]]
    for unit, substitutes in COMPUTED_FROM.items():
        basis = next((other for other in (unit, *substitutes) if other in given), None)
        cells[f"g_per_{unit}"] = _cell(given[basis] * TEASPOONS[unit] / TEASPOONS[basis]) if basis else ""
        if basis not in (unit, None):
            notes.append(f"{unit} computed from {basis.replace('_', ' ')}")
    if row["each"]:
        amount, grams = _nearest_one(row, row["each"], measures)
        cells["g_per_each"] = _cell(grams / float(row["items"] or amount))
    cells["source"] = "; ".join([f"weights: USDA SR28 {row['ndb_no']}", *notes])
    return cells


def _grams_of_one(row: dict[str, str], measure: str, measures: Household) -> float:
    amount, grams = _nearest_one(row, measure, measures)
    return grams / amount


def _nearest_one(row: dict[str, str], measure: str, measures: Household) -> tuple[float, float]:
    """SR28 may weigh half a cup and a cup: the amount nearest to one is the better figure."""
    if measure not in measures:
        raise StovescriptError(f"sr28_map.csv, {row['food']}: SR28 {row['ndb_no']} has no measure '{measure}'")
    return min(measures[measure], key=lambda weighed: abs(weighed[0] - 1))


def _cell(grams: float) -> str:
    return f"{round(grams, 2):g}"


if __name__ == "__main__":
    main()
