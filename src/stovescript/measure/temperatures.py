"""Temperatures: "four twenty five", "one eighty fan", "gas mark six", "between 160 and 165 degrees"."""

from .vocabulary import vocabulary
from .words import Words

LOWEST, HIGHEST = 50.0, 600.0
HEAT_REACH = 6
"""How many words before a bare number the oven may be named."""
SCALES = {"fahrenheit": "F", "farenheit": "F", "fahrenheits": "F", "f": "F"} | dict.fromkeys(
    ("celsius", "celcius", "centigrade", "c"), "C"
)


def degrees_after(words: Words, i: int, value: float, kind: str) -> tuple[str, int] | None:
    """ "degrees celsius", "°f", "f", "degrees" at atom i, after ``value``: the scale ("" if not said), the end."""
    atoms = words.atoms
    j = words.phrase("degree", i)
    said = bool(j)
    j = j or i
    if said and atoms[j].text == "of" and SCALES.get(atoms[j + 1].text):
        j += 1
    text = atoms[j].text
    scale = SCALES.get(text)
    if scale and (len(text) > 1 or said or (LOWEST <= value <= HIGHEST and kind != "few")):
        if text == "c" and not said and value < LOWEST:
            return None
        return scale, j + 1
    return ("", j) if said else None


def fan_after(words: Words, i: int) -> int:
    """Where "fan", "with the fan on", "convection" at atom i ends; 0 if the fan is not named."""
    opened = words.atoms[i].text in ("(", ",")
    return words.phrase("fan", i + opened)


def fan_before(words: Words, i: int, free_from: int) -> bool:
    """ "fan 160", "convection at 350": the fan is named just before atom i, and not in an earlier quantity."""
    j = i
    while j > free_from and words.phrase("approx_before", j - 1) == j:
        j -= 1
    return any(words.phrase("fan_before", k) == j for k in range(max(free_from, j - 4), j))


def plausible(value: float) -> bool:
    """A number that an oven, oil or the middle of a roast may have."""
    return LOWEST <= value <= HIGHEST


def heat_near(words: Words, i: int) -> bool:
    """An oven or another word of heat stands within a few words before atom i, in the same sentence."""
    atoms = words.atoms
    for j in range(i - 1, max(-1, i - 1 - HEAT_REACH), -1):
        atom = atoms[j]
        if "break" in atom.roles:
            return False
        if "heat_word" in atom.roles:
            return True
        if atom.text in vocabulary().phrases["heat_phrase"]:
            end = words.phrase("heat_phrase", j)
            if end and end <= i:
                return True
    return False
