"""Applies the cook's answers and corrections to a draft as heard: a pure function, the same every time."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from stovescript.answers import gap_answers, ingredient_changes, post_changes, step_changes
from stovescript.answers.effects import done
from stovescript.answers.entry import Entry
from stovescript.answers.open_gaps import gaps_of, open_gap
from stovescript.answers.parts import Ref, numbered
from stovescript.answers.placing import Places
from stovescript.answers.said import NotUnderstood
from stovescript.answers.settle import left_out, settled
from stovescript.answers.state import Gone, State
from stovescript.recipe.draft import Answered, Draft

EFFECTS = (gap_answers, ingredient_changes, post_changes, step_changes)
"""The rooms whose import registers what entries do."""


@dataclass(frozen=True, slots=True)
class Unplaced:
    """An entry that could not be carried out, and why; it stays in the file."""

    entry: Entry
    why: str

    @property
    def text(self) -> str:
        """The entry and the reason in one line, for the cook."""
        about = f" of {self.entry.of.about or self.entry.of.id}" if self.entry.of else ""
        words = f' "{self.entry.text}"' if self.entry.text else ""
        return f"{self.entry.do}{words}{about}: {self.why}"


@dataclass(frozen=True, slots=True)
class Outcome:
    """The answered draft, the entries that found no place, and what the cook should look at again."""

    draft: Draft
    unplaced: tuple[Unplaced, ...] = ()
    notices: tuple[str, ...] = ()


def answered(heard: Draft, entries: Sequence[Entry]) -> Outcome:
    """The draft as heard with the entries applied in order, and everything that follows brought up to date.

    An entry that finds nothing to change is tried again after the others: it may be about what they add.
    """
    heard = numbered(heard)
    if not entries:
        return Outcome(heard)
    places = Places(heard, entries)
    state = State(heard, heard)
    pending, records = list(entries), list[Answered]()
    while True:
        left: list[Unplaced] = []
        for entry in pending:
            try:
                record = _record(state, entry, places)
                state = done(state, _placed(entry, places), _id(entry.of, places))
                records.append(record)
            except (Gone, NotUnderstood) as reason:
                left.append(Unplaced(entry, str(reason)))
        if not left or len(left) == len(pending):
            break
        pending = [one.entry for one in left]
    draft = settled(state)
    records.sort(key=lambda one: (one.gap or "", one.ingredient or "", one.step or "", one.do, one.about, one.text))
    draft = draft.model_copy(update={"gaps": gaps_of(state, draft), "answered": records})
    return Outcome(draft, tuple(left), tuple(_notices(state)))


def _id(ref: Ref | None, places: Places) -> str:
    if ref is None:
        return ""
    id_ = places.id_of(ref)
    if id_ is None:
        raise Gone(f"the talk has no such {ref.kind} any more")
    return id_


def _placed(entry: Entry, places: Places) -> Entry:
    """The entry with the step, or what it is merged into, as it is numbered now."""
    if entry.where is None:
        return entry
    return replace(entry, where=replace(entry.where, id=_id(entry.where, places)))


def _record(state: State, entry: Entry, places: Places) -> Answered:
    """What pages say of an entry: that it is from the cook, and what it concerns. Raises Gone."""
    gap = ingredient = step = None
    about, id_ = entry.of.about if entry.of else entry.do, _id(entry.of, places)
    kind = entry.of.kind if entry.of else ""
    if kind == "gap":
        question = open_gap(state, id_)
        gap, ingredient, step, about = question.id, question.ingredient, question.step, question.about
    elif kind == "ingredient":
        ingredient = state.ingredient(id_).id
    elif kind == "use":
        ingredient = state.owner(id_)[0].id
    elif kind == "alternative":
        ingredient = next((i.id for i in state.draft.ingredients if any(a.id == id_ for a in i.alternatives)), None)
    elif kind == "step":
        step = state.step(id_).id
    elif kind == "setting":
        step = next((s.id for s in state.draft.steps if any(one.id == id_ for one in s.settings)), None)
    if entry.new:
        ingredient = entry.new if entry.do in ("add ingredient", "split") else ingredient
        step = entry.new if entry.do == "add step" else step
        about = entry.text if entry.do.startswith("add ") and entry.do != "add use" else about
    text = entry.reason if entry.do == "dismiss" else " ".join(filter(None, (entry.amount, entry.text)))
    return Answered(do=entry.do, about=about, text=text, gap=gap, ingredient=ingredient, step=step)


def _notices(state: State) -> Iterable[str]:
    """Sentences that still name a food that was left out."""
    for one in left_out(state):
        last = one.name.lower().split()[-1:]
        for number, step in enumerate(state.draft.steps, 1):
            words = [word.strip(".,;:!?") for word in step.text.lower().split()]
            if (
                last
                and last[0] in words
                and not any(last == other.name.lower().split()[-1:] for other in state.draft.ingredients)
            ):
                yield f"Step {number} still names {one.name}, which is left out: “{step.text}”"
