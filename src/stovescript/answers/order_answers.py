"""Where in the method something belongs: the step that an answer names, and a sentence told out of order."""

from dataclasses import replace

from stovescript.answers.entry import Entry
from stovescript.answers.parts import Ref
from stovescript.answers.state import Gone, State
from stovescript.answers.step_changes import merge, move
from stovescript.answers.understood import step_said
from stovescript.answers.wording import without_sentence
from stovescript.recipe.draft import Gap, Step


def placed_at(state: State, entry: Entry) -> tuple[Step, str]:
    """The step that an answer names, and whether it is "in", "after" or "before" it.

    A number counts the steps as heard, unless the entry keeps the step beside it. Raises Gone.
    """
    how, number = step_said(entry.text)
    if entry.where is not None:
        return state.step(entry.where.id), how
    steps = state.heard.steps
    if not -1 <= number <= len(steps) or not steps:
        raise Gone(f"the method has {len(steps)} steps, so there is no step {number}")
    return state.step(steps[number - 1 if number > 0 else -1].id), how


def order(state: State, entry: Entry, gap: Gap) -> State:
    """What was told late goes where it is due: its sentence alone, or the whole step where it has no other."""
    if gap.step is None:
        raise Gone("it is in no step of the method; add a step for it")
    step = state.step(gap.step)
    target, how = placed_at(state, entry)
    heard = gap.evidence[0].text if gap.evidence else ""
    parted = without_sentence(step.text, heard)
    if target.id == step.id:
        return state
    if parted is None:
        where = Ref("step", target.id)
        if how == "in":
            return merge(state, replace(entry, where=where), step.id)
        return move(state, replace(entry, where=where if how == "after" else _before(state, target)), step.id)
    rest, sentence = parted
    said = [one for one in step.evidence if one in gap.evidence]
    state = state.with_step(step.id, text=rest, evidence=[one for one in step.evidence if one not in said])
    if how == "in":
        return state.with_step(target.id, text=f"{target.text} {sentence}", evidence=[*target.evidence, *said])
    lifted = Step(
        id=f"{step.id}.o{sum(one.id.startswith(f'{step.id}.o') for one in state.draft.steps) + 1}",
        text=sentence,
        start=said[0].start if said else step.start,
        end=said[0].end if said else step.end,
        ingredients=[],
        settings=[],
        until=None,
        equipment=[],
        evidence=said,
    )
    steps = list(state.draft.steps)
    place = next(n for n, one in enumerate(steps) if one.id == target.id) + (how == "after")
    return state.with_draft(steps=[*steps[:place], lifted, *steps[place:]])


def _before(state: State, target: Step) -> Ref | None:
    """The step that comes before one, as what something is put after; None for the first."""
    ids = [step.id for step in state.draft.steps]
    place = ids.index(target.id)
    return Ref("step", ids[place - 1]) if place else None
