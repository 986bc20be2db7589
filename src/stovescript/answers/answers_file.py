"""The answers file: read with the line of every error, edited with its comments and order kept, written whole."""

import hashlib
import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from stovescript.answers.entry import CHANGES, Entry
from stovescript.answers.lines import entry_lines
from stovescript.answers.parts import KINDS, Ref
from stovescript.answers.placing import Places
from stovescript.answers.said import NotUnderstood
from stovescript.answers.understood import check_entry
from stovescript.errors import StovescriptError
from stovescript.files import write_together
from stovescript.recipe.draft import Draft
from stovescript.talk.clock import clock_of, seconds_of

FORMAT = "stovescript/answers"
_START = f"""\
# The cook's answers and corrections. Amounts are written as people write them; comments stay.
format = "{FORMAT}"
version = 1
"""
_KEYS = ("do", "of", "to", "amount", "where", "new", "reason")
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
    except FileNotFoundError:
        return Answers()
    except OSError as error:
        raise StovescriptError(f"{path}: can't be read ({(error.strerror or str(error)).lower()}).") from None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise StovescriptError(f"{path}: line {line} is not UTF-8; save the file as UTF-8.") from None
    return Answers(text, entries_of(text, str(path)), hashlib.sha256(data).hexdigest())


def entries_of(text: str, name: str = "answers") -> tuple[Entry, ...]:
    """The entries of a file's text. Raises StovescriptError that names the line in the file called NAME."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise StovescriptError(f"{name}: {_toml_error(str(error), text)}.") from None
    lines = entry_lines(text)
    if data.get("format", FORMAT) != FORMAT or data.get("version", 1) != 1:
        raise StovescriptError(f'{name}: this is no answers file (format = "{FORMAT}", version = 1).')
    for key in data:
        if key not in ("format", "version", "entry"):
            line = next((n for n, one in enumerate(text.splitlines(), 1) if re.match(rf"[\[\s\"']*{key}\b", one)), 1)
            raise StovescriptError(f'{name}, line {line}: "{key}" is not known here; an entry begins with [[entry]].')
    rows = data.get("entry", [])
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise StovescriptError(f"{name}: each entry begins with [[entry]], in double brackets.")
    where = lines if len(lines) == len(rows) else [{} for _ in rows]
    return tuple(_entry(row, line, name) for row, line in zip(rows, where, strict=True))


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
        now[same] = entry
    else:
        if same is not None:
            now[same] = None  # type: ignore[call-overload]
        now.append(entry)
    return _written(answers, now)


def remove(answers: Answers, entry: Entry) -> Answers:
    """The answers without one entry; as they are where it is not among them."""
    if entry not in answers.entries:
        return answers
    number = answers.entries.index(entry)
    return _written(answers, [None if n == number else old for n, old in enumerate(answers.entries)])


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


def _entry(row: Mapping[str, Any], lines: Mapping[str, int], name: str) -> Entry:
    def error(key: str, reason: str) -> StovescriptError:
        line = lines.get(key) or lines.get("")
        return StovescriptError(f"{name}{f', line {line}' if line else ''}: {reason}.")

    for key in row:
        if key not in _KEYS:
            raise error(key, f'"{key}" is not known; an entry has {", ".join(_KEYS)}')
    for key in ("do", "amount", "new", "reason"):
        if not isinstance(row.get(key, ""), str):
            raise error(key, f'"{key}" is text in quotation marks')
    if "do" not in row:
        raise error("", 'this entry doesn\'t say what to do; write do = "answer" or another of the README\'s table')
    refs = {}
    for key in ("of", "where"):
        try:
            refs[key] = _ref(row[key]) if key in row else None
        except NotUnderstood as reason:
            raise error(key, str(reason)) from None
    entry = Entry(
        row["do"],
        refs["of"],
        _value(row.get("to", "")),
        refs["where"],
        row.get("amount", ""),
        row.get("reason", ""),
        row.get("new", ""),
    )
    change = CHANGES.get(entry.do)
    if change and change.adds and not entry.new:
        raise error("", f'what is added needs an id of its own, like new = "{change.adds}n1"')
    try:
        check_entry(entry)
    except NotUnderstood as reason:
        raise error("amount" if entry.amount and entry.amount in str(reason) else "to", str(reason)) from None
    return entry


def _value(value: object) -> str | bool | tuple[str, ...]:
    if isinstance(value, list):
        return tuple(map(str, value))
    return value if isinstance(value, bool) else f"{value:g}" if isinstance(value, float) else str(value)


def _ref(value: object) -> Ref:
    kinds = [kind for kind in KINDS if isinstance(value, dict) and kind in value]
    if not isinstance(value, dict) or len(kinds) != 1:
        raise NotUnderstood('write what it is about like { ingredient = "i3", about = "cumin" }')
    for key in value:
        if key not in (kinds[0], "about", "at", "heard") or not isinstance(value[key], str):
            raise NotUnderstood(f'"{key}" is not known here; write it like {{ {kinds[0]} = "...", about = "..." }}')
    at = seconds_of(value["at"]) if "at" in value else None
    if "at" in value and at is None:
        raise NotUnderstood(f'"{value["at"]}" is no time; write it like "4:06"')
    return Ref(kinds[0], value[kinds[0]], value.get("about", ""), at, value.get("heard", ""))


def _toml_error(message: str, text: str) -> str:
    """What tomllib says, the place first: "line 3: ... "."""
    reason, _, place = message.removesuffix(")").partition(" (at ")
    found = re.match(r"line (\d+)", place)
    line = int(found[1]) if found else len(text.splitlines())
    return f"line {line} is no TOML ({reason.lower()}); mend that line, with text in quotation marks"


def _written(answers: Answers, entries: Iterable[Entry | None]) -> Answers:
    """The file's text with entries changed in place (None: taken out) and new ones at its end."""
    import tomlkit
    from tomlkit.items import AoT

    document = tomlkit.parse(answers.text)
    array = document.get("entry")
    if not isinstance(array, AoT):
        document["entry"] = array = tomlkit.aot()
    wanted = list(entries)
    for number, old in enumerate(answers.entries):
        entry = wanted[number]
        if entry is not None and entry != old:
            table, before = array[number], _row(old)
            row = _row(entry)
            for key in before.keys() - row.keys():
                table.remove(key)
            for key, value in row.items():
                if before.get(key) != value:
                    table[key] = value
    for entry in wanted[len(answers.entries) :]:
        if entry is not None:
            table = tomlkit.table()
            table.update(_row(entry))
            table.add(tomlkit.nl()) if False else None
            array.append(table)
    for number in reversed(range(len(answers.entries))):
        if wanted[number] is None:
            del array[number]
    text = tomlkit.dumps(document)
    return Answers(text, entries_of(text), answers.edition)


def _row(entry: Entry) -> dict[str, Any]:
    """An entry as TOML values; what is empty is left out."""
    to = list(entry.to) if isinstance(entry.to, tuple) else entry.to
    needs_to = bool(CHANGES[entry.do].to) and (to != "" or CHANGES[entry.do].may_be_empty)
    row = {
        "do": entry.do,
        "of": _inline(entry.of),
        "to": to if needs_to or to else None,
        "amount": entry.amount or None,
        "where": _inline(entry.where),
        "new": entry.new or None,
        "reason": entry.reason or None,
    }
    return {key: value for key, value in row.items() if value is not None}


def _inline(ref: Ref | None) -> Any:
    if ref is None:
        return None
    import tomlkit

    at = clock_of(ref.at) if ref.at is not None else None
    values = {ref.kind: ref.id, "about": ref.about or None, "at": at, "heard": ref.heard or None}
    table = tomlkit.inline_table()
    table.update({key: value for key, value in values.items() if value is not None})
    return table
