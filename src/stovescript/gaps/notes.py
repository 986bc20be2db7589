"""Questions about the post as a whole: its name, its yield, its promises, its order, and safety."""

import re
from collections.abc import Iterator

from stovescript.gaps.registry import Question, check
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.words import wordlist
from stovescript.recipe.draft import Draft
from stovescript.recipe.evidence import clause_heard
from stovescript.recipe.settings import is_internal
from stovescript.speech.heard import Heard


@check
def title(draft: Draft, heard: Heard) -> Iterator[Question]:
    """The dish is never named."""
    if draft.title is None:
        yield Question("title", "must", "title", "What is this dish called?")


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
    phrases = wordlist("order")
    for number, clause in enumerate(heard.clauses):
        if clause.intent not in ("does", "states", "tip"):
            continue
        words = heard.tokens[clause.start : clause.end]
        if not any(re.search(rf"\b{re.escape(phrase)}\b", " ".join(words)) for phrase in phrases):
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


_COOKED = frozenset({"poultry", "ground meat", "red meat", "fish", "shellfish", "game", "offal"})


@check
def safety(draft: Draft, heard: Heard) -> Iterator[Question]:
    """Meat, poultry or fish that is cooked with no internal temperature said (FSIS safe minimum temperatures)."""
    said = any(
        is_internal(heard, clause, mention)
        for clause in heard.clauses
        if clause.intent in ("does", "states", "tip")
        for mention in clause.labelled("temp")
    )
    if said or not any(setting for step in draft.steps for setting in step.settings):
        return
    for ingredient in draft.ingredients:
        food = food_named(ingredient.name)
        if food and food.category in _COOKED and any(use.step for use in ingredient.uses):
            yield Question(
                "safety",
                "should",
                ingredient.name,
                f"What temperature should the {ingredient.name} reach inside? (See the caution on safe temperatures.)",
                ingredient.uses[0].evidence,
                ingredient=ingredient.id,
            )
            if food.category not in ("poultry", "ground meat"):
                return
