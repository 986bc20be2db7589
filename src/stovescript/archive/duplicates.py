"""Pairs of talks that are likely the same dish: by their titles and by the ingredients that they share."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

# Set by reading the pairs among the project's own talks, of which few are the same dish told twice.
_ALIKE = 75.0  # rapidfuzz's token-set likeness of two titles, 0 to 100, from which they may name one dish
_SHARED_TOO = 0.2  # share of their ingredients that such a pair has in common, the rare ones counting more
_SHARED_ALONE = 0.4  # the share from which the titles don't matter, where there are enough of them
_ENOUGH = 8  # ingredients: flour, sugar, butter, eggs and salt alone make no two bakes one
_FEWEST = 4  # ingredients that two talks must share in any case
_AT_ONCE = 500  # talks compared with all others at a time, to bound the memory


@dataclass(frozen=True, slots=True)
class Dish:
    """What is compared of a talk."""

    talk: str
    title: str
    ingredients: frozenset[str]
    captions: str


@dataclass(frozen=True, slots=True)
class Pair:
    """Two talks, how alike their titles are (0 to 100), the share of ingredients in common (0 to 1), and which."""

    first: str
    second: str
    titles: float
    share: float
    shared: tuple[str, ...]
    same_captions: bool


def pairs(dishes: Sequence[Dish]) -> list[Pair]:
    """The likely duplicates, the likeliest first. An ingredient counts by its rarity in the archive."""
    found = [*_same_captions(dishes), *_alike(dishes)]
    best: dict[tuple[str, str], Pair] = {}
    for pair in found:
        best.setdefault((pair.first, pair.second), pair)
    return sorted(best.values(), key=lambda p: (not p.same_captions, -p.share - p.titles / 100, p.first, p.second))


def _same_captions(dishes: Sequence[Dish]) -> Iterator[Pair]:
    first: dict[str, Dish] = {}
    for dish in dishes:
        other = first.setdefault(dish.captions, dish)
        if other is not dish:
            yield Pair(other.talk, dish.talk, 100.0, 1.0, tuple(sorted(dish.ingredients)), True)


def _alike(dishes: Sequence[Dish]) -> Iterator[Pair]:
    import numpy as np
    from rapidfuzz import fuzz

    counts = Counter(name for dish in dishes for name in dish.ingredients)
    column = {name: place for place, name in enumerate(counts)}
    if not column:
        return
    has = np.zeros((len(dishes), len(column)), dtype=np.float32)
    for row, dish in enumerate(dishes):
        has[row, [column[name] for name in dish.ingredients]] = 1.0
    rarity = np.log((len(dishes) + 1) / np.array(list(counts.values()), dtype=np.float32))
    weights = has @ rarity
    for start in range(0, len(dishes), _AT_ONCE):
        part = has[start : start + _AT_ONCE]
        common = (part * rarity) @ has.T
        share = common / np.maximum(weights[start : start + _AT_ONCE, None] + weights[None, :] - common, 1e-9)
        number = part @ has.T
        for row, other in np.argwhere((share >= _SHARED_TOO) & (number >= _FEWEST)):
            one, two = dishes[start + int(row)], dishes[int(other)]
            if start + row >= other:
                continue
            titles = fuzz.token_set_ratio(one.title, two.title) if one.title and two.title else 0.0
            if titles >= _ALIKE or (share[row, other] >= _SHARED_ALONE and number[row, other] >= _ENOUGH):
                shared = tuple(sorted(one.ingredients & two.ingredients, key=lambda name: (counts[name], name)))
                yield Pair(one.talk, two.talk, titles, float(share[row, other]), shared, False)
