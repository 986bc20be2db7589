"""Where the entries of an answers file stand: the line of each, and of each of its keys."""

import re

_HEADER = re.compile(r"\s*\[\[\s*(?:entry|\"entry\"|'entry')\s*\]\]")
_KEY = re.compile(r"""\s*["']?(?P<key>[A-Za-z]+)["']?\s*=""")
_MULTILINE = re.compile(r'"""|\'\'\'')


def entry_lines(text: str) -> list[dict[str, int]]:
    """For each entry in order, key → line, counted from 1; "" is the line of its heading."""
    found: list[dict[str, int]] = []
    closing = ""  # of the text over several lines that is open
    for number, line in enumerate(text.splitlines(), 1):
        inside = bool(closing)
        for mark in _MULTILINE.findall(line):
            if not closing:
                closing = mark
            elif mark == closing:
                closing = ""
        if inside:
            continue
        if _HEADER.match(line):
            found.append({"": number})
        elif found and (key := _KEY.match(line)):
            found[-1].setdefault(key["key"], number)
    return found
