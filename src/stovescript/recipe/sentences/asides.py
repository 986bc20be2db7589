"""Her asides: the words of a doing clause that tell a reader nothing to do are left out of the sentence."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from stovescript.kitchen.actions import by_form
from stovescript.kitchen.words import wordlist

from .pieces import TOLD, Piece

_LONGEST_OPENER = 3


def without_asides(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces without remarks; what a stranger must know of them stays, after a semicolon or in brackets."""
    kept: list[Piece] = []
    place = 0
    while place < len(pieces):
        size = _opens(pieces, place, kept)
        if not size:
            kept.append(pieces[place])
            place += 1
            continue
        place = _aside(pieces, place, size, kept)
    return kept


def _opens(pieces: Sequence[Piece], place: int, kept: Sequence[Piece]) -> int:
    """The number of words that open a remark at a place; 0 where none begins."""
    if not any(piece.role == "action" for piece in kept) and not any(piece.role == "food" for piece in kept):
        return 0
    before = pieces[place - 1].text if place else ""
    if pieces[place].role != "word" or (
        before in _SUBORDINATE and not (before == "once" and pieces[place].text == "or")
    ):
        return 0
    first = pieces[place].text
    if before in ("than", "as", "what", "how"):
        return 0
    if first in _OBJECTS and place and (pieces[place - 1].role == "action" or before in _PREPOSITIONS):
        return 0
    if first.split("'")[0] in _OBJECTS and {one.text for one in pieces[max(0, place - 5) : place]} & {"if", "when"}:
        return 0
    words = [piece.text for piece in pieces[place : place + _LONGEST_OPENER] if piece.role == "word"]
    for size in range(len(words), 0, -1):
        if " ".join(words[:size]) in wordlist("aside_openers"):
            follows = pieces[place + size : place + size + 1]
            if words[:size] == ["and", "all"] and follows and follows[0].text not in ("and", "then", ";", ","):
                return 0
            if follows and follows[0].role == "action" and words[0] in wordlist("lead_words"):
                return 0
            return size
    return 0


_SUBORDINATE = wordlist("subordinators") - {"that"}
_PREPOSITIONS = wordlist("place_words") - {"away", "back", "off", "out", "up", "down", "again", "together", "aside"}
_OBJECTS = frozenset({"it", "they", "that", "this"})


def _aside(pieces: Sequence[Piece], place: int, size: int, kept: list[Piece]) -> int:
    """Passes over a remark, keeping what it tells in `kept`; the place after it."""
    opener = " ".join(piece.text for piece in pieces[place : place + size])
    start = place + size
    end = start
    while end < len(pieces) and not _resumes(pieces, end, kept):
        end += 1
    while start < end < len(pieces) and pieces[end].role in ("food", "amount") and pieces[end - 1].text in _JOINED:
        end -= 1
    while kept and kept[-1].role == "word" and kept[-1].text in ("and", "but", "so"):
        kept.pop()
    if opener in ("mine", "whatever's", "whatever you", "my mother") and kept and kept[-1].text in ("on", "in", "for"):
        kept.pop()
    inner = pieces[start:end]
    said = {word for piece in inner for word in piece.text.split()}
    wanted = opener == "you want" and end < len(pieces) and pieces[end].role in ("temp", "cue", "size")
    denied = any(one.role == "food" for one in inner) and bool(said & {"not", "no"}) and opener in _POINTING
    if denied and not said & _PERSONS:
        kept.append(Piece(",", "mark", pieces[place].start, pieces[place].start))
        kept += inner
        return end
    if wanted or (opener in wordlist("aside_kept") and inner and not said & _PERSONS):
        kept.append(Piece(";", "mark", pieces[place].start, pieces[place].start))
        kept += pieces[place:end]
        return end
    if said & wordlist("aside_protected") and not said & _PERSONS - {"your"} and opener not in _IDLE:
        kept.append(Piece(",", "mark", pieces[place].start, pieces[place].start))
        kept += inner
        return end
    kept += [piece for piece in inner if piece.text == "by eye"]
    if end < len(pieces) and _restates(opener, pieces, start, end):
        return _restated(pieces, end, kept)
    return end


_IDLE = frozenset({"i", "i'm", "i've", "we", "he", "she"})
_PERSONS = frozenset({"i", "you", "we", "my", "your", "our", "me", "us", "i'm", "you're", "you'll", "i'll", "mine"})
_POINTING = frozenset(
    {"this is", "that's", "thats", "it's", "its", "these are", "those are", "which is", "here's", "they're", "that is"}
)


def _resumes(pieces: Sequence[Piece], place: int, kept: Sequence[Piece]) -> bool:
    """True where the instruction goes on: a verb, a measure, a new food, or "and" before one of them."""
    piece = pieces[place]
    if piece.role in TOLD or piece.role in ("size", "bracket", "action"):
        return True
    known = {word for one in kept if one.role == "food" for word in one.text.split()}
    if piece.role == "food":
        joined = {one.text for one in pieces[max(0, place - 3) : place]}
        return not set(piece.text.split()) & known and bool(joined & {"and", "then"}) and "not" not in joined
    if piece.role in ("vessel", "appliance"):
        return all(one.text != piece.text for one in kept) and place > 0 and pieces[place - 1].role == "word"
    following = pieces[place + 1 : place + 4]
    joins = piece.text in ("and", "then", "but", "so") and any(
        one.role == "action" or (one.role in TOLD and one.role != "cue") for one in following
    )
    leads = piece.text in _LEADING and bool(following) and (following[0].role in TOLD)
    return joins or leads or (piece.text in ("until", "for") and bool(following[:1]) and following[0].role == "cue")


_JOINED = frozenset({"and", "the", "your", "my", "our", "a", "an", "some", "then", "of"})
_LEADING = frozenset({"on", "for", "at", "to", "over", "about"})


def _restates(opener: str, pieces: Sequence[Piece], start: int, end: int) -> bool:
    """True for "that's like {three minutes}", which tells a value of what was just said."""
    return opener in _POINTING and end - start <= 3 and pieces[end].role in (*TOLD, "size", "food")


def _restated(pieces: Sequence[Piece], place: int, kept: list[Piece]) -> int:
    piece = pieces[place]
    after = pieces[place + 1 : place + 3]
    if piece.role == "size":
        vessel = next((n for n in range(len(kept) - 1, -1, -1) if kept[n].role == "vessel"), None)
        idle = bool(after) and after[0].text in wordlist("appositions")
        if vessel is not None:
            kept.insert(vessel, replace(piece, role="size"))
            return place + 1 + idle
    if piece.role == "amount" and len(after) == 2 and after[0].text == "of" and after[1].role == "food":
        kept.append(Piece(",", "mark", piece.start, piece.start))
        kept += [piece, *after]
        return place + 3
    if piece.role in ("amount", "time", "temp") and any(one.role == piece.role for one in kept):
        kept.append(replace(piece, text=f"({piece.text})", role="bracket"))
        return place + 1
    if piece.role in ("amount", "time", "temp") and pieces[place - 1].text not in _LEADING:
        if piece.role == "time" or piece.role == "temp":
            role_word = "for" if piece.role == "time" else "to"
            kept.append(Piece(role_word, "word", piece.start, piece.start))
            kept.append(piece)
        else:
            kept.append(replace(piece, text=f"({piece.text})", role="bracket"))
        return place + 1
    return place


def apposed(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with a second name put before the first: "yeast the instant one" is "instant yeast"."""
    result = list(pieces)
    place = 0
    while place < len(result):
        piece = result[place]
        if piece.role not in ("food", "vessel"):
            place += 1
            continue
        start = place + 1
        while start < len(result) and result[start].text in ("just", "so", "like", ",", "it's", "they're", "that's"):
            start += 1
        sized = result[start : start + 2]
        if len(sized) == 2 and sized[0].role == "size" and sized[1].text in wordlist("appositions"):
            result[start + 1 : start + 2] = []
            result[place:place] = [result.pop(start)]
            place += 2
            continue
        if start < len(result) and result[start].text in ("the", "a", "that", "this"):
            stop = next((n for n in range(start + 1, min(start + 5, len(result)))
                         if result[n].text in wordlist("appositions")), None)  # fmt: skip
            middle = result[start + 1 : stop] if stop else []
            plain = all(one.role in ("word", "size", "prep") and not _is_verb(one) for one in middle)
            if stop and plain and not {one.text for one in middle} & _NO_ADJECTIVE:
                telling = [one for one in middle if one.text not in wordlist("idle_apposed")]
                result[start : stop + 1] = []
                result[place + 1 : start] = []
                result[place:place] = telling
                place += len(telling)
        place += 1
    return result


_NO_ADJECTIVE = frozenset({"of", "in", "and", "on", "with", "to", "for", "from", "you", "i", "we", "that"})


@cache
def _verbs() -> frozenset[str]:
    return frozenset(form for form, action in by_form().items() if " " not in form and not action.ambiguous)


def _is_verb(piece: Piece) -> bool:
    return piece.text in _verbs() and not piece.text.endswith("ed")
