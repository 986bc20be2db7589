"""A draft while entries are applied to it, and small changes of its parts."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any, TypeVar

from stovescript.recipe.draft import Amount, Draft, Gap, Ingredient, Setting, Step, Use

_Part = TypeVar("_Part")


class Gone(ValueError):
    """What an entry is about is not there (any more), or it can't be carried out here: why, for the cook."""


@dataclass(frozen=True, slots=True)
class State:
    """The draft as heard and so far; questions closed; parts merged into others (id → id); times given; questions
    that follow from an answer; steps moved."""

    heard: Draft
    draft: Draft
    closed: frozenset[str] = frozenset()
    became: Mapping[str, str] = field(default_factory=dict)
    times: Mapping[str, str] = field(default_factory=dict)
    follow_ups: tuple[Gap, ...] = ()
    moved: frozenset[str] = frozenset()

    def now(self, id_: str) -> str:
        """The id of what a part has become by merging."""
        while id_ in self.became:
            id_ = self.became[id_]
        return id_

    def with_draft(self, **update: Any) -> "State":
        """The same with some of the draft's keys new."""
        return replace(self, draft=self.draft.model_copy(update=update))

    def ingredient(self, id_: str) -> Ingredient:
        """The ingredient of that id. Raises Gone."""
        return _first((one for one in self.draft.ingredients if one.id == self.now(id_)), "that ingredient")

    def step(self, id_: str) -> Step:
        """The step of that id. Raises Gone."""
        return _first((one for one in self.draft.steps if one.id == self.now(id_)), "that step")

    def owner(self, use_id: str) -> tuple[Ingredient, Use]:
        """A use and its ingredient. Raises Gone."""
        pairs = ((one, use) for one in self.draft.ingredients for use in one.uses if use.id == use_id)
        return _first(pairs, "that use")

    def with_ingredient(self, id_: str, **update: Any) -> "State":
        """The same with some of one ingredient's keys new."""
        changed = [one.model_copy(update=update) if one.id == self.now(id_) else one for one in self.draft.ingredients]
        return self.with_draft(ingredients=changed)

    def with_use(self, use_id: str, **update: Any) -> "State":
        """The same with some of one use's keys new."""
        owner, _ = self.owner(use_id)
        uses = [use.model_copy(update=update) if use.id == use_id else use for use in owner.uses]
        return self.with_ingredient(owner.id, uses=uses)

    def with_step(self, id_: str, **update: Any) -> "State":
        """The same with some of one step's keys new."""
        changed = [one.model_copy(update=update) if one.id == self.now(id_) else one for one in self.draft.steps]
        return self.with_draft(steps=changed)

    def with_each_step(self, change: Callable[[Step], Step]) -> "State":
        """The same with every step changed."""
        return self.with_draft(steps=[change(step) for step in self.draft.steps])

    def with_setting(self, setting_id: str, **update: Any) -> "State":
        """The same with some of one setting's keys new; one that says nothing any more goes. Raises Gone."""
        step = _first((s for s in self.draft.steps if any(one.id == setting_id for one in s.settings)), "that setting")
        settings = [s.model_copy(update=update) if s.id == setting_id else s for s in step.settings]
        return self.with_step(step.id, settings=[setting for setting in settings if _says(setting)])

    def used_in(self, ingredient_id: str, step_id: str | None) -> "State":
        """The same with an ingredient among those of a step."""
        if step_id is None or ingredient_id in self.step(step_id).ingredients:
            return self
        return self.with_step(step_id, ingredients=[*self.step(step_id).ingredients, ingredient_id])

    def no_longer_in(self, ingredient_id: str, step_id: str | None) -> "State":
        """The same without an ingredient among those of a step, where no use of it is left there."""
        if step_id is None or any(use.step == step_id for use in self.ingredient(ingredient_id).uses):
            return self
        kept = [id_ for id_ in self.step(step_id).ingredients if id_ != ingredient_id]
        return self.with_step(step_id, ingredients=kept)


def next_id(parent: str, letter: str, ids: Sequence[str]) -> str:
    """The first free id of a part's own: "s9.g2"."""
    return next(id_ for n in range(1, len(ids) + 2) if (id_ := f"{parent}.{letter}{n}") not in ids)


def new_setting(id_: str, **update: Any) -> Setting:
    """A setting that the cook gives after the talk."""
    empty: dict[str, Any] = dict.fromkeys(("appliance", "program", "level", "temperature", "seconds", "release"))
    return Setting.model_validate({**empty, "evidence": [], "id": id_}).model_copy(update=update)


def same_size(a: Amount | None, b: Amount | None) -> bool:
    """True where two amounts are the same quantity, however they were said."""
    if a is None or b is None:
        return a is b
    return (a.low, a.high, a.unit) == (b.low, b.high, b.unit)


def _says(setting: Setting) -> bool:
    return bool(setting.program or setting.level or setting.temperature or setting.seconds or setting.release)


def _first(parts: Iterator[_Part], what: str) -> _Part:
    for part in parts:
        return part
    raise Gone(f"{what} is no longer in the draft")
