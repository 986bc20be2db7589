"""The verbs of a clause, and which kinds of them add, prepare or only refer."""

from functools import cache

from stovescript.kitchen.actions import Action, by_form
from stovescript.kitchen.sounds import alike
from stovescript.speech.heard import Clause, Mention

PREPARING = frozenset({"cut", "wash", "drain", "divide", "cool"})


COOKED = frozenset({"cook", "dry-heat", "wet-heat", "fry", "bake", "blend", "melt", "coat", "season", "marinate"})


REFERRING = frozenset(
    {
        "taste", "check", "serve", "store", "turn", "remove", "transfer", "rest", "release", "open", "close",
        "cover", "reduce", "rise",
    }
)  # fmt: skip


def actions_of(clause: Clause) -> list[tuple[Mention, Action | None]]:
    """The action mentions of a clause with their table rows; None where the verb is in no table."""
    return [(mention, action_named(mention.text)) for mention in clause.labelled("action")]


@cache
def action_named(text: str) -> Action | None:
    """The action of a verb phrase as said; words between verb and particle are passed over."""
    words = [word.strip(".,!?") for word in text.lower().split()]
    forms = by_form()
    for size in range(len(words), 0, -1):
        for start in range(len(words) - size + 1):
            if found := forms.get(" ".join(words[start : start + size])):
                return found
    if len(words) > 2 and (found := forms.get(f"{words[0]} {words[-1]}")):
        return found
    likeness, form = max((alike(words[0], form), form) for form in _plain_verbs()) if words else (0.0, "")
    return forms[form] if likeness >= _VERB_BY_SOUND else None


_VERB_BY_SOUND = 74.0  # how alike a mis-heard verb must be to one of the table ("dies" the avocado)


@cache
def _plain_verbs() -> tuple[str, ...]:
    """The one-word cooking verbs that are no everyday words, and those of cutting and mixing all the same."""
    return tuple(
        form
        for form, action in by_form().items()
        if " " not in form and len(form) > 3 and (not action.ambiguous or action.kind in ("cut", "combine"))
    )
