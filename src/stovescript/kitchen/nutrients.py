"""Nutrients of foods per 100 g of the edible part, from USDA SR28, by its number of the food."""

from collections.abc import Mapping
from functools import cache

from .tables import rows


@cache
def nutrients() -> Mapping[str, Mapping[str, float]]:
    """ndb_no → nutrient with its unit ("sodium_mg") → value per 100 g; a nutrient SR28 has no value for is absent."""
    return {
        row["ndb_no"]: {
            name: float(value) for name, value in row.items() if value and name not in ("ndb_no", "source")
        }
        for row in rows("nutrients")
    }
