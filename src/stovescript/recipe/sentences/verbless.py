"""Words in which no verb was heard: a food is added, a setting is set, a time belongs to the sentence before."""

from collections.abc import Sequence

from stovescript.kitchen.actions import by_form as actions_by_form
from stovescript.kitchen.words import wordlist

from .neutral import neutral
from .nouns import DETERMINERS, JOINTS, PLACING, led, noun_phrase, placed
from .order import heat_time_doneness, with_place
from .pieces import Piece
from .sentence import Sentence
from .verb_phrase import Words, without_in


def without_verb(pieces: Sequence[Piece]) -> list[Sentence]:
    """Words that name no action: a food is added, a setting is set, a time or sign belongs to the sentence before."""
    wanted = next((n for n, piece in enumerate(pieces) if piece.text == "want"), None)
    if wanted is not None and any(piece.role in ("cue", "temp") for piece in pieces[wanted:]):
        return [Sentence(neutral(["you", *pieces[wanted:]]))]
    if len(pieces) > 2 and pieces[0].text == "so" and pieces[1].text in ("it", "they", "there", "nothing"):
        return [Sentence(neutral(heat_time_doneness(pieces)), follows=True)]
    kept = led(pieces)
    while kept and kept[-1].text in JOINTS:
        kept.pop()
    if not kept:
        return []
    roles = {piece.role for piece in kept}
    if kept[0].text in wordlist("goes_before") or kept[0].role == "cue":
        return [Sentence(neutral(heat_time_doneness(kept)), follows=True)]
    if is_lid(kept):
        thing = [piece for piece in kept if piece.role != "word" or piece.text not in ("the", "a", "your")]
        return [Sentence(neutral(["Put", "the", *thing]))]
    if (
        kept[0].text in actions_by_form()
        and len(kept) > 1
        and kept[0].role == "word"
        and not roles & {"food", "amount"}
    ):
        return [Sentence(neutral(heat_time_doneness(kept)))]
    if kept[0].text in ("don't", "never"):
        verb = actions_by_form().get(kept[1].text) if len(kept) > 1 else None
        orders = verb is not None and verb.kind != "check" and kept[1].text not in wordlist("light_verbs")
        return [Sentence(neutral(heat_time_doneness(kept)))] if orders else []
    if kept[0].text == "with":
        return [Sentence(neutral(heat_time_doneness(kept)), follows=True)]
    if kept[0].text in PLACING | {"back", "straight"} and roles & {"appliance", "vessel"} and not roles & {"food"}:
        return [Sentence(neutral(["Put it", *heat_time_doneness(kept)]))]
    if "food" in roles:
        return _added(kept, roles)
    if roles & {"temp", "level", "program"}:
        return [Sentence(neutral(["Set", *_set(kept)]))]
    if kept[0].text in PLACING | {"back", "straight"} and roles & {"time", "appliance", "vessel"}:
        return [Sentence(neutral(["Put it", *heat_time_doneness(kept)]))]
    if roles & {"time", "cue"}:
        return [Sentence(neutral(heat_time_doneness(kept)), follows=True)]
    measured = next(
        (n for n, one in enumerate(kept) if one.role == "amount" and one.quantity and one.quantity.unit), None
    )
    if measured is not None:
        corrects = bool({piece.text for piece in pieces[: pieces.index(kept[measured])]} & wordlist("correcting"))
        text = kept[measured].text if corrects else neutral(kept[measured:])
        return [Sentence(text if corrects else f"({text})", follows=True, corrects=corrects)]
    if "vessel" in roles and noun_phrase(kept):
        taken = any(piece.text in _TAKEN for piece in pieces)
        placing = any(piece.text in PLACING for piece in kept)
        return [Sentence(neutral(["Take" if taken else "Put", *noun_phrase(kept)]))] if taken or placing else []
    return []


_TAKEN = frozenset({"get", "take", "grab", "need", "want", "got", "bring"})


def is_lid(pieces: Sequence[Piece]) -> bool:
    words = [piece.text for piece in pieces if piece.text not in ("the", "a", "your", "my")]
    return len(words) > 1 and words[0] in ("lid", "cover", "foil") and words[1] in ("on", "back", "off", "half")


def _set(pieces: Sequence[Piece]) -> Words:
    """The words after "Set": "the oven to 400", "it to medium"."""
    ordered: Words = list(heat_time_doneness(pieces))
    first = pieces[0]
    if first.role in ("temp", "level", "program"):
        return ["it to", *ordered]
    if first.text in PLACING | {"at"}:
        return ["it", *ordered]
    return ordered if first.text in DETERMINERS else ["the", *ordered]


def _added(pieces: Sequence[Piece], roles: set[str]) -> list[Sentence]:
    place, things = placed(pieces)
    if not things:
        place, things = [], list(pieces)
    things = [piece for n, piece in enumerate(things) if not _is_idle_in(things, n)]
    while len(things) > 1 and things[0].role == "word" and things[0].text in _TAKEN | {"use", "have", "put"}:
        things.pop(0)
    words: Words = ["Add", *without_in(with_place(things, place))]
    text = neutral(words)
    adds = "" if roles & {"time", "cue", "temp", "level"} else text.removeprefix("Add ")
    return [Sentence(text, adds=adds)]


def _is_idle_in(pieces: Sequence[Piece], place: int) -> bool:
    """True for "in" or "in there" that only says that something is added: "garlic in, then the spices"."""
    if pieces[place].role != "word" or pieces[place].text not in ("in", "there"):
        return False
    following = pieces[place + 1] if place + 1 < len(pieces) else None
    return following is None or following.role == "mark" or following.text in JOINTS | {"there"}
