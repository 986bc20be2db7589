"""Spoken numbers and amounts: finds them in a talk's words, converts them and writes them."""

from .convert import UnitError, convert
from .find import find_quantities
from .numbers import number_at
from .quantity import Quantity
from .text import to_text

__all__ = ["Quantity", "UnitError", "convert", "find_quantities", "number_at", "to_text"]
