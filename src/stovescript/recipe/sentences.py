"""One doing clause as imperative sentences: verb, object, place and manner, then heat, time, doneness."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from stovescript.kitchen.actions import by_form as actions_by_form
from stovescript.kitchen.words import wordlist
from stovescript.recipe.amount_order import amounts_first
from stovescript.recipe.asides import apposed, without_asides
from stovescript.recipe.neutral import neutral
from stovescript.recipe.nouns import DETERMINERS, JOINTS, PLACING, clause_first, led, noun_phrase, placed
from stovescript.recipe.pieces import Piece, pieces_of, verb_of
from stovescript.recipe.sentence_order import heat_time_doneness, with_place
from stovescript.recipe.verb_phrase import LETTING, Unit, Words, phrase_of, without_in
from stovescript.speech.heard import Clause, Heard


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence without its full stop. `adds` is what it adds where it only adds; `follows` one that leans back."""

    text: str
    adds: str = ""
    follows: bool = False


def sentences_of(heard: Heard, clause: Clause, names: Mapping[int, str], handled: str = "") -> list[Sentence]:
    """The sentences of a doing clause; none where it says nothing to do.

    `handled` is the one food that a bare "it" must mean, where that is sure; else "".
    """
    pieces = apposed(without_asides(amounts_first(heard, clause, _with_verb(pieces_of(heard, clause, names)))))
    units = units_of(pieces)
    if not units or _leans_back(pieces):
        return _without_verb(pieces)
    before, own = _own_part(units[0])
    found = _without_verb(before) if before else []
    units[0] = own
    texts = [text for place, unit in enumerate(units) if (text := _text(unit, "" if place else handled))]
    if not texts:
        return found
    adds = texts[0].removeprefix("Add ") if len(texts) == 1 and texts[0].startswith("Add ") else ""
    closed = any(piece.role in ("time", "cue", "level", "temp") for piece in units[0].after)
    return [*found, Sentence(_joined(texts), adds="" if closed else adds)]


def _with_verb(pieces: list[Piece]) -> list[Piece]:
    """The pieces of a clause in which no verb was heard, with the one that begins it, or follows "you", as its verb."""
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
        plain = not actions_by_form()[piece.text].ambiguous or piece.text in (
            "take",
            "put",
            "make",
            "give",
            "leave",
            "cut",
        )
        if plain and (told or (place == start and place + 1 < len(pieces))):
            text, action = verb_of(piece.text)
            return [*pieces[:place], replace(piece, role="action", text=text, action=action), *pieces[place + 1 :]]
    return pieces


_INTO = frozenset({"in", "into", "on", "onto", "back", "over", "right"})
_LONGEST = 130  # letters of a sentence with two verbs


def _joined(texts: Sequence[str]) -> str:
    """The parts in one sentence: "Stack the tortillas and cut them"; three or more as sentences of their own."""
    if len(texts) == 2 and ";" not in texts[0] and len(texts[0]) + len(texts[1]) < _LONGEST:
        return f"{texts[0]} and {texts[1][:1].lower()}{texts[1][1:]}"
    return ". ".join(texts)


def _text(unit: Unit, handled: str) -> str:
    """One verb's sentence, with the clause that was said before it: "When the pin drops, open the lid"."""
    lead = clause_first(unit.before)
    inner = unit if not lead else Unit(unit.before[len(lead) :], unit.verb, unit.after)
    sentence = neutral(phrase_of(inner, handled))
    if _is_forbidden(unit.before):
        sentence = f"Don't {sentence[:1].lower()}{sentence[1:]}"
    opening = [piece for piece in led_clause(lead)]
    if any(piece.text == "meanwhile" for piece in unit.before):
        return f"Meanwhile, {sentence[:1].lower()}{sentence[1:]}"
    words = {word for piece in opening for word in piece.text.split()}
    if len(opening) < 3 or words & wordlist("others"):
        return sentence
    start = neutral(opening)
    return f"{start}, {sentence[:1].lower()}{sentence[1:]}" if sentence else ""


def _is_forbidden(before: Sequence[Piece]) -> bool:
    """True for "don't" and "never" right before a verb, whose order must not be turned round."""
    near = [piece.text for piece in before][-2:]
    return bool({"don't", "dont", "never", "nobody"} & set(near)) or near in (["do", "not"], ["not", "to"])


def led_clause(lead: Sequence[Piece]) -> list[Piece]:
    """A clause that stands first, from its first telling word on."""
    start = next(
        (n for n, piece in enumerate(lead) if piece.text in wordlist("subordinators") - {"so", "that"}), len(lead)
    )
    return list(lead[start:])


def _leans_back(pieces: Sequence[Piece]) -> bool:
    """True for a clause that only says until or while when what was told before goes on."""
    lead = led(pieces)
    if not lead:
        return False
    if not (lead[0].role == "cue" or lead[0].text in ("until", "or until", "while", "after")):
        return False
    first = next((n for n, piece in enumerate(lead) if piece.role == "action"), len(lead))
    if lead[0].text in ("while", "after"):
        return first == len(lead) or (first == 2 and lead[1].text in ("you", "it", "they") and len(lead) == 3)
    return not any(piece.text in ("you", "i", "we", "and", "so") for piece in lead[1:first][-2:])


def _raw(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces as they are, in the order of heat, time and doneness."""
    return heat_time_doneness(pieces)


def _without_verb(pieces: Sequence[Piece]) -> list[Sentence]:
    """Words that name no action: a food is added, a setting is set, a time or sign belongs to the sentence before."""
    wanted = next((n for n, piece in enumerate(pieces) if piece.text == "want"), None)
    if wanted is not None and any(piece.role in ("cue", "temp") for piece in pieces[wanted:]):
        return [Sentence(neutral(["you", *pieces[wanted:]]))]
    if len(pieces) > 2 and pieces[0].text == "so" and pieces[1].text in ("it", "they", "there", "nothing"):
        return [Sentence(neutral(_raw(pieces)), follows=True)]
    kept = led(pieces)
    while kept and kept[-1].text in JOINTS:
        kept.pop()
    if not kept:
        return []
    roles = {piece.role for piece in kept}
    if kept[0].text in wordlist("goes_before") or kept[0].role == "cue":
        return [Sentence(neutral(_raw(kept)), follows=True)]
    if _is_lid(kept):
        thing = [piece for piece in kept if piece.role != "word" or piece.text not in ("the", "a", "your")]
        return [Sentence(neutral(["Put", "the", *thing]))]
    if (
        kept[0].text in actions_by_form()
        and len(kept) > 1
        and kept[0].role == "word"
        and not roles & {"food", "amount"}
    ):
        return [Sentence(neutral(_raw(kept)))]
    if kept[0].text in ("don't", "never"):
        verb = actions_by_form().get(kept[1].text) if len(kept) > 1 else None
        orders = verb is not None and verb.kind != "check" and kept[1].text not in wordlist("light_verbs")
        return [Sentence(neutral(_raw(kept)))] if orders else []
    if kept[0].text == "with":
        return [Sentence(neutral(_raw(kept)), follows=True)]
    if kept[0].text in PLACING | {"back", "straight"} and roles & {"appliance", "vessel"} and not roles & {"food"}:
        return [Sentence(neutral(["Put it", *_raw(kept)]))]
    if "food" in roles:
        return _added(kept, roles)
    if roles & {"temp", "level", "program"}:
        return [Sentence(neutral(["Set", *_set(kept)]))]
    if kept[0].text in PLACING | {"back", "straight"} and roles & {"time", "appliance", "vessel"}:
        return [Sentence(neutral(["Put it", *_raw(kept)]))]
    if roles & {"time", "cue"}:
        return [Sentence(neutral(_raw(kept)), follows=True)]
    if "vessel" in roles and noun_phrase(kept):
        taken = any(piece.text in _TAKEN for piece in pieces)
        placing = any(piece.text in PLACING for piece in kept)
        return [Sentence(neutral(["Take" if taken else "Put", *noun_phrase(kept)]))] if taken or placing else []
    return []


_TAKEN = frozenset({"get", "take", "grab", "need", "want", "got", "bring"})


def _is_lid(pieces: Sequence[Piece]) -> bool:
    words = [piece.text for piece in pieces if piece.text not in ("the", "a", "your", "my")]
    return len(words) > 1 and words[0] in ("lid", "cover", "foil") and words[1] in ("on", "back", "off", "half")


def _set(pieces: Sequence[Piece]) -> Words:
    """The words after "Set": "the oven to 400", "it to medium"."""
    ordered: Words = list(_raw(pieces))
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


def _own_part(unit: Unit) -> tuple[list[Piece], Unit]:
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
            return (left if told or only_thing or _is_lid(led(left)) else []), Unit(
                tuple(right), unit.verb, unit.after
            )
        if only_thing and (before[place].text != "and" or _takes_object(unit)):
            return [], Unit(tuple(left), unit.verb, unit.after)
        if only_thing or told or _is_lid(led(left)) or (thing and led(left)[0].text in actions_by_form()):
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


def units_of(pieces: Sequence[Piece]) -> list[Unit]:
    """The verbs of a clause, each with its own words; a verb that only goes with another stays among its words."""
    places = [n for n, piece in enumerate(pieces) if piece.role == "action"]
    carried = {place for place in places if _is_under(pieces, place)}
    for one, other in zip(places, places[1:], strict=False):
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
    while kept and kept[-1].role == "word" and kept[-1].text in idle | {"or"}:
        subject.insert(0, kept.pop())
    for size in (1, 2):
        if len(kept) >= size and kept[-size].text in LETTING:
            return kept[:-size], [*kept[-size:], *subject]
    return kept, subject
