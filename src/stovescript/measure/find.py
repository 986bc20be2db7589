"""Finds every quantity in a talk's words, from left to right."""

from collections.abc import Sequence

from stovescript.kitchen.units import units

from . import following
from .corrections import corrected
from .dimensions import holds
from .numbers import read_number
from .quantity import Quantity
from .ranges import read_range
from .temperatures import fan_after, fan_before, heat_near, plausible
from .terms import Term, read_term
from .vocabulary import vocabulary
from .words import Words
from .written import odd_amount

NIGHT_HOURS = (8.0, 12.0)  # "overnight"; common practice
YEARS = (1800, 2100)


def find_quantities(tokens: Sequence[str]) -> list[Quantity]:
    """Every quantity said in ``tokens`` (lower-cased words of captions), in order, none overlapping.

    A sentence mark parts amounts, a comma does not. Never raises for any words.
    """
    words = Words(tokens)
    atoms = words.atoms
    found: list[Quantity] = []
    i, free_from = 0, 0
    last = len(atoms) - 3
    while i < last:
        if not atoms[i].opens or (words.glued(i) and i > 0 and i < free_from):
            i += 1
            continue
        skipped = _fixed_phrase(words, i)
        if skipped:
            i = free_from = skipped
            continue
        reading = read_quantity(words, i, free_from)
        if reading is None:
            i += 1
            continue
        quantity, end = reading
        if quantity is not None and (not found or quantity.start >= found[-1].end):
            found.append(quantity)
        while end < last and words.glued(end):
            end += 1
        i = free_from = max(end, i + 1)
    return found


def read_quantity(words: Words, i: int, free_from: int = 0) -> tuple[Quantity | None, int] | None:
    """The quantity at atom i and its end; (None, end) for a number that is no quantity; None for neither.

    Atoms before ``free_from`` belong to an earlier quantity.
    """
    about = _about(words, i)
    start = about or i
    if "overnight" in words.atoms[start].roles and words.phrase("overnight", start):
        return _overnight(words, i, words.phrase("overnight", start), bool(about))
    term = _gas_mark(words, start) or read_range(words, start)
    if term is None:
        return odd_amount(words, i)
    if about:
        term.start, term.approximate = i, True
    _about_after(words, term)
    term = corrected(words, term)
    return _kinds(words, term, free_from)


def _about(words: Words, i: int) -> int:
    """Where words such as "about", "a little over" that begin at atom i end; 0 if there are none."""
    end, j = 0, i
    while words.phrase("approx_before", j):
        if words.atoms[j].text == "like" and j and words.atoms[j - 1].text in vocabulary().words["like_is_verb_after"]:
            return end
        j = end = words.phrase("approx_before", j)
    return end


def _about_after(words: Words, term: Term) -> None:
    """ "or so", "give or take" after the term."""
    after = words.phrase("approx_after", term.end)
    if after:
        term.end, term.approximate = after, True


def _fixed_phrase(words: Words, i: int) -> int:
    """Where "half and half", "fifty fifty", "one at a time" at atom i ends; 0 if none begins there."""
    article = words.atoms[i].roles & {"article", "determiner"}
    return words.phrase("not_a_quantity", i) or (words.phrase("not_a_quantity", i + 1) if article else 0)


def _overnight(words: Words, i: int, end: int, about: bool) -> tuple[Quantity, int]:
    hour = units()["hour"].factor or 0.0
    low, high = NIGHT_HOURS
    return _quantity(words, "duration", i, end, low * hour, high * hour, "second", approximate=True), end


def _gas_mark(words: Words, i: int) -> Term | None:
    """ "gas mark six", "gas four to five"."""
    start = words.phrase("gas_mark", i)
    if not start:
        return None
    term = read_range(words, start)
    if term is None or term.unit is not None or term.sides or not 0 < term.low <= 10 or term.scale is not None:
        return None
    term.start, term.scale = i, "gas mark"
    return term


def _kinds(words: Words, term: Term, free_from: int) -> tuple[Quantity | None, int]:
    """What kind of quantity the term is; None in its place where it is none."""
    if term.of_whole:
        return _from_term(words, "fraction", term), term.end
    if term.sides:
        if term.unit is None and term.sides[0] == 1:
            return None, term.end
        return _from_term(words, "dimension", term), term.end
    if term.scale is not None:
        return _heat(words, term, free_from), term.end
    if term.size is not None:
        return _from_term(words, "package", term), term.end
    if term.unit is None:
        return _plain(words, term, free_from)
    dimension = term.unit.dimension
    if dimension == "time":
        return _duration(words, term), term.end
    if dimension == "length":
        return _from_term(words, "dimension", term), term.end
    if dimension in ("volume", "mass") and term.singular and holds(words, term.end):
        return _from_term(words, "dimension", term), term.end
    if dimension == "package":
        return _from_term(words, "package", term), term.end
    return _from_term(words, "amount", term), term.end


def _plain(words: Words, term: Term, free_from: int) -> tuple[Quantity | None, int]:
    """A number without unit: heat, a count of things, a number, or nothing."""
    if fan_after(words, term.end) and plausible(term.high) and not term.ordinal:
        return _heat(words, term, free_from), term.end
    if _is_heat(words, term, free_from):
        return _heat(words, term, free_from), term.end
    atom = words.atoms[term.start]
    if "clock" in atom.roles or term.ordinal:
        return None, term.end
    before = words.atoms[term.start - 1].text if term.start else ""
    if before in vocabulary().words["label_before"] and term.number not in ("fraction", "few", "dozen"):
        return None, term.end
    if term.of_one:
        return _from_term(words, "count", term), term.end
    if _is_year(term, before) or term.high == 0 or _adds_to_hundred(words, term):
        return None, _past_hundred(words, term)
    counted = following.counted(words, term.end, term.number)
    if counted == "idle":
        return None, term.end
    if atom.text == "one" and term.end == term.start + 1:
        if counted == "nothing" and not words.atoms[term.end].value and not words.atoms[term.end].number:
            return None, term.end
        if following.one_is_pronoun(words, term.start, term.end):
            return None, term.end
    if counted == "nothing" and term.number == "fraction":
        return None, term.end
    if counted == "nothing" and (words.atoms[term.end].value or words.atoms[term.end].number):
        counted = "food" if _measured_next(words, term.end) else counted
    return _from_term(words, "count" if counted == "food" else "number", term), term.end


def _measured_next(words: Words, i: int) -> bool:
    """A length comes next, as in "two eight inch rounds": the number before it counts."""
    term = read_term(words, i)
    return term is not None and term.unit is not None and term.unit.dimension in ("length", "time")


def _is_year(term: Term, before: str) -> bool:
    year = YEARS[0] < term.low < YEARS[1] and term.low == term.high
    return year and (term.number in ("digits", "hundred") or before in ("in", "since"))


def _adds_to_hundred(words: Words, term: Term) -> bool:
    """ "eighty twenty", the lean and the fat of ground meat; "twenty twenty one", a year."""
    second = read_number(words, term.end)
    if second is None or term.number not in ("tens", "digits", "teen"):
        return False
    year = term.low in (19, 20) and 10 <= second.low < 100 and second.kind != "digits"
    return (term.low + second.low == 100 and second.low < 50) or year


def _past_hundred(words: Words, term: Term) -> int:
    second = read_number(words, term.end) if _adds_to_hundred(words, term) else None
    return second.end if second else term.end


def _is_heat(words: Words, term: Term, free_from: int) -> bool:
    """A bare number that is a temperature: an oven stands near before it, or a time right after it."""
    if not (plausible(term.low) and plausible(term.high)) or not term.low.is_integer():
        return False
    if fan_before(words, term.start, free_from):
        return True
    atoms = words.atoms
    before = atoms[term.start - 1].text if term.start else ""
    if before == "for":
        return False
    if heat_near(words, term.start):
        return following.counted(words, term.end) != "idle"
    if term.low < 100 or term.low % 5:
        return False
    if before == "at" and term.low >= 120:
        return following.counted(words, term.end) != "food"
    if atoms[term.end].text == "for":
        time = read_range(words, words.phrase("approx_before", term.end + 1) or term.end + 1)
        return time is not None and time.unit is not None and time.unit.dimension == "time"
    if atoms[term.end].text == "or" or atoms[term.end].text == "/":
        other = read_range(words, term.end + 1)
        return other is not None and (other.scale is not None or fan_after(words, other.end) > 0)
    return words.phrase("heat_after", term.end) > 0


def _heat(words: Words, term: Term, free_from: int) -> Quantity | None:
    """A temperature, with its fan."""
    if term.scale != "gas mark" and not (0 < term.high <= 1000):
        return None
    fan_end = fan_after(words, term.end)
    fan = bool(fan_end) or fan_before(words, term.start, free_from)
    term.end = fan_end or term.end
    term.fan = fan
    return _from_term(words, "temperature", term)


def _duration(words: Words, term: Term) -> Quantity | None:
    unit = term.unit
    assert unit is not None and unit.factor is not None
    if unit.name == "second" and term.high <= 1:
        return None
    low, high = term.low * unit.factor, term.high * unit.factor
    if high <= 0:
        return None
    return _quantity(words, "duration", term.start, term.end, low, high, "second", term.approximate)


def _from_term(words: Words, kind: str, term: Term) -> Quantity:
    unit = term.scale if kind == "temperature" else term.unit.name if term.unit else ""
    size = None
    if term.size is not None:
        each = term.size
        size = _quantity(words, "amount", each.start, each.end, each.low, each.high, each.unit.name, False)
    return Quantity(
        kind=kind,
        start=words.where[term.start],
        end=words.where[term.end - 1] + 1,
        low=term.low,
        high=term.high,
        unit=unit or "",
        approximate=term.approximate,
        said=words.said(term.start, term.end),
        size=size,
        fan=term.fan,
        sides=term.sides,
    )


def _quantity(
    words: Words, kind: str, start: int, end: int, low: float, high: float, unit: str, approximate: bool
) -> Quantity:
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


