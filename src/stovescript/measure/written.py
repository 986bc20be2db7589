"""Written amounts whose unit the grammar does not know, such as "3bu": a general library's reading of them."""

import warnings
from functools import cache
from importlib import import_module
from typing import Any

from stovescript.kitchen.units import unit_called

from .quantity import Quantity
from .vocabulary import vocabulary
from .words import Words

ACCEPTED = frozenset({"volume", "mass", "length", "temperature", "time"})
KINDS = {"volume": "amount", "mass": "amount", "length": "dimension"}
LONGEST_UNIT = 8


def odd_amount(words: Words, i: int) -> Quantity | None:
    """The amount of the number at atom i with the unknown unit after it in the same token; None if it is none."""
    value, text = words.atoms[i].value, words.atoms[i + 1].text
    if value is None or value <= 0:
        return None
    if len(text) > LONGEST_UNIT or text in vocabulary().words["odd_suffix_noise"]:
        return None
    read = _library_reading(f"{value:g} {text}")
    if read is None:
        return None
    kind, unit = read
    where = words.where[i]
    return Quantity(kind, where, where + 1, value, value, unit, False, words.said(i, i + 2))


@cache
def _library_reading(text: str) -> tuple[str, str] | None:
    """The kind and unit that the library reads in ``text``, where all of it is one sensible quantity."""
    parser = _parser()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            found = parser.parse(text)
    except Exception:  # a general library on odd words: whatever it raises, there is no amount
        return None
    if len(found) != 1 or found[0].span != (0, len(text)) or found[0].value <= 0:
        return None
    entity = str(found[0].unit.entity.name)
    kind = KINDS.get(entity)
    if kind is None or entity not in ACCEPTED:
        return None
    name = str(found[0].unit.name)
    known = unit_called(name)
    return kind, known.name if known else name


@cache
def _parser() -> Any:
    """The library, loaded only when first needed: it takes seconds."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return import_module("quantulum3.parser")
