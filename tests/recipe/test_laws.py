"""Laws of the draft: whatever is said, in whatever order, a valid draft comes out, with its evidence in order."""

from collections.abc import Iterator
from math import isfinite
from typing import Any, TypeVar

from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel

from stovescript.recipe.draft import Amount, Draft, Evidence, Span, Temperature
from stovescript.training.corpus import INTENTS

from .talking import drafted
from .test_contract import invalid

P = TypeVar("P", bound=BaseModel)

LAW = settings(max_examples=40, deadline=None)
ROUNDING = 0.0051
"""Seconds: evidence is rounded to hundredths."""

WORDS = {
    "food": (
        "flour", "brown sugar", "sugar", "the beans", "white beans", "chicken", "chicken stock", "garlic", "salt",
        "eggs", "milk", "vegetables", "tumeric", "wizzlewort", "the dressing", "honey", "kidney beans", "rice",
    ),
    "amount": (
        "two cups", "a splash", "three", "half", "half of it", "a fifteen ounce can", "two cans", "a pinch",
        "250 grams", "two or three tablespoons", "for cloves", "both", "some", "a couple", "0 grams", "a few",
    ),
    "size": ("nine by thirteen", "fifteen ounce", "half inch", "large"),
    "prep": ("finely chopped", "melted", "drained"),
    "vessel": ("pan", "baking dish", "pot", "loaf tin"),
    "appliance": ("oven", "pressure cooker", "air fryer", "slow cooker", "grill", "smoker", "cooker"),
    "program": ("saute", "pressure cook", "keep warm", "white rice", "manual"),
    "level": ("high", "medium low", "low", "full blast"),
    "temp": ("350", "180 fan", "gas mark four", "400 fahrenheit", "165", "twenty"),
    "time": ("ten minutes", "an hour", "25 to 30 minutes", "overnight", "a while"),
    "cue": ("until golden", "till it's thick", "when it reads 165"),
    "action": (
        "add", "stir", "bake", "go in", "goes in", "chop", "let", "simmer", "turn off", "quick release", "rest",
        "frobnicate", "marinate",
    ),
}  # fmt: skip
PLAIN = (
    "and", "the", "of", "it", "those", "that", "everything", "the rest of", "the other half of", "in total", "more",
    "no sorry", "not", "instead of", "if you like", "to taste", "serves four people", "makes twelve", "in the", "um",
    "natural release", "to come to pressure", "two", "until", "today we're making", "should have", "for the baby",
    "same amount", "double", "another", "with", "for", "i've got", "leave it out", "half",
)  # fmt: skip

spans = st.sampled_from([f"{{{label}:{words}}}" for label, several in WORDS.items() for words in several])
clauses = st.builds(
    lambda more, intent, step, parts: f"{more}{intent} {step}| {' '.join(parts)}",
    st.sampled_from(["", "", "+"]),
    st.sampled_from([*INTENTS, "does", "does", "does", "states"]),
    st.sampled_from(["", "", "@s1"]),
    st.lists(st.one_of(spans, st.sampled_from(PLAIN)), min_size=1, max_size=7),
)
silences = st.integers(0, 90).map(lambda seconds: f"~ {seconds}")
talks = st.lists(st.one_of(clauses, clauses, clauses, silences), min_size=1, max_size=12).map(
    lambda lines: "\n".join(["chat| hello", *lines])
)


def parts_of(value: Any, kind: type[P]) -> Iterator[P]:
    """Every part of that kind in a draft, however deep."""
    if isinstance(value, kind):
        yield value
    if isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from parts_of(getattr(value, name), kind)
    elif isinstance(value, list | tuple):
        for one in value:
            yield from parts_of(one, kind)


@LAW
@given(talks)
def test_any_talk_gives_a_valid_draft(text: str) -> None:
    """It keeps the contract; printed as JSON and read again, it is the same draft."""
    draft = drafted(text)
    assert invalid(draft) == []
    assert Draft.model_validate_json(draft.model_dump_json()) == draft


@LAW
@given(talks)
def test_evidence_lies_within_the_talk_and_runs_forward(text: str) -> None:
    draft = drafted(text)
    for evidence in parts_of(draft, Evidence):
        assert isfinite(evidence.start) and isfinite(evidence.end)
        assert -ROUNDING <= evidence.start < evidence.end <= draft.source.seconds + ROUNDING
        assert evidence.text
    starts = [step.start for step in draft.steps]
    assert starts == sorted(starts)
    assert all(step.start < step.end for step in draft.steps)


@LAW
@given(talks)
def test_every_range_runs_upward(text: str) -> None:
    draft = drafted(text)
    ranges = [(one.low, one.high) for one in parts_of(draft, Amount)]
    ranges += [(one.low, one.high) for one in parts_of(draft, Span)]
    ranges += [(one.low, one.high) for one in parts_of(draft, Temperature)]
    assert all(0 <= low <= high and isfinite(high) for low, high in ranges)


@LAW
@given(talks)
def test_every_reference_has_its_target(text: str) -> None:
    draft = drafted(text)
    ingredients = [one.id for one in draft.ingredients]
    steps = [step.id for step in draft.steps]
    gaps = [gap.id for gap in draft.gaps]
    for ids in (ingredients, steps, gaps):
        assert len(ids) == len(set(ids))
    assert {use.step for one in draft.ingredients for use in one.uses} <= {*steps, None}
    assert {id_ for step in draft.steps for id_ in step.ingredients} <= {*ingredients}
    assert {gap.ingredient for gap in draft.gaps} <= {*ingredients, None}
    assert {gap.step for gap in draft.gaps} <= {*steps, None}


@LAW
@given(talks)
def test_a_second_run_gives_the_same(text: str) -> None:
    assert drafted(text) == drafted(text)
