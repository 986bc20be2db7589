"""The answers file: read with the line of every error, edited with its comments and order kept, written whole."""

import hashlib
import re
from dataclasses import dataclass, replace
from pathlib import Path

from stovescript.answers.entry import CHANGES, Entry
from stovescript.answers.placing import Places
from stovescript.answers.reading import FORMAT, entries_of
from stovescript.answers.understood import check_entry
from stovescript.answers.writing import with_entries
from stovescript.errors import StovescriptError
from stovescript.files import write_together
from stovescript.recipe.draft import Draft

_START = f"""\
# The cook's answers and corrections. Amounts are written as people write them; comments stay.
format = "{FORMAT}"
version = 1
"""
_STRUCTURE = frozenset({"add ingredient", "add step", "add use", "drop", "goes in", "merge", "move", "split"})
_ADDRESSED = frozenset({"move", "merge", "goes in"})
"""Entries whose effect depends on what stands before them: given again, they go to the end."""


class AnswersChanged(StovescriptError):
    """The file is no longer the one that was read: somebody else has written to it."""


@dataclass(frozen=True, slots=True)
class Answers:
    """The whole text of an answers file, its entries in order, and the mark of the bytes on disk ("" for no file)."""

    text: str = _START
    entries: tuple[Entry, ...] = ()
    edition: str = ""


def read_answers(path: Path) -> Answers:
    """The answers in the file; none where there is no such file.

    Raises StovescriptError, in one sentence with file, line and remedy, where the file can't be used.
    """
    try:
        data = path.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        return Answers()
    except OSError as error:
        raise StovescriptError(f"{path}: can't be read ({(error.strerror or str(error)).lower()}).") from None
    return answers_of(data, str(path))


def answers_of(data: bytes, name: str) -> Answers:
    """The answers in the bytes of a file called NAME. Raises StovescriptError as `read_answers` does."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise StovescriptError(f"{name}: line {line} is not UTF-8; save the file as UTF-8.") from None
    return Answers(text, entries_of(text, name), hashlib.sha256(data).hexdigest())


def put(answers: Answers, entry: Entry, heard: Draft) -> Answers:
    """The answers with an entry, in the place of the one that says the same of the same thing, else at the end.

    Ids that have moved in `heard`, the draft as heard, are brought up to date. Raises NotUnderstood.
    """
    change = CHANGES.get(entry.do)
    if change and change.adds and not entry.new:
        entry = replace(entry, new=_new_id(answers.text, change.adds))
    check_entry(entry)
    places = Places(heard, answers.entries)
    now = [places.brought_up(old) for old in answers.entries]
    same = None
    if not (change and change.may_repeat):
        same = next((n for n, old in enumerate(now) if _says_of(old) == _says_of(entry) and places.known(old)), None)
    after = any(old.do in _STRUCTURE for old in now[same + 1 :]) if same is not None else False
    if same is not None and not after and entry.do not in _ADDRESSED:
        return _changed(answers, [entry if n == same else old for n, old in enumerate(now)])
    return _changed(answers, [*(None if n == same else old for n, old in enumerate(now)), entry])


def remove(answers: Answers, entry: Entry) -> Answers:
    """The answers without one entry; as they are where it is not among them."""
    if entry not in answers.entries:
        return answers
    number = answers.entries.index(entry)
    return _changed(answers, [None if n == number else old for n, old in enumerate(answers.entries)])


def back_to(now: Answers, before: Answers) -> Answers:
    """Undo: what the answers were before, to be saved over the file as it is now."""
    return replace(before, edition=now.edition)


def save_answers(path: Path, answers: Answers) -> Answers:
    """Writes the file whole, and returns the answers with its new mark.

    Raises AnswersChanged where the file is not the one that these answers were read from.
    """
    write_together({path: unchanged_since(path, answers).text})
    return saved(answers)


def saved(answers: Answers) -> Answers:
    """The answers with the mark that their text has as a file."""
    return replace(answers, edition=hashlib.sha256(answers.text.encode()).hexdigest())


def unchanged_since(path: Path, answers: Answers) -> Answers:
    """The same answers. Raises AnswersChanged where the file is not the one that they were read from."""
    edition = hashlib.sha256(path.read_bytes()).hexdigest() if path.exists() else ""
    if edition != answers.edition:
        raise AnswersChanged(f"{path}: somebody else has changed this file meanwhile; read it again, then answer.")
    return answers


def _says_of(entry: Entry) -> tuple[str, str]:
    do = "answer" if entry.do == "dismiss" else entry.do
    return do, f"{entry.of.kind} {entry.of.id}" if entry.of else ""


def _new_id(text: str, letter: str) -> str:
    """An id that was never used in the file, so that what is left over of something removed finds nothing."""
    used = [int(number) for number in re.findall(rf"\b{letter}n(\d+)\b", text)]
    return f"{letter}n{max(used, default=0) + 1}"


def _changed(answers: Answers, entries: list[Entry | None]) -> Answers:
    text = with_entries(answers.text, answers.entries, entries)
    return Answers(text, entries_of(text), answers.edition)
