"""Corrections to the post around the recipe: its name, yield and times, tips, variations, promises and equipment."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from stovescript.answers.effects import effect
from stovescript.answers.entry import Entry
from stovescript.answers.said import servings_said
from stovescript.answers.state import Gone, State
from stovescript.recipe.draft import Equipment, Note


@effect("title")
def title(state: State, entry: Entry, id_: str) -> State:
    """The dish's name."""
    return state.with_draft(title=" ".join(entry.text.split()))


@effect("summary")
def summary(state: State, entry: Entry, id_: str) -> State:
    """The line under its name."""
    return state.with_draft(summary=entry.text.strip() or None)


@effect("servings")
def servings(state: State, entry: Entry, id_: str) -> State:
    """How many it serves or makes."""
    return state.with_draft(servings=servings_said(entry.text))


@effect("prep time")
@effect("cook time")
@effect("total time")
def time(state: State, entry: Entry, id_: str) -> State:
    """A time of the time account; it goes before what follows from the settings."""
    return replace(state, times={**state.times, entry.do.split()[0]: entry.text})


@effect("words", "tip", "variation", "promise")
def words(state: State, entry: Entry, id_: str) -> State:
    """Other words for a tip, a variation or a promise."""
    return changed_note(state, id_, text=" ".join(entry.text.split()))


@effect("fulfil", "promise")
def fulfil(state: State, entry: Entry, id_: str) -> State:
    """The text or link that keeps a promise."""
    return changed_note(state, id_, fulfilled_by=entry.text.strip() or None)


def changed_note(state: State, id_: str, **update: Any) -> State:
    """The state with some of a note's keys new. Raises Gone."""
    for key in ("tips", "variations", "promises"):
        notes: Sequence[Note] = getattr(state.draft, key)
        if any(note.id == id_ for note in notes):
            return state.with_draft(
                **{key: [note.model_copy(update=update) if note.id == id_ else note for note in notes]}
            )
    raise Gone("that note is no longer in the draft")


@effect("drop", "tip", "variation", "promise", "equipment")
def drop(state: State, entry: Entry, id_: str) -> State:
    """A note or a vessel that the post is better without."""
    for key in ("tips", "variations", "promises", "equipment"):
        parts: Sequence[Note | Equipment] = getattr(state.draft, key)
        if any(part.id == id_ for part in parts):
            return state.with_draft(**{key: [part for part in parts if part.id != id_]})
    raise Gone("that is no longer in the draft")


@effect("add tip")
@effect("add variation")
def add_note(state: State, entry: Entry, id_: str) -> State:
    """A tip or a variation that she did not tell."""
    key = "tips" if entry.do == "add tip" else "variations"
    note = Note(text=" ".join(entry.text.split()), evidence=[], id=entry.new)
    return state.with_draft(**{key: [*getattr(state.draft, key), note]})


@effect("rename", "equipment")
@effect("size", "equipment")
def equipment(state: State, entry: Entry, id_: str) -> State:
    """Another name or size for a vessel or an appliance."""
    if not any(one.id == id_ for one in state.draft.equipment):
        raise Gone("that vessel is no longer in the draft")
    key = "name" if entry.do == "rename" else "size"
    changed = [
        one.model_copy(update={key: " ".join(entry.text.split()) or None}) if one.id == id_ else one
        for one in state.draft.equipment
    ]
    return state.with_draft(equipment=changed)
