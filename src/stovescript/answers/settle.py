"""Brings up to date what follows from corrected values: totals, packages, allergens, times, cautions."""

from collections.abc import Iterable
from functools import lru_cache

from stovescript.answers.remembered import remembered
from stovescript.answers.said import time_said
from stovescript.answers.state import State
from stovescript.answers.totals import package_of, total_of
from stovescript.kitchen.actions import by_form
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.safety import Scene, due
from stovescript.pages.markdown import span_text
from stovescript.recipe.draft import Caution, Draft, Ingredient, SetAside, Setting, StatedTime, Step, Times
from stovescript.recipe.naming import name_food
from stovescript.recipe.times import account, what_verb


def settled(state: State) -> Draft:
    """The draft so far with everything that follows from it; what no entry touches stays as heard."""
    heard = state.heard
    known = {ingredient.id: ingredient for ingredient in heard.ingredients}
    draft = state.draft.model_copy(
        update={"ingredients": [_ingredient(one, known.get(one.id)) for one in state.draft.ingredients]}
    )
    return draft.model_copy(
        update={
            "times": _times(state, draft),
            "cautions": _cautions(heard, draft),
            "set_aside": _set_aside(state, draft),
        }
    )


def left_out(state: State) -> list[Ingredient]:
    """The ingredients that were heard and dropped, not merged."""
    kept = {ingredient.id for ingredient in state.draft.ingredients}
    return [one for one in state.heard.ingredients if one.id not in kept and one.id not in state.became]


def _ingredient(now: Ingredient, heard: Ingredient | None) -> Ingredient:
    update: dict[str, object] = {}
    if heard is None or [(u.id, u.amount) for u in now.uses] != [(u.id, u.amount) for u in heard.uses]:
        update = {"total": total_of(now), "package": package_of(now)}
    if heard is None or heard.name != now.name:
        food = name_food(now.name).food
        update["allergens"] = list(food.allergens_us) if food else []
    return now.model_copy(update=update) if update else now


def _set_aside(state: State, draft: Draft) -> list[SetAside]:
    """Foods that are not in the dish: without those that she put in, with those that she left out."""
    names = {ingredient.name.lower() for ingredient in draft.ingredients}
    heard = {ingredient.name.lower() for ingredient in state.heard.ingredients}
    kept = [one for one in draft.set_aside if one.name.lower() not in names - heard]
    dropped = [
        SetAside(name=one.name, why="not used", evidence=said)
        for one in left_out(state)
        if (said := [evidence for use in one.uses for evidence in use.evidence])
    ]
    return [*kept, *dropped] if dropped else kept


def _times(state: State, draft: Draft) -> Times:
    times = draft.times
    before = {setting.id: setting for step in state.heard.steps for setting in step.settings}
    now = {setting.id: (setting, step) for step in draft.steps for setting in step.settings}
    if {id_: _timing(one) for id_, one in before.items()} != {id_: _timing(one) for id_, (one, _) in now.items()}:
        stated = list(times.stated)
        for id_ in dict.fromkeys([*before, *now]):
            setting, step = now.get(id_, (None, None))
            _restate(stated, before.get(id_), setting, step)
        times = account(stated, [setting for setting, _ in now.values()])
    given = {key: time_said(text) for key, text in state.times.items()}
    return times.model_copy(update=given) if given else times


def _timing(setting: Setting) -> tuple[object, ...]:
    return setting.seconds, setting.appliance, setting.program, setting.release


def _restate(stated: list[StatedTime], old: Setting | None, new: Setting | None, step: Step | None) -> None:
    """Puts a setting's new length of time in the place of the one that was said for it."""
    was, is_ = (one.seconds if one else None for one in (old, new))
    if was == is_:
        return
    words = {evidence.text for evidence in old.evidence} if old else set()
    place = next(
        (n for n, time in enumerate(stated) if time.span == was and words & {e.text for e in time.evidence}), None
    )
    if place is not None and is_ is not None:
        stated[place] = stated[place].model_copy(update={"span": is_})
    elif place is not None:
        del stated[place]
    elif is_ is not None and new is not None and step is not None:
        stated.append(StatedTime(what=_what(new, step), span=is_, evidence=new.evidence))


def _what(setting: Setting, step: Step) -> str:
    """What a length of time that she gives is for, by the panel or by the last verb of the sentence that says it."""
    if setting.release:
        return "releasing"
    if setting.program and "pressure" in setting.program:
        return "pressure cooking"
    sentences = [one for one in step.text.split(". ") if setting.seconds and span_text(setting.seconds) in one]
    kinds = _kinds(sentences[0]) if sentences else ()
    return next((what for kind in reversed(kinds) if (what := what_verb(kind))), "cooking")


@lru_cache(maxsize=4096)
def _kinds(text: str) -> tuple[str, ...]:
    words = [word.strip(".,;:") for word in text.lower().split()]
    return tuple(action.kind for word in words if (action := by_form().get(word)) and not action.ambiguous)


def _cautions(heard: Draft, draft: Draft) -> list[Caution]:
    """The cautions as heard, without those whose cause is corrected away, with those that a correction calls for."""
    before, now = _due_as_heard(heard), _due(draft)
    if before == now:
        return draft.cautions
    kept = [one for one in draft.cautions if one.text not in before or one.text in now]
    new = [Caution(text=text, source=source) for text, source in now.items() if text not in before]
    return [*kept, *(one for one in new if one not in kept)]


def _due(draft: Draft) -> dict[str, str]:
    """The cautions that the draft's own foods, settings and sentences call for: text → source."""
    foods = [food for one in draft.ingredients if (food := food_named(one.name))]
    settings = [setting for step in draft.steps for setting in step.settings]
    sentences = _sentences(draft)
    scene = Scene(
        foods=frozenset(name for food in foods for name in (food.name, food.category)),
        allergens=frozenset(allergen for food in foods for allergen in food.allergens_us),
        appliances=frozenset(one.appliance for one in settings if one.appliance),
        programs=frozenset(one.program for one in settings if one.program),
        kinds=frozenset(kind for text in sentences for kind in _kinds(text)),
        text=" ".join(sentences),
    )
    return {caution.text: caution.source for caution in due(scene)}


_due_as_heard = remembered(_due)


def _sentences(draft: Draft) -> list[str]:
    notes: Iterable[str] = (note.text for note in (*draft.tips, *draft.variations))
    return [*(step.text for step in draft.steps), *notes]
