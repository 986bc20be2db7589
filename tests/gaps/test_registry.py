"""The registry: every kind of the contract can be asked, ids last, the most serious question comes first."""

from typing import get_args

import pytest

from stovescript.gaps import CHECKS
from stovescript.recipe.draft import GapKind
from tests.recipe.talking import drafted

TALK = """
states| {amount:a cup} of {food:walnuts} and {amount:two cups} of {food:rice}
does @s1| {action:add} the {food:rice} and {amount:a glug} of {food:olive oil} and the {food:garlic}
states| that's {amount:three cups} of {food:rice}
does| {action:pour in} {amount:two cups} of {food:stock} and {amount:a can} of {food:tomatoes}
alternative| instead of {food:stock} use {food:bouillon powder}
does @s2| {action:heat} the {appliance:oven} to {temp:400}
~ 60
does @s3| {action:roast} {amount:two pounds} of {food:chicken thighs} for {time:forty minutes}
~ 60
does @s4| {action:add} {amount:one cup} of {food:stock}
states| so {amount:five cups} of {food:stock} altogether
does @s5| {action:set} the {appliance:pressure cooker} to {program:pressure cook} for {time:eight minutes}
does @s6| {action:grill} it in the {appliance:grill} for {time:five minutes} {cue:until charred}
chat| look at that
does @s7| {action:marinate} the {food:chicken thighs}
tip| oh i forgot you should have salted it
chat| lovely
chat| so lovely
chat| really lovely
promise| the {food:flatbreads} are in the post
"""


def test_every_kind_of_the_contract_is_asked() -> None:
    """One talk that leaves everything open."""
    assert {gap.kind for gap in drafted(TALK).gaps} == set(get_args(GapKind))


def test_a_talk_that_says_it_all_is_asked_nothing() -> None:
    draft = drafted(
        """announce| today we're making {food:tofu skewers}
        does @s1| {action:fry} {amount:a pound} of {food:tofu} on {level:medium} for {time:ten minutes}
        does| {action:add} {amount:two tablespoons} of {food:soy sauce}
        states| it serves {amount:four}"""
    )
    assert draft.gaps == []


def test_the_most_serious_first_then_in_the_order_of_the_talk() -> None:
    gaps = drafted(TALK).gaps
    ranks = [("must", "should", "could").index(gap.severity) for gap in gaps]
    assert ranks == sorted(ranks)
    for severity in range(3):
        starts = [
            gap.evidence[0].start for gap, rank in zip(gaps, ranks, strict=True) if rank == severity and gap.evidence
        ]
        assert starts == sorted(starts)


def test_ids_are_the_same_on_a_second_run() -> None:
    assert [gap.id for gap in drafted(TALK).gaps] == [gap.id for gap in drafted(TALK).gaps]


@pytest.mark.parametrize(
    "clause",
    [
        "chat| my neighbor has a dog",
        "does| {action:stir} it",
        "does| {action:add} {amount:a teaspoon} of {food:cumin}",
        "tip| taste it",
        "~ 40",
    ],
)
@pytest.mark.parametrize("place", ["first", "last"])
def test_ids_outlast_an_unrelated_clause(clause: str, place: str) -> None:
    """Her answers are kept by id, so an edit elsewhere in the talk must not lose them."""
    edited = f"{clause}\n{TALK}" if place == "first" else f"{TALK}\n{clause}"
    assert {gap.id for gap in drafted(edited).gaps} >= {gap.id for gap in drafted(TALK).gaps}


def test_an_id_starts_with_its_kind_and_is_unique() -> None:
    gaps = drafted(TALK).gaps
    assert len({gap.id for gap in gaps}) == len(gaps)
    assert all(gap.id.startswith(gap.kind) for gap in gaps)


def test_two_questions_about_one_thing_have_two_ids() -> None:
    draft = drafted(
        """does @s1| {action:add} the {food:milk}
        does @s2| {action:pour in} more {food:milk}"""
    )
    ids = [gap.id for gap in draft.gaps if gap.kind == "unmeasured"]
    assert len(set(ids)) == len(ids) == 2


def test_a_question_points_to_where_it_was_heard() -> None:
    draft = drafted(TALK)
    ingredients = {one.id for one in draft.ingredients}
    steps = {step.id for step in draft.steps}
    for gap in draft.gaps:
        assert gap.question.endswith("?") or gap.kind == "safety"
        assert gap.ingredient in {*ingredients, None} and gap.step in {*steps, None}
        assert gap.evidence or gap.kind in ("title", "no_servings")
        for evidence in gap.evidence:
            assert 0 <= evidence.start < evidence.end <= draft.source.seconds


def test_every_check_says_what_it_asks() -> None:
    assert all(check.__doc__ for check in CHECKS)
