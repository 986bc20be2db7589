"""Reads the entries of an answers file's text; every error names the line and the remedy."""

import re
import tomllib
from collections.abc import Mapping
from typing import Any

from stovescript.answers.entry import CHANGES, Entry
from stovescript.answers.lines import entry_lines
from stovescript.answers.parts import KINDS, Ref
from stovescript.answers.said import NotUnderstood
from stovescript.answers.understood import check_entry
from stovescript.errors import StovescriptError
from stovescript.talk.clock import seconds_of

FORMAT = "stovescript/answers"
_KEYS = ("do", "of", "to", "amount", "where", "new", "reason")


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
    if not isinstance(rows, list) or len(rows) != len(lines):
        raise StovescriptError(f"{name}: each entry begins with [[entry]], in double brackets.")
    return tuple(_entry(row, line, name) for row, line in zip(rows, lines, strict=True))


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
        raise error("", "this entry doesn't say what to do; write do = \"answer\" or another of the README's table")
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
        wrong = str(reason)
        named = next((key for key in ("of", "where") if f"{key} = {{" in wrong), "to")
        raise error("amount" if entry.amount and entry.amount in wrong else named, wrong) from None
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
