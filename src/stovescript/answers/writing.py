"""Writes entries into an answers file's text: what the cook wrote herself, comments and order, stays as it is."""

from collections.abc import Sequence
from typing import Any

from stovescript.answers.entry import CHANGES, Entry
from stovescript.answers.lines import without_entry
from stovescript.answers.parts import Ref
from stovescript.talk.clock import clock_of


def with_entries(text: str, old: Sequence[Entry], new: Sequence[Entry | None]) -> str:
    """The text with its entries `old` replaced by those of `new` in the same places, None taking one out.

    Further entries of `new` go to the end.
    """
    import tomlkit

    changed = {n: entry for n, entry in enumerate(new[: len(old)]) if entry is not None and entry != old[n]}
    if changed:
        document = tomlkit.parse(text)
        array: Any = document["entry"]
        for number, entry in changed.items():
            _change(array[number], _row(old[number]), _row(entry))
        text = tomlkit.dumps(document)
    for number in reversed(range(len(old))):
        if new[number] is None:
            text = without_entry(text, number)
    for added in new[len(old) :]:
        if added is not None:
            text = text.rstrip() + "\n\n" + _as_text(added)
    return text


def _change(table: Any, before: dict[str, Any], now: dict[str, Any]) -> None:
    for key in before.keys() - now.keys():
        table.remove(key)
    for key, value in now.items():
        if before.get(key) != value:
            table[key] = value


def _as_text(entry: Entry) -> str:
    import tomlkit

    document = tomlkit.document()
    document.update(_row(entry))
    return "[[entry]]\n" + tomlkit.dumps(document)


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
