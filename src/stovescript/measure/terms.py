"""One number with its unit: "two big handfuls", "three quarters of a cup", "a cup and a half", "a tin".

A term is what a range, a sum and a correction are made of; what kind of quantity it is comes later.
"""

from dataclasses import dataclass, replace

from stovescript.kitchen.units import Unit

from . import following
from .numbers import Number, fraction_after_and, read_number
from .temperatures import degrees_after
from .vocabulary import CLOSE, COMMA, OPEN, UnitPhrase, vocabulary
from .words import Words

SIZED = frozenset({"volume", "mass"})
ADDED = frozenset({"volume", "mass", "time"})


@dataclass(slots=True)
class Size:
    """The amount in each package."""

    low: float
    high: float
    unit: Unit
    start: int
    end: int
    number: bool = True
    """Said with a number: not the pound of "a pound bag"."""


@dataclass(slots=True)
class Term:
    """A number, with or without its unit, over the atoms [start, end)."""

    start: int
    end: int
    low: float
    high: float
    number: str
    """The kind of its number, see ``Number.kind``; "article" for a, an; "bare" where none is said."""
    unit: Unit | None = None
    singular: bool = True
    """The unit is said in the singular: "fifteen ounce"."""
    approximate: bool = False
    scale: str | None = None
    """For a temperature "F", "C", "gas mark" or "" where degrees without scale are said; else None."""
    ordinal: bool = False
    size: Size | None = None
    sides: tuple[float, ...] = ()
    fan: bool = False
    of_whole: bool = False
    """A fraction of something already there: "half the cheese"."""
    of_one: bool = False
    """A fraction of one thing that is named next: "half an onion"."""

    @property
    def bare(self) -> bool:
        """It has neither unit nor scale nor shape: a plain number."""
        return self.unit is None and self.scale is None and not self.sides


def read_term(words: Words, i: int) -> Term | None:
    """The term that begins at atom i."""
    atom = words.atoms[i]
    if "article" in atom.roles:
        return _after_article(words, i)
    if "determiner" in atom.roles:
        return _after_determiner(words, i)
    number = read_number(words, i)
    if number is not None:
        return with_unit(words, i, number)
    if atom.roles & {"bare_unit", "dimension_unit"}:
        return _bare(words, i)
    return None


def with_unit(words: Words, i: int, number: Number) -> Term | None:
    """The term of a number that stands at [i, number.end), with whatever unit follows it."""
    term = Term(
        i, number.end, number.low, number.high, number.kind,
        approximate=number.approximate, ordinal=number.ordinal,
    )  # fmt: skip
    scale = degrees_after(words, number.end, number.high, number.kind)
    if scale is not None:
        term.scale, term.end = scale
        return term
    packed = packages(words, i)
    if packed is not None:  # a bare "fifteen ounce can" is one; "fifteen ounce cans" leaves open how many
        unit, size, end = packed
        if words.atoms[end - 1].text != unit.plural:
            return Term(i, end, 1.0, 1.0, "article", unit=unit, size=size)
    packed = packages(words, number.end) if number.kind not in ("fraction", "few") else None
    if packed is not None and packed[1].number:
        term.unit, term.size, term.end = packed
        return term
    if number.kind == "fraction" and _fraction_of(words, term, number):
        return term if term.unit is None else after_unit(words, term)
    found = unit_after(words, number.end, number)
    if found is not None:
        phrase, term.end, loose = found
        term.unit, term.singular = phrase.unit, phrase.singular
        term.approximate |= loose or phrase.unit.approximate
        _size_in_parentheses(words, term)
        return after_unit(words, term)
    if not following.half_can_stand(words, i, number):
        return None
    return term


def unit_after(words: Words, i: int, number: Number | None) -> tuple[UnitPhrase, int, bool] | None:
    """The unit said at atom i or after modifiers: the way it is said, its end, whether a modifier is loose.

    ``number`` is the number before it; None after "a" or where none is said.
    """
    loose = False
    j = i
    if number is not None and number.kind == "few" and words.atoms[j].text == "of":
        j += 1
    after = words.phrase("approx_after", j)
    if after:
        j, loose = after, True
    j, modifier_loose = modifiers(words, j)
    if after == 0 and j > i:
        after = words.phrase("approx_after", j)
        if after:
            j, loose = after, True
    for phrase in words.atoms[j].units:
        end = j + len(phrase.words)
        if len(phrase.words) > 1 and tuple(atom.text for atom in words.atoms[j:end]) != phrase.words:
            continue
        if following.unit_can_stand(words, phrase, j, end, number):
            return phrase, end, loose or modifier_loose
    return None


def modifiers(words: Words, i: int) -> tuple[int, bool]:
    """Past words such as "heaped", "really big" at atom i; whether one of them makes the amount loose."""
    loose = False
    while True:
        exact = words.phrase("modifier_exact", i)
        vague = words.phrase("modifier_loose", i)
        if not exact and not vague:
            return i, loose
        loose |= vague > exact
        i = max(exact, vague)


def packages(words: Words, i: int) -> tuple[Unit, Size, int] | None:
    """ "fifteen ounce cans", "(14.5 ounce) can", "large 400g tin" at atom i, after how many there are."""
    atoms = words.atoms
    j, _ = modifiers(words, i)
    wrapped = atoms[j].text == OPEN
    j += wrapped
    if atoms[j].text in ("x", "×", "times"):
        j += 1
    size = _size(words, j)
    if size is None:
        return None
    k = size.end
    if wrapped:
        if atoms[k].text != CLOSE:
            return None
        k += 1
    k, _ = modifiers(words, k)
    for phrase in atoms[k].units:
        end = k + len(phrase.words)
        if phrase.unit.name == "pot" and not (size.unit.system == "metric" and atoms[end].text == "of"):
            continue
        if phrase.unit.dimension == "package" and following.package_can_stand(words, phrase, end):
            return phrase.unit, size, end
        if phrase.unit.dimension == "count" and not wrapped and following.sized_piece(words, phrase, end, size.unit):
            return phrase.unit, size, end
    return None


def _size(words: Words, i: int) -> Size | None:
    """ "fifteen ounce", "fourteen and a half ounce", "fourteen to fifteen ounce", "one fifty gram", "pound"."""
    from .numbers import shorthand

    number = read_number(words, i) if "article" not in words.atoms[i].roles else None
    if number is None:
        return _one_of_unit(words, i)
    start, low, high = i, number.low, number.high
    if words.atoms[number.end].text in ("to", "-", "or"):
        upper = read_number(words, number.end + 1)
        if upper is not None and upper.high > low:
            number = upper
            high = upper.high
    found = _measure(words, number.end)
    if found is None and low == high:
        short = shorthand(words, i, number)
        found = _measure(words, short.end) if short else None
        if short and found and found[0].unit.system == "metric":
            low = high = short.low
        else:
            return None
    if found is None or low <= 0:
        return None
    return Size(low, high, found[0].unit, start, found[1])


def _one_of_unit(words: Words, i: int) -> Size | None:
    """ "pound" in "a pound bag": one of the unit, said without a number."""
    found = _measure(words, i)
    if found is None or not found[0].singular or found[0].short:
        return None
    return Size(1.0, 1.0, found[0].unit, i, found[1], number=False)


def _measure(words: Words, i: int) -> tuple[UnitPhrase, int] | None:
    """A unit of volume or mass right at atom i."""
    for phrase in words.atoms[i].units:
        end = i + len(phrase.words)
        if phrase.unit.dimension not in SIZED:
            continue
        if len(phrase.words) == 1 or tuple(atom.text for atom in words.atoms[i:end]) == phrase.words:
            return phrase, end
    return None


def _size_in_parentheses(words: Words, term: Term) -> None:
    """ "2 cans (15 ounces each)": the size said in parentheses after the package."""
    if term.unit is None or term.unit.dimension != "package" or words.atoms[term.end].text != OPEN:
        return
    size = _size(words, term.end + 1)
    if size is None:
        return
    end = size.end + (words.atoms[size.end].text == "each")
    if words.atoms[end].text == CLOSE:
        term.size, term.end = size, end + 1


def _fraction_of(words: Words, term: Term, number: Number) -> bool:
    """Binds "half" to what it is a half of; False where a unit or a food follows it directly."""
    atoms = words.atoms
    if following.other_half(words, term.start) and unit_after(words, term.end, number) is None:
        term.of_whole, term.ordinal = True, False
        return True
    j = term.end
    of = atoms[j].text == "of"
    j += of
    if "article" in atoms[j].roles or (of and atoms[j].text == "one"):
        found = unit_after(words, j + 1, number)
        if found is not None:
            phrase, term.end, loose = found
            term.unit, term.singular = phrase.unit, phrase.singular
            term.approximate |= loose or phrase.unit.approximate
            return True
        start, _ = modifiers(words, j + 1)
        if following.food_word(words, start):
            term.end, term.of_one, term.ordinal = j + 1, True, False
            return True
        return False
    if "owner" in atoms[j].roles and (of or (term.low == 0.5 and atoms[j].text not in ("it", "what", "em"))):
        if atoms[j + 1].text in ("time", "way", "battle", "fun"):
            return False
        term.of_whole, term.ordinal = True, False
        return True
    if of and following.food_word(words, j) and unit_after(words, j, None) is None:
        term.of_whole, term.ordinal = True, False
        return True
    return False


def _after_article(words: Words, i: int) -> Term | None:
    """ "a cup", "a good glug", "a third of a cup", "a four hundred gram tin", "another two tablespoons"."""
    atoms = words.atoms
    while "article" in atoms[i + 1].roles and atoms[i + 1].text == atoms[i].text:
        i += 1
    j, loose = modifiers(words, i + 1)
    packed = packages(words, j)
    if packed is not None:
        unit, size, end = packed
        return Term(i, end, 1.0, 1.0, "article", unit=unit, size=size, approximate=loose)
    number = read_number(words, i)
    if number is not None:
        return with_unit(words, i, number)
    number = read_number(words, j) if "article" not in atoms[j].roles else None
    if number is not None:
        term = with_unit(words, j, number)
        if term is None:
            return None
        if j > i + 1 or atoms[i].text == "another":
            term.start = i
        term.approximate |= loose
        return None if term.bare and not term.of_one and j > i + 1 else term
    found = unit_after(words, i + 1, None)
    if found is None:
        return None
    phrase, end, loose = found
    if phrase.unit.name == "second":
        return None  # "give me a second"
    term = Term(
        i, end, 1.0, 1.0, "article",
        unit=phrase.unit, singular=phrase.singular, approximate=loose or phrase.unit.approximate,
    )  # fmt: skip
    _size_in_parentheses(words, term)
    return after_unit(words, term)


def _after_determiner(words: Words, i: int) -> Term | None:
    """ "the cup of flour", "this 28 ounce can", "the remaining tablespoon of oil"."""
    j = i + 1
    while words.phrase("the_modifier", j):
        j = words.phrase("the_modifier", j)
    j, loose = modifiers(words, j)
    packed = packages(words, j)
    if packed is not None:
        unit, size, end = packed
        if words.atoms[end - 1].text != unit.plural:
            return Term(j, end, 1.0, 1.0, "article", unit=unit, size=size)
        return None
    found = unit_after(words, j, None)
    if found is None:
        return None
    phrase, end, _ = found
    no_amount = phrase.unit.name in vocabulary().words["no_determiner"]
    if not phrase.singular or no_amount or words.atoms[end].text != "of" or phrase.unit.dimension in ("time", "length"):
        return None
    if "owner" in words.atoms[end + 1].roles:
        return None
    loose |= phrase.unit.approximate
    return Term(i, end, 1.0, 1.0, "article", unit=phrase.unit, approximate=loose)


def _bare(words: Words, i: int) -> Term | None:
    """ "pinch of salt", "inch thick": one of a unit said without number or article."""
    atoms = words.atoms
    before = atoms[i - 1] if i else None
    if before and (before.roles & {"article", "determiner", "modifier_exact", "modifier_loose"} or before.number):
        return None
    for phrase in atoms[i].units:
        end = i + len(phrase.words)
        if len(phrase.words) > 1 and tuple(atom.text for atom in atoms[i:end]) != phrase.words:
            continue
        term = Term(i, end, 1.0, 1.0, "bare", unit=phrase.unit, approximate=phrase.unit.approximate)
        if not phrase.singular or phrase.short:
            continue
        if phrase.unit.dimension == "length":
            tail = fraction_after_and(words, end)
            if tail or atoms[end].text in vocabulary().words["dimension_after"]:
                return after_unit(words, term)
        elif atoms[end].text == "of" and not following.idle_of(words, end):
            if following.unit_can_stand(words, phrase, i, end, None):
                return term
    return None


def after_unit(words: Words, term: Term) -> Term:
    """Adds what may follow a unit: "and a half", "plus two tablespoons", "and twenty minutes"."""
    assert term.unit is not None
    if term.size is not None or term.of_one or term.of_whole:
        return term
    if term.unit.dimension not in ("temperature",) and term.low == term.high and term.low.is_integer():
        tail = fraction_after_and(words, term.end)
        if tail and not _begins_another(words, tail[1]):
            term.low += tail[0]
            term.high += tail[0]
            term.end = tail[1]
            again = unit_after(words, term.end, None)  # "a cup and a half cup" is one and a half cups
            if again and again[0].unit is term.unit and words.glued(term.end):
                term.end = again[1]
            return term
    if term.unit.dimension in ADDED:
        for _ in range(3):
            if not _add(words, term):
                break
    return term


def _begins_another(words: Words, i: int) -> bool:
    """After "and a half" at atom i comes a unit of its own: "a cup and a half teaspoon"."""
    atoms = words.atoms
    j = i + (atoms[i].text == "of")
    article = "article" in atoms[j].roles
    j += article
    j, _ = modifiers(words, j)
    if any(phrase.unit.dimension in ("volume", "mass", "time", "length") for phrase in atoms[j].units):
        return True
    return article


def _add(words: Words, term: Term) -> bool:
    """One more amount of a smaller unit right after: "a pound four ounces", "a cup plus a tablespoon"."""
    unit = term.unit
    assert unit is not None and unit.factor is not None
    atoms = words.atoms
    j = term.end + (atoms[term.end].text == COMMA)
    sign = 1.0
    plain = False
    added = words.phrase("sum", j)
    less = words.phrase("sum_less", j)
    if less:
        j, sign = less, -1.0
    elif added:
        plain = atoms[j].text in ("plus",)
        if atoms[j].text == "with":
            return False
        j = added
    elif unit.dimension != "time" and unit.name not in ("pound",):
        return False
    number = read_number(words, j)
    article = "article" in atoms[j].roles and number is None
    if number is None and not article:
        return False
    start = number.end if number else j + 1
    more = with_unit_only(words, start, number)
    if more is None:
        return _add_bare_minutes(words, term, j, number)
    phrase, end, loose = more
    value = number.low if number else 1.0
    if number and number.low != number.high:
        return False
    other = phrase.unit
    if other.dimension != unit.dimension or other.factor is None:
        return False
    share = value * other.factor / unit.factor
    if not plain and sign > 0 and (other.factor >= unit.factor or share >= 1):
        return False
    if sign < 0 and share >= term.low:
        return False
    if not (plain or less) and packages(words, start):
        return False
    term.low += sign * share
    term.high += sign * share
    term.end = end
    term.approximate |= loose
    return True


def with_unit_only(words: Words, i: int, number: Number | None) -> tuple[UnitPhrase, int, bool] | None:
    """The unit at atom i after a number or article; "half a teaspoon" has its article between."""
    if number is not None and number.kind == "fraction":
        j = i + (words.atoms[i].text == "of")
        if "article" in words.atoms[j].roles:
            return unit_after(words, j + 1, None)
    return unit_after(words, i, number)


def _add_bare_minutes(words: Words, term: Term, i: int, number: Number | None) -> bool:
    """ "one hour twenty": minutes said without their name, where no food follows."""
    unit = term.unit
    if unit is None or number is None or unit.name not in ("hour", "minute"):
        return False
    if not (number.low.is_integer() and 1 < number.low < 60 and number.low % 5 == 0) or number.kind in ("few", "short"):
        return False
    if number.low < 10 or following.food_word(words, number.end) or words.atoms[number.end].value is not None:
        return False
    if words.atoms[number.end].text in ("to", "or", "degrees", "-") or words.atoms[number.end].number:
        return False
    term.low += number.low / 60
    term.high += number.low / 60
    term.end = number.end
    return True


def same_unit(term: Term, unit: Unit) -> Term:
    """The term without unit of its own takes ``unit``."""
    return replace(term, unit=unit, approximate=term.approximate or unit.approximate)
