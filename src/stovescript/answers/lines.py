"""Where the entries of an answers file stand: the lines of each, and of each of its keys."""

import re
from collections.abc import Iterator

_HEADER = re.compile(r"\s*\[\[\s*(?:entry|\"entry\"|'entry')\s*\]\]")
_KEY = re.compile(r"""\s*["']?(?P<key>[A-Za-z]+)["']?\s*=""")
_MULTILINE = re.compile(r'"""|\'\'\'')


def entry_lines(text: str) -> list[dict[str, int]]:
    """For each entry in order, key → line, counted from 1; "" is the line of its heading."""
    found: list[dict[str, int]] = []
    for number, (line, inside) in enumerate(_lines(text), 1):
        if inside:
            continue
        if _HEADER.match(line):
            found.append({"": number})
        elif found and (key := _KEY.match(line)):
            found[-1].setdefault(key["key"], number)
    return found


def without_entry(text: str, number: int) -> str:
    """The text without the entry of that number, counted from 0; comments on lines of their own stay."""
    kept, entry = [], -1
    for line, inside in _lines(text):
        entry += not inside and bool(_HEADER.match(line))
        if entry != number or (not inside and line.lstrip().startswith("#")):
            kept.append(line)
    return "".join(kept)


def _lines(text: str) -> Iterator[tuple[str, bool]]:
    """Each line with its end, and whether it begins inside text over several lines."""
    closing = ""
    for line in re.findall(r"[^\n]*\n|[^\n]+$", text):
        inside = bool(closing)
        for mark in _MULTILINE.findall(line):
            closing = mark if not closing else "" if mark == closing else closing
        yield line, inside
