"""The grammar on written ingredient lists by others (TASTEset, arXiv 2204.07775, MIT licence): an outside check.

The lists lie beside the checkout and never enter the project; they are no training text and nothing was copied.
"""

import csv
import json
import re
import unicodedata
from fractions import Fraction
from pathlib import Path

import pytest

from stovescript.kitchen.units import unit_called
from stovescript.measure import Quantity, find_quantities

LISTS = Path(__file__).parents[3] / "shared" / "data" / "tasteset" / "TASTEset.csv"
WRITTEN = re.compile(r"(?:(\d+)[ -])?(\d+)[/⁄](\d+)|(\d*) ?([½⅓⅔¼¾⅛⅜⅝⅞])|(\d+(?:\.\d+)?)")

VALUE_FLOOR = 0.985
UNIT_FLOOR = 0.965


def values(text: str) -> list[float]:
    """The numbers written in a QUANTITY span, read without the grammar: "1 1/2", "2 -3", "½"."""
    found = []
    for whole, top, bottom, before, vulgar, plain in WRITTEN.findall(text):
        if bottom:
            found.append(float(Fraction(int(top), int(bottom)) + int(whole or 0)))
        elif vulgar:
            found.append(unicodedata.numeric(vulgar) + float(before or 0))
        else:
            found.append(float(plain))
    return found


def with_sizes(found: list[Quantity]) -> list[Quantity]:
    return found + [one.size for one in found if one.size is not None]


@pytest.mark.skipif(not LISTS.exists(), reason="outside data not present")
def test_values_and_units_of_written_lists(capsys: pytest.CaptureFixture[str]) -> None:
    numbers = right_numbers = measures = right_measures = 0
    with LISTS.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        spans = json.loads(row["ingredients_entities"])
        start = 0
        for line in row["ingredients"].split("\n"):
            inside = [span for span in spans if start <= span["start"] < start + len(line)]
            start += len(line) + 1
            wanted = [values(span["entity"]) for span in inside if span["type"] == "QUANTITY"]
            if not any(wanted):
                continue
            found = with_sizes(find_quantities(line.lower().split()))
            ends = [{round(one.low, 6), round(one.high, 6)} for one in found]
            for value in filter(None, wanted):
                numbers += 1
                right_numbers += any({round(min(value), 6), round(max(value), 6)} == both for both in ends)
            for span in inside:
                if span["type"] == "UNIT":
                    unit = unit_called(span["entity"])
                    measures += 1
                    right_measures += unit is not None and any(one.unit == unit.name for one in found)
    with capsys.disabled():
        print(f"\nwritten lists: value {right_numbers}/{numbers} = {right_numbers / numbers:.4f}, ", end="")
        print(f"unit {right_measures}/{measures} = {right_measures / measures:.4f}")
    assert right_numbers / numbers >= VALUE_FLOOR
    assert right_measures / measures >= UNIT_FLOOR
