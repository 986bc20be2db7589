"""Every part of a draft that an answer or a correction can be about: its id, its name, its words and its second."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

from stovescript.answers.remembered import remembered
from stovescript.recipe.draft import Draft, Equipment, Evidence, Note

KINDS = ("gap", "ingredient", "use", "alternative", "step", "setting", "tip", "variation", "promise", "equipment")
ARISEN = "n"
"""Begins the mark of a question that a correction raised: no question of the talk as heard."""
FOLLOWS = ".2"
"""Ends the id of a question that the answer to another raises."""
_WORDS = 12  # words of evidence that are kept beside an id
_ABOUT = 6  # words of a step or note that name it


@dataclass(frozen=True, slots=True)
class Ref:
    """What an entry is about. `at` is the second at which it was said, `heard` the first of the words that say it."""

    kind: str
    id: str
    about: str = ""
    at: float | None = None
    heard: str = ""


_Numbered = TypeVar("_Numbered", Note, Equipment)


@remembered
def numbered(draft: Draft) -> Draft:
    """The draft with an id for every part that has none; ids that are there stay."""
    ingredients = [
        ingredient.model_copy(
            update={
                "uses": [
                    use.model_copy(update={"id": use.id or f"{ingredient.id}.u{n}"})
                    for n, use in enumerate(ingredient.uses, 1)
                ],
                "alternatives": [
                    other.model_copy(update={"id": other.id or f"{ingredient.id}.a{n}"})
                    for n, other in enumerate(ingredient.alternatives, 1)
                ],
            }
        )
        for ingredient in draft.ingredients
    ]
    steps = [
        step.model_copy(
            update={
                "settings": [
                    setting.model_copy(update={"id": setting.id or f"{step.id}.g{n}"})
                    for n, setting in enumerate(step.settings, 1)
                ]
            }
        )
        for step in draft.steps
    ]
    return draft.model_copy(
        update={
            "ingredients": ingredients,
            "steps": steps,
            "tips": _with_ids(draft.tips, "t"),
            "variations": _with_ids(draft.variations, "v"),
            "promises": _with_ids(draft.promises, "p"),
            "equipment": _with_ids(draft.equipment, "e"),
        }
    )


def _with_ids(parts: Sequence[_Numbered], letter: str) -> list[_Numbered]:
    return [part.model_copy(update={"id": part.id or f"{letter}{n}"}) for n, part in enumerate(parts, 1)]


def refs_of(draft: Draft) -> dict[str, Ref]:
    """A reference to every part of a numbered draft, gaps included, by id."""
    return {ref.id: ref for ref in _refs(draft)}


def ref_of(draft: Draft, id_: str) -> Ref:
    """The reference to one part. Raises KeyError where the draft has none of that id."""
    for ref in _refs(draft):
        if ref.id == id_:
            return ref
    raise KeyError(id_)


def _refs(draft: Draft) -> Iterator[Ref]:
    for gap in draft.gaps:
        yield _ref("gap", gap.id, gap.about, gap.evidence)
    for ingredient in draft.ingredients:
        said = [evidence for use in ingredient.uses for evidence in use.evidence]
        yield _ref("ingredient", ingredient.id, ingredient.name, said)
        for use in ingredient.uses:
            yield _ref("use", use.id, ingredient.name, use.evidence)
        for other in ingredient.alternatives:
            yield _ref("alternative", other.id, other.name, other.evidence)
    for step in draft.steps:
        yield _ref("step", step.id, step.text, step.evidence or [Evidence(start=step.start, end=step.end, text="")])
        for setting in step.settings:
            yield _ref("setting", setting.id, setting.appliance or step.text, setting.evidence)
    for item in draft.equipment:
        yield _ref("equipment", item.id, item.name, item.evidence)
    for kind, notes in (("tip", draft.tips), ("variation", draft.variations), ("promise", draft.promises)):
        for note in notes:
            yield _ref(kind, note.id, note.text, note.evidence)


def _ref(kind: str, id_: str, about: str, evidence: Iterable[Evidence]) -> Ref:
    first = next(iter(evidence), None)
    return Ref(
        kind,
        id_,
        " ".join(about.split()[:_ABOUT]),
        round(first.start, 1) if first else None,
        " ".join(first.text.split()[:_WORDS]) if first else "",
    )
