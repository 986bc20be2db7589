"""The verbs of a clause, each with its own words; verbs that only go with another, and parts that stand alone."""

import itertools
from collections.abc import Sequence
from dataclasses import replace

from stovescript.kitchen.actions import by_form as actions_by_form
from stovescript.kitchen.words import wordlist

from .nouns import JOINTS, clause_first, led, noun_phrase, placed
from .pieces import Piece, verb_of
from .verb_phrase import LETTING, Unit
from .verbless import is_lid


def units_of(pieces: Sequence[Piece]) -> list[Unit]:
    """The verbs of a clause, each with its own words; a verb that only goes with another stays among its words."""
    places = [n for n, piece in enumerate(pieces) if piece.role == "action"]
    carried = {place for place in places if _is_under(pieces, place)}
    for one, other in itertools.pairwise(places):
        if _carries(pieces, one, other):
            carried.add(other)
    places = [place for place in places if place not in carried]
    units: list[Unit] = []
    if not places:
        return []
    before = list(pieces[: places[0]])
    for place, following in zip(places, [*places[1:], len(pieces)], strict=True):
        after, rest = list(pieces[place + 1 : following]), list[Piece]()
        if following < len(pieces):
            after, rest = _parted(after)
        units.append(Unit(tuple(before), pieces[place], tuple(after)))
        before = rest
    return units


def _is_under(pieces: Sequence[Piece], place: int) -> bool:
    """True for the verb of a clause under another: "when you shake", "before you lift them out"."""
    opens = {"until", "when", "before", "after", "while", "once", "if", "as", "where", "without"}
    near = [piece.text for piece in pieces[max(0, place - 2) : place]]
    if near[:1] == ["after"] and all(piece.text in wordlist("lead_words") for piece in pieces[: place - 2]):
        return False
    if near[-1:] and near[-1] in opens:
        return True
    return len(near) == 2 and near[0] in opens and near[1] in ("you", "it", "they", "i", "we", "she", "he", "to")


def _carries(pieces: Sequence[Piece], one: int, other: int) -> bool:
    """True where the first of two verbs only carries the second: "let it simmer", "give them a flip"."""
    light = pieces[one].text.split()[0]
    between = pieces[one + 1 : other]
    words = [piece.text for piece in between]
    if light not in wordlist("light_verbs") or {"and", "then"} & set(words):
        return False
    if light in ("let", "lets", "letting", "give", "gives", "keep", "help", "leave"):
        return len(between) <= 6
    return len(between) <= 1 and all(word in wordlist("object_pronouns") for word in words)


def _parted(pieces: list[Piece]) -> tuple[list[Piece], list[Piece]]:
    """The words between two verbs: what belongs to the first, and what stands before the second."""
    joints = [n for n, piece in enumerate(pieces) if piece.role == "word" and piece.text in JOINTS]
    apart = [n for n in joints if not _joins_nouns(pieces, n)]
    if apart or joints:
        joint = (apart or joints)[-1]
        if (
            pieces[joint].text == "so"
            and pieces[joint + 1 :]
            and pieces[joint + 1].text in ("it", "they", "the", "them")
        ):
            return list(pieces), []
        head, tail = pieces[:joint], pieces[joint + 1 :]
        while head and head[-1].role == "word" and head[-1].text in JOINTS:
            head.pop()
        return head, tail
    kept = list(pieces)
    subject: list[Piece] = []
    idle = wordlist("lead_words") - {"it", "them", "that", "those", "this", "these", "again"}
    while kept and kept[-1].role == "word" and kept[-1].text in idle | {"or", "don't", "never"}:
        subject.insert(0, kept.pop())
    for size in (1, 2):
        if len(kept) >= size and kept[-size].text in LETTING:
            return kept[:-size], [*kept[-size:], *subject]
    return kept, subject


def own_part(unit: Unit) -> tuple[list[Piece], Unit]:
    """The first verb's words without an earlier part that is a sentence of its own, and that part.

    "A pinch of salt and toss it" adds the salt first; "lid on and blend" puts the lid on first.
    """
    before = list(unit.before)
    if clause_first(before):
        return [], unit
    for place in range(len(before) - 1, -1, -1):
        if before[place].role != "word" or before[place].text not in JOINTS or _joins_nouns(before, place):
            continue
        if [piece.text for piece in before[place + 1 :]] == ["all"]:
            continue
        left, right = before[:place], before[place + 1 :]
        thing = noun_phrase(left)
        told = bool({piece.role for piece in left} & {"temp", "level", "time", "program", "vessel", "appliance"})
        only_thing = any(piece.role in ("food", "amount") for piece in left) and not told
        if noun_phrase(right) or placed(led(right))[0] or any(piece.text in LETTING for piece in right):
            return (left if told or only_thing or is_lid(led(left)) else []), Unit(tuple(right), unit.verb, unit.after)
        if only_thing and (before[place].text != "and" or _takes_object(unit)):
            return [], Unit(tuple(left), unit.verb, unit.after)
        if only_thing or told or is_lid(led(left)) or (thing and led(left)[0].text in actions_by_form()):
            return left, Unit(tuple(right), unit.verb, unit.after)
        return [], Unit(tuple(right), unit.verb, unit.after)
    return [], unit


def _takes_object(unit: Unit) -> bool:
    """True for a verb that does to the food what is done before it is added, or adds it itself."""
    action = unit.verb.action
    if "in" in [piece.text for piece in unit.after[:3]]:
        action = actions_by_form().get(f"{unit.verb.text} in", action)
    return action is not None and (action.adds or action.kind in ("cut", "wash", "drain", "melt"))


def _joins_nouns(pieces: Sequence[Piece], place: int) -> bool:
    """True for "and" between two things that are one object: "the onion and the celery"."""
    if pieces[place].text != "and" or not place:
        return False
    before, following = pieces[place - 1], pieces[place + 1 : place + 3]
    return before.role in ("food", "prep", "amount", "bracket") and any(
        piece.role in ("food", "amount", "size", "prep") for piece in following
    )


def with_verb(pieces: list[Piece]) -> list[Piece]:
    """The pieces; where no verb was heard, the word that begins them or follows "you" is one if it can be."""
    if any(piece.role == "action" for piece in pieces):
        return pieces
    start = len(pieces) - len(led(pieces))
    going = next(
        (n for n, p in enumerate(pieces[:-1]) if n and p.text in ("go", "goes") and pieces[n + 1].text in _INTO), 0
    )
    under = any(piece.text in wordlist("subordinators") for piece in pieces[:going])
    if going and not under and any(piece.is_thing for piece in pieces[:going]):
        text, action = verb_of("goes")
        return [*pieces[:going], replace(pieces[going], role="action", text=text, action=action), *pieces[going + 1 :]]
    for place, piece in enumerate(pieces):
        if piece.role != "word" or piece.text not in actions_by_form():
            continue
        told = place and pieces[place - 1].text in ("you", "gonna", "i'm", "we")
        plain = not actions_by_form()[piece.text].ambiguous or piece.text in wordlist("orders")
        if plain and (told or (place == start and place + 1 < len(pieces))):
            text, action = verb_of(piece.text)
            return [*pieces[:place], replace(piece, role="action", text=text, action=action), *pieces[place + 1 :]]
    return pieces


_INTO = frozenset({"in", "into", "on", "onto", "back", "over", "right"})
