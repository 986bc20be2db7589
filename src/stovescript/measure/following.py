"""Looks at the words around a number or unit: is it a unit, a verb, a place, a pronoun or an idiom here?"""

from stovescript.kitchen.units import Unit

from .numbers import Number
from .vocabulary import UnitPhrase, vocabulary
from .words import Words

PLAIN_MEASURES = frozenset({"volume", "mass", "time", "length", "temperature"})


def food_word(words: Words, i: int) -> bool:
    """A word at atom i that may name a thing: no number, no mark, no unit, none of the little words."""
    atom = words.atoms[i]
    text = atom.text
    return text[:1].isalpha() and not atom.number and atom.value is None and "function" not in atom.roles


def counted(words: Words, i: int, kind: str = "") -> str:
    """What stands after a number that ends at atom i: "food", "idle" (kids, times, percent) or "nothing"."""
    j = i + (kind == "few" and words.atoms[i].text == "of")
    while True:
        if words.phrase("not_counted", j) or any(p.unit.dimension == "time" for p in words.atoms[j].units):
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
    return words.atoms[i + 1].text == "course" or bool(words.phrase("not_counted", i + 1))


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
    return size.dimension == "mass" and phrase.unit.name not in ("part", "leaf", "stick of butter")


def unit_can_stand(words: Words, phrase: UnitPhrase, i: int, end: int, number: Number | None) -> bool:
    """The unit said at [i, end) is a unit here, after ``number`` (None: after "a" or nothing)."""
    unit = phrase.unit
    said = phrase.words[0]
    atoms = words.atoms
    after = atoms[end]
    rules = vocabulary().words
    if len(said) == 1 and said != '"' and not (number and number.kind in ("digits", "mixed")):
        return False
    if said == "in" and not (words.glued(i) and number):
        return False
    if unit.dimension == "temperature":
        return False
    if unit.dimension == "time":
        return _time_can_stand(words, phrase, i, end, number)
    if said in ("mil", "mils"):
        return number is not None and (unit.dimension == "length") == (after.text in rules["length_after"])
    if unit.dimension in PLAIN_MEASURES:
        if unit.name == "cup" and number is None and _is_place(words, i, end):
            return False
        if after.text == "of" and unit.dimension != "length" and idle_of(words, end):
            return False
        return number is not None or phrase.short or not (_is_compound(words, phrase, end) or after.text == "cake")
    if _is_compound(words, phrase, end):
        return False
    if said == "can" and after.text in rules["verb_after_can"]:
        return False
    if after.text == "of" and idle_of(words, end):
        return False
    if number is None:
        if _is_place(words, i, end):
            return False
        return unit.name not in rules["needs_of"] or after.text == "of"
    if unit.name in rules["needs_of_number"]:
        if after.text == "of" or "break" in after.roles or "comma" in after.roles:
            return True
        return unit.name in rules["content_will_do"] and food_word(words, end) and not _is_place(words, i, end)
    if said == "can" and number.low > 1 and number.kind != "fraction":
        return after.text == "of" or not after.text[:1].isalpha()
    return True


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
    if atoms[end].text in ("of", "and"):
        return False
    if atoms[i].text not in vocabulary().words["holder"] and not any(
        phrase.unit.name in vocabulary().words["holder"] for phrase in atoms[i].units
    ):
        return False
    j = i - 1
    while j >= 0 and j > i - 4 and atoms[j].roles & {"article", "modifier_exact", "modifier_loose", "determiner"}:
        j -= 1
    return j >= 0 and (atoms[j].text in vocabulary().words["holder_before"])


def _time_can_stand(words: Words, phrase: UnitPhrase, i: int, end: int, number: Number | None) -> bool:
    """ "twenty minutes", not "the second cup", "two weeks ago", "in a minute", "twice a week"."""
    atoms = words.atoms
    rules = vocabulary().words
    unit = phrase.unit
    if words.phrase("time_ago", end) or words.phrase("minute_small", i):
        return False
    single = number is None or (number.low == number.high and number.low <= 1)
    if unit.name == "second" and single and number is not None:
        return False
    j = i - 1
    while j > 0 and (atoms[j].roles & {"article", "modifier_exact", "modifier_loose"} or atoms[j].number):
        j -= 1
    before = atoms[j].text if j >= 0 else ""
    if single and (number is None or number.kind in ("ones", "digits")):
        if words.phrase_before("per_before", j + 1):
            return False
        if unit.name in ("minute", "second", "day") and words.phrase_before("idle_before", j + 1):
            return False
        if unit.name == "day" and number is not None and before not in ("for", "about", "least", "to", "or", "within"):
            return False
    if unit.name in ("day", "week", "month") and before in rules["day_before"]:
        return False
    return atoms[end].text not in ("ago", "old")
