"""Questions about the post as a whole: its name, its yield, its promises and its order."""

from collections.abc import Iterator

from stovescript.gaps.registry import Question, check
from stovescript.kitchen.words import phrases
from stovescript.recipe.draft import Draft
from stovescript.recipe.evidence import heard_at
from stovescript.speech.heard import Heard


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


_ASIDE = 4  # clauses within which a second "i should have said" belongs to the first
_BARE = 9  # words: an admission no longer than this is told with the clause that follows


@check
def order(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A step that is told after the moment at which it was due; an admission of it counts also where she chats."""
    last = -_ASIDE - 1
    for number, clause in enumerate(heard.clauses):
        text = " ".join(heard.tokens[clause.start : clause.end])
        told = clause.intent in ("does", "states", "tip") and phrases("order").search(text)
        admitted = clause.intent not in ("alternative", "promise") and phrases("told_late").search(text)
        if not (told or admitted) or number - last <= _ASIDE:
            continue
        last = number
        more = admitted and clause.end - clause.start <= _BARE and number + 1 < len(heard.clauses)
        evidence = heard_at(heard, clause.start, heard.clauses[number + 1].end if more else clause.end)
        yield Question(
            "order",
            "should",
            evidence.text.lower(),
            f"You said “{evidence.text}” out of order. Where in the method does it belong?",
            [evidence],
            step=next((s.id for s in draft.steps if s.start <= evidence.start <= s.end), None),
        )
