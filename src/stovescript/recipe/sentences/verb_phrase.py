"""A verb with what is said around it as an imperative phrase: "the onion goes in" is "Add the onion"."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from stovescript.kitchen.actions import Action
from stovescript.kitchen.actions import by_form as actions_by_form
from stovescript.kitchen.words import wordlist

from .nouns import (
    DETERMINERS,
    PLACING,
    SUBJECTS,
    has_object,
    led,
    measured_object,
    noun_phrase,
    placed,
    pronoun_first,
    trimmed,
)
from .order import heat_time_doneness, with_place
from .pieces import Piece

Words = list[Piece | str]
LETTING = frozenset({"let", "lets", "letting"})


@dataclass(frozen=True, slots=True)
class Unit:
    """One verb with the pieces before it, up to the verb before, and those after it, up to the next."""

    before: tuple[Piece, ...]
    verb: Piece
    after: tuple[Piece, ...]


def phrase_of(unit: Unit, handled: str) -> Words:
    """The words of one verb's sentence in order. `handled`: the food that a bare "it" must mean, or ""."""
    before = list(unit.before)
    letting = next((n for n in range(len(before) - 1, -1, -1) if before[n].text in LETTING), None)
    if letting is not None and len(before) - letting <= 6:
        return _let(before[letting + 1 :], noun_phrase(before[:letting]), unit)
    pronoun = next((piece.text for piece in reversed(before) if piece.text in SUBJECTS), "")
    place, rest = placed(led(before))
    if place and place[0].text == "off" and len(place) > 1 and place[1].role in ("food", "amount"):
        place, rest = [], list(before)
    place = trimmed(place)
    thing = noun_phrase(rest)
    after = list(unit.after)
    after += _told_before(before, thing, place, after)
    action, verb = _with_particle(unit.verb, after)
    if (action and action.verb.split()[0] == "go") or (action is None and verb.split()[0] in ("comes", "come")):
        return _gone(action, thing, pronoun, place, after)
    return _done(action, verb, thing, pronoun, place, after, handled)


def _told_before(
    before: Sequence[Piece], thing: Sequence[Piece], place: Sequence[Piece], after: Sequence[Piece]
) -> list[Piece]:
    """The times, levels and signs said before a verb, each with its leading word: "every 3 minutes" you paint."""
    held = {piece.start for piece in (*thing, *place)}
    said = {(piece.role, piece.text) for piece in after}
    told: list[Piece] = []
    for number, piece in enumerate(before):
        if (
            piece.role not in ("time", "level", "temp", "cue")
            or piece.start in held
            or (piece.role, piece.text) in said
        ):
            continue
        if {one.text for one in before[number + 1 :]} & wordlist("correcting") - {"actually"}:
            continue
        behind = before[number + 1].text if number + 1 < len(before) else ""
        if piece.role == "time" and behind in ("back", "ago", "in", "before"):
            ahead = Piece("after" if behind == "in" else "ahead", "word", piece.start, piece.start)
            told += [ahead, piece] if behind == "in" else [piece, ahead]
            continue
        lead = before[number - 1] if number else None
        told += [lead] if lead and lead.text in ("every", "for", "at", "on", "after", "over", "to") else []
        told.append(piece)
        total = before[number + 1 : number + 3]
        told += [one for one in total if one.text in ("total", "all", "told", "altogether", "only")]
    return told


def _let(subject: Sequence[Piece], named: Sequence[Piece], unit: Unit) -> Words:
    """ "You've got to let it" cool is "Let it cool"."""
    thing: Words = [piece for piece in subject if piece.text not in ("just", "go")] or ["it"]
    if _text(thing[0]) in ("it", "them", "that", "those") and len(named) <= 5 and any(p.role == "food" for p in named):
        thing = [*named, *thing[1:]]
    return ["Let", *thing, unit.verb.text, *heat_time_doneness(unit.after)]


def _with_particle(verb: Piece, after: list[Piece]) -> tuple[Action | None, str]:
    """The action of a verb with the particle said after its object, which is taken from `after`: "throw" it "away"."""
    action, said = verb.action, verb.text
    found = _particle(after)
    if " " in said or found is None:
        return action, said
    base = action.verb if action and " " not in action.verb else said
    word = after[found].text
    phrasal = actions_by_form().get(f"{base} {word}")
    if phrasal and " the " not in phrasal.imperative and (phrasal.kind != "heat" or phrasal.imperative[:4] == "Turn"):
        after.pop(found)
        return phrasal, f"{base} {word}"
    if action and _ends_in_particle(action.imperative):
        return None, base
    return action, said


_FIRM = frozenset({"off", "out", "up", "down", "away", "back", "aside", "apart", "together"})


def _particle(after: Sequence[Piece]) -> int | None:
    """Where the particle after a short object stands: "it {up}", "the foil {off}"; None where there is none."""
    for place, piece in enumerate(after[:7]):
        if piece.role != "word":
            if piece.role in ("time", "cue", "temp", "level", "mark"):
                return None
            continue
        if piece.text in wordlist("printed_particles"):
            following = after[place + 1] if place + 1 < len(after) else None
            if following is None or following.role in ("mark", "time", "cue", "temp", "level", "bracket"):
                return place
            if following.role != "word" or following.text in DETERMINERS | {"of", "there", "them", "it", "top", "low"}:
                return None
            return place if piece.text in _FIRM or following.text in wordlist("manner") | {"and", "with"} else None
        if piece.text in wordlist("place_words") | {"and", "of"}:
            return None
    return None


def _ends_in_particle(imperative: str) -> bool:
    words = imperative.split()
    return len(words) == 2 and words[1] in wordlist("printed_particles")


def _gone(action: Action | None, thing: list[Piece], pronoun: str, place: list[Piece], after: list[Piece]) -> Words:
    """ "The strips go in the oven" is "Put the strips in the oven"; "the onion goes in" is "Add the onion"."""
    what: Words = list(thing) or [SUBJECTS.get(pronoun, "it")]
    if not thing and (size := measured_object(after)):
        what, after = [*after[:size]], after[size:]
    verb = action.verb.split() if action else ["come"]
    way = next((word for word in verb if word in ("in", "on", "into", "onto", "over", "down")), "")
    rest: Words = [*with_place(after, place)]
    if action and action.imperative.endswith(" to the pan"):
        return ["Return", *what, *(rest if _is_place(rest) else ["to the pan", *without_in(rest)])]
    while rest and _text(rest[0]) in ("right", "now", "next", "too", "also", "just", "again", "straight"):
        rest.pop(0)
    if way and rest and _text(rest[0]) == "top":
        return ["Put", *what, "on", *rest]
    if way and rest and _starts_thing(rest[0]) and _text(rest[0]) != "on":
        return ["Put", *what, "in" if way == "down" else way, *rest]
    if _is_place(rest):
        vessel = any(isinstance(word, Piece) and word.role in ("vessel", "appliance") for word in rest[:5])
        return ["Put" if vessel or not any(piece.role == "food" for piece in thing) else "Add", *what, *rest]
    return ["Add", *what, *without_in(rest)]


def without_in(words: Sequence[Piece | str]) -> Words:
    """The words without an idle "in", "in there" or "there" at either end."""
    kept: Words = list(words)
    while kept and _text(kept[0]) in ("in", "there", "now", "next", "too") and not _is_place(kept):
        kept.pop(0)
    while kept and _text(kept[-1]) in ("in", "there", "too", "now", "with"):
        kept.pop()
    return kept


def _is_place(words: Sequence[Piece | str]) -> bool:
    return len(words) > 1 and _text(words[0]) in PLACING | {"back", "around", "round"} and _starts_thing(words[1])


def _starts_thing(word: Piece | str) -> bool:
    if isinstance(word, Piece) and word.role in ("vessel", "appliance", "size", "food"):
        return True
    return _text(word) in DETERMINERS | {"top", "in", "on", "into", "with"}


def _text(word: Piece | str) -> str:
    return word if isinstance(word, str) else word.text


def _done(
    action: Action | None, verb: str, thing: list[Piece], pronoun: str, place: list[Piece], after: list[Piece],
    handled: str,
) -> Words:  # fmt: skip
    """Any verb but "go" with its object, said before or after it."""
    head, rest = pronoun_first(after)
    object_: Words = []
    of_it = _of_it(after)
    if thing and head:
        object_ = [*thing]
    elif thing and of_it is not None:
        rest = [*after[:of_it], *thing, *after[of_it + 1 :]]
    elif thing and not has_object(after):
        object_, rest = [*thing], after
    elif thing and any(piece.role in ("food", "amount", "vessel") for piece in thing):
        cut = action is not None and action.kind in ("cut", "remove", "drain")
        rest = [*after, Piece("from" if cut else "with", "word", 0, 0), *thing]
    elif head:
        object_ = [f"the {handled}"] if handled and head[0].text in ("it", "them") else [*head]
    tail: Words = [*with_place(rest, place)]
    if place and tail and _text(tail[0]) in ("in", "there"):
        tail = without_in(tail)
    if verb.split()[0] in ("do", "does", "did", "done", "doing", "have", "has"):
        return _doing([*object_, *tail])
    if not object_ and not tail and pronoun and action and action.kind in ("cut", "wash", "drain", "combine"):
        object_ = [SUBJECTS[pronoun]]
    return _templated(action, verb, object_, tail)


def _of_it(after: Sequence[Piece]) -> int | None:
    """Where "it" stands in "half of it", if that is a verb's object."""
    for place, piece in enumerate(after[:4]):
        if piece.text in ("it", "them", "that", "those") and place and after[place - 1].text == "of":
            following = after[place + 1 : place + 2]
            plain = following and following[0].text in PLACING | {"and", "into", "until", "for", "around"}
            return place if not following or plain or following[0].role in ("time", "cue", "mark") else None
    return None


def _doing(words: Words) -> Words:
    """ "Do" and "have" say nothing by themselves: with a food it is added, with a time the cooking goes on."""
    if [_text(word) for word in words[:2]] == ["a", "look"]:
        return ["Check", *words[2:]]
    if any(isinstance(word, Piece) and word.role == "food" for word in words):
        return ["Add", *without_in(words)]
    if any(isinstance(word, Piece) and word.role == "time" for word in words[:2]):
        return ["Cook", *words]
    return ["Do", *words]


_SHORT = 4  # pieces of an object that may stand between a verb and its particle: "take the chicken out onto a plate"
_OWN_OBJECT = re.compile(r" (?:the (?:pressure|lid|valve|heat|oven|yeast|spices|sugar|seasoning)|pressure come.*)$")


def _templated(action: Action | None, verb: str, object_: Words, tail: Words) -> Words:
    """The verb in its imperative with the object in its place: "Take it out", "Bring the milk to a boil"."""
    imperative = action.imperative if action else verb[:1].upper() + verb[1:]
    words = imperative.split()
    if not object_:
        object_, tail = _taken(tail)
    if imperative == "Add" and object_ and _text(object_[-1]) in ("hands", "hand"):
        return ["Put", *object_, "in", *without_in(tail)]
    if imperative.startswith("Put on the ") and any(
        isinstance(w, Piece) and w.role in ("food", "amount") for w in object_
    ):
        return ["Add", *object_, *tail]
    if action and len(words) == 2 and " " not in action.verb and {_text(word) for word in tail[:3]} & _FIRM:
        return [action.verb.capitalize(), *object_, *tail]
    if action is None and verb in wordlist("intransitive") and object_:
        return ["Let", *object_, verb, *tail]
    if len(words) == 1:
        return [words[0], *object_, *(without_in(tail) if imperative == "Add" else tail)]
    if words[0] == "Let":
        return [words[0], *(object_ or ["it"]), *words[1:], *tail]
    if _OWN_OBJECT.search(imperative):
        return [imperative, *tail]
    if len(words) == 2 and words[1] in wordlist("printed_particles"):
        repeats = bool(tail) and _text(tail[0]) == words[1] and not _is_place(tail)
        tail = tail[1:] if repeats else tail
        pronoun = all(_text(word) in wordlist("object_pronouns") for word in object_)
        onward = words[1] in ("out", "off", "up") and bool(tail) and _text(tail[0]) in PLACING | {"of"} - {"with"}
        if object_ and (pronoun or (onward and len(object_) <= _SHORT)):
            return [words[0], *object_, words[1], *tail]
        if (tail and _text(tail[0]) == words[1]) or (object_ and words[1] in ("over", "on") and _is_place(tail)):
            return [words[0], *object_, *tail]
        return [imperative, *object_, *tail]
    if object_ and words[1] in wordlist("place_words") | {"dry", "until", "well"}:
        inner = [] if tail and _text(tail[0]) == words[1] else words[1:]
        return [words[0], *object_, *inner, *tail]
    return [imperative, *object_, *tail]


def _taken(tail: Words) -> tuple[Words, Words]:
    """The object at the head of a tail, up to the first word of place, time or manner."""
    stops = wordlist("place_words") | wordlist("subordinators") | wordlist("manner") | {"and"}
    first = tail[0] if tail else ""
    named = isinstance(first, Piece) and (first.is_thing or first.text in DETERMINERS | wordlist("object_pronouns"))
    if _text(first) in stops - DETERMINERS:
        return [], tail
    if not named and not (len(tail) > 1 and isinstance(tail[1], Piece) and tail[1].is_thing):
        return [], tail
    end = 0
    for word in tail:
        if isinstance(word, Piece) and word.role in ("time", "temp", "level", "cue", "mark"):
            break
        if end and _text(word) in stops and not (isinstance(word, Piece) and word.role == "food"):
            break
        end += 1
    return tail[:end], tail[end:]
