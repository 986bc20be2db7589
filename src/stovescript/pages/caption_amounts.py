"""Amounts said in words, as digits: "two and a half cups" is "2 1/2 cups"; all else stays as it was said."""

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise

from stovescript.kitchen.units import unit_called
from stovescript.measure import Quantity, find_quantities, number_at
from stovescript.measure.text import number_text
from stovescript.measure.vocabulary import vocabulary
from stovescript.measure.words import lex
from stovescript.pages.caption_lines import CaptionLines, Edit
from stovescript.recipe.draft import Draft

_KINDS = frozenset({"amount", "package", "temperature", "duration", "dimension"})
_LOOSE_NUMBERS = frozenset({"few", "pair", "dozen"})
"""Kinds of number words that are no figure: a couple, a few, a dozen."""
_ARTICLES = frozenset({"a", "an"})
_AROUND = 12
"""Words on either side that decide what a number is; the longest number has 14."""
_EDGE = re.compile(r"^([^\w½⅓⅔¼¾⅛]*).*?([^\w½⅓⅔¼¾⅛%°]*)$")


def amount_edits(lines: CaptionLines, draft: Draft, others: Iterable[Edit]) -> list[Edit]:
    """The edits that write amounts in digits, where no other edit is made.

    Amounts of food, packages, times, heats and sizes; a bare count only where the draft has it as an amount of a
    food ("eight tortillas", never "two of these"). "A cup" has no number and stays. An amount whose digits would not
    be read back as the same amount, or that goes over two lines and would empty one, is left in words.
    """
    taken = {place for edit in others for place in range(edit.start, edit.end)}
    words = [word.lower() for word in lines.stream]
    edits: list[Edit] = []
    for quantity in find_quantities(words):
        wanted = quantity.kind in _KINDS or (quantity.kind == "count" and _is_of_food(lines, quantity, draft))
        if not wanted or taken & set(range(quantity.start, quantity.end)):
            continue
        made = _in_digits(words, quantity)
        if made and all(map(lines.allows, made)) and _reads_the_same(words, quantity, made):
            edits += [_with_edges(lines.stream, edit) for edit in made]
    return edits


def in_digits(text: str) -> str:
    """A sentence with its amounts, times, heats and sizes in digits, the units as they were said."""
    stream = text.split()
    words = [word.lower() for word in stream]
    for quantity in reversed(find_quantities(words)):
        made = _in_digits(words, quantity) if quantity.kind in _KINDS else []
        if made and _reads_the_same(words, quantity, made):
            for edit in sorted((_with_edges(stream, edit) for edit in made), key=lambda edit: -edit.start):
                stream[edit.start : edit.end] = edit.words
    return " ".join(stream)


def _is_of_food(lines: CaptionLines, quantity: Quantity, draft: Draft) -> bool:
    """True where the draft has the count as an amount of a food, heard about then."""
    shown = lines.lines[lines.line_of[quantity.start]]
    return any(
        use.amount is not None
        and (use.amount.unit, use.amount.low, use.amount.high) == ("", quantity.low, quantity.high)
        and any(one.start <= shown.gone and shown.start <= one.end for one in use.evidence)
        for ingredient in draft.ingredients
        for use in ingredient.uses
    )


def _in_digits(words: Sequence[str], quantity: Quantity) -> list[Edit]:
    """The edits for one quantity; none where it says no number in words."""
    size = quantity.size
    if size is None:
        made = _numbers(words, quantity.start, quantity.end, fractions=quantity.kind != "duration")
        side_by_side = any(one.end == other.start for one, other in pairwise(made))
        return [] if side_by_side else made  # "five six cloves" would be read as 56
    return [
        *_numbers(words, quantity.start, size.start),
        *_size(words, size),
        *_numbers(words, size.end, quantity.end),
    ]


def _numbers(words: Sequence[str], start: int, end: int, fractions: bool = True) -> list[Edit]:
    """Every number in [start, end) that is said in words. Without `fractions` "half an hour" stays as it is."""
    edits: list[Edit] = []
    place = start
    while place < end:
        read = number_at(words[place:end], 0)
        if read is None:
            place += 1
            continue
        value, stop = read[0], place + read[1]
        said = words[place:stop]
        if value < 1 and place - 1 > start and words[place - 1] == "and":
            edits = _unit_and_part(words, start, place, stop, value, edits)
        elif said == ["one"] and place and words[place - 1] in vocabulary().words["one_before"]:
            pass  # "on every one", "the big one": a pronoun
        elif _is_spoken(said) and (text := _figure(said, value)) and (value >= 1 or fractions):
            stop = _past_article(words, stop, end) if value < 1 else stop
            edits.append(Edit(place, stop, tuple(text.split())))
        place = stop
    return edits


def _unit_and_part(
    words: Sequence[str], start: int, place: int, stop: int, part: float, edits: list[Edit]
) -> list[Edit]:
    """ "a cup and a half", "two pounds and a quarter": the number goes together before the unit."""
    at = place - 2
    unit = unit_called(words[at])
    text = _figure(words[place:stop], part)
    if unit is None or text is None or at < start:
        return edits
    if edits and edits[-1].end == at and edits[-1].words[-1].isdecimal():
        *edits, before = edits
        begins, whole = before.start, float(before.words[0])
    elif at > start and words[at - 1].isdecimal():
        begins, whole = at - 1, float(words[at - 1])
    elif at > start and words[at - 1] in _ARTICLES:
        begins, whole = at - 1, 1.0
    elif at == start:
        begins, whole = at, 1.0
    else:
        return edits
    named = words[at] if words[at].endswith("s") else unit.plural
    return [*edits, Edit(begins, stop, (*number_text(whole + part).split(), *named.split()))]


def _size(words: Sequence[str], size: Quantity) -> list[Edit]:
    """The size of a package as an adjective: "fifteen ounce" is "15-ounce", "fourteen and a half" 14.5."""
    read = number_at(words[size.start : size.end], 0)
    if read is None or read[0] != size.low or size.low != size.high or not _is_spoken(words[size.start : size.end]):
        return _numbers(words, size.start, size.end)
    unit = words[size.start + read[1] : size.end]
    if not unit or (size.low < 1 and unit[0] in _ARTICLES | {"of"}):
        return []
    return [Edit(size.start, size.end, ("-".join([f"{size.low:g}", *unit]),))]


def _is_spoken(said: Sequence[str]) -> bool:
    """True where a number is said in words, and as a figure: not "2", not "a couple"."""
    atoms = [atom for word in said for atom in lex(word)]
    if any(atom.number and atom.number.kind in _LOOSE_NUMBERS for atom in atoms):
        return False
    return any(atom.number is not None for atom in atoms)


def _figure(said: Sequence[str], value: float) -> str | None:
    """The number as a cook writes it; None for a part that no measure has ("a fifth")."""
    if "point" in said:
        return f"{value:g}"
    text = number_text(value)
    return None if "." in text else text


def _past_article(words: Sequence[str], stop: int, end: int) -> int:
    """Past the "a" of "half a cup" and the "of a" of "three quarters of a cup"."""
    of = stop + 1 if stop < end and words[stop] == "of" else stop
    return of + 1 if of < end and words[of] in _ARTICLES else stop


def _reads_the_same(words: Sequence[str], quantity: Quantity, edits: Sequence[Edit]) -> bool:
    """True where the words around are understood with the digits as they were without."""
    first, last = max(0, quantity.start - _AROUND), min(len(words), quantity.end + _AROUND)
    changed: list[str] = []
    place = first
    for edit in edits:
        changed += [*words[place : edit.start], *edit.words]
        place = edit.end
    changed += words[place:last]
    return list(map(_meaning, find_quantities(words[first:last]))) == list(map(_meaning, find_quantities(changed)))


def _meaning(quantity: Quantity) -> tuple[object, ...]:
    size = _meaning(quantity.size) if quantity.size else None
    low, high = round(quantity.low, 6), round(quantity.high, 6)
    return (quantity.kind, low, high, quantity.unit, quantity.approximate, size, quantity.sides)


def _with_edges(stream: Sequence[str], edit: Edit) -> Edit:
    """The edit with the punctuation of the words that it replaces."""
    opening, closing = _EDGE.match(stream[edit.start]), _EDGE.match(stream[edit.end - 1])
    words = list(edit.words)
    words[0] = (opening[1] if opening else "") + words[0]
    words[-1] += closing[2] if closing else ""
    return Edit(edit.start, edit.end, tuple(words))
