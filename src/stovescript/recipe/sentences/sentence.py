"""One sentence of a step, and how it goes with its neighbors."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence without its full stop. `adds` is what it adds where it only adds; `follows` one that leans back.

    `corrects`: the text is an amount that takes the place of the last one of its unit.
    """

    text: str
    adds: str = ""
    follows: bool = False
    corrects: bool = False
