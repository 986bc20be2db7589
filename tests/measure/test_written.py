"""Written amounts in units that the table does not have: a general library reads them, and only then."""

import sys

from stovescript.measure import find_quantities


def test_an_odd_unit_after_a_digit() -> None:
    (found,) = find_quantities(["we", "brewed", "12hl", "of", "cider"])
    assert (found.kind, found.low, found.unit) == ("amount", 12, "hectolitre")
    assert "quantulum3" in sys.modules


def test_its_nonsense_is_not_taken() -> None:
    for said in ("a 90w bulb", "3xyz", "10kcal", "4ha", "1st place", "2x speed", "12dag", "in the 90s"):
        assert find_quantities(said.split()) == [], said
