"""A clause cut into the pieces that a sentence is made of: foods by name, amounts in figures, words as they are."""

import itertools
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from stovescript.kitchen.actions import Action
from stovescript.kitchen.actions import by_form as actions_by_form
from stovescript.kitchen.appliances import by_form as appliances_by_form
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.misheard import misheard
from stovescript.kitchen.panel import appliance_named, program_text
from stovescript.kitchen.sounds import alike
from stovescript.kitchen.units import by_spoken, units
from stovescript.kitchen.vessels import by_form as vessels_by_form
from stovescript.kitchen.words import wordlist
from stovescript.measure import Quantity, to_text
from stovescript.recipe.verbs import action_named
from stovescript.speech.heard import Clause, Heard, Mention
from stovescript.speech.words import singular


@dataclass(frozen=True, slots=True)
class Piece:
    """Some words of a sentence. `role` is a mention's label, "word" for one plain word, "mark" for punctuation."""

    text: str
    role: str
    start: int
    end: int
    quantity: Quantity | None = None
    action: Action | None = None

    @property
    def is_thing(self) -> bool:
        """True for what can be an object: a food, an amount, a vessel."""
        return self.role in THINGS


THINGS = ("food", "amount", "size", "prep", "vessel", "appliance", "program")
TOLD = ("amount", "time", "temp", "level", "cue", "program")
"""Roles of which nothing may be lost."""
_ONE_WORD = re.compile(r"[^\W_]")
_DEGREES = re.compile(r"\bdegrees (°[FC])")


def pieces_of(heard: Heard, clause: Clause, names: Mapping[int, str]) -> list[Piece]:
    """The pieces of a clause in the order said. `names` gives the food's name by the first token of its mention."""
    pieces: list[Piece] = []
    mentions = {mention.start: mention for mention in reversed(clause.mentions)}
    token = swallowed = clause.start
    while token < clause.end:
        mention = mentions.get(token)
        if mention:
            pieces.append(_mentioned(heard, mention, mention.end, names))
            if mention.quantity and mention.label in ("amount", "time", "temp"):
                swallowed = max(swallowed, mention.quantity.end)
            token = max(mention.end, token + 1)
            continue
        if token < swallowed and heard.tokens[token] != "of":  # the words of a slip: "no sorry one teaspoon"
            token += 1
            continue
        token += _word_at(heard, token, clause.end, mentions, pieces)
    return _particles_joined(_tools_repaired(_without_doubles(pieces)))


def _word_at(heard: Heard, token: int, end: int, mentions: Mapping[int, Mention], pieces: list[Piece]) -> int:
    """Adds the word, or the mis-heard phrase, that begins at a token; the number of tokens taken."""
    known = misheard("phrase")
    for size in range(4, 1, -1):
        stop = token + size
        phrase = " ".join(heard.tokens[token:stop])
        if stop <= end and phrase in known and not any(token <= start < stop for start in mentions):
            pieces.append(Piece(known[phrase], "word", token, stop))
            return size
    word = heard.tokens[token]
    if _ONE_WORD.search(word):
        word = {"em": "them", "'em": "them", "till": "until", "til": "until", "'til": "until"}.get(word, word)
        pieces.append(Piece(word, "word", token, token + 1))
    return 1


def _mentioned(heard: Heard, mention: Mention, end: int, names: Mapping[int, str]) -> Piece:
    said = " ".join(word for word in heard.tokens[mention.start : end] if _ONE_WORD.search(word))
    quantity = mention.quantity
    text, action = said, None
    if mention.label == "food":
        text = names.get(mention.start, said)
    elif mention.label in ("amount", "time", "temp") and quantity:
        text = quantity_text(quantity, said) + _food_inside(said)
    elif mention.label == "size" and quantity and quantity.kind == "dimension":
        text = quantity_text(quantity, said)
    elif mention.label in ("vessel", "appliance"):
        text = tool_name(said)
    elif mention.label == "program":
        text = program_text(said)
    elif mention.label == "action" and said not in wordlist("printed_particles") - {"back"}:
        text, action = verb_of(said)
    elif mention.label == "cue":
        text = _cue_text(said)
    return Piece(text, mention.label, mention.start, end, quantity, action)


_CORRECTED_FOOD = re.compile(r"\bof (?:the )?([a-z ]+?) (?:no|sorry|wait|actually|i mean)\b")


def _food_inside(said: str) -> str:
    """The food that an amount's own words name: "two teaspoons of cumin no sorry one teaspoon"; else ""."""
    found = _CORRECTED_FOOD.search(said)
    return f" of {found[1]}" if found and food_named(found[1]) else ""


def _cue_text(said: str) -> str:
    """A sign of doneness as said, with what captions mis-heard in it put right."""
    text = re.sub(r"^(?:just )?'?till?\b", "until", said)
    for heard, meant in misheard("phrase").items():
        text = re.sub(rf"\b{re.escape(heard)}\b", meant, text)
    return re.sub(r"(?<![\w'])'?em\b", "them", text)


def quantity_text(quantity: Quantity, said: str) -> str:
    """An amount in figures; parts ("half") and measures that no table knows ("a little bit") as they were said."""
    if quantity.kind == "duration" and said in ("overnight", "all night", "all day"):
        return said
    if quantity.kind == "fraction" or (quantity.unit and quantity.unit not in units() and quantity.kind == "amount"):
        words = [word for word in said.split() if word not in wordlist("print_dropped") | {"like", "my"}]
        return " ".join(words)
    if (
        quantity.approximate
        and quantity.unit
        and quantity.low == quantity.high == 1
        and not _says(said, quantity.unit)
    ):
        return said
    text = _DEGREES.sub(r"\1", to_text(quantity))
    return f"{text} more" if quantity.kind == "duration" and said.split()[0] == "another" else text


def _says(said: str, unit: str) -> bool:
    """True where some words of an amount name its unit, or sound like it."""
    known = by_spoken()
    words = said.split()
    pairs = [*words, *("".join(pair) for pair in itertools.pairwise(words)), words[-1]]
    return any(word in known and known[word][0].name == unit for word in pairs) or unit in said


_BY_SOUND = 80.0  # how alike a mis-heard verb or tool must be to one of the table


@cache
def tool_name(said: str) -> str:
    """A vessel's or an appliance's name as said, or that of the table which it was mis-heard from."""
    if vessel := vessels_by_form().get(said):
        return _meant(said, vessel.name)
    if found := misheard("tool").get(said):
        return found
    if (named := appliance_named(said)) and (said in appliances_by_form() or said in named.unsure_forms):
        return _meant(said, named.name)
    if " " in said:  # "cheat pan": one word alone is too little to tell by sound
        likeness, form = max((alike(said, form), form) for form in (*vessels_by_form(), *appliances_by_form()))
        if likeness >= _BY_SOUND:
            return form
        first, last = said.rsplit(" ", 1)
        return f"{first} {misheard('tool').get(last, last)}"
    return said


def _meant(said: str, name: str) -> str:
    """The table's name where what was said only sounds like it ("hair fryer"), else her own word for the thing."""
    if singular(said) == name or alike(said, name) < _SOUNDS_LIKE or _whole_words(said, name):
        return said
    return name


_SOUNDS_LIKE = 66.0  # how alike a form and its name must be for the form to be a mis-hearing and no other word


def _whole_words(said: str, name: str) -> bool:
    """True where one of the two is the other with a word more or less: "big pan", "cast iron"."""
    return set(said.split()) <= set(name.split()) or set(name.split()) <= set(said.split())


@cache
def verb_of(said: str) -> tuple[str, Action | None]:
    """A verb phrase as said or as it must have been meant, and its row of the table where it has one."""
    forms, wrong = actions_by_form(), misheard("verb")
    if said in forms:
        return said, forms[said]
    words = said.split()
    if said in wrong:
        return wrong[said], forms.get(wrong[said])
    if " ".join(words[:1]) in wordlist("plain_verbs"):
        return said, forms.get(said)
    if words[0] in wrong:
        meant = " ".join([wrong[words[0]], *words[1:]])
        return meant, action_named(meant)
    if said.endswith("s") and said[:-1] in wordlist("plain_verbs"):
        return said[:-1], forms.get(said[:-1])
    if words[0] in wordlist("light_verbs"):
        return said, None
    if words[0] in forms or len(words) > 1:
        return said, action_named(said)
    likeness, form = max((alike(said, form), form) for form in forms if " " not in form)
    return (form, forms[form]) if likeness >= _BY_SOUND else (said, None)


def _without_doubles(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces without words said twice: "rub rub", "really really", "stir stir stir"."""
    kept: list[Piece] = []
    for piece in pieces:
        if kept and kept[-1].text == piece.text and kept[-1].role == piece.role and piece.text not in ("that",):
            continue
        if piece.role == "action" and len(set(piece.text.split())) == 1:
            piece = replace(piece, text=piece.text.split()[0])
        kept.append(piece)
    return kept


_ARTICLES = frozenset(
    {"a", "an", "the", "your", "my", "our", "that", "this", "with", "in", "on", "into", "off", "two"}
)


def _tools_repaired(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with mis-heard names of tools put right where a tool must be: after an article, before no noun."""
    result = list(pieces)
    wrong = misheard("tool")
    for place, piece in enumerate(pieces):
        before = pieces[place - 1] if place else None
        if place > 1 and before and before.role == "word" and pieces[place - 2].text in _ARTICLES:
            before = pieces[place - 2] if before.text not in _AFTER_NOUN else before
        if piece.text == "hole" and place + 1 < len(pieces) and pieces[place + 1].role in ("vessel", "food"):
            result[place] = replace(piece, text="whole")
        if piece.text == "them" and place + 1 < len(pieces) and pieces[place + 1].role in ("food", "amount"):
            result[place] = replace(piece, text="the") if piece.role == "word" else piece
        if piece.role == "word" and piece.text in wrong and before and before.text in _ARTICLES:
            after = pieces[place + 1] if place + 1 < len(pieces) else None
            if after is None or after.role not in ("word", "food", "size", "vessel") or after.text in _AFTER_NOUN:
                result[place] = replace(piece, text=wrong[piece.text])
    return result


_AFTER_NOUN = (
    wordlist("place_words") | wordlist("subordinators") | wordlist("lead_words") | {"of", "or", "all", "very", "round"}
)


def _particles_joined(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with each particle tagged apart given to its verb: "throw" this water "out"."""
    result: list[Piece] = []
    for piece in pieces:
        lone = piece.role == "action" and piece.text in wordlist("printed_particles")
        if not lone:
            result.append(piece)
            continue
        verb = next((n for n in range(len(result) - 1, -1, -1) if result[n].role == "action"), None)
        if verb is None and piece.text not in ("in", "on", "over"):
            result.append(piece if piece.text == "back" else replace(piece, role="word"))
        elif verb is None:
            result.append(replace(piece, role="word") if _goes_after(pieces, piece) else _going(piece))
        else:
            result.append(replace(piece, role="word"))
    return result


def _goes_after(pieces: Sequence[Piece], particle: Piece) -> bool:
    """True for "in it goes", whose particle is no verb."""
    place = pieces.index(particle)
    return any(piece.role == "action" for piece in pieces[place + 1 : place + 4])


def _going(particle: Piece) -> Piece:
    """The verb of "garlic in", which has none."""
    return replace(particle, text="go in", action=actions_by_form()["go in"])


def words_of(pieces: Sequence[Piece]) -> Iterator[str]:
    """The single words of some pieces."""
    for piece in pieces:
        yield from piece.text.split()
