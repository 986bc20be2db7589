"""`stovescript explain`: what was heard at a place or of a food, in agreement with the draft."""

import json
from typing import Any

import pytest

from stovescript.kitchen.triggers import triggers
from stovescript.pages.markdown import plain_amount
from stovescript.speech.labels import INTENTS
from tests.cli.running import Stovescript, one_line
from tests.pages.demo import DEMO, demo_draft, demo_heard

Json = Any


def explained(stove: Stovescript, *arguments: str) -> Json:
    ran = stove("explain", DEMO, *arguments, "--json")
    assert (ran.code, ran.err) == (0, "")
    return json.loads(ran.out)


@pytest.fixture
def whole(stove: Stovescript) -> Json:
    """The explanation of the whole demo talk."""
    return explained(stove, "--from", "0")


def test_the_whole_talk_is_told_of_clause_by_clause(whole: Json) -> None:
    heard = demo_heard()
    assert [clause["text"] for clause in whole["clauses"]] == [heard.text(c.start, c.end) for c in heard.clauses]
    assert [clause["intent"] for clause in whole["clauses"]] == [clause.intent for clause in heard.clauses]


def test_the_votes_are_of_all_intents_and_the_first_wins_unless_overruled(whole: Json) -> None:
    for clause in whole["clauses"]:
        shares = [vote["share"] for vote in clause["votes"]]
        assert {vote["intent"] for vote in clause["votes"]} == set(INTENTS)
        assert shares == sorted(shares, reverse=True)
        assert sum(shares) == pytest.approx(1, abs=0.01)
        assert (clause["votes"][0]["intent"] == clause["intent"]) == (clause["overruled"] == "")


def test_the_rows_are_those_of_the_table(whole: Json) -> None:
    known = {(row.phrase, row.category, row.direction, row.scope) for row in triggers()}
    shown = [row for clause in whole["clauses"] for row in clause["rows"]]
    assert shown
    assert {(row["phrase"], row["category"], row["direction"], row["scope"]) for row in shown} <= known


def test_settings_questions_and_uses_are_those_of_the_draft(whole: Json) -> None:
    draft = demo_draft()
    taken = {part["id"] for clause in whole["clauses"] for part in clause["taken"] if part["kind"] == "setting"}
    assert taken == {setting.id for step in draft.steps for setting in step.settings}
    asked = {gap["id"] for clause in whole["clauses"] for gap in clause["questions"]}
    assert asked == {gap.id for gap in draft.gaps if gap.evidence}
    used = {food["use"] for clause in whole["clauses"] for food in clause["foods"]} - {None}
    assert used == {use.id for ingredient in draft.ingredients for use in ingredient.uses}


def test_the_repairs_are_those_of_the_draft(whole: Json) -> None:
    repaired = {(one["heard"], one["meant"]) for clause in whole["clauses"] for one in clause["repairs"]}
    assert repaired >= {(one.heard, one.meant) for one in demo_draft().mishearings}


@pytest.mark.parametrize("ingredient", demo_draft().ingredients, ids=lambda ingredient: ingredient.name)
def test_an_ingredient_is_found_by_name_with_its_uses(stove: Stovescript, ingredient: Json) -> None:
    told = explained(stove, "--food", ingredient.name)
    (verdict,) = told["verdicts"]
    assert verdict["ingredient"] == ingredient.id
    assert [(use["id"], use["step"], use["amount"]) for use in verdict["uses"]] == [
        (use.id, use.step, plain_amount(use.amount, ingredient.package) if use.amount else "")
        for use in ingredient.uses
    ]
    assert all(any(food["ingredient"] == ingredient.id for food in clause["foods"]) for clause in told["clauses"])


def test_a_food_that_captions_mis_heard(stove: Stovescript) -> None:
    """The demo's captions show "one teaspoon of come in"."""
    out = stove("explain", DEMO, "--food", "cumin").out
    assert "“come in” is cumin (a known mis-hearing)" in out
    assert "1 teaspoon of cumin: said before the food" in out
    assert out == stove("explain", DEMO, "--food", "come in").out.replace("“come in” in", "“cumin” in", 1)


def test_a_food_that_is_no_ingredient_says_why(stove: Stovescript) -> None:
    draft = demo_draft()
    aside = next(one for one in draft.set_aside if one.why == "alternative")
    out = stove("explain", DEMO, "--food", aside.name).out
    assert f"{aside.name} is not an ingredient: set aside: alternative, in place of" in out


def test_a_place_shows_the_clauses_around_it(stove: Stovescript) -> None:
    told = explained(stove, "--at", "4:10", "--around", "5")
    assert (told["start"], told["end"]) == (245, 255)
    assert told["clauses"]
    assert all(clause["start"] <= 255 and clause["end"] >= 245 for clause in told["clauses"])


def test_the_page_is_plain_where_there_is_no_terminal(stove: Stovescript) -> None:
    ran = stove("explain", DEMO, "--at", "4:10")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith(f"{DEMO.name}, 3:50 to 4:30\n")
    assert "\x1b" not in ran.out
    assert all(word in ran.out for word in ("taken for  does (votes: does 0.", "heard      amount “one teaspoon”"))


def test_the_page_is_coloured_on_a_terminal(stove: Stovescript, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FORCE_COLOR", "1")
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    assert "\x1b[1m" in stove("explain", DEMO, "--at", "4:10").out


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ((), "Give a place or a food"),
        (("--at", "1:00", "--food", "cumin"), "Give a place or a food"),
        (("--at", "59:00"), "59:00 is outside the talk, which ends at"),
        (("--at", "noon"), "“noon” is no time"),
        (("--food", "dragon fruit"), "no food called “dragon fruit” was heard; the nearest are"),
        (("--food", " "), "no food called “ ” was heard"),
    ],
)
def test_what_cannot_be_explained_is_one_sentence(stove: Stovescript, arguments: tuple[str, ...], told: str) -> None:
    ran = stove("explain", DEMO, *arguments)
    assert ran.code == 2
    assert told in one_line(ran)
