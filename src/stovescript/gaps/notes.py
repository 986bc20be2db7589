"""Questions about the post as a whole: its name, its yield, its promises, its order, and safety."""

from collections.abc import Iterator

from stovescript.gaps.registry import Question, check
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.safety import cautions
from stovescript.kitchen.words import phrases, wordlist
from stovescript.recipe.draft import Draft, Evidence
from stovescript.recipe.events import actions_of
from stovescript.recipe.evidence import clause_heard
from stovescript.recipe.settings import COOKING, is_internal
from stovescript.speech.heard import Heard
from stovescript.speech.words import singular


@check
def title(draft: Draft, heard: Heard) -> Iterator[Question]:
    """The dish is never named."""
    if draft.title is None:
        yield Question("title", "must", "title", "What is this dish called?")


@check
def nothing_heard(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A talk in which no ingredient or no step was heard."""
    for about, found in (("ingredients", draft.ingredients), ("method", draft.steps)):
        if not found:
            question = f"No {about} could be heard in this talk. Is it the right one, and what is missing?"
            yield Question("unmeasured" if about == "ingredients" else "order", "must", about, question)


@check
def no_servings(draft: Draft, heard: Heard) -> Iterator[Question]:
    """No yield."""
    if draft.servings is None:
        yield Question("no_servings", "must", "servings", "How many does it serve, or how much does it make?")


@check
def promise(draft: Draft, heard: Heard) -> Iterator[Question]:
    """Something that viewers were told they would find in the post."""
    for note in draft.promises:
        yield Question(
            "promise",
            "should",
            note.text,
            f"You told viewers: “{note.text}”. What should the post say?",
            note.evidence,
        )


@check
def order(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A step that is told after the moment at which it was due."""
    for number, clause in enumerate(heard.clauses):
        if clause.intent not in ("does", "states", "tip"):
            continue
        words = heard.tokens[clause.start : clause.end]
        if not phrases("order").search(" ".join(words)):
            continue
        evidence = clause_heard(heard, number)
        yield Question(
            "order",
            "should",
            " ".join(heard.tokens[clause.start : clause.end]),
            f"You said “{evidence.text}” out of order. Where in the method does it belong?",
            [evidence],
            step=next((s.id for s in draft.steps if s.start <= evidence.start <= s.end), None),
        )


_COOKED = frozenset({"poultry", "ground meat", "fish", "shellfish", "game"})
_PORK = frozenset({"pork", "ham", "bacon", "hock", "sausage"})


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
    for ingredient in draft.ingredients:
        food = food_named(ingredient.name)
        if food is None or not any(use.step for use in ingredient.uses):
            continue
        pork = food.category in ("red meat", "cured meat") and bool(set(ingredient.name.split()) & _PORK)
        kind = "pork" if pork else food.category
        if (kind in _COOKED or pork) and kind not in asked:
            asked.add(kind)
            question = f"What temperature should the {ingredient.name} reach inside? The post carries a caution."
            yield Question(
                "safety", "should", ingredient.name, question, ingredient.uses[0].evidence, ingredient=ingredient.id
            )


@check
def risky_practice(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A practice that official guidance warns about: canning, garlic in oil, rice left warm, honey for a baby ..."""
    texts = {caution.text: caution.id for caution in cautions()}
    due = {texts[caution.text] for caution in draft.cautions if caution.text in texts}
    for name in sorted(due & wordlist("risky_cautions")):
        text = next(caution.text for caution in cautions() if caution.id == name)
        about = name.replace("-", " ")
        yield Question("safety", "must", about, f"Please check this against your method: {text}", _hint(heard, about))
    babies, warm = wordlist("infants"), wordlist("left_warm")
    for number, clause in enumerate(heard.clauses):
        if clause.intent == "not-done":
            continue
        text = " ".join(heard.tokens[clause.start : clause.end])
        if any(phrase in text for phrase in warm):
            question = (
                "You leave cooked food standing. Official guidance is two hours at most; what should readers do?"
            )
            yield Question("safety", "must", text, question, [clause_heard(heard, number)])
        if "honey" in text and set(text.split()) & babies:
            question = "Honey is not for babies under twelve months. Should the post say so?"
            yield Question("safety", "must", "honey", question, [clause_heard(heard, number)])


def _hint(heard: Heard, about: str) -> list[Evidence]:
    """The first clause that names what a caution is about."""
    words = set(about.split()) - {"raw", "slow", "home", "oil"} or set(about.split())
    for number, clause in enumerate(heard.clauses):
        if words & {singular(token) for token in heard.tokens[clause.start : clause.end]}:
            return [clause_heard(heard, number)]
    return []
