"""Plain text or Markdown in which marks such as ``[1:30]`` say when a passage was spoken."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from stovescript.talk.blocks import Block, bad_times
from stovescript.talk.clock import seconds_of
from stovescript.talk.signs import APOSTROPHE, DASHES
from stovescript.talk.unreadable import unreadable

_CLOCK = r"(?:[0-9]{1,2}:)?[0-9]{1,3}:[0-9]{2}(?:[.,][0-9]{1,3})?"
_RANGE = rf"({_CLOCK})(?:\s{{0,3}}(?:-->|->|[{DASHES}]|to)\s{{0,3}}({_CLOCK}))?"  # 0:05 · 0:05 - 0:09
_LINK = r"(?:\([^()\s]{0,2000}\))?"  # the target of a mark that is a Markdown link
_NAME = rf"[A-Z][\w.'{APOSTROPHE}-]{{0,24}}(?: [A-Z0-9][\w.'{APOSTROPHE}-]{{0,24}}){{0,3}}"

# What a mark looks like; the first group is its start, the second its end where it has one.
_MARKS = {
    "square": re.compile(rf"\[ {{0,3}}{_RANGE} {{0,3}}\]{_LINK}"),  # [0:05]
    "round": re.compile(rf"\( {{0,3}}{_RANGE} {{0,3}}\)"),  # (0:05)
    "named": re.compile(rf"\s*{_NAME}[ \t]{{0,9}}[{DASHES},:]?[ \t]{{1,9}}{_RANGE}:?\s*$"),  # Maria 0:05
    "bare": re.compile(rf"{_RANGE}(?!\w|[:.,][0-9]|\s?[AaPp]\.?[Mm]\b)"),  # 0:05, but not 10:30 am
}
_NAME_ONLY = re.compile(rf"\s*+{_NAME}\s*+[{DASHES},:]?+\s*+$")
_MEANT_AS_MARK = re.compile(r"\[ {0,3}([0-9]{1,3}:[0-9]{2}[0-9:.,]{0,12}) {0,3}\]")

_LIST_OR_HEADING = re.compile(r"[\s#>*+•|_`~-]*+(?:[0-9]{1,3}[.)]\s++)?+[*_`\\]*+")  # "## ", "- ", "3. **"
_AFTER_MARK = re.compile(rf"[\s*_`|]*(?:[{DASHES}:]+(?=[\s*_`]|$)[\s*_`]*)?")  # "**: ", " - ", " | "
_HEADING = re.compile(r"\s{0,3}#{1,6}\s")
_FENCE = re.compile(r"\s{0,3}(?:```|~~~)")
_FRONT_MATTER = "---"
_LINKED_WORDS = re.compile(r"!?\[([^\[\]]*)\]\([^()\s]{0,2000}\)")


@dataclass(frozen=True, slots=True)
class _Mark:
    first: int  # where the mark begins in its line
    last: int  # where its text begins
    start: float
    end: float | None
    closes: bool  # nothing, or a colon, follows: the words before it may be a speaker's name


def marked_blocks(lines: Sequence[str], name: str) -> list[Block]:
    """One block for each mark, with the text up to the next mark; empty where there are no marks.

    Square brackets mark everywhere. Other marks count only where they are the file's habit, so that
    "come back at (1:30)" or a line that happens to start with "10:30" is text. Text above a first mark
    that is later than 0:00 was said before it. Headings without a mark are not speech.
    """
    _refuse_impossible_marks(lines, name)
    habit = _habit(lines)
    if habit is None:
        return []
    blocks: list[Block] = []
    start, end, line_of_mark, text = 0.0, None, 1, list[str]()
    opened = False
    for number, line in enumerate(_without_front_matter(lines), start=1):
        marks = _marks(line, habit)
        if not marks:
            if not _HEADING.match(line) and not _FENCE.match(line):
                text.append(_plain(line))
            continue
        before = line[: marks[0].first]
        if _LIST_OR_HEADING.fullmatch(before) is None and not _names_speaker(line, marks):
            text.append(_plain(before))
        for place, mark in enumerate(marks):
            if opened or mark.start > 0:
                blocks.append(Block(start, end, "\n".join(text), line_of_mark))
            if mark.end is not None and mark.end < mark.start:
                raise unreadable(name, "the mark ends before it starts; correct its two times", number)
            opened, start, end, line_of_mark = True, mark.start, mark.end, number
            stop = marks[place + 1].first if place + 1 < len(marks) else len(line)
            text = [_plain(line[mark.last : stop])]
    blocks.append(Block(start, end, "\n".join(text), line_of_mark))
    return blocks


def _habit(lines: Sequence[str]) -> str | None:
    """The kind of mark that most lines use; None where there is no mark at all."""
    counts = {kind: sum(bool(_marks_of(kind, line)) for line in lines) for kind in _MARKS}
    most = max(counts, key=lambda kind: counts[kind])
    return most if counts[most] else None


def _marks(line: str, habit: str) -> list[_Mark]:
    marks = _marks_of("square", line)
    if habit != "square" and (others := _marks_of(habit, line)):
        marks = sorted([*marks, *others], key=lambda mark: mark.first)
    return marks


def _marks_of(kind: str, line: str) -> list[_Mark]:
    if ":" not in line:
        return []
    pattern = _MARKS[kind]
    if kind == "named":
        found = pattern.match(line)
        return _valid([found] if found else [], line)
    if kind == "bare":
        found = pattern.match(line, _indent(line))
        return _valid([found] if found else [], line)
    marks = _valid(list(pattern.finditer(line)), line)
    if kind == "round" and marks and marks[0].first != _indent(line) and not _names_speaker(line, marks):
        return []  # a line's round marks count only where the line starts with one
    return marks


def _valid(matches: Sequence[re.Match[str]], line: str) -> list[_Mark]:
    marks = []
    for match in matches:
        start = seconds_of(match[1])
        end = seconds_of(match[2]) if match[2] else None
        if start is not None:
            after = _AFTER_MARK.match(line, match.end())
            last = after.end() if after else match.end()
            closes = last == len(line) or ":" in line[match.end() : last]
            marks.append(_Mark(match.start(), last, start, end, closes))
    return marks


def _indent(line: str) -> int:
    found = _LIST_OR_HEADING.match(line)
    return found.end() if found else 0


def _names_speaker(line: str, marks: Sequence[_Mark]) -> bool:
    """``Maria [0:05]`` with nothing after it, and ``Maria [0:05]: so``, name who speaks."""
    before = line[: marks[0].first].strip(" *_")
    return len(marks) == 1 and marks[0].closes and _NAME_ONLY.match(before) is not None


def _refuse_impossible_marks(lines: Sequence[str], name: str) -> None:
    for number, line in enumerate(lines, start=1):
        for found in _MEANT_AS_MARK.finditer(line):
            if seconds_of(found[1]) is None:
                raise bad_times(found[1], name, number)


def _plain(text: str) -> str:
    """Linked words without their link."""
    return _LINKED_WORDS.sub(r"\1", text)


def _without_front_matter(lines: Sequence[str]) -> list[str]:
    """The lines with the ``---`` header of a Markdown file blanked out, so that line numbers stay."""
    if lines and lines[0].strip() == _FRONT_MATTER:
        for index in range(1, min(len(lines), 60)):
            if lines[index].strip() == _FRONT_MATTER:
                return [""] * (index + 1) + list(lines[index + 1 :])
    return list(lines)
