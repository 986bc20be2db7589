"""The risky practices that a talk tells of, in whatever tone: as a step, a tip, a variation or a story."""

from collections.abc import Iterable, Sequence

from stovescript.kitchen.foods import food_named
from stovescript.kitchen.practices import Practice, practices
from stovescript.recipe.draft import Ingredient
from stovescript.speech.heard import Clause, Heard

_ABOUT = 1  # clauses before and after in which the rest of a practice is told

HOURS = "#hours"
_TWO_HOURS = 7200.0  # seconds that food may stand: FSIS danger zone, from memory


def practised(heard: Heard, ingredients: Iterable[Ingredient]) -> list[tuple[Practice, int]]:
    """Each practice that is told of, with the number of the first clause that tells it."""
    foods = _foods(ingredients)
    said = [_text(heard, clause) for clause in heard.clauses]
    found = []
    for practice in practices().values():
        if practice.foods and practice.foods.isdisjoint(foods):
            continue
        for number, clause in enumerate(heard.clauses):
            elsewhere = clause.intent == "not-done" or (clause.intent == "promise" and practice.question)
            if not elsewhere and _tells(practice, said, number):
                found.append((practice, number))
                break
    return found


def _foods(ingredients: Iterable[Ingredient]) -> set[str]:
    """The names and categories of what goes in, or may go in instead."""
    named = [name for one in ingredients for name in (one.name, *(other.name for other in one.alternatives))]
    known = [food for name in named if (food := food_named(name))]
    return {name for food in known for name in (food.name, food.category)}


def _text(heard: Heard, clause: Clause) -> str:
    """The words of a clause with a space about each; a time of two hours or more adds the mark HOURS."""
    long = any(m.quantity and m.quantity.high >= _TWO_HOURS for m in clause.labelled("time"))
    return " ".join(["", *heard.tokens[clause.start : clause.end], *([HOURS] if long else []), ""])


def _tells(practice: Practice, said: Sequence[str], number: int) -> bool:
    text = said[number]
    ends = [text.find(f" {phrase} ") + len(phrase) for phrase in practice.said if f" {phrase} " in text]
    if not ends or _any(practice.without, f"{text[: max(ends)]} "):
        return False
    beside = range(max(0, number - _ABOUT), min(len(said), number + 1 + _ABOUT))
    about = "".join(said[n] for n in beside if n == number or not _any(practice.without, said[n]))
    wanted = [phrases for phrases in (practice.near, practice.when) if phrases]
    return all(_any(phrases, about) for phrases in wanted) and not _any(practice.unless, about)


def _any(phrases: Iterable[str], text: str) -> bool:
    return any(f" {phrase} " in text for phrase in phrases)
