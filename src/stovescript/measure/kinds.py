"""Decides what a term is: an amount, a heat, a time, a shape, a count of things, or nothing at all."""

from dataclasses import dataclass

from . import following
from .dimensions import holds, vessel_unsaid
from .numbers import read_number
from .quantity import Quantity
from .ranges import read_range
from .temperatures import fan_after, fan_before, heat_near, plausible
from .terms import Term, read_term
from .vocabulary import vocabulary
from .words import Words

YEARS = (1800, 2100)
LINKED_HEAT = 4
"""A number so few words after a temperature is the same heat on another scale."""
SURELY_HEAT = 100.0
"""A number from here up may be a heat without an oven named before: "350 for 20 minutes"."""
HOTTEST = 1000.0


@dataclass
class Place:
    """Where the reading of a talk stands, in atoms."""

    free_from: int = 0
    """Atoms before this one belong to an earlier quantity."""
    heat_end: int = -LINKED_HEAT - 1
    """Where the last temperature ended."""


def from_term(words: Words, term: Term, place: Place) -> Quantity | None:
    """The quantity that the term is; None for a number that tells none. Moves the term's end past it."""
    if term.of_whole:
        return _quantity(words, "fraction", term)
    if term.sides:
        return _quantity(words, "dimension", term) if term.unit or term.sides[0] > 1 else None
    if term.scale is not None:
        return _heat(words, term, place)
    if term.size is not None:
        return _quantity(words, "package", term)
    if term.unit is None:
        return _plain(words, term, place)
    dimension = term.unit.dimension
    if dimension == "time":
        return _heat_run_on(words, term, place) or _duration(words, term)
    if dimension == "length" or (dimension in ("volume", "mass") and _is_capacity(words, term)):
        return _quantity(words, "dimension", term)
    return _quantity(words, "package" if dimension == "package" else "amount", term)


def span(
    words: Words, kind: str, start: int, end: int, low: float, high: float, unit: str, *, approximate: bool = False
) -> Quantity:
    """A quantity over the atoms [start, end)."""
    return Quantity(
        kind=kind,
        start=words.where[start],
        end=words.where[end - 1] + 1,
        low=low,
        high=high,
        unit=unit,
        approximate=approximate,
        said=words.said(start, end),
    )


def _quantity(words: Words, kind: str, term: Term) -> Quantity:
    unit = (term.scale or "") if kind == "temperature" else term.unit.name if term.unit else ""
    size = None
    if term.size is not None:
        each = term.size
        size = span(words, "amount", each.start, each.end, each.low, each.high, each.unit.name)
    return Quantity(
        kind=kind,
        start=words.where[term.start],
        end=words.where[term.end - 1] + 1,
        low=term.low,
        high=term.high,
        unit=unit,
        approximate=term.approximate,
        said=words.said(term.start, term.end),
        size=size,
        fan=term.fan,
        sides=term.sides,
    )


def _is_capacity(words: Words, term: Term) -> bool:
    """ "six quart pot", "two pound loaf tin", "my five quart"."""
    if not term.singular or holds(words, term.end):
        return term.singular
    named_by_size = term.unit is not None and term.unit.name in vocabulary().words["vessel_unit"]
    return named_by_size and term.low > 1 and vessel_unsaid(words, term.start, term.end)


def _duration(words: Words, term: Term) -> Quantity | None:
    """A time in seconds; "one second" is an idiom."""
    factor = term.unit.factor if term.unit else None
    if factor is None or term.high <= 0 or (factor == 1 and term.high <= 1):
        return None
    low, high = round(term.low * factor, 3), round(term.high * factor, 3)
    return span(words, "duration", term.start, term.end, low, high, "second", approximate=term.approximate)


def _heat_run_on(words: Words, term: Term, place: Place) -> Quantity | None:
    """The heat of "four hundred three minutes", which nobody cooks for; the time is read after it."""
    if term.unit is None or term.unit.name != "minute" or term.low < SURELY_HEAT or term.low != term.high:
        return None
    hundreds, named = words.atoms[term.start].number, words.atoms[term.start + 1].number
    if hundreds is None or named is None or named.kind != "hundred" or term.low % 100 == 0:
        return None
    heat = 100 * hundreds.low
    if not plausible(heat) or words.atoms[term.start + 2].number is None or not heat_near(words, term.start):
        return None
    term.low = term.high = heat
    term.end, term.unit = term.start + 2, None
    return _heat(words, term, place)


def _heat(words: Words, term: Term, place: Place) -> Quantity | None:
    """A temperature, with its fan."""
    if not 0 < term.high <= HOTTEST:
        return None
    fan_end = fan_after(words, term.end)
    term.fan = bool(fan_end) or fan_before(words, term.start, place.free_from)
    term.end = fan_end or term.end
    return _quantity(words, "temperature", term)


def _plain(words: Words, term: Term, place: Place) -> Quantity | None:
    """A number without unit: heat, a count of things, a number, or nothing."""
    atoms = words.atoms
    if _is_heat(words, term, place):
        return _heat(words, term, place)
    if term.ordinal or term.counted_aloud or "clock" in atoms[term.start].roles:
        return None
    if term.of_one:
        return _quantity(words, "count", term)
    skipped = _pair_of_numbers(words, term)
    if skipped:
        term.end = skipped
        return None
    if term.high == 0 or _is_label(words, term) or _is_year(words, term):
        return None
    counted = following.counted(words, term.end, term.number)
    if counted == "idle" or (counted == "nothing" and term.number == "fraction"):
        return None
    number_next = atoms[term.end].value is not None or atoms[term.end].number is not None
    if atoms[term.end - 1].text == "one" and term.high == 1:
        if counted == "nothing" and not (number_next and _measured_next(words, term.end)):
            return None
        if term.end > term.start + 1 or following.one_is_pronoun(words, term.start, term.end):
            return None
    if counted == "nothing" and number_next and _measured_next(words, term.end):
        counted = "food"
    return _quantity(words, "count" if counted == "food" else "number", term)


def _measured_next(words: Words, i: int) -> bool:
    """A length or time comes next, as in "two eight inch rounds": the number before it counts."""
    term = read_term(words, i)
    return term is not None and term.unit is not None and term.unit.dimension in ("length", "time")


def _is_label(words: Words, term: Term) -> bool:
    """ "step two", "episode five"."""
    if not term.start or term.number in ("fraction", "few", "dozen"):
        return False
    return words.atoms[term.start - 1].text in vocabulary().words["label_before"]


def _is_year(words: Words, term: Term) -> bool:
    return YEARS[0] < term.low < YEARS[1] and term.low == term.high and term.number in ("digits", "hundred")


def _pair_of_numbers(words: Words, term: Term) -> int:
    """Where two numbers that tell no amount end, 0 if these do.

    "three to one" is a ratio, "eighty twenty" the lean and the fat of ground meat, "twenty nineteen" a year.
    """
    joint = words.phrase("ratio", term.end)
    second = read_number(words, joint or term.end) if term.bare else None
    if second is None:
        return 0
    if joint:
        other = read_term(words, joint)
        falls = other is not None and other.bare and other.high < term.low and other.number == term.number
        return second.end if falls else 0
    if term.number not in ("tens", "digits", "teen"):
        return 0
    year = term.low in (19, 20) and 10 <= second.low < 100 and second.kind != "digits"
    lean = term.low + second.low == 100 and second.low < 50
    return second.end if year or lean else 0


def _is_heat(words: Words, term: Term, place: Place) -> bool:
    """A bare number that is a temperature: an oven stands near before it, or a time right after it."""
    if not (plausible(term.low) and plausible(term.high)) or not term.low.is_integer() or term.ordinal:
        return False
    if fan_after(words, term.end) or fan_before(words, term.start, place.free_from):
        return True
    before = words.atoms[term.start - 1].text if term.start else ""
    if before == "for":
        return False
    counted = following.counted(words, term.end)
    if heat_near(words, term.start):
        return counted != "idle"
    if term.low < SURELY_HEAT or term.low % 5:
        return False
    if words.phrase("heat_after", term.end):
        return True
    if "clock" not in words.atoms[term.start].roles and (before == "at" or term.start - place.heat_end <= LINKED_HEAT):
        return counted != "food"
    return _time_or_scale_next(words, term.end)


def _time_or_scale_next(words: Words, i: int) -> bool:
    """ "(350) for 20 minutes", "(180) or 350 fahrenheit" at atom i."""
    time = words.phrase("for_time", i)
    if time:
        lasting = read_range(words, words.phrase("approx_before", time) or time)
        return lasting is not None and lasting.unit is not None and lasting.unit.dimension == "time"
    other_scale = words.phrase("other_scale", i)
    other = read_range(words, other_scale) if other_scale else None
    return other is not None and (other.scale is not None or fan_after(words, other.end) > 0)
