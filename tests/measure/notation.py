"""The short way in which tests write quantities: ``~amount 1.5 cup [a cup and a half or so]``.

A mark ``~`` for approximate, the kind, the value or range (``1/3``, ``2-3``, ``9x13``), the unit, ``x 15 ounce`` for
the size of each, ``fan``, and in brackets the words said. Several are parted by " ; ", none is "-".
"""

import re

from stovescript.measure import Quantity

ONE = re.compile(
    r"(?P<about>~?)(?P<kind>[a-z]+) (?P<value>[\d./x-]+)"
    r"(?: (?P<unit>(?!x |fan\b)[^\[]+?))??"
    r"(?: x (?P<each>[\d./-]+) (?P<each_unit>(?!fan\b)[a-z ]+?))?"
    r"(?P<fan> fan)?"
    r"(?: \[(?P<said>.*)\])?"
)


def expected(text: str) -> list[dict[str, object]]:
    """What ``text`` says of each quantity, as field → value; only the fields that it tells."""
    return [] if text == "-" else [_one(part) for part in text.split(" ; ")]


def told(quantity: Quantity, fields: dict[str, object]) -> dict[str, object]:
    """The same fields of a quantity that was found."""
    size = quantity.size
    values: dict[str, object] = {
        "kind": quantity.kind,
        "low": round(quantity.low, 9),
        "high": round(quantity.high, 9),
        "unit": quantity.unit,
        "approximate": quantity.approximate,
        "sides": quantity.sides,
        "fan": quantity.fan,
        "said": quantity.said,
        "size": (size.low, size.high, size.unit) if size else None,
    }
    return {field: values[field] for field in fields}


def _one(part: str) -> dict[str, object]:
    found = ONE.fullmatch(part.strip())
    if found is None:
        raise ValueError(f"no quantity is written so: {part}")
    kind, value = found["kind"], found["value"]
    sides = tuple(_number(side) for side in value.split("x")) if "x" in value else ()
    low, high = (min(sides), max(sides)) if sides else _ends(value)
    fields: dict[str, object] = {
        "kind": kind,
        "low": round(low, 9),
        "high": round(high, 9),
        "unit": "second" if kind == "duration" else found["unit"] or "",
        "approximate": bool(found["about"]),
        "sides": sides,
        "fan": bool(found["fan"]),
        "size": (*_ends(found["each"]), found["each_unit"]) if found["each"] else None,
    }
    return fields | ({"said": found["said"]} if found["said"] else {})


def _ends(text: str) -> tuple[float, float]:
    low, _, high = text.partition("-")
    return _number(low), _number(high or low)


def _number(text: str) -> float:
    top, _, bottom = text.partition("/")
    return float(top) / float(bottom or 1)
