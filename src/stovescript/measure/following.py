"""Looks at the words around a number or unit: is it a unit, a verb, a place, a pronoun or an idiom here?"""

from stovescript.kitchen.units import Unit

from .numbers import Number, fraction_after_and
from .vocabulary import INCH_MARK, UnitPhrase, vocabulary
from .words import Words

LONGEST_LOOK_BACK = 5
DESCRIBING = frozenset({"article", "modifier_exact", "modifier_loose"})
MEASURED = frozenset({"volume", "mass", "length"})
WRITTEN = frozenset({"digits", "mixed"})
"""Kinds of numbers before which "t", "c", "g" and "l" are units."""


def food_word(words: Words, i: int) -> bool:
    """A word at atom i that may name a thing: no number, no mark, no unit, none of the little words."""
    atom = words.atoms[i]
    if atom.number or atom.value is not None or "function" in atom.roles or not atom.text[:1].isalpha():
        return False
    return not any(phrase.unit.dimension == "time" for phrase in atom.units)


def counted(words: Words, i: int, kind: str = "") -> str:
    """What stands after a number that ends at atom i: "food", "idle" (kids, times, percent) or "nothing"."""
    j = i + (kind == "few" and words.atoms[i].text == "of")
    while True:
        if words.phrase("not_counted", j) or any(said.unit.dimension == "time" for said in words.atoms[j].units):
            return "idle"
        step = max(words.phrase("modifier_exact", j), words.phrase("modifier_loose", j))
        if not step:
            break
        j = step
    if words.phrase("not_counted", j):
        return "idle"
    if food_word(words, j):
        return "food"
    if words.atoms[j].text == "of" and "owner" in words.atoms[j + 1].roles:
        return "food"
    return "nothing"


def one_is_pronoun(words: Words, i: int, end: int) -> bool:
    """ "the big one", "one thing", "one at a time": "one" at atom i counts nothing."""
    before = words.atoms[i - 1].text if i else ""
    if before in vocabulary().words["one_before"]:
        return True
    j = end
    step = max(words.phrase("modifier_exact", j), words.phrase("modifier_loose", j))
    return bool(words.phrase("one_after", j) or (step and words.phrase("one_after", step)))


def half_can_stand(words: Words, i: int, number: Number) -> bool:
    """A fraction without unit: not in "cut it in half", "half way", "a third time"."""
    if number.kind != "fraction":
        return True
    atoms = words.atoms
    if atoms[number.end].text in vocabulary().words["no_half_after"] or words.phrase("and_half", number.end):
        return False
    return not (number.end == i + 1 and i and atoms[i - 1].text in vocabulary().words["no_half_before"])


def other_half(words: Words, i: int) -> bool:
    """ "the other half", "the remaining third": a fraction of what was begun before, at atom i."""
    return i > 0 and words.atoms[i - 1].text in vocabulary().words["other_part"]


def idle_of(words: Words, i: int) -> bool:
    """ "a bunch of things", "can of course": what follows "of" at atom i is no food."""
    return bool(words.phrase("not_counted", i + 1))


def package_can_stand(words: Words, phrase: UnitPhrase, end: int, size: Unit) -> bool:
    """A package after its size: "15 ounce can", not "15 ounces can be", "six quart pot"."""
    after = words.atoms[end].text
    if phrase.unit.name == "pot" and not (size.system == "metric" and after == "of"):
        return False
    if phrase.words == ("can",) and after in vocabulary().words["verb_after_can"]:
        return False
    return not _is_compound(words, phrase, end)


def sized_piece(words: Words, phrase: UnitPhrase, end: int, size: Unit) -> bool:
    """ "six ounce fillets", "two pound head": a piece that is bought by weight."""
    if _is_compound(words, phrase, end):
        return False
    return size.dimension == "mass" and phrase.unit.name not in vocabulary().words["no_sized_piece"]


def unit_can_stand(words: Words, phrase: UnitPhrase, i: int, end: int, number: Number | None) -> bool:
    """The unit said at [i, end) is a unit here, after ``number`` (None: after "a" or nothing)."""
    dimension = phrase.unit.dimension
    if dimension == "temperature" or not _spelled_so(words, phrase, i, end, number):
        return False
    if dimension == "time":
        return _time_can_stand(words, phrase, i, end, number)
    if dimension in MEASURED:
        if number is not None or phrase.short:
            return True
        return not _is_compound(words, phrase, end) and not (phrase.unit.name == "cup" and _is_place(words, i, end))
    if _is_compound(words, phrase, end) or (words.atoms[end].text == "of" and idle_of(words, end)):
        return False
    if number is None:
        return _alone_can_stand(words, phrase, i, end)
    return _numbered_can_stand(words, phrase, i, end, number)


def _spelled_so(words: Words, phrase: UnitPhrase, i: int, end: int, number: Number | None) -> bool:
    """A short form is said where it can be one: "2 t", "2in"; "mil" is a length only in "three mil thick"."""
    said = phrase.words[0]
    if len(said) == 1 and said != INCH_MARK:
        return number is not None and number.kind in WRITTEN
    if said == "in":
        return number is not None and words.glued(i)
    if said in vocabulary().words["two_units"]:
        is_length = words.atoms[end].text in vocabulary().words["length_after"]
        return number is not None and (phrase.unit.dimension == "length") == is_length
    return True


def _alone_can_stand(words: Words, phrase: UnitPhrase, i: int, end: int) -> bool:
    """After "a" or nothing: "a splash"; "a touch" and "a bowl" only with "of"; not "in a jar", "a can do"."""
    rules = vocabulary().words
    after = words.atoms[end].text
    if phrase.words == ("can",) and after in rules["verb_after_can"]:
        return False
    if _is_place(words, i, end):
        return False
    return phrase.unit.name not in rules["needs_of"] or after == "of" or fraction_after_and(words, end) is not None


def _numbered_can_stand(words: Words, phrase: UnitPhrase, i: int, end: int, number: Number) -> bool:
    """After a number: not "one can use", "the two can be", "give it two turns and"."""
    rules = vocabulary().words
    after = words.atoms[end]
    if phrase.words == ("can",):
        if number.low > 1 and number.kind != "fraction":
            return after.text == "of" or not after.text[:1].isalpha()
        return after.text not in rules["verb_after_can"]
    if phrase.unit.name not in rules["needs_of_number"] or number.kind == "fraction":
        return True
    if after.text == "of" or after.roles & {"break", "comma"}:
        return True
    return phrase.unit.name in rules["content_will_do"] and food_word(words, end) and not _is_place(words, i, end)


def _is_compound(words: Words, phrase: UnitPhrase, end: int) -> bool:
    """ "can opener", "strip steak", "sheet pan": the unit's word is the first half of another word."""
    if not phrase.singular:
        return False
    after = words.atoms[end].text
    rules = vocabulary().words
    return after in rules["no_unit_after"] or (phrase.unit.dimension != "package" and after in rules["no_piece_after"])


def _is_place(words: Words, i: int, end: int) -> bool:
    """ "in a jar", "with a spoon": the unit at [i, end) holds the food, it measures none."""
    atoms = words.atoms
    rules = vocabulary().words
    if atoms[end].text == "of" or not any(said.unit.name in rules["holder"] for said in atoms[i].units):
        return False
    if fraction_after_and(words, end):
        return False  # "in a cup and a half"
    start = i
    while start > max(0, i - LONGEST_LOOK_BACK) and atoms[start - 1].roles & (DESCRIBING | {"determiner"}):
        start -= 1
    return words.phrase_before("holder_before", start)


def _time_can_stand(words: Words, phrase: UnitPhrase, i: int, end: int, number: Number | None) -> bool:
    """ "twenty minutes", not "the second cup", "two weeks ago", "in a minute", "twice a week"."""
    rules = vocabulary().words
    unit = phrase.unit
    if words.phrase("time_ago", end) or words.phrase("minute_small", i):
        return False
    start = _before_number(words, i)
    before = words.atoms[start - 1] if start else None
    if before and unit.name in ("day", "week", "month") and before.text in rules["day_before"]:
        return False
    single = number is None or (number.low == number.high and number.low <= 1)
    if not single or (unit.name == "second" and before and any(said.unit.name == "minute" for said in before.units)):
        return True  # "two minutes one second"
    if unit.name == "second" and number is not None:
        return False
    if number is not None and number.kind not in ("ones", "digits"):
        return True
    if words.phrase_before("per_before", start):
        return False
    if unit.name in ("minute", "second", "day") and words.phrase_before("idle_before", start):
        return False
    if unit.name == "day":  # "one day i will", "it's a good day"
        return before is not None and before.text in rules["one_day_before"]
    return True


def _before_number(words: Words, i: int) -> int:
    """The first atom of the number, article and modifiers that stand before the unit at atom i."""
    atoms = words.atoms
    start = i
    while start > max(0, i - LONGEST_LOOK_BACK):
        atom = atoms[start - 1]
        if not (atom.number or atom.value is not None or atom.roles & DESCRIBING):
            break
        start -= 1
    return start
