"""One doing clause as imperative sentences: verb, object, place and manner, then heat, time, doneness."""

from collections.abc import Mapping, Sequence

from stovescript.kitchen.words import wordlist
from stovescript.speech.heard import Clause, Heard

from .amount_order import amounts_first
from .asides import apposed, without_asides
from .neutral import neutral
from .nouns import clause_first, led
from .pieces import Piece, pieces_of
from .sentence import Sentence
from .units import own_part, units_of, with_verb
from .verb_phrase import Unit, phrase_of
from .verbless import without_verb


def sentences_of(heard: Heard, clause: Clause, names: Mapping[int, str], handled: str = "") -> list[Sentence]:
    """The sentences of a doing clause; none where it says nothing to do.

    `handled` is the one food that a bare "it" must mean, where that is sure; else "".
    """
    pieces = apposed(without_asides(amounts_first(heard, clause, with_verb(pieces_of(heard, clause, names)))))
    units = units_of(pieces)
    if not units or _leans_back(pieces):
        return without_verb(pieces)
    before, own = own_part(units[0])
    found = without_verb(before) if before else []
    units[0] = own
    texts = [text for place, unit in enumerate(units) if (text := _text(unit, "" if place else handled))]
    if not texts:
        return found
    adds = texts[0].removeprefix("Add ") if len(texts) == 1 and texts[0].startswith("Add ") else ""
    closed = any(piece.role in ("time", "cue", "level", "temp") for piece in units[0].after)
    return [*found, Sentence(_joined(texts), adds="" if closed else adds)]


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
    opening = _led_clause(lead)
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


def _led_clause(lead: Sequence[Piece]) -> list[Piece]:
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
