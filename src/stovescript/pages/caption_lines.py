"""The lines of captions as one stream of words, each line once however often it is shown, and back into cues."""

import html
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from stovescript.talk.clock import CLOCK
from stovescript.talk.types import Cue

BREAK = "."
"""Stands in the stream where two lines don't follow on from each other; no phrase goes over it."""

_VOICE = re.compile(r"<v(?:\.[^\s<>]*)?[ \t]+([^<>]*)>", re.IGNORECASE)  # <v Maria>, <v.loud Maria>
_TIME_TAG = re.compile(rf"<{CLOCK}>")
_TAG = re.compile(r"<(?![\s=])[^<>]*>")  # <i>, </c>, <c.loud>, <font color="…">
_LINE_BREAK = re.compile(r"<br\s*/?>|\\N", re.IGNORECASE)
_OVERRIDE = re.compile(r"\{\\[^{}]*\}")  # {\an8}, of SubRip
_ENTITY = re.compile(r"&(?:#[0-9]{1,7}|#[xX][0-9A-Fa-f]{1,6}|[A-Za-z][A-Za-z0-9]{1,30});")


@dataclass(frozen=True, slots=True)
class Token:
    """One word as shown; `voice` names who speaks from here on, where the file says so."""

    text: str
    voice: str | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """One line of words: `start` and `end` in seconds of the cue that first shows it, `gone` of the last.

    `first` is the place of its first word in the stream. Where `follows` is false its words don't go on from those
    of the line before.
    """

    tokens: tuple[Token, ...]
    start: float
    end: float
    gone: float
    first: int
    follows: bool


@dataclass(frozen=True, slots=True)
class Edit:
    """The words to put in the place of the words [start, end) of the stream."""

    start: int
    end: int
    words: tuple[str, ...]


class CaptionLines:
    """All lines of a talk's captions, and their words as one stream.

    Rolling captions show a line again above the next one: it is kept once, so that what is mended in it is mended
    wherever it is shown.
    """

    def __init__(self, cues: Iterable[Cue]) -> None:
        self.lines: list[Line] = []
        self.shown: list[list[int]] = []
        """The numbers of the lines that each cue shows."""
        self.stream: list[str] = []
        self.line_of: list[int] = []
        """The number of the line of each word of the stream; -1 for a BREAK."""
        self._voice: str | None = None
        for cue in cues:
            self.shown.append(self._numbers(cue, self.shown[-1] if self.shown else []))

    def _numbers(self, cue: Cue, before: Sequence[int]) -> list[int]:
        """The lines of the cue; those that the cue before showed last and this one shows first keep their numbers."""
        texts = [tokens for line in _LINE_BREAK.sub("\n", cue.text).split("\n") if (tokens := _tokens(line))]
        kept = min(len(before), len(texts))
        while kept and [self.lines[number].tokens for number in before[-kept:]] != texts[:kept]:
            kept -= 1
        numbers = list(before[len(before) - kept :])
        for number in numbers:
            self.lines[number] = replace(self.lines[number], gone=max(self.lines[number].gone, cue.end))
        for tokens in texts[kept:]:
            last = self.lines[-1].tokens if self.lines else ()
            grows = tokens[: len(last)] == last  # word by word: it says the same again
            follows = not grows and tokens[0].voice in (None, self._voice)
            self._voice = next((token.voice for token in reversed(tokens) if token.voice), self._voice)
            if not follows:
                self.stream.append(BREAK)
                self.line_of.append(-1)
            numbers.append(len(self.lines))
            self.lines.append(Line(tokens, cue.start, cue.end, cue.end, len(self.stream), follows))
            self.line_of += [numbers[-1]] * len(tokens)
            self.stream += [token.text for token in tokens]
        return numbers

    def seconds_at(self, place: int) -> float:
        """About when a word is said: its share of the time for which its line is first shown."""
        line = self.lines[self.line_of[place]]
        return line.start + (line.end - line.start) * (place - line.first) / len(line.tokens)

    def allows(self, edit: Edit) -> bool:
        """True where the edit goes over no break, empties no line and loses no voice."""
        return bool(edit.words) and self._home(edit) is not None

    def _home(self, edit: Edit) -> int | None:
        """The line that takes the words of an edit: the one with most of what they replace, if others can spare it."""
        numbers = self.line_of[edit.start : edit.end]
        if -1 in numbers or any(self._token(place).voice for place in range(edit.start + 1, edit.end)):
            return None
        emptied = {number for number in numbers if numbers.count(number) == len(self.lines[number].tokens)}
        moves = self._token(edit.start).voice is None
        fitting = [number for number in numbers if not emptied - {number} and (moves or number == numbers[0])]
        return max(fitting, key=numbers.count, default=None)

    def _token(self, place: int) -> Token:
        line = self.lines[self.line_of[place]]
        return line.tokens[place - line.first]

    def payloads(self, edits: Iterable[Edit]) -> list[str]:
        """The text of each cue with the edits made, which must be allowed, escaped as WebVTT asks."""
        by_start = {edit.start: edit for edit in edits}
        written: list[list[Token]] = [[] for _ in self.lines]
        place = 0
        while place < len(self.stream):
            edit = by_start.get(place)
            home = self._home(edit) if edit else self.line_of[place]
            if home is not None and home >= 0:
                token = self._token(place)
                first, *rest = edit.words if edit else (token.text,)
                written[home] += [Token(first, token.voice), *map(Token, rest)]
            place = edit.end if edit else place + 1
        return [_payload([written[number] for number in numbers]) for numbers in self.shown]


def _tokens(line: str) -> tuple[Token, ...]:
    """The words of a line; of its tags only those that say who speaks are kept."""
    tokens: list[Token] = []
    before, *voiced = _VOICE.split(line)
    for name, text in [(None, before), *zip(voiced[::2], voiced[1::2], strict=True)]:
        plain = _OVERRIDE.sub("", _TAG.sub("", _TIME_TAG.sub("", text)))
        words = _unescaped(plain).split()
        voice = " ".join(_unescaped(name or "").split()) or None
        tokens += [Token(word, voice if place == 0 else None) for place, word in enumerate(words)]
    return tuple(tokens)


def _unescaped(text: str) -> str:
    """Entities as characters; twice, because "&amp;nbsp;" is met in files that were escaped twice."""
    once = _ENTITY.sub(lambda found: html.unescape(found[0]), text)
    return _ENTITY.sub(lambda found: html.unescape(found[0]), once)


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _payload(lines: Sequence[Sequence[Token]]) -> str:
    """The lines of a cue. The tag of a voice that speaks the whole cue needs no end (WebVTT, W3C)."""
    tokens = [token for line in lines for token in line]
    voices = sum(token.voice is not None for token in tokens)
    ends = voices > 1 or (voices == 1 and tokens[0].voice is None)
    rows: list[str] = []
    speaking = False
    for line in lines:
        row: list[str] = []
        for token in line:
            text = _escaped(token.text)
            if token.voice is not None:
                if ends and speaking:
                    row[-1:] = [f"{row[-1]}</v>"] if row else []
                    if not row and rows:
                        rows[-1] += "</v>"
                text, speaking = f"<v {_escaped(token.voice)}>{text}", True
            row.append(text)
        rows.append(" ".join(row))
    return "\n".join(rows) + ("</v>" if ends and speaking else "")
