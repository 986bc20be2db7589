"""The registry of gap checks: each asks one kind of question about a draft."""

import hashlib
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from stovescript.recipe.draft import Draft, Evidence, Gap, GapKind, Severity
from stovescript.speech.heard import Heard

_ORDER: dict[Severity, int] = {"must": 0, "should": 1, "could": 2}


@dataclass(frozen=True, slots=True)
class Question:
    """What one check found missing; the registry gives it its id."""

    kind: GapKind
    severity: Severity
    about: str
    question: str
    evidence: Sequence[Evidence] = ()
    ingredient: str | None = None
    step: str | None = None


Check = Callable[[Draft, Heard], Iterator[Question]]
CHECKS: list[Check] = []


def check(function: Check) -> Check:
    """Registers a gap check."""
    CHECKS.append(function)
    return function


def ask(draft: Draft, heard: Heard) -> Draft:
    """The draft with the questions of every check, the most serious first, each in order of the talk.

    An id is made of the kind, what it is about and how many such came before, so a re-run gives the same.
    """
    seen: dict[tuple[str, str], int] = {}
    gaps: list[Gap] = []
    for one in CHECKS:
        for question in one(draft, heard):
            key = (question.kind, question.about.lower())
            seen[key] = seen.get(key, 0) + 1
            mark = hashlib.sha256("|".join([*key, str(seen[key])]).encode()).hexdigest()[:6]
            gaps.append(
                Gap(
                    id=f"{question.kind}-{mark}",
                    kind=question.kind,
                    severity=question.severity,
                    about=question.about,
                    question=question.question,
                    ingredient=question.ingredient,
                    step=question.step,
                    evidence=list(question.evidence),
                )
            )
    gaps.sort(key=lambda gap: (_ORDER[gap.severity], gap.evidence[0].start if gap.evidence else 0.0))
    return draft.model_copy(update={"gaps": gaps})
