"""Doing clauses as cook-ready sentences: the public part is `sentences_of`."""

from .clause import sentences_of
from .sentence import Sentence

__all__ = ["Sentence", "sentences_of"]
