"""Amounts said after their food ("the broth, four cups") put before it, as a method has them; none said twice."""

import itertools
from collections.abc import Sequence
from dataclasses import replace

from stovescript.kitchen.foods import food_forms
from stovescript.kitchen.units import units
from stovescript.kitchen.words import wordlist
from stovescript.recipe.binding import bind
from stovescript.speech.heard import Clause, Heard, Mention

from .pieces import Piece, quantity_text


def amounts_first(heard: Heard, clause: Clause, pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with every amount that measures a food before that food."""
    amounts = [m for m in clause.labelled("amount") if m.quantity and m.quantity.kind in _MEASURING]
    bound: dict[int, list[Mention]] = {}
    for binding in bind(heard, amounts, clause.labelled("food")):
        bound.setdefault(binding.food.start, []).append(binding.amount)
    result = list(pieces)
    for food, measures in bound.items():
        result = _measured(heard, result, food, measures)
    kept = [_with_of(result, place) for place in range(len(result)) if not _is_idle_of(result, place)]
    return [_in_number(kept, place) for place in range(len(kept))]


_MEASURING = ("amount", "package", "count", "number")


def _measured(heard: Heard, pieces: list[Piece], food: int, amounts: Sequence[Mention]) -> list[Piece]:
    """The pieces with the amounts of one food in order: a corrected or repeated one goes, the first stands before."""
    kept = list(amounts)
    for one, other in itertools.pairwise(amounts):
        same = one.quantity and other.quantity and _same(one, other)
        if same or set(heard.tokens[one.end : other.start]) & wordlist("correcting"):
            kept.remove(one if not same else other)
            gone = one if not same else other
            pieces = _cut(pieces, gone.start, other.start if gone is one else _remark_end(pieces, other.end))
    after = [amount for amount in kept if amount.start > food and not _another(heard, amount)]
    if not after:
        return pieces
    before = [amount for amount in kept if amount.start < food]
    part = _part_before(heard, pieces, food)
    if part:
        before = [*before, *after[:1]]
    for extra in after[1:] if not before else after:
        pieces = _bracketed(pieces, extra)
    return pieces if before else _moved(pieces, food, after[0])


def _part_before(heard: Heard, pieces: Sequence[Piece], food: int) -> bool:
    """True for "half of the sorghum" and "the rest of the broth", whose amount said after is that of the part."""
    near = {*heard.tokens[max(0, food - 4) : food]}
    parts = wordlist("rest") | {"half", "third", "quarter", "other"}
    return bool(near & parts) and any(food - 4 <= piece.start < food for piece in pieces)


def _another(heard: Heard, amount: Mention) -> bool:
    """True for a count of something else: "another one", "two each"."""
    beside = {*heard.tokens[max(0, amount.start - 1) : amount.start + 1], *heard.tokens[amount.end : amount.end + 1]}
    count = amount.quantity is not None and amount.quantity.kind in ("count", "number")
    return count and bool(beside & {"another", "other", "each", "every", "per", "at", "time"})


def _same(one: Mention, other: Mention) -> bool:
    a, b = one.quantity, other.quantity
    return a is not None and b is not None and (a.low, a.high, a.unit) == (b.low, b.high, b.unit)


def _cut(pieces: Sequence[Piece], start: int, end: int) -> list[Piece]:
    """The pieces without an amount that no longer counts and the words after it; verbs, foods and vessels stay."""
    return [piece for piece in pieces if not (start <= piece.start < end and piece.role in ("amount", "word", "mark"))]


def _remark_end(pieces: Sequence[Piece], start: int) -> int:
    """Where the words after an amount said again end: before the next mention or "and"."""
    for piece in pieces:
        if piece.start >= start and (piece.role != "word" or piece.text in wordlist("parting")):
            return piece.start
    return pieces[-1].end if pieces else start


def _bracketed(pieces: Sequence[Piece], amount: Mention) -> list[Piece]:
    """A second measure in brackets: "3 large onions (12 ounces)"; without the words that only point to it."""
    result: list[Piece] = []
    pointing = wordlist("linking") | wordlist("recalling")
    for piece in pieces:
        if piece.start == amount.start:
            while result and result[-1].role == "word" and result[-1].text in pointing:
                result.pop()
            result.append(replace(piece, text=f"({piece.text})", role="bracket"))
        else:
            result.append(piece)
    return _without_of_it(result, amount.end)


def _moved(pieces: Sequence[Piece], food: int, amount: Mention) -> list[Piece]:
    """The pieces with an amount from behind its food put before it."""
    held = next((piece for piece in pieces if piece.start == amount.start), None)
    at = next((n for n, piece in enumerate(pieces) if piece.start == food and piece.role == "food"), None)
    if held is None or at is None:
        return list(pieces)
    place = pieces.index(held)
    linking = wordlist("linking") | wordlist("lead_words")
    lead = place
    while lead - 1 > at and pieces[lead - 1].role == "word" and pieces[lead - 1].text in linking - _KEPT:
        lead -= 1
    if lead - 1 > at and pieces[lead - 1].role == "action":
        lead = place
    rest = [piece for n, piece in enumerate(pieces) if not lead <= n <= place]
    rest = _without_of_it(rest, amount.end)
    at = next(n for n, piece in enumerate(rest) if piece.start == food and piece.role == "food")
    first = at
    while first and rest[first - 1].role in ("prep", "size") and rest[first - 1].start >= pieces[0].start:
        first -= 1
    stop = first
    while first and rest[first - 1].role == "word" and rest[first - 1].text in _DETERMINERS:
        first -= 1
    adjectives = first
    while adjectives > 0 and stop - adjectives < 2 and _is_adjective(rest[adjectives - 1]) and first == stop:
        adjectives -= 1
    if adjectives and adjectives < first and rest[adjectives - 1].text not in ("of",):
        return [*rest[:adjectives], held, *rest[adjectives:]]
    keeps = [piece for piece in rest[first:stop] if piece.text in ("rest", "other", "remaining")]
    if keeps:
        return list(pieces)
    return [*rest[:first], held, *rest[stop:]]


def _is_adjective(piece: Piece) -> bool:
    """True for a plain word that may stand before a food's name: "warm" water."""
    idle = wordlist("lead_words") | wordlist("place_words") | wordlist("subordinators") | wordlist("parting")
    return piece.role == "word" and piece.text not in idle | _DETERMINERS | wordlist("noun_ends")


_KEPT = frozenset({"and", "then", "with", "in", "out", "up", "there", "to", "on", "of", "off"})
_DETERMINERS = frozenset({"the", "a", "an", "your", "my", "our", "some", "that", "this", "those", "these", "of"})


def _without_of_it(pieces: Sequence[Piece], end: int) -> list[Piece]:
    """The pieces without "of it", "of them", "of that" right after an amount that ended at a token."""
    place = next((n for n, piece in enumerate(pieces) if piece.start >= end), len(pieces))
    pair = [piece.text for piece in pieces[place : place + 2]]
    pointing = ("it", "them", "that", "those", "these", "this")
    after = pieces[place + 2 : place + 3]
    if (
        len(pair) == 2
        and pair[0] == "of"
        and pair[1] in pointing
        and not (after and after[0].role in ("food", "vessel"))
    ):
        return [*pieces[:place], *pieces[place + 2 :]]
    return list(pieces)


def _with_of(pieces: Sequence[Piece], place: int) -> Piece:
    """An amount with a unit right before its food takes "of": "4 cups of chicken broth"."""
    piece = pieces[place]
    if piece.role != "amount" or piece.quantity is None or place + 1 >= len(pieces):
        return piece
    after = pieces[place + 1]
    if after.start > piece.start and after.start == piece.end:
        return piece
    named = piece.quantity.unit or quantity_text(piece.quantity, piece.text).split()[-1].isalpha()
    if after.role == "word" and not _is_adjective(after):
        return piece
    if after.role == "word" and not any(one.role == "food" for one in pieces[place + 2 : place + 3]):
        return piece
    if after.start == piece.end:
        return piece
    if after.role in ("food", "prep", "size", "word") and named and units_measure(piece.quantity.unit):
        return replace(piece, text=f"{piece.text} of")
    return piece


def _in_number(pieces: Sequence[Piece], place: int) -> Piece:
    """A counted food in the plural where the table knows it: "3 eggs"."""
    piece, before = pieces[place], pieces[place - 1] if place else None
    counted = before is not None and before.role == "amount" and before.quantity is not None
    if piece.role != "food" or not counted or before is None or before.quantity is None or before.quantity.unit:
        return piece
    plural = f"{piece.text}s"
    known = food_forms()
    if before.quantity.kind == "count" and before.quantity.low >= 2 and known.get(plural) is not None:
        return replace(piece, text=plural) if known[plural] == known.get(piece.text) else piece
    return piece


def units_measure(unit: str) -> bool:
    """True for any unit, of the table or as said, that "of" follows."""
    known = units().get(unit)
    return bool(unit) and (known is None or known.dimension != "length")


def _is_idle_of(pieces: Sequence[Piece], place: int) -> bool:
    """True for "of" between a bare count and its food: "12 of eggs"."""
    if pieces[place].text != "of" or not place or place + 1 >= len(pieces):
        return False
    before, after = pieces[place - 1], pieces[place + 1]
    counted = before.quantity is not None and before.quantity.kind == "count" and not before.quantity.unit
    plural = after.role == "food" and after.text.endswith("s")
    return before.role == "amount" and counted and plural and before.text[-1:].isdigit()
