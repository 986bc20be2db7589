"""The pieces of a sentence as one line of print: fillers left out, commas where a reader needs them."""

import re
from collections.abc import Sequence

from stovescript.kitchen.words import wordlist
from stovescript.measure import number_at

from .pieces import Piece


def spaced(words: Sequence[Piece | str]) -> str:
    """The words with single spaces, mis-spoken fillers left out, states after their food between commas."""
    parts: list[str] = []
    last: Piece | str | None = None
    dropped = wordlist("print_dropped")
    for place, word in enumerate(words):
        text = word if isinstance(word, str) else word.text
        role = "word" if isinstance(word, str) else word.role
        before = words[place - 1] if place else None
        following = words[place + 1] if place + 1 < len(words) else None
        numbered = text == "oh" and last is not None and number_at([_of(last)], 0) is not None
        if role == "word" and not numbered and (text in dropped or _idle(text, before, following)):
            continue
        if role == "prep" and _after_food(words, place):
            ends = following is None or _role(following) in ("prep", "mark") or _joined_prep(words, place)
            text = f", {text}" if ends else f", {text},"
        elif role == "word":
            text = _impersonal(text, following)
        elif role in ("cue", "prep"):
            text = re.sub(r"\b(?:your|my|our|you're)(?= \w)", "the", text)
        if role == "amount" and last is not None and _parts(words[:place], last, following):
            text = f", {text}"
        if role == "time" and _role(last) == "time":
            text = f"({text})"
        if (
            role == "cue"
            and last is not None
            and text.split()[0] not in _CUE_OPENERS
            and _role(last) not in ("word", "cue")
        ):
            text = f", {text}"
        if text in ("don't", "not") and role == "word" and _forbids(words, place):
            text = f"; {text}"
        if role == "size" and following is not None and _adjectival(text, following):
            text = re.sub(r"^(.*\d) (\w+?)e?s?$", r"\1-\2", text) if " by " not in text else text
        if role in ("food", "bracket") and before is not None and role == "food" and _role(before) == "food":
            text = f", {text}"
        parts.append(text)
        last = word
    return " ".join(parts)


_CUE_OPENERS = wordlist("subordinators") | {"to", "just", "for", "by", "or", "you", "we", "or until", "only"}


def _parts(said: Sequence[Piece | str], before: Piece | str, following: Piece | str | None) -> bool:
    """True where an amount begins another item right after a food or its state, or after words that sum up items."""
    if _role(before) in ("food", "prep", "bracket"):
        return True
    words = [_of(word) for word in said if _of(word) != "so"]
    sums_up = words[:1] == ["Add"] and words[-2:-1] == ["the"] and words[-3:-2] in (["Add"], ["then"], ["and"])
    measured = _role(following) == "food" or (following is not None and _of(following) == "of")
    return sums_up and measured and words[-1] not in ("rest", "other", "remaining", "last", "first")


def _forbids(words: Sequence[Piece | str], place: int) -> bool:
    """True for "don't" that opens an order of its own: "spread it; don't stir it", not "so it doesn't burn"."""
    near = [_of(word) for word in words[max(0, place - 5) : place]]
    object_ = len(near) > 1 and near[-1] in ("it", "that", "them") and near[-2] in _BEFORE_OBJECT
    if object_ and not {"so", "if", "until"} & set(near[:-2]):
        return _of(words[place]) == "don't"
    if _of(words[place]) != "don't" or not near or near[-1] in ("and", "but", "they", "it", "that", "which", "i"):
        return False
    return not {"so", "if", "that", "they", "who", "until", "because", "until it"} & set(near)


_BEFORE_OBJECT = frozenset({"behind", "over", "around", "on", "in", "with", "to", "under", "into", "of", "at"})


def _joined_prep(words: Sequence[Piece | str], place: int) -> bool:
    """True for "peeled" before "and cut": two states of one food need no comma between them."""
    pair = words[place + 1 : place + 3]
    return len(pair) == 2 and _of(pair[0]) == "and" and _role(pair[1]) == "prep"


_UNITS = re.compile(r"(?:inch|inches|centimeters?|millimeters?|pound|ounce|cup|quart|liter)s?$")


def _adjectival(text: str, following: Piece | str) -> bool:
    """True for a size before what it is of: "8-inch dish", "3-centimeter chunks"; not "8 inches across"."""
    plain = _role(following) in ("vessel", "food") or (
        _role(following) == "word"
        and _of(following) not in wordlist("place_words") | wordlist("subordinators") | _MEASURED_BY
    )
    return bool(_UNITS.search(text)) and not text.startswith("about") and plain


_MEASURED_BY = frozenset({"and", "of", "or", "wide", "thick", "long", "deep", "high", "tall", "across", "bare", "big",
                          "each", "all", "is", "apart", "headspace", "thin", "square", "cut", "slices"})  # fmt: skip


def _impersonal(text: str, following: Piece | str | None) -> str:
    """A possessive as an article, and "her" or "him" as "it"."""
    if text in ("my", "our", "your", "you're", "yer", "ya"):
        return "the"
    if text in ("she'll", "she's", "he'll", "he's"):
        return f"it'{text.split(chr(39))[1]}"
    if text in ("her", "him", "she", "he"):
        noun = following is not None and _role(following) == "word" and _of(following) not in wordlist("place_words")
        return "the" if noun and text == "her" and _of(following or "") not in wordlist("subordinators") else "it"
    return text


def _after_food(words: Sequence[Piece | str], place: int) -> bool:
    before, following = words[place - 1] if place else None, words[place + 1] if place + 1 < len(words) else None
    return before is not None and _role(before) == "food" and (following is None or _role(following) != "food")


def _of(word: Piece | str) -> str:
    return word if isinstance(word, str) else word.text


def _role(word: Piece | str | None) -> str:
    return word.role if isinstance(word, Piece) else "word"


def _idle(text: str, before: Piece | str | None, after: Piece | str | None) -> bool:
    """True for "like", "just", "so", "right" and "now" where they fill and do not tell."""
    following = _of(after) if after is not None else ""
    if text == "like":
        return following not in _LIKENED or _role(after) != "word"
    if text == "just":
        return following not in ("until", "over", "under", "enough", "before", "below", "above", "warm", "barely")
    if text == "so":
        measured = _role(after) in ("amount", "time", "level", "temp", "size", "mark") or after is None
        return before is None or measured or _role(before) == "mark" or following in wordlist("lead_words") - _PURPOSE
    if text == "right":
        return following not in ("away", "side", "hand", "height") or _role(after) != "word"
    if (
        text == "you"
        and before is not None
        and (isinstance(before, str) or before.role in ("food", "vessel", "appliance"))
    ):
        return True
    return text in ("now", "also") or (text in ("then", "next") and _role(after) != "word")


_LIKENED = frozenset(["a", "an", "the", "this", "that", "it's", "they're", "your", "you're", "wet", "coarse", "thick"])
_PURPOSE = frozenset(
    [
        "it",
        "they",
        "them",
        "the",
        "that",
        "nothing",
        "there",
        "there's",
        "it's",
        "they're",
        "you",
        "as",
        "i",
        "each",
        "all",
        "everything",
        "we",
        "no",
        "your",
        "every",
        "none",
    ]
)
