"""Laws of scaling: there and back, mass conserved, never more than 5 % off unless said."""

from collections.abc import Iterable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stovescript.measure import convert
from stovescript.pages.resized import Change
from stovescript.pages.scaling import Variant, by_factor, in_units
from stovescript.pages.unit_systems import SYSTEMS
from stovescript.pages.weights import weigh
from stovescript.recipe.amounts import dimension
from stovescript.recipe.draft import Amount, Draft

from .drafts import draft

FOODS = ["all-purpose flour", "sugar", "milk", "butter", "olive oil", "honey", "onion", "rice", "cocoa powder"]
PARTS = [0.0, 1 / 4, 1 / 3, 1 / 2, 2 / 3, 3 / 4]
FACTORS = [1 / 3, 1 / 2, 2 / 3, 3 / 4, 1.5, 2.0, 3.0, 1.828, 0.617]

measured = st.tuples(
    st.sampled_from(["cup", "tablespoon", "pound", "ounce", "gram", "milliliter"]),
    st.integers(1, 12),
    st.sampled_from(PARTS),
    st.sampled_from(FOODS),
)


def a_draft(lines: Iterable[tuple[str, int, float, str]]) -> Draft:
    """Metric amounts are ten times as many, as nobody says 3 grams of flour."""
    return draft(
        [
            f"{whole * 10 if unit in ('gram', 'milliliter') else round(whole + part, 9)} {unit}: {food}"
            for unit, whole, part, food in lines
        ]
    )


drafts = st.lists(measured, min_size=1, max_size=6, unique_by=lambda line: line[3]).map(a_draft)


def base(amount: Amount) -> float:
    """Grams or milliliters."""
    return convert(amount.high, amount.unit, "gram" if dimension(amount.unit) == "mass" else "milliliter")


def said(variant: Variant, name: str) -> bool:
    return any(change.kind == "rounding" and change.text.startswith(f"{name}: ") for change in variant.changes)


@given(drafts, st.sampled_from(FACTORS))
@settings(deadline=None)
def test_mass_is_conserved_within_5_percent_or_it_is_said(before: Draft, factor: float) -> None:
    variant = by_factor(before, factor)
    for one, other in zip(before.ingredients, variant.draft.ingredients, strict=True):
        for use, now in zip(one.uses, other.uses, strict=True):
            assert use.amount and now.amount
            if not said(variant, one.name):
                assert base(now.amount) == pytest.approx(base(use.amount) * factor, rel=0.0501)


@given(drafts, st.sampled_from(FACTORS))
@settings(deadline=None)
def test_there_and_back_is_the_same_within_both_roundings(before: Draft, factor: float) -> None:
    there = by_factor(before, factor)
    back = by_factor(there.draft, 1 / factor)
    for one, other in zip(before.ingredients, back.draft.ingredients, strict=True):
        if not said(there, one.name) and not said(back, one.name):
            assert one.total and other.total
            assert base(other.total) == pytest.approx(base(one.total), rel=0.1026)  # 1.05 squared


@given(st.sampled_from(["cup", "tablespoon"]), st.integers(1, 12), st.sampled_from(PARTS), st.sampled_from([2, 4]))
def test_doubled_and_halved_is_exactly_the_same(unit: str, whole: int, part: float, times: int) -> None:
    """Where the amount is one that a measure gives: cups in thirds and quarters, tablespoons in halves."""
    number = whole + (part if unit == "cup" or part == 0.5 else 0)
    before = draft([f"{number} {unit}: sugar"])
    back = by_factor(by_factor(before, times).draft, 1 / times).draft
    one, other = before.ingredients[0].total, back.ingredients[0].total
    assert one and other
    assert base(other) == pytest.approx(base(one), rel=0.011)
    if unit == "tablespoon" or whole < 4:
        assert base(other) == pytest.approx(base(one), rel=1e-5)


@given(drafts, st.sampled_from(FACTORS))
@settings(deadline=None)
def test_the_total_is_the_one_use(before: Draft, factor: float) -> None:
    for each in by_factor(before, factor).draft.ingredients:
        assert each.total == each.uses[0].amount


@given(drafts, st.sampled_from(SYSTEMS))
@settings(deadline=None)
def test_another_system_keeps_the_amount(before: Draft, system: str) -> None:
    variant = in_units(before, next(each for each in SYSTEMS if each == system))
    for one, other in zip(before.ingredients, variant.draft.ingredients, strict=True):
        old, new = one.uses[0].amount, other.uses[0].amount
        assert old and new
        if said(variant, one.name):
            continue
        if dimension(old.unit) == dimension(new.unit):
            assert base(new) == pytest.approx(base(old), rel=0.0501)
        else:
            weight = weigh(one.name, old)
            assert weight and new.unit in ("gram", "kilogram")
            assert base(new) == pytest.approx(weight.high, rel=0.0501)


@given(drafts, st.sampled_from(FACTORS))
@settings(deadline=None)
def test_nothing_but_amounts_changes(before: Draft, factor: float) -> None:
    after = by_factor(before, factor).draft
    assert [i.name for i in after.ingredients] == [i.name for i in before.ingredients]
    assert [s.settings for s in after.steps] == [s.settings for s in before.steps]
    assert (after.source, after.times, after.title) == (before.source, before.times, before.title)
    assert Draft.model_validate_json(after.model_dump_json()) == after


@given(drafts, st.sampled_from(FACTORS))
@settings(deadline=None)
def test_every_change_is_a_sentence(before: Draft, factor: float) -> None:
    for change in by_factor(before, factor).changes:
        assert isinstance(change, Change) and change.text.endswith((".", ")"))
