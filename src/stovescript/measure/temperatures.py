"""Words of heat around a number: degrees and scales, the fan, an oven named before it."""

from functools import cache

from stovescript.kitchen.units import units

from .vocabulary import vocabulary
from .words import Words

LOWEST, HIGHEST = 50.0, 600.0
"""What an oven, hot oil or the middle of a roast may have, on either scale."""
HEAT_REACH = 6
"""How many words before a bare number the oven may be named."""


def plausible(value: float) -> bool:
    """A number that an oven, oil or the middle of a roast may have."""
    return LOWEST <= value <= HIGHEST


def degrees_after(words: Words, i: int, value: float, kind: str) -> tuple[str, int] | None:
    """ "degrees celsius", "°f", "f", "degrees" at atom i, after ``value``: the scale ("" if not said), the end."""
    degrees = words.phrase("degree", i)
    j = degrees or i
    text = words.atoms[j].text
    scale = _scales().get(text)
    if scale and (degrees or len(text) > 1 or (plausible(value) and kind != "few")):  # "2 c" are two cups
        return scale, j + 1
    return ("", j) if degrees else None


def fan_after(words: Words, i: int) -> int:
    """Where "fan", "with the fan on", "(convection" at atom i ends; 0 if the fan is not named."""
    return words.phrase("fan", words.phrase("fan_opening", i) or i)


def fan_before(words: Words, i: int, free_from: int) -> bool:
    """ "fan 160", "convection at about 350": the fan is named just before atom i, in no earlier quantity."""
    while i > free_from and words.phrase("approx_before", i - 1) == i:
        i -= 1
    return any(words.phrase("fan_before", j) == i for j in range(max(free_from, i - 4), i))


def heat_near(words: Words, i: int) -> bool:
    """An oven or another word of heat stands within a few words before atom i, in the same sentence."""
    for j in range(i - 1, max(-1, i - 1 - HEAT_REACH), -1):
        atom = words.atoms[j]
        if "break" in atom.roles:
            return False
        if "heat_word" in atom.roles:
            return True
        if atom.text in vocabulary().phrases["heat_phrase"] and 0 < words.phrase("heat_phrase", j) <= i:
            return True
    return False


@cache
def _scales() -> dict[str, str]:
    """Spoken form → "F" or "C"."""
    return {form: name for name in ("F", "C") for form in units()[name].spoken}
