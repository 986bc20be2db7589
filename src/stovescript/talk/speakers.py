"""Marks that say who speaks: ``>>``, ``>> MARIA:``, ``- ``, ``SPEAKER 2:``, a name that comes back."""

import re
from collections import Counter
from collections.abc import Iterable

from stovescript.talk.signs import APOSTROPHE, DASHES

_LABEL = rf"[^\W\d_][\w.'{APOSTROPHE}#-]{{0,24}}(?: [\w.'{APOSTROPHE}#-]{{1,24}}){{0,3}}"
_LABEL_AT_START = re.compile(rf"({_LABEL}) ?:(?=\s|$)\s*")  # "MARIA: "
_CHANGE = re.compile(rf">{{2,}}\s*(?:({_LABEL}) ?:(?=\s|$))?")  # ">> ", ">> MARIA: "
_DASH = re.compile(rf"[{DASHES}•]+\s*(?=[^\W\d])")  # "- so now", "-So now", but not "-18 degrees"

_BEFORE_LABEL = " \t>" + DASHES

# Roles that transcribers use for a person, alone or with a number: "Speaker 2:" (common practice).
_ROLES = frozenset(("speaker", "host", "cohost", "co-host", "narrator", "guest", "interviewer", "announcer"))
# Words that head a remark rather than name a person, also where they come back (common practice).
_HEADS_A_REMARK = frozenset(
    (
        "note",
        "notes",
        "tip",
        "tips",
        "step",
        "ingredients",
        "method",
        "warning",
        "remember",
        "question",
        "answer",
    )
)
_TIMES_A_NAME_COMES_BACK = 3


def recurring_speakers(texts: Iterable[str]) -> frozenset[str]:
    """Capitalised labels that start at least three lines of the talk: ``Maria:``."""
    labels = Counter(
        found[1]
        for text in texts
        if ":" in text
        for line in text.split("\n")
        if (found := _LABEL_AT_START.match(line.lstrip(_BEFORE_LABEL))) and _capitalised(found[1])
    )
    return frozenset(
        label
        for label, count in labels.items()
        if count >= _TIMES_A_NAME_COMES_BACK and label.split()[0].casefold() not in _HEADS_A_REMARK
    )


def without_speaker(line: str, recurring: frozenset[str] = frozenset()) -> str:
    """The line without its speaker marks."""
    if ">>" in line:
        line = _CHANGE.sub(lambda found: " " if _names_after_change(found[1]) else f" {found[1]}: ", line)
    line = line.lstrip()
    if dash := _DASH.match(line):
        line = line[dash.end() :]
    if ":" in line and (found := _LABEL_AT_START.match(line)):
        rest = line[found.end() :]
        if _is_speaker(found[1], rest, recurring):
            return rest
    return line


def _names_after_change(label: str | None) -> bool:
    return label is None or _capitalised(label)


def _is_speaker(label: str, rest: str, recurring: frozenset[str]) -> bool:
    if label in recurring or re.split(r"[\s_#]", label.casefold(), maxsplit=1)[0] in _ROLES:
        return True
    # "MARIA: so now" names a person; "BAKE: 350" and a line all in capitals do not show one.
    in_capitals = label.isupper() and sum(letter.isalpha() for letter in label) > 1
    return in_capitals and not rest[:1].isnumeric() and (not rest.strip() or not rest.isupper())


def _capitalised(label: str) -> bool:
    return all(word[0].isupper() or word[0].isdigit() for word in label.split())
