"""Puts each caution of the draft where it matters: in its step, with the storing, or before one starts."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from stovescript.kitchen.actions import by_form
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.safety import Caution, Scene, cautions, due
from stovescript.recipe.draft import Draft
from stovescript.recipe.settings import NO_PRESSURE

_LONGEST_VERB = 4
"""Words of the longest verb looked for: "bring up to pressure"."""


@dataclass(frozen=True, slots=True)
class Placed:
    """The texts of the cautions, each in one place."""

    before: tuple[str, ...]
    by_step: Mapping[str, tuple[str, ...]]
    keeping: tuple[str, ...]


def placed_cautions(draft: Draft, keeping: str) -> Placed:
    """Each caution in the first step that does what it warns of, else in the first that has the food or appliance.

    `keeping` is what is said about storing.
    """
    known = {caution.text: caution for caution in cautions()}
    scenes = dict(_scenes(draft))
    shown = {step: due(scene) for step, scene in scenes.items()}
    done = {
        step: due(Scene(programs=scene.programs, kinds=scene.kinds, text=scene.text)) for step, scene in scenes.items()
    }
    stored = due(Scene(text=keeping))
    before: list[str] = []
    late: list[str] = []
    by_step: dict[str, list[str]] = {}
    for each in draft.cautions:
        caution = known.get(each.text)
        if caution is None:
            before.append(each.text)
        elif _is_allergen_line(caution):
            continue
        elif step := _first(caution, done) or _first(caution, shown):
            by_step.setdefault(step, []).append(each.text)
        elif caution in stored:
            late.append(each.text)
        else:
            before.append(each.text)
    return Placed(tuple(before), {step: tuple(texts) for step, texts in by_step.items()}, tuple(late))


def _first(caution: Caution, by_step: Mapping[str, tuple[Caution, ...]]) -> str | None:
    return next((step for step, called_for in by_step.items() if caution in called_for), None)


def _is_allergen_line(caution: Caution) -> bool:
    """The post's own allergens line says it, with the names."""
    return all(set(condition) == {"allergens"} for condition in caution.when)


def _scenes(draft: Draft) -> Iterator[tuple[str, Scene]]:
    """What each step shows. A pressure cooker counts from where it is under pressure, not while it sautés."""
    program: dict[str, str] = {}
    for step in draft.steps:
        appliances = set()
        for setting in step.settings:
            if setting.appliance:
                now = setting.program or program.get(setting.appliance, "")
                program[setting.appliance] = now
                if "pressure" not in setting.appliance or now not in NO_PRESSURE:
                    appliances.add(setting.appliance)
        used = [each for each in draft.ingredients if each.id in step.ingredients]
        foods = [food for each in used if (food := food_named(each.name))]
        yield (
            step.id,
            Scene(
                foods=frozenset(name for food in foods for name in (food.name, food.category)),
                allergens=frozenset(a for each in used for a in each.allergens),
                appliances=frozenset(appliances),
                programs=frozenset(s.program for s in step.settings if s.program),
                kinds=frozenset(_kinds(step.text)),
                text=step.text,
            ),
        )


def _kinds(text: str) -> list[str]:
    words = [word.strip(".,;:!?").lower() for word in text.split()]
    found = (
        by_form().get(" ".join(words[start : start + length]))
        for start in range(len(words))
        for length in range(1, _LONGEST_VERB + 1)
    )
    return [action.kind for action in found if action]
