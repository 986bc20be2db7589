"""Corrections to the method: the steps' words and order, and what the appliance is set to."""

from dataclasses import replace

from stovescript.answers.effects import effect
from stovescript.answers.entry import SETTING, Entry
from stovescript.answers.said import release_said, temperature_said, time_said
from stovescript.answers.state import Gone, State, new_setting, next_id
from stovescript.answers.wording import with_setting
from stovescript.recipe.draft import Setting, Step


@effect("words", "step")
def words(state: State, entry: Entry, id_: str) -> State:
    """Other words for a step; foods that they name count among its own."""
    text = " ".join(entry.text.split())
    return _linked(state.with_step(state.step(id_).id, text=text), state.step(id_).id, text)


@effect("until", "step")
def until(state: State, entry: Entry, id_: str) -> State:
    """The sign by which a reader tells that it is done."""
    return state.with_step(state.step(id_).id, until=entry.text.strip() or None)


@effect("add step")
def add_step(state: State, entry: Entry, id_: str) -> State:
    """A step that was not told."""
    if any(step.id == entry.new for step in state.draft.steps):
        raise Gone(f"{entry.new} is there already; give it an id of its own")
    steps = list(state.draft.steps)
    place = _after(state, entry)
    second = steps[place - 1].end if place else 0.0
    text = " ".join(entry.text.split())
    new = Step(
        id=entry.new, text=text, start=second, end=second, ingredients=[], settings=[], until=None, equipment=[]
    )
    return _linked(state.with_draft(steps=[*steps[:place], new, *steps[place:]]), new.id, text)


@effect("move", "step")
def move(state: State, entry: Entry, id_: str) -> State:
    """A step at another place of the method."""
    step = state.step(id_)
    if entry.where and state.step(entry.where.id).id == step.id:
        return state
    steps = [one for one in state.draft.steps if one.id != step.id]
    rest = state.with_draft(steps=steps)
    place = _after(rest, entry)
    moved = rest.with_draft(steps=[*steps[:place], step, *steps[place:]])
    return replace(moved, moved=state.moved | {step.id})


@effect("merge", "step")
def merge(state: State, entry: Entry, id_: str) -> State:
    """Two steps as one, in the place of the one it is merged into."""
    gone = state.step(id_)
    kept = state.step(entry.where.id if entry.where else "")
    if gone.id == kept.id:
        return state
    order = [one.id for one in state.draft.steps]
    first, second = sorted((gone, kept), key=lambda one: order.index(one.id))
    both = kept.model_copy(
        update={
            "text": f"{first.text} {second.text}",
            "start": min(first.start, second.start),
            "end": max(first.end, second.end),
            "ingredients": list(dict.fromkeys([*first.ingredients, *second.ingredients])),
            "settings": [*first.settings, *second.settings],
            "until": "; ".join(one.until for one in (first, second) if one.until) or None,
            "equipment": list(dict.fromkeys([*first.equipment, *second.equipment])),
            "evidence": [*first.evidence, *second.evidence],
        }
    )
    steps = [both if one.id == kept.id else one for one in state.draft.steps if one.id != gone.id]
    return replace(
        _with_uses_moved(state.with_draft(steps=steps), gone.id, kept.id), became={**state.became, gone.id: kept.id}
    )


@effect("drop", "step")
def drop(state: State, entry: Entry, id_: str) -> State:
    """A step that is none; what went in there is asked again."""
    gone = state.step(id_)
    state = state.with_draft(steps=[one for one in state.draft.steps if one.id != gone.id])
    return _with_uses_moved(state, gone.id, None)


@effect("appliance", "step", "setting")
@effect("program", "step", "setting")
@effect("level", "step", "setting")
@effect("temperature", "step", "setting")
@effect("time", "step", "setting")
@effect("release", "step", "setting")
def setting(state: State, entry: Entry, id_: str) -> State:
    """What the appliance is set to: of one setting, or of the first of a step."""
    return set_to(state, id_, entry.do, entry.text.strip())


def set_to(state: State, id_: str, what: str, text: str) -> State:
    """The state with one value of a setting as the cook writes it, in the step's words too; "" takes it away.

    `id_` is a setting's, or a step's for its first setting, which is made where there is none. Raises Gone.
    """
    assert what in SETTING
    owner = next((s for s in state.draft.steps if any(one.id == id_ for one in s.settings)), None)
    step = owner or state.step(id_)
    old = next((one for one in step.settings if one.id == id_), None) or next(iter(step.settings), None)
    if old is None:
        if not text:
            return state
        made = new_setting(next_id(step.id, "g", [one.id for one in step.settings]))
        return _replaced(state, step, None, _with_value(made, what, text, state))
    return _replaced(state, step, old, _with_value(old, what, text, state))


def _with_value(setting: Setting, what: str, text: str, state: State) -> Setting:
    key = "seconds" if what == "time" else what
    value: object = text or None
    if text and what == "time":
        value = time_said(text)
    elif text and what == "release":
        value = release_said(text)
    elif text and what == "temperature":
        value = temperature_said(text, setting.temperature.unit if setting.temperature else "")
    return setting.model_copy(update={key: value})


def _replaced(state: State, step: Step, old: Setting | None, new: Setting) -> State:
    text = with_setting(step, old, new)
    if old is None:
        return state.with_step(step.id, settings=[*step.settings, new], text=text)
    return state.with_step(step.id, text=text).with_setting(
        old.id, **{name: getattr(new, name) for name in type(new).model_fields}
    )


@effect("drop", "setting")
def drop_setting(state: State, entry: Entry, id_: str) -> State:
    """A setting that is none."""
    return state.with_setting(id_, program=None, level=None, temperature=None, seconds=None, release=None)


def _after(state: State, entry: Entry) -> int:
    """How many steps come before the place that the entry gives: none where it gives none."""
    if entry.where is None:
        return 0
    after = state.step(entry.where.id).id
    return next(n for n, step in enumerate(state.draft.steps, 1) if step.id == after)


def _with_uses_moved(state: State, old: str, new: str | None) -> State:
    ingredients = [
        one.model_copy(update={"uses": [u.model_copy(update={"step": new}) if u.step == old else u for u in one.uses]})
        for one in state.draft.ingredients
    ]
    return state.with_draft(ingredients=ingredients)


def _linked(state: State, step_id: str, text: str) -> State:
    words = f" {' '.join(text.lower().replace(',', ' ').replace('.', ' ').split())} "
    for ingredient in state.draft.ingredients:
        if f" {ingredient.name.lower()} " in words:
            state = state.used_in(ingredient.id, step_id)
    return state
