"""The text of one block to its spoken words: without tags, entities, sounds and speaker marks."""

import html
import re
import unicodedata
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from stovescript.talk.clock import CLOCK, seconds_of
from stovescript.talk.sounds import SOUNDS
from stovescript.talk.speakers import without_speaker


class Spoken(NamedTuple):
    """A word, and the second it starts where the block's text says so."""

    text: str
    at: float | None = None


# A time inside a block, <00:00:01.200>, is carried through the cleaning as one private character.
_FIRST_TIME = 0xF0000
_MOST_TIMES = 0xFFFD
_PRIVATE = re.compile("[\U000f0000-\U000ffffd]")

_TIME_TAG = re.compile(rf"<({CLOCK})>")
_TAG = re.compile(r"<(?![\s=])[^<>]*>")  # <i>, </c>, <c.loud>, <v Maria>, <font color="…">
_BREAKING_TAG = re.compile(r"</?(?:br|p|div|v)\b", re.IGNORECASE)
_OVERRIDE = re.compile(r"\{\\[^{}]*\}")  # {\an8}
_ENTITY = re.compile(r"&(?:#[0-9]{1,7}|#[xX][0-9A-Fa-f]{1,6}|[A-Za-z][A-Za-z0-9]{1,30});")
_INVISIBLE = dict.fromkeys(
    (
        *(0xAD, 0x61C, 0x180E, 0xFEFF),  # soft hyphen, other single format characters
        *range(0x200B, 0x2010),  # zero-width space and joiners, direction marks
        *range(0x202A, 0x202F),
        *range(0x2060, 0x2070),
        *range(0xFE00, 0xFE10),  # variation selectors
    )
)
_NOTES = "♩♪♫♬🎵🎶"
_SUNG = re.compile(f"[{_NOTES}]+[^{_NOTES}]*[{_NOTES}]+|[{_NOTES}]")  # ♪ upbeat song ♪
_BRACKETED = re.compile(r"\[[^\[\]]*\]")  # [music], [ __ ]
_ASIDE = re.compile(r"\(([^()]{1,60})\)|\*([^*\n]{1,60})\*")  # (laughs), *laughs*
_LONGEST_SOUND = 4  # words: "soft music in background"

_BARE_WORDS = re.compile(r"(?:[A-Za-z0-9][A-Za-z0-9'.,!?-]*+ ?)*+")  # a line that needs no more care
_PUNCTUATION = frozenset(".,!?;:…")
_SYMBOLS_SAID = frozenset("&%+=°")  # "salt & pepper", "100 %"
_MARKUP_AROUND_WORDS = "*_`|[]{}"


def spoken_lines(text: str, recurring: frozenset[str] = frozenset()) -> list[Sequence[Spoken]]:
    """The words of each line that has any. ``recurring`` are names known to label speakers."""
    text, times = _lift_times(text)
    text = _plain(text)
    lines: list[Sequence[Spoken]] = []
    waiting: float | None = None
    for line in text.split("\n"):
        words, waiting = _words(without_speaker(line, recurring), times, waiting)
        if words:
            lines.append(words)
    return lines


def _lift_times(text: str) -> tuple[str, list[float]]:
    times: list[float] = []
    if not text.isascii():
        text = _PRIVATE.sub("", text)
    if "<" not in text:
        return text, times

    def lift(found: re.Match[str]) -> str:
        seconds = seconds_of(found[1])
        if seconds is None or len(times) >= _MOST_TIMES:
            return ""
        times.append(seconds)
        return chr(_FIRST_TIME + len(times) - 1)

    return _TIME_TAG.sub(lift, text), times


def _plain(text: str) -> str:
    if "<" in text:
        text = text.replace("<c>", "").replace("</c>", "")  # one around each word in some files, so quickly
        text = _TAG.sub(lambda tag: "\n" if _BREAKING_TAG.match(tag[0]) else "", text)
    if "{" in text:
        text = _OVERRIDE.sub("", text)
    if "&" in text:  # twice, because "&amp;nbsp;" is met in files that were escaped twice
        text = _ENTITY.sub(_unescape, _ENTITY.sub(_unescape, text))
    if not text.isascii():
        text = unicodedata.normalize("NFC", text.translate(_INVISIBLE))
        text = _SUNG.sub(" ", text)
    if "[" in text:
        text = _BRACKETED.sub(" ", text)
    if "(" in text or "*" in text:
        text = _ASIDE.sub(lambda found: " " if _is_sound(found[1] or found[2]) else found[0], text)
    return text


def _unescape(found: re.Match[str]) -> str:
    return _PRIVATE.sub("", html.unescape(found[0]))


def _is_sound(aside: str) -> bool:
    """Does the aside begin or end with a sound: ``laughs softly``, ``upbeat music``?"""
    words = re.findall(r"[a-z-]+", aside.casefold())
    return 0 < len(words) <= _LONGEST_SOUND and (words[0] in SOUNDS or words[-1] in SOUNDS)


def _words(line: str, times: list[float], waiting: float | None) -> tuple[Sequence[Spoken], float | None]:
    """The words of a line, and the time that waits for the next word."""
    words: list[Spoken] = []
    if waiting is None and _BARE_WORDS.fullmatch(line):
        return _bare_words(line), None
    tokens = line.split()
    for place, token in enumerate(tokens):
        next_time: float | None = None
        if times and not token.isascii():
            token, now, next_time = _time_around(token, times)
            waiting = waiting if now is None else now
        token = token.strip(_MARKUP_AROUND_WORDS)
        if token.isalnum():
            words.append(Spoken(token, waiting))
            waiting = None
        elif token and words and _PUNCTUATION.issuperset(token):
            if words[-1].text[-1] not in _PUNCTUATION:
                words[-1] = Spoken(words[-1].text + token, words[-1].at)  # "wait !"
        elif token and (_is_said(token) or (words and _joins_numbers(words[-1].text, tokens[place + 1 : place + 2]))):
            words.append(Spoken(token, waiting))
            waiting = None
        if next_time is not None:
            waiting = next_time
    return words, waiting


@lru_cache(maxsize=16)
def _bare_words(line: str) -> Sequence[Spoken]:
    """Rolling captions show a line two or three times in a row, hence the memory."""
    return tuple(map(Spoken, line.split()))


def _time_around(token: str, times: list[float]) -> tuple[str, float | None, float | None]:
    """The token, the time before it and the time after it, which belongs to the next word."""
    if token[:-1].isascii() and _PRIVATE.match(token[-1]):  # the usual place: "word<00:00:01.200>"
        time = times[ord(token[-1]) - _FIRST_TIME]
        return (token[:-1], None, time) if len(token) > 1 else ("", time, None)
    found = [(match.start(), times[ord(match[0]) - _FIRST_TIME]) for match in _PRIVATE.finditer(token)]
    if not found:
        return token, None, None
    bare = _PRIVATE.sub("", token)
    if not bare:
        return bare, found[-1][1], None
    lead = len(token) - len(token.lstrip("".join(token[place] for place, _ in found)))
    before = [time for place, time in found if place < lead]
    after = [time for place, time in found if place >= lead + len(bare)]
    return bare, before[-1] if before else None, after[-1] if after else None


def _is_said(token: str) -> bool:
    return any(letter.isalnum() for letter in token) or _SYMBOLS_SAID.issuperset(token)


def _joins_numbers(before: str, after: list[str]) -> bool:
    """The dash of ``2 - 3 cups`` changes what is said, so it stays."""
    return bool(after) and before[-1].isnumeric() and after[0][0].isnumeric()
