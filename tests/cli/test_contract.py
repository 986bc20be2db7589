"""The draft is a contract: every key at every level, valid against the schema, every value within the talk."""

import json
import re
import typing
from collections.abc import Iterator
from typing import Any

import pint
import pytest
import webvtt
from jsonschema import Draft202012Validator, ValidationError  # type: ignore[import-untyped]
from pydantic import ValidationError as NotADraft

from stovescript.kitchen.units import units
from stovescript.recipe.draft import Draft, GapKind, SetAside, Severity, Temperature
from tests.cli.conftest import Drafted
from tests.cli.running import Stovescript
from tests.pages.demo import DEMO, demo_draft, demo_talk
from tests.pages.posts import full_draft

Json = Any

# The contract of the design, key by key; None is a plain value, [x] a list of x.
AMOUNT = dict.fromkeys(("low", "high", "unit", "approximate", "said"))
SPAN = dict.fromkeys(("low", "high"))
EVIDENCE = [dict.fromkeys(("start", "end", "text"))]
NOTES = [{"text": None, "evidence": EVIDENCE}]
SETTING = {
    "appliance": None,
    "program": None,
    "level": None,
    "temperature": dict.fromkeys(("low", "high", "unit", "unit_said")),
    "seconds": SPAN,
    "release": None,
    "evidence": EVIDENCE,
}
CONTRACT = {
    "format": None,
    "version": None,
    "title": None,
    "summary": None,
    "source": dict.fromkeys(("file", "sha256", "seconds", "words")),
    "servings": AMOUNT,
    "ingredients": [
        {
            "id": None,
            "name": None,
            "component": None,
            "optional": None,
            "preparation": [None],
            "package": {"count": None, "size": AMOUNT},
            "uses": [{"amount": AMOUNT, "step": None, "evidence": EVIDENCE}],
            "total": AMOUNT,
            "alternatives": [{"name": None, "amount": AMOUNT, "note": None, "evidence": EVIDENCE}],
            "allergens": [None],
        }
    ],
    "steps": [
        {
            "id": None,
            "text": None,
            "start": None,
            "end": None,
            "ingredients": [None],
            "settings": [SETTING],
            "until": None,
            "equipment": [None],
        }
    ],
    "times": {
        "prep": SPAN,
        "cook": SPAN,
        "total": SPAN,
        "stated": [{"what": None, "span": SPAN, "evidence": EVIDENCE}],
    },
    "equipment": [{"name": None, "size": None, "evidence": EVIDENCE}],
    "variations": NOTES,
    "tips": NOTES,
    "promises": NOTES,
    "set_aside": [{"name": None, "why": None, "evidence": EVIDENCE}],
    "cautions": [{"text": None, "source": None}],
    "gaps": [
        {
            "id": None,
            "kind": None,
            "severity": None,
            "about": None,
            "question": None,
            "ingredient": None,
            "step": None,
            "evidence": EVIDENCE,
        }
    ],
}
KINDS = {
    *("unmeasured", "vague", "unused", "conflict", "total_mismatch", "no_temperature", "no_time", "temperature_unit"),
    *("no_servings", "no_size", "no_release", "no_doneness", "promise", "safety", "order", "title"),
    "alternative_unmeasured",
}


def missing(value: Json, contract: Json, at: str = "draft", whole: bool = False) -> Iterator[str]:
    """Where a key of the contract is missing; with `whole`, where a level isn't reached either."""
    if contract is None:
        return
    if value is None or value == []:
        if whole:
            yield f"{at} is not there"
        return
    if isinstance(contract, list):
        for number, part in enumerate(value):
            yield from missing(part, contract[0], f"{at}[{number}]", whole and number == 0)
        return
    for key, part in contract.items():
        if key in value:
            yield from missing(value[key], part, f"{at}.{key}", whole)
        else:
            yield f"{at}.{key}"


def parts(value: Json, keys: set[str]) -> Iterator[dict[str, Json]]:
    """Every object with just these keys, at any level."""
    if isinstance(value, dict):
        if set(value) == keys:
            yield value
        for part in value.values():
            yield from parts(part, keys)
    elif isinstance(value, list):
        for part in value:
            yield from parts(part, keys)


@pytest.fixture
def demo(drafted: Drafted) -> Json:
    return json.loads(drafted.data.read_text(encoding="utf-8"))


def test_all_keys_are_there_at_every_level(demo: Json) -> None:
    assert list(missing(demo, CONTRACT)) == []


def test_a_draft_with_everything_reaches_every_level() -> None:
    assert list(missing(json.loads(full_draft().model_dump_json()), CONTRACT, whole=True)) == []


def test_the_demo_says_its_format_and_source(demo: Json) -> None:
    assert (demo["format"], demo["version"]) == ("stovescript/draft", 1)
    assert demo["source"]["file"] == DEMO.name
    assert re.fullmatch(r"[0-9a-f]{64}", demo["source"]["sha256"])
    assert demo["ingredients"] and demo["steps"] and demo["gaps"]


def test_the_fixed_words_are_those_of_the_contract() -> None:
    assert set(typing.get_args(GapKind)) == KINDS
    assert typing.get_args(Severity) == ("must", "should", "could")
    assert typing.get_args(SetAside.model_fields["why"].annotation) == (
        "not used",
        "alternative",
        "another dish",
        "chat",
    )
    assert typing.get_args(Temperature.model_fields["unit"].annotation) == ("F", "C", "gas mark")


def test_what_was_written_is_read_back(drafted: Drafted) -> None:
    assert Draft.model_validate_json(drafted.data.read_bytes()) == demo_draft()


@pytest.mark.parametrize("wrong", [{"format": "another"}, {"version": 2}, {"servings": 4}, {"surprise": 1}])
def test_what_is_no_draft_is_not_read(wrong: Json) -> None:
    with pytest.raises(NotADraft):
        Draft.model_validate(full_draft().model_dump() | wrong)


def test_a_draft_is_not_changed() -> None:
    with pytest.raises(NotADraft, match="frozen"):
        full_draft().title = "Another"


# The schema: JSON Schema Draft 2020-12, checked by jsonschema.


@pytest.fixture
def schema(stove: Stovescript) -> Json:
    ran = stove("schema")
    assert (ran.code, ran.err) == (0, "")
    return json.loads(ran.out)


def test_the_drafts_are_valid_against_the_schema_printed(schema: Json, demo: Json) -> None:
    Draft202012Validator.check_schema(schema)
    for draft in (demo, json.loads(full_draft().model_dump_json())):
        Draft202012Validator(schema).validate(draft)


@pytest.mark.parametrize(
    "key",
    [pytest.param(key) if key in ("format", "version", "gaps") else key for key in CONTRACT],
)
def test_the_schema_asks_for_every_key(schema: Json, key: str) -> None:
    whole = json.loads(full_draft().model_dump_json())
    del whole[key]
    with pytest.raises(ValidationError, match=f"'{key}' is a required property"):
        Draft202012Validator(schema).validate(whole)


@pytest.mark.parametrize(
    "wrong",
    [{"format": "another"}, {"servings": 4}, {"gaps": [{"kind": "whim"}]}, {"times": None}, {"title": ["Soup"]}],
)
def test_the_schema_refuses(schema: Json, wrong: Json) -> None:
    whole = json.loads(full_draft().model_dump_json())
    assert not Draft202012Validator(schema).is_valid(whole | wrong)


# Values: within the talk, in units written in full, and tied to each other.


def test_every_time_is_within_the_talk(demo: Json) -> None:
    seconds = demo["source"]["seconds"]
    assert 600 < seconds < 660, "the demo is about ten and a half minutes long"
    for evidence in parts(demo, {"start", "end", "text"}):
        assert 0 <= evidence["start"] <= evidence["end"] <= seconds
    starts = [step["start"] for step in demo["steps"]]
    assert starts == sorted(starts)
    assert all(0 <= step["start"] <= step["end"] <= seconds for step in demo["steps"])


def test_evidence_is_word_for_word_what_was_said_then(demo: Json) -> None:
    words = demo_talk().words
    for evidence in parts(demo, {"start", "end", "text"}):
        then = [word.text for word in words if evidence["start"] - 0.006 <= word.start <= evidence["end"] + 0.006]
        assert evidence["text"] in " ".join(then)


def test_evidence_stands_in_the_captions_at_that_time(demo: Json) -> None:
    """webvtt-py reads the demo's captions independently; a word may be shown up to a cue early or late."""
    captions = [
        (cue.start_in_seconds, cue.end_in_seconds, cue.text.split()) for cue in webvtt.read(str(DEMO)).captions
    ]
    for evidence in parts(demo, {"start", "end", "text"}):
        on_screen = {
            word
            for start, end, words in captions
            if start <= evidence["end"] + 0.5 and evidence["start"] - 0.5 <= end
            for word in words
        }
        assert set(evidence["text"].split()) <= on_screen


def test_amounts_run_from_low_to_high(demo: Json) -> None:
    for amount in parts(demo, set(AMOUNT)):
        assert 0 < amount["low"] <= amount["high"]
        assert amount["said"].strip()
    for span in parts(demo, set(SPAN)):
        assert 0 < span["low"] <= span["high"]


def test_units_are_singular_and_in_full(demo: Json) -> None:
    """pint gives every unit of volume and mass its full singular name, whichever way it is written."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    found = {amount["unit"] for amount in parts(demo, set(AMOUNT))} - {""}
    assert {"cup", "tablespoon", "teaspoon", "can"} <= found
    for unit in found:
        assert re.fullmatch(r"[a-z]{3,}( [a-z]+)*", unit), f"{unit} is short for something"
        assert not re.search(r"[^s]s$", unit), f"{unit} is a plural"
        if unit in units() and units()[unit].dimension in ("volume", "mass"):
            assert str(registry.parse_units(unit.replace(" ", "_"))).replace("_", " ") == unit


def test_ids_are_given_in_order_and_point_at_something(demo: Json) -> None:
    ingredients, steps = demo["ingredients"], demo["steps"]
    assert [i["id"] for i in ingredients] == [f"i{n}" for n in range(1, len(ingredients) + 1)]
    assert [s["id"] for s in steps] == [f"s{n}" for n in range(1, len(steps) + 1)]
    known_ingredients = {None, *(i["id"] for i in ingredients)}
    known_steps = {None, *(s["id"] for s in steps)}
    assert {id_ for step in steps for id_ in step["ingredients"]} <= known_ingredients
    assert {use["step"] for i in ingredients for use in i["uses"]} <= known_steps
    assert {gap["ingredient"] for gap in demo["gaps"]} <= known_ingredients
    assert {gap["step"] for gap in demo["gaps"]} <= known_steps


def test_every_step_tells_what_to_do(demo: Json) -> None:
    assert [step["id"] for step in demo["steps"] if not step["text"].strip()] == []


def test_every_value_heard_has_its_evidence(demo: Json) -> None:
    for section in ("equipment", "variations", "tips", "promises", "set_aside"):
        assert all(part["evidence"] for part in demo[section]), section
    assert all(use["evidence"] for i in demo["ingredients"] for use in i["uses"])
    assert all(setting["evidence"] for step in demo["steps"] for setting in step["settings"])
    assert all(stated["evidence"] for stated in demo["times"]["stated"])


def test_the_questions_have_ids_of_their_own_and_come_most_serious_first(demo: Json) -> None:
    gaps = demo["gaps"]
    assert len({gap["id"] for gap in gaps}) == len(gaps)
    assert all(re.fullmatch(rf"{gap['kind']}-[0-9a-f]{{6}}", gap["id"]) for gap in gaps)
    order = [typing.get_args(Severity).index(gap["severity"]) for gap in gaps]
    assert order == sorted(order)
    assert all(re.search(r"[?.]$", gap["question"]) for gap in gaps)
