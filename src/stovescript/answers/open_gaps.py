"""Which questions are open after answers and corrections: those still unanswered, and new ones that follow."""

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import replace

from stovescript.answers.parts import ARISEN, FOLLOWS
from stovescript.answers.remembered import remembered
from stovescript.answers.settle import settled
from stovescript.answers.state import Gone, State
from stovescript.gaps import ask
from stovescript.kitchen.words import phrases
from stovescript.measure import find_quantities
from stovescript.recipe.draft import TO_TASTE, Draft, Gap, Severity, Step
from stovescript.speech.heard import Heard
from stovescript.talk import Talk

_SILENCE = Heard(Talk("", "", 0.0, (), ()), (), (), ())
"""Nothing heard: the checks then ask what the draft alone raises."""
_ORDER: dict[str, int] = {"must": 0, "should": 1, "could": 2}

_Key = tuple[str, str, str, float | None, int]


def gaps_of(state: State, draft: Draft) -> list[Gap]:
    """The open questions of a settled draft, the most serious first, each in order of the talk.

    A question as heard keeps its id. One that the draft alone raises goes when the draft does not raise it any
    more; one that rests on the words heard goes when what it is about is gone or corrected. A question that a
    correction raises is new.
    """
    before, now = _raised(state, state.heard), _raised(state, draft)
    heard = _keyed(state, state.heard.gaps)
    gaps: list[Gap] = []
    for key, gap in heard.items():
        if gap.id in state.closed:
            continue
        if key in before:
            if key in now:
                gaps.append(_at(state, now[key].model_copy(update={"id": gap.id, "severity": gap.severity})))
        elif not _moot(state, draft, gap):
            gaps.append(_at(state, gap))
    asked_inside = {key for key in before if key[0] == "safety"} <= heard.keys()
    for key, gap in now.items():
        if key in before or key in heard or (gap.kind == "safety" and gap.ingredient and not asked_inside):
            continue
        new = gap.model_copy(update={"id": _new_id(state, gap, key[-1])})
        if new.id not in state.closed and not _unchanged_vessel(state, draft, gap):
            gaps.append(new)
    gaps += [gap for gap in state.follow_ups if gap.id not in state.closed and not _followed(draft, gap)]
    return sorted(gaps, key=lambda gap: (_ORDER[gap.severity], gap.evidence[0].start if gap.evidence else 0.0))


def open_gap(state: State, id_: str) -> Gap:
    """The question of that id, as heard or as it has arisen. Raises Gone where it is not asked."""
    for gap in (*state.heard.gaps, *state.follow_ups):
        if gap.id == id_:
            return _at(state, gap)
    for gap in gaps_of(state, settled(state)):
        if gap.id == id_:
            return gap
    raise Gone("that question is no longer asked")


def follow_up(state: State, gap: Gap, question: str, severity: Severity | None = None) -> State:
    """The state with a question that an answer raises."""
    id_ = f"{gap.id}{FOLLOWS}"
    update = {"id": id_, "question": question, "severity": severity or gap.severity}
    rest = tuple(one for one in state.follow_ups if one.id != id_)
    return replace(state, follow_ups=(*rest, gap.model_copy(update=update)))


def _raised(state: State, draft: Draft) -> dict[_Key, Gap]:
    """What the draft alone raises, by what it is about."""
    asked = _asked_as_heard(draft) if draft is state.heard else _asked(draft)
    return _keyed(state, (gap for gap in asked if not _given(draft, gap)))


def _asked(draft: Draft) -> list[Gap]:
    return ask(draft, _SILENCE).gaps


_asked_as_heard = remembered(_asked)


def _keyed(state: State, gaps: Iterable[Gap]) -> dict[_Key, Gap]:
    found: dict[_Key, Gap] = {}
    for gap in gaps:
        subject = state.now(gap.ingredient) if gap.ingredient else gap.about
        if gap.kind == "alternative_unmeasured":
            subject = f"{subject} {gap.about}"
        start = gap.evidence[0].start if gap.evidence else None
        number = 1
        while (key := (gap.kind, subject, state.now(gap.step) if gap.step else "", start, number)) in found:
            number += 1
        found[key] = gap
    return found


def _new_id(state: State, gap: Gap, number: int) -> str:
    """An id that stays when the talk is drafted again: made of names and words, not of places."""
    names = {one.id: one.name for one in state.heard.ingredients}
    subject = names.get(gap.ingredient or "", gap.ingredient or gap.about)
    words = [evidence.text for evidence in gap.evidence[:1]]
    words = words or [e.text for one in state.draft.steps if one.id == gap.step for e in one.evidence[:1]]
    mark = hashlib.sha256("|".join([gap.kind, subject, *words, str(number)]).encode()).hexdigest()[:6]
    return f"{gap.kind}-{ARISEN}{mark}"


def _at(state: State, gap: Gap) -> Gap:
    """The question with what its ingredient and step have become."""
    ingredient, step = (id_ and state.now(id_) for id_ in (gap.ingredient, gap.step))
    if (ingredient, step) == (gap.ingredient, gap.step):
        return gap
    return gap.model_copy(update={"ingredient": ingredient, "step": step})


def _given(draft: Draft, gap: Gap) -> bool:
    """True for a vague amount that she leaves to the reader on purpose, and for a promise that she keeps."""
    if gap.kind == "promise":
        return any(note.evidence == gap.evidence for note in draft.promises if note.fulfilled_by)
    if gap.kind != "vague":
        return False
    uses = [use for one in draft.ingredients if one.id == gap.ingredient for use in one.uses]
    return any(
        use.amount is not None and use.amount.unit == TO_TASTE and use.step == gap.step
        for use in uses
        if use.evidence == gap.evidence
    )


def _unchanged_vessel(state: State, draft: Draft, gap: Gap) -> bool:
    """True for a vessel that was not asked about when the talk was heard, and is as it was."""
    was = [one for one in state.heard.equipment if one.name == gap.about]
    return (
        gap.kind == "no_size" and gap.ingredient is None and was == [e for e in draft.equipment if e.name == gap.about]
    )


def _followed(draft: Draft, gap: Gap) -> bool:
    """True where a question that an answer raised has settled itself."""
    ingredient = next((one for one in draft.ingredients if one.id == gap.ingredient), None)
    if gap.ingredient and ingredient is None:
        return True
    if gap.kind != "total_mismatch" or ingredient is None:
        return False
    total, stated = ingredient.total, ingredient.stated_total
    return stated is None or (
        total is not None and (total.low, total.high, total.unit) == (stated.low, stated.high, stated.unit)
    )


def _moot(state: State, draft: Draft, gap: Gap) -> bool:
    """True for a question, raised by the words heard, that a correction has made pointless."""
    ingredient = next(
        (one for one in draft.ingredients if gap.ingredient and one.id == state.now(gap.ingredient)), None
    )
    step = next((one for one in draft.steps if gap.step and one.id == state.now(gap.step)), None)
    if (gap.ingredient and ingredient is None) or (gap.step and step is None):
        return True
    was = next((one for one in state.heard.steps if one.id == gap.step), None)
    if gap.kind == "order":
        return bool(draft.steps) if gap.about == "method" else bool(step and step.id in state.moved)
    if gap.kind == "unmeasured" and gap.about == "ingredients":
        return bool(draft.ingredients)
    if gap.kind == "conflict" and ingredient is not None:
        old = next((one for one in state.heard.ingredients if one.id == gap.ingredient), None)
        return old is not None and [u.amount for u in old.uses] != [u.amount for u in ingredient.uses]
    if gap.kind in ("no_time", "no_doneness", "no_temperature") and step and was:
        return bool(set(_facts(step, gap.kind)) - set(_facts(was, gap.kind)))
    return False


def _facts(step: Step, kind: str) -> Iterator[str]:
    """What a step says of heat, or of time and signs, in its settings and its words."""
    if kind == "no_temperature":
        yield from (str(value) for one in step.settings for value in (one.temperature, one.level) if value)
        return
    if step.until:
        yield step.until
    yield from (sign.group() for sign in phrases("signs").finditer(step.text.lower()))
    if kind == "no_time":
        yield from (str(one.seconds) for one in step.settings if one.seconds)
        yield from (one.said for one in find_quantities(step.text.lower().split()) if one.kind == "duration")
