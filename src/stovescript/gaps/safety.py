"""Questions about safety: how hot meat gets inside, and practices that official guidance warns about."""

from collections.abc import Iterator

from stovescript.gaps.registry import Question, check
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.safety import cautions
from stovescript.kitchen.words import phrases, wordlist
from stovescript.recipe.draft import Draft, Evidence, Ingredient
from stovescript.recipe.evidence import clause_heard
from stovescript.recipe.practices import practised
from stovescript.recipe.settings import COOKING, is_internal
from stovescript.recipe.verbs import actions_of
from stovescript.speech.heard import Heard
from stovescript.speech.words import singular

_COOKED = frozenset({"poultry", "ground meat", "fish", "shellfish", "game"})
_PORK = frozenset({"pork", "ham", "bacon", "hock", "sausage", "rib", "chorizo", "gammon", "trotter"})


@check
def safety(draft: Draft, heard: Heard) -> Iterator[Question]:
    """Poultry, ground meat, pork or fish cooked with no internal temperature said (FSIS safe minimums)."""
    said = any(
        is_internal(heard, clause, mention)
        for clause in heard.clauses
        if clause.intent in ("does", "states", "tip")
        for mention in clause.labelled("temp")
    )
    kinds = {a.kind for c in heard.clauses if c.intent == "does" for _, a in actions_of(c) if a}
    if said or not (kinds & COOKING or any(step.settings for step in draft.steps)):
        return
    asked: set[str] = set()
    raw_first = sorted(draft.ingredients, key=_is_cured)
    for ingredient in raw_first:
        kind = _meat(ingredient)
        if kind is None or kind in asked or not any(use.step for use in ingredient.uses) or _is_cooked(ingredient):
            continue
        asked.add(kind)
        question = f"What temperature should the {ingredient.name} reach inside? The post carries a caution."
        yield Question(
            "safety", "should", ingredient.name, question, ingredient.uses[0].evidence, ingredient=ingredient.id
        )


def _meat(ingredient: Ingredient) -> str | None:
    """The kind of meat whose inside must get hot; None for other foods and for whole cuts of beef and lamb."""
    food = food_named(ingredient.name)
    if food is None:
        return None
    words = {singular(word) for word in ingredient.name.split()}
    if food.category in ("red meat", "cured meat") and words & _PORK:
        return "pork"
    return food.category if food.category in _COOKED else None


def _is_cured(ingredient: Ingredient) -> bool:
    food = food_named(ingredient.name)
    return food is not None and food.category == "cured meat"


def _is_cooked(ingredient: Ingredient) -> bool:
    """True for what is bought cooked or only served beside, as she says where she names it."""
    said = " ".join(evidence.text.lower() for use in ingredient.uses for evidence in use.evidence)
    return phrases("cooked_before").search(said) is not None


@check
def risky_practice(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A practice that official guidance warns about: canning, garlic in oil, rice left warm, honey for a baby ..."""
    texts = {caution.text: caution.id for caution in cautions()}
    due = {texts[caution.text] for caution in draft.cautions if caution.text in texts}
    told = practised(heard, draft.ingredients)
    asked: set[str] = set()
    places: set[int] = set()
    for practice, number in told:
        if practice.question and number not in places and not set(practice.cautions) & asked:
            asked |= set(practice.cautions)
            places.add(number)
            yield Question("safety", "must", practice.about, practice.question, [clause_heard(heard, number)])
    warned = {caution for practice, _ in told for caution in practice.cautions}
    for name in sorted((due & wordlist("risky_cautions")) - warned):
        text = next(caution.text for caution in cautions() if caution.id == name)
        about = name.replace("-", " ")
        yield Question("safety", "must", about, f"Please check this against your method: {text}", _hint(heard, about))


def _hint(heard: Heard, about: str) -> list[Evidence]:
    """The first clause that names what a caution is about."""
    words = set(about.split()) - {"raw", "slow", "home", "oil"} or set(about.split())
    for number, clause in enumerate(heard.clauses):
        if words & {singular(token) for token in heard.tokens[clause.start : clause.end]}:
            return [clause_heard(heard, number)]
    return []
