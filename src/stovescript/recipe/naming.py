"""Which food a mention names, and which mentions name the same one."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from stovescript.kitchen.collectives import collectives
from stovescript.kitchen.foods import Food, food_named
from stovescript.kitchen.preparations import preparation as state_of

_LEADING = frozenset(
    "a an the my your our some this that these those any all of more other another extra little bit lovely nice".split()
)


@dataclass(frozen=True, slots=True)
class Named:
    """A food as named: `key` is the same for every way of naming it; `said` is the words, cleaned."""

    key: str
    said: str
    food: Food | None
    preparation: tuple[str, ...] = ()


@lru_cache(maxsize=4096)
def name_food(text: str) -> Named:
    """The food that a mention's words name; words that only describe its state come back as preparation."""
    words = [word.strip(".,!?;:'\"") for word in text.lower().split()]
    while words and words[0] in _LEADING:
        words.pop(0)
    said = " ".join(words)
    preparation: list[str] = []
    rest = words
    while rest:
        if food := food_named(" ".join(rest)):
            return Named(food.name, " ".join(rest), food, tuple(preparation))
        size = 2 if len(rest) > 2 and state_of(" ".join(rest[:2])) else 1
        if len(rest) <= size or not (state := state_of(" ".join(rest[:size]), rest[size])):
            break
        if state.place == "preparation" and state.written:
            preparation.append(state.written)
        rest = rest[size:]
    head = food_named(" ".join(words[-2:])) or food_named(words[-1]) if words else None
    return Named(" ".join(map(singular, words)), said, head, tuple(preparation))


def singular(word: str) -> str:
    """The singular of a regular English plural; other words as they are."""
    if len(word) < 4 or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("oes", "ches", "shes", "xes", "sses")):
        return word[:-2]
    if word.endswith("ves"):
        return word[:-3] + "f"
    return word[:-1] if word.endswith("s") else word


def same_food(general: str, specific: str) -> bool:
    """True where `general` is a shorter way of saying `specific`: the beans, the white beans.

    Either its words end the longer name, or both are of one category and its words stand in it ("the
    chicken" for the chicken thighs, never for the chicken stock).
    """
    short, long = general.split(), specific.split()
    if len(short) >= len(long) or not set(short) <= set(long):
        return False
    if short[-1] == long[-1]:
        return True
    a, b = food_named(general), food_named(specific)
    return bool(a and b and a.category == b.category)


def collective_of(key: str) -> frozenset[str]:
    """The food categories that a collective name ("the vegetables", "the spices") may stand for; else empty."""
    return collectives().get(key, frozenset())


def gather(mentions: Iterable[tuple[Named, bool]]) -> dict[str, str]:
    """Maps each key to the key of the food it stands for.

    `mentions` are (name, has an amount of its own) in order. A general name joins the specific one it
    abbreviates, unless both are measured (white sugar beside brown sugar).
    """
    counts: Counter[str] = Counter()
    measured: Counter[str] = Counter()
    for name, amount in mentions:
        counts[name.key] += 1
        measured[name.key] += amount
    joined: dict[str, str] = {}
    for key in sorted(counts, key=lambda k: len(k.split())):
        longer = [other for other in counts if same_food(key, other)]
        if measured[key]:
            longer = [other for other in longer if not measured[other]]
        joined[key] = max(longer, key=lambda k: (measured[k] > 0, counts[k]), default=key)
    for key in joined:
        while joined[joined[key]] != joined[key]:
            joined[key] = joined[joined[key]]
    return joined
