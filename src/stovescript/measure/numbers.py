"""Numbers as they are said: "one hundred and twenty five", "four twenty five", "two and a half", "a couple"."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from .vocabulary import Atom
from .words import Words

ONLY_WITH_UNIT = frozenset({"third", "fourth", "fifth", "sixth", "eighth", "tenth", "sixteenth"})
DIGIT_KINDS = frozenset({"ones"})
LONGEST = 14  # tokens that one number can take


@dataclass(slots=True)
class Number:
    """One number, exact or "a few", and the atom where it ends."""

    low: float
    high: float
    end: int
    kind: str
    """ones, teen, tens, hundred, digits, mixed, fraction, few, dozen or short (four twenty five)"""
    approximate: bool = False
    ordinal: bool = False
    """ "a third": a fraction where a unit or "of" follows, else the third one."""


def number_at(tokens: Sequence[str], i: int) -> tuple[float, int] | None:
    """The number said at token i and how many tokens it takes; None where no number begins there.

    "four twenty five" is 425 here, as no unit is looked at; "a few" gives its lower end. A token that holds
    more than a number ("200g") is none.
    """
    if not 0 <= i < len(tokens):
        return None
    words = Words(tokens[i : i + LONGEST])
    if not words.where or words.where[0] != 0:
        return None
    number = read_number(words, 0)
    if number is None:
        return None
    longer = shorthand(words, 0, number)
    number = longer or number
    if words.glued(number.end) and words.atoms[number.end].roles.isdisjoint(("break", "comma")):
        return None
    return number.low, words.where[number.end - 1] + 1


def read_number(words: Words, i: int) -> Number | None:
    """The number that begins at atom i, the longest strict reading: "four twenty five" is 4 here."""
    atom = words.atoms[i]
    if atom.number is None and atom.value is None and "article" not in atom.roles and atom.text != "point":
        return None
    return _fraction(words, i) or _few(words, i) or _mixed(words, i)


def shorthand(words: Words, i: int, first: Number) -> Number | None:
    """ "four twenty five" as 425, "one oh five" as 105; None where the words allow no such reading."""
    if first.kind != "ones" or first.low == 0 or first.end != i + 1:
        return None
    after = words.atoms[first.end]
    if after.text in ("oh", "o", "zero") and _kind(words.atoms[first.end + 1]) == "ones":
        tail, end = _low(words.atoms[first.end + 1]), first.end + 2
    else:
        read = _below_hundred(words, first.end)
        if read is None or read[0] < 10:
            return None
        tail, end = read
        if _kind(words.atoms[end]) in ("hundred", "thousand"):
            return None
    value = 100 * first.low + tail
    return Number(value, value, end, "short")


def fraction_after_and(words: Words, i: int) -> tuple[float, int] | None:
    """ "and a half", "and three quarters", "plus one quarter" at atom i: the fraction and its end."""
    if "fraction_joining" not in words.atoms[i].roles:
        return None
    atom = words.atoms[i + 1]
    if atom.fraction and atom.value is not None and atom.value < 1:
        return atom.value, i + 2
    part = _fraction(words, i + 1)
    if part is None or part.low >= 1:
        return None
    return part.low, part.end


def _kind(atom: Atom) -> str:
    return atom.number.kind if atom.number else ""


def _low(atom: Atom) -> float:
    return atom.number.low if atom.number else 0.0


def _fraction(words: Words, i: int) -> Number | None:
    """ "half", "a quarter", "three quarters", "two thirds", "half a dozen"."""
    atoms = words.atoms
    top, j = 1.0, i
    if "article" in atoms[i].roles:
        j = i + 1
    elif _kind(atoms[i]) == "ones" or (atoms[i].value is not None and not atoms[i].fraction):
        top, j = atoms[i].value or _low(atoms[i]), i + 1
    word = atoms[j].number
    if word is None or word.kind not in ("part", "parts"):
        return None
    bottom = word.low
    if top == 0 or top >= bottom or not top.is_integer():
        return None
    if word.kind == "part" and top > 1 and math.gcd(int(top), int(bottom)) > 1:
        return None  # "two quarter pound patties" are two
    if word.kind == "parts" and top == 1:
        return None
    end = j + 1
    if atoms[j].text == "half":
        dozen = end + 1 if atoms[end].text == "a" else end
        if _kind(atoms[dozen]) == "dozen":
            return Number(6.0, 6.0, dozen + 1, "dozen")
    bare = j == i
    ordinal = atoms[j].text in ONLY_WITH_UNIT and (top == 1 or bare)
    return Number(top / bottom, top / bottom, end, "fraction", ordinal=ordinal)


def _few(words: Words, i: int) -> Number | None:
    """ "a couple", "a few", "several", "a pair", "a few hundred", "a couple dozen"."""
    atoms = words.atoms
    j = i + 1 if "article" in atoms[i].roles else i
    if _kind(atoms[j]) != "few" and not (_kind(atoms[j]) == "pair" and j > i):
        return None
    word = atoms[j].number
    assert word is not None
    low, high, end = word.low, word.high, j + 1
    times = atoms[end].number
    if low == high == 2 and times and times.kind == "ones" and times.low == 3:
        return Number(low, times.high, end + 1, "few", approximate=True)  # "a couple three"
    if times and times.kind in ("hundred", "thousand", "dozen"):
        low, high, end = low * times.low, high * times.low, end + 1
    return Number(low, high, end, "few", approximate=True)


def _mixed(words: Words, i: int) -> Number | None:
    """A cardinal, with "and a half", "point five" or a written "1/2" after it."""
    number = _cardinal(words, i)
    if number is None or number.kind == "dozen":
        return number
    atoms = words.atoms
    after = atoms[number.end]
    if after.text == "point":
        decimals, end = _decimals(words, number.end + 1)
        if decimals:
            value = float(f"{number.low:.0f}.{decimals}")
            return Number(value, value, end, "mixed")
    if not number.low.is_integer():
        return number
    if number.kind == "digits" and after.fraction and after.value is not None and after.value < 1:
        value = number.low + after.value
        return Number(value, value, number.end + 1, "mixed")
    tail = fraction_after_and(words, number.end)
    if tail:
        value = number.low + tail[0]
        return Number(value, value, tail[1], "mixed")
    return number


def _decimals(words: Words, i: int) -> tuple[str, int]:
    """The digits said after "point": "two five" is "25"."""
    digits = ""
    while len(digits) < 4:
        atom = words.atoms[i]
        if _kind(atom) == "ones" or atom.text == "oh":
            digits += f"{_low(atom):.0f}"
        elif atom.value is not None and atom.value.is_integer() and not digits:
            digits += f"{atom.value:.0f}"
        elif not digits and _below_hundred(words, i):
            read = _below_hundred(words, i)
            assert read is not None
            return f"{read[0]:.0f}", read[1]
        else:
            break
        i += 1
    return digits, i


def _cardinal(words: Words, i: int) -> Number | None:
    """A whole number in words or a number in digits, without what may follow it."""
    atoms = words.atoms
    atom = atoms[i]
    if atom.text == "point":
        decimals, end = _decimals(words, i + 1)
        return Number(float(f"0.{decimals}"), float(f"0.{decimals}"), end, "mixed") if decimals else None
    if atom.value is not None:
        value, end, kind = atom.value, i + 1, "digits"
        scale = atoms[end].number
        if scale and scale.kind in ("hundred", "thousand", "dozen") and not words.glued(end):
            return Number(value * scale.low, value * scale.low, end + 1, "hundred")
        return Number(value, value, end, kind)
    if "article" in atom.roles:
        if _kind(atoms[i + 1]) not in ("hundred", "thousand", "dozen"):
            return None
        return _scaled(words, 1.0, i + 1)
    if _kind(atom) in ("hundred", "thousand", "dozen"):
        return _scaled(words, 1.0, i)
    read = _below_hundred(words, i)
    if read is None:
        return None
    value, end = read
    if _kind(atoms[end]) in ("hundred", "thousand", "dozen"):
        return _scaled(words, value, end)
    return Number(value, value, end, _kind(atom))


def _scaled(words: Words, value: float, i: int) -> Number:
    """``value`` before "hundred", "thousand" or "dozen" at atom i, and what is added after it."""
    atoms = words.atoms
    if _kind(atoms[i]) == "dozen":
        return Number(12 * value, 12 * value, i + 1, "dozen")
    scale = _low(atoms[i])
    value, end = value * scale, i + 1
    j = end + 1 if atoms[end].text == "and" else end
    rest = _below_hundred(words, j)
    if rest and _kind(atoms[rest[1]]) in ("hundred", "thousand"):
        if scale == 1000 and rest[0] < 10 and _kind(atoms[rest[1]]) == "hundred":
            hundreds = _scaled(words, rest[0], rest[1])
            return Number(value + hundreds.low, value + hundreds.low, hundreds.end, "hundred")
        rest = None
    # "one hundred and two thirds": the two belongs to the fraction
    if rest and rest[1] == j + 1 and j > end and _kind(atoms[rest[1]]) in ("part", "parts"):
        rest = None
    if rest:
        return Number(value + rest[0], value + rest[0], rest[1], "hundred")
    return Number(value, value, end, "hundred")


def _below_hundred(words: Words, i: int) -> tuple[float, int] | None:
    """ "twenty five", "twelve", "seven" in words, and the end."""
    atom = words.atoms[i]
    kind = _kind(atom)
    if kind in ("ones", "teen"):
        return _low(atom), i + 1
    if kind == "tens":
        after = words.atoms[i + 1]
        # "twenty two hundred" are two numbers, 20 and 200 (or "two twenty" and "two hundred")
        if _kind(after) == "ones" and _low(after) > 0 and _kind(words.atoms[i + 2]) != "hundred":
            return _low(atom) + _low(after), i + 2
        return _low(atom), i + 1
    return None
