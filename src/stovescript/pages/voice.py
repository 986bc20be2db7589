"""The cook's own words, made fit to print without making them another's."""

import re
from collections.abc import Iterable

from stovescript.kitchen.words import wordlist
from stovescript.pages.caption_amounts import in_digits
from stovescript.recipe.draft import Evidence, Mishearing

_LEAST = 3
"""Words that must be left after an opener is taken off: "so good" stays whole."""
_MARKS = ".,;:!?"
_END = re.compile(r"[.!?…][\"”’)]*$")
_PACKAGES = re.compile(
    r"(?<![\w/])(\d+(?: \d/\d)?|\d/\d) (\d+(?:\.\d+)?(?:-to-\d+(?:\.\d+)?)?-[a-z]+(?:-[a-z]+)?)(?= [a-z])"
)
_SENTENCE = re.compile(r"(?:^|(?<=[.!?] ))[^\W\d_]")
_FIRST_PERSON = re.compile(r"\bi(?=$|['’](?:m|ve|ll|d|s)\b|[^\w'’])")


def cleaned(words: str) -> str:
    """Spoken words as a written sentence: no fillers or false starts, amounts and times in figures.

    "and um you you want them in one layer" is "You want them in one layer."
    """
    tokens = _without_false_starts([token for token in words.split() if _bare(token) not in wordlist("hesitations")])
    tokens = _with_because(_without_closers(_without_openers(tokens)))
    text = _FIRST_PERSON.sub("I", in_digits(" ".join(tokens)))
    if not text:
        return ""
    text = _SENTENCE.sub(lambda start: start[0].upper(), text)
    return text if _END.search(text) else text.rstrip(",;:") + "."


def packages_apart(text: str) -> str:
    """Number and size kept apart: "2 15-ounce cans" is "2 (15-ounce) cans"."""
    return _PACKAGES.sub(r"\1 (\2)", text)


def as_meant(text: str, evidence: Iterable[Evidence], mishearings: Iterable[Mishearing]) -> str:
    """The words with the names that captions mis-heard in them put right."""
    spans = [(each.start, each.end) for each in evidence]
    for wrong in mishearings:
        if any(start <= wrong.start and wrong.end <= end for start, end in spans):
            meant = wrong.meant.replace("\\", r"\\")
            text = re.sub(rf"\b{re.escape(wrong.heard)}\b", meant, text, count=1)
    return text


def sentence_case(text: str) -> str:
    """The first letter large, the rest as it is."""
    return text[:1].upper() + text[1:]


def _bare(token: str) -> str:
    return token.lower().strip(_MARKS)


def _without_false_starts(tokens: list[str]) -> list[str]:
    """One of "the the", "i want i want"; emphasis ("really really") stays, and "skip it it just" gets a comma."""
    twice = wordlist("false_starts")
    kept: list[str] = []
    for token in tokens:
        if kept and token == kept[-1] and token in wordlist("restarted"):
            kept[-1] += ","
        kept.append(token)
        for length in (2, 1):
            last, before = kept[-length:], kept[-2 * length : -length]
            if list(map(_bare, last)) == list(map(_bare, before)) and all(_bare(word) in twice for word in last):
                del kept[-length:]
                break
    return kept


def _without_openers(tokens: list[str]) -> list[str]:
    """The sentence from where it says something."""
    while length := _phrase_at(tokens, wordlist("openers")):
        if len(tokens) - length < _LEAST:
            break
        tokens = tokens[length:]
    return tokens


def _without_closers(tokens: list[str]) -> list[str]:
    while length := _phrase_at([*reversed(tokens)], wordlist("closers"), backwards=True):
        if len(tokens) - length < _LEAST:
            break
        tokens = tokens[:-length]
    return tokens


def _phrase_at(tokens: list[str], phrases: Iterable[str], backwards: bool = False) -> int:
    """How many words at the start are one of the phrases, the longest; 0 where none is."""
    longest = 0
    for phrase in phrases:
        words = phrase.split()
        if backwards:
            words.reverse()
        if len(words) > longest and [_bare(token) for token in tokens[: len(words)]] == words:
            longest = len(words)
    return longest


def _with_because(tokens: list[str]) -> list[str]:
    """ "cause it burns" is "because it burns"; "the cause of it" stays."""
    return [
        "because" if token in wordlist("because") and before.lower() not in wordlist("determiners") else token
        for before, token in zip(["", *tokens], tokens, strict=False)
    ]
