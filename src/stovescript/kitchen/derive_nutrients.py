"""Derives the nutrients table of the foods that have a weight from the USDA SR28 nutrients.

Run ``python -m stovescript.kitchen.derive_nutrients SR28_DIR``, where SR28_DIR holds ``nutrients_per_100g.csv``
(ndb_no and one column for each nutrient, per 100 g of the edible part; empty where SR28 has no value).
"""

import argparse
import csv
from pathlib import Path

from stovescript.errors import StovescriptError

from .foods import foods

TABLE = Path(__file__).parent / "tables" / "nutrients.csv"

COLUMNS = (
    "energy_kcal",
    "fat_g",
    "saturated_fat_g",
    "trans_fat_g",
    "cholesterol_mg",
    "sodium_mg",
    "carbohydrate_g",
    "fiber_g",
    "sugars_g",
    "protein_g",
)


def derived_nutrients(sr28: Path) -> list[dict[str, str]]:
    """One row for each ndb_no of the foods table, in its order of number; values as SR28 prints them.

    Raises StovescriptError where the SR28 file is missing or lacks one of the foods.
    """
    path = sr28 / "nutrients_per_100g.csv"
    if not path.is_file():
        raise StovescriptError(f"{path}: no such file; give the folder that holds the SR28 nutrients_per_100g.csv")
    with path.open(encoding="utf-8", newline="") as table:
        given = {row["ndb_no"]: row for row in csv.DictReader(table)}
    wanted = sorted({food.ndb_no for food in foods().values() if food.ndb_no})
    if absent := [number for number in wanted if number not in given]:
        raise StovescriptError(f"{path}: has no row for {', '.join(absent)}")
    return [
        {"ndb_no": number, **{column: given[number][column] for column in COLUMNS}, "source": f"USDA SR28 {number}"}
        for number in wanted
    ]


def main() -> None:
    """Rewrite nutrients.csv in place."""
    parser = argparse.ArgumentParser(description="Derive nutrients.csv from the USDA SR28 files.")
    parser.add_argument("sr28", type=Path, metavar="SR28_DIR", help="folder with nutrients_per_100g.csv")
    derived = derived_nutrients(parser.parse_args().sr28)
    with TABLE.open("w", encoding="utf-8", newline="") as table:
        writer = csv.DictWriter(table, list(derived[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(derived)
    print(f"{len(derived)} foods with nutrients")


if __name__ == "__main__":
    main()
