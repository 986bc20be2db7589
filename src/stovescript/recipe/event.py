"""What one naming of a food does to the world."""

from dataclasses import dataclass

from stovescript.measure import Quantity
from stovescript.recipe.naming import Named
from stovescript.speech.heard import Mention


@dataclass(frozen=True, slots=True)
class Event:
    """One mention of a food and what it does to the world.

    `kind`: "add" joins the dish, "prepare" changes its state, "have" sets it out, "refer" only names it.
    """

    kind: str
    clause: int
    mention: Mention
    name: Named
    key: str
    amounts: tuple[Quantity, ...]
    reason: str
    more: bool = False
    rest: bool = False
    whole: bool = False
    fraction: float | None = None
    size: Quantity | None = None
    corrects: bool = False
    step: int = 0
    by_pronoun: bool = False
    stated: bool = False
    part_of: bool = False
    shares: tuple[Quantity, ...] = ()
    another: bool = False
    last_of: bool = False
