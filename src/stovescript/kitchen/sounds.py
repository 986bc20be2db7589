"""How alike two names sound and look: captions mis-hear by sound."""

from functools import cache

import jellyfish
from rapidfuzz import fuzz


@cache
def sound(text: str) -> str:
    """The metaphone key of a phrase, its words run together."""
    return "".join(jellyfish.metaphone(word) for word in text.split())


def alike(heard: str, name: str) -> float:
    """0 to 100: the mean of how alike two phrases sound and how alike they are spelt."""
    spelt = fuzz.ratio(heard.replace(" ", ""), name.replace(" ", ""))
    return (fuzz.ratio(sound(heard), sound(name)) + spelt) / 2
