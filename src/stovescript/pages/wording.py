"""Puts new amounts, temperatures and lengths in the place of those that a method's sentence says."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from stovescript.kitchen.foods import food_forms
from stovescript.measure import Quantity, UnitError, convert, find_quantities
from stovescript.recipe.amounts import dimension
from stovescript.recipe.draft import Amount

_CLOSING = re.compile(r"[.,;:!?)\]]*$")
_AGREE = 1e-3
_NOT_NAMED = 10_000
_NEAR_FOOD = 4
"""Words within which a bare number must meet its food: "2 large brown eggs", never "2 minutes"."""


@dataclass(frozen=True, slots=True)
class Replacement:
    """An amount as it was, the words to put in its place, and the food it is of.

    `elsewhere` marks an ingredient that the step is not known to use: its name must follow the amount.
    """

    old: Amount
    text: str
    new: float
    name: str
    elsewhere: bool = False


@dataclass(slots=True)
class Wording:
    """A sentence as rewritten, and the amounts in it that no ingredient has, left as said."""

    text: str
    left: list[str] = field(default_factory=list)


Rewrite = Callable[[Quantity], str | None]


def reworded(text: str, replacements: Sequence[Replacement], other: Rewrite | None = None) -> Wording:
    """The sentence with every amount that an ingredient has changed; of several that fit, the food named next after.

    `other` gives the words for a temperature or a length, None to leave it.
    """
    tokens = text.split()
    wording = Wording(text)
    changed = False
    for quantity in reversed(find_quantities([token.lower() for token in tokens])):
        words: str | None
        if quantity.kind in ("amount", "package", "count"):
            found = _meant(quantity, replacements, tokens)
            if found is None:
                if quantity.kind != "count" and dimension(quantity.unit) in ("volume", "mass", "package", "vague"):
                    wording.left.insert(0, quantity.said.rstrip(".,;:"))
                continue
            words = found.text
            if found.old.unit == "" and quantity.end < len(tokens):
                tokens[quantity.end] = counted_name(tokens[quantity.end], found.new)
        else:
            words = other(quantity) if other else None
        if words is None:
            continue
        closing = _CLOSING.search(tokens[quantity.end - 1])
        opening = "(" if tokens[quantity.start].startswith("(") else ""
        tokens[quantity.start : quantity.end] = [f"{opening}{words}{closing[0] if closing else ''}"]
        changed = True
    if changed:
        wording.text = " ".join(tokens)
    return wording


def counted_name(name: str, count: float) -> str:
    """A food's name in the number that the count asks for: "egg" at 2 is "eggs"; as it is where no table knows it."""
    known = food_forms()
    closing = _CLOSING.search(name)
    mark = closing[0] if closing else ""
    bare = name.removesuffix(mark) if mark else name
    if bare.lower() not in known:
        return name
    candidates = _singulars(bare) if count <= 1 else () if bare.endswith("s") else _plurals(bare)
    same = (each for each in candidates if known.get(each.lower()) == known[bare.lower()])
    return f"{next(same, bare)}{mark}"


def _plurals(name: str) -> tuple[str, ...]:
    if name.endswith(("ch", "sh", "x", "ato")):
        return (f"{name}es", f"{name}s")
    if name.endswith(("leaf", "loaf", "half")):
        return (f"{name[:-1]}ves", f"{name}s")
    return (f"{name[:-1]}ies", f"{name}s") if name.endswith("y") else (f"{name}s",)


def _singulars(name: str) -> tuple[str, ...]:
    if not name.endswith("s") or name.endswith("ss"):
        return ()
    if name.endswith("ies"):
        return (f"{name[:-3]}y",)
    return (f"{name[:-3]}f",) if name.endswith("ves") else (name[:-1], name[:-2])


def _meant(quantity: Quantity, replacements: Sequence[Replacement], tokens: Sequence[str]) -> Replacement | None:
    """The use that the amount tells, the one whose food is named soonest after it first."""
    fitting = [each for each in replacements if _same(quantity, each.old)]
    after = [token.lower().strip(".,;:!?()") for token in tokens[quantity.end :]]

    def distance(each: Replacement) -> int:
        names = each.name.lower().split()
        last = names[-1:] or [""]
        forms = {*last, last[0].removesuffix("s"), last[0] + "s"}
        places = [at for at, word in enumerate(after) if word in forms or word in names]
        return places[0] if places else _NOT_NAMED

    if not fitting:
        return None
    best = min(fitting, key=lambda each: (distance(each), each.elsewhere))
    needs_name = best.elsewhere or (quantity.kind == "count" and quantity.unit == "")
    if not needs_name or distance(best) <= _NEAR_FOOD:
        return best
    return next((each for each in fitting if not each.elsewhere and quantity.unit), None)


def _same(quantity: Quantity, amount: Amount) -> bool:
    """True where the text gives the amount as it stands in the draft, in the same unit or one that converts."""
    low, high = quantity.low, quantity.high
    if quantity.unit != amount.unit:
        try:
            low, high = (convert(value, quantity.unit, amount.unit) for value in (low, high))
        except UnitError:
            return False
    return _near(low, amount.low) and _near(high, amount.high)


def _near(a: float, b: float) -> bool:
    return abs(a - b) <= _AGREE * max(abs(a), abs(b))
