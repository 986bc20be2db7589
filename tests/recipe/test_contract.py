"""The contract: a draft as JSON has every key, whatever was or was not said, and validates against a JSON schema."""

import json
from typing import Any

import pytest
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]

from stovescript.recipe.draft import Draft

from .talking import drafted

KINDS = [
    "unmeasured", "vague", "unused", "conflict", "total_mismatch", "no_temperature", "no_time", "temperature_unit",
    "no_servings", "no_size", "no_release", "no_doneness", "promise", "safety", "order", "title",
    "alternative_unmeasured",
]  # fmt: skip


def part(**properties: Any) -> dict[str, Any]:
    """An object with all of these keys; more may be added, none left out."""
    return {"type": "object", "properties": properties, "required": list(properties)}


def listed(item: dict[str, Any], at_least: int = 0) -> dict[str, Any]:
    return {"type": "array", "items": item, "minItems": at_least}


def maybe(schema: dict[str, Any]) -> dict[str, Any]:
    return {"anyOf": [schema, {"type": "null"}]}


TEXT = {"type": "string", "minLength": 1}
NUMBER = {"type": "number", "minimum": 0}
TRUTH = {"type": "boolean"}
AMOUNT = part(low=NUMBER, high=NUMBER, unit={"type": "string"}, approximate=TRUTH, said={"type": "string"})
SPAN = part(low=NUMBER, high=NUMBER)
EVIDENCE = listed(part(start=NUMBER, end=NUMBER, text=TEXT), at_least=1)
NOTES = listed(part(text=TEXT, evidence=EVIDENCE))
SETTING = part(
    appliance=maybe(TEXT),
    program=maybe(TEXT),
    level=maybe(TEXT),
    temperature=maybe(part(low=NUMBER, high=NUMBER, unit={"enum": ["F", "C", "gas mark"]}, unit_said=TRUTH)),
    seconds=maybe(SPAN),
    release=maybe(TEXT),
    evidence=EVIDENCE,
)
INGREDIENT = part(
    id=TEXT,
    name=TEXT,
    component=maybe(TEXT),
    optional=TRUTH,
    preparation=listed(TEXT),
    package=maybe(part(count=NUMBER, size=maybe(AMOUNT))),
    uses=listed(part(amount=maybe(AMOUNT), step=maybe(TEXT), evidence=EVIDENCE), at_least=1),
    total=maybe(AMOUNT),
    alternatives=listed(part(name=TEXT, amount=maybe(AMOUNT), note=maybe(TEXT), evidence=EVIDENCE)),
    allergens=listed(TEXT),
)
STEP = part(
    id=TEXT,
    text={"type": "string"},
    start=NUMBER,
    end=NUMBER,
    ingredients=listed(TEXT),
    settings=listed(SETTING),
    until=maybe(TEXT),
    equipment=listed(TEXT),
)
GAP = part(
    id=TEXT,
    kind={"enum": KINDS},
    severity={"enum": ["must", "should", "could"]},
    about=TEXT,
    question=TEXT,
    ingredient=maybe(TEXT),
    step=maybe(TEXT),
    evidence=listed(part(start=NUMBER, end=NUMBER, text=TEXT)),
)
CONTRACT = part(
    format={"const": "stovescript/draft"},
    version={"const": 1},
    title=maybe(TEXT),
    summary=maybe(TEXT),
    source=part(file=TEXT, sha256={"type": "string", "pattern": "^[0-9a-f]{64}$"}, seconds=NUMBER, words=NUMBER),
    servings=maybe(AMOUNT),
    ingredients=listed(INGREDIENT),
    steps=listed(STEP),
    times=part(
        prep=maybe(SPAN),
        cook=maybe(SPAN),
        total=maybe(SPAN),
        stated=listed(part(what=TEXT, span=SPAN, evidence=EVIDENCE)),
    ),
    equipment=listed(part(name=TEXT, size=maybe(TEXT), evidence=EVIDENCE)),
    variations=NOTES,
    tips=NOTES,
    promises=NOTES,
    set_aside=listed(
        part(name=TEXT, why={"enum": ["not used", "alternative", "another dish", "chat"]}, evidence=EVIDENCE)
    ),
    cautions=listed(part(text=TEXT, source=TEXT)),
    gaps=listed(GAP),
)
VALIDATOR = Draft202012Validator(CONTRACT)

SOUP = """
announce| today we're making {food:chicken soup}
states| it serves {amount:four to six} and takes {time:an hour} altogether
does @s1| {action:set} the {appliance:pressure cooker} to {program:saute}
+does| and {action:melt} {amount:a knob} of {food:butter}
does| {action:add} {amount:two fifteen ounce cans} of {food:white beans} {prep:drained}
does @s2| {action:add} {amount:a pound} of {food:chicken thighs} and some {food:garlic} if you like
does| {action:cook} it under {program:pressure cook} for {time:ten minutes} {cue:until it's tender}
does @s3| {action:let} it natural release for {time:ten minutes}
does @s4| {action:brown} it in the {appliance:oven} at {temp:400}
alternative| instead of {food:white beans} use {food:chickpeas}
alternative| in a {appliance:slow cooker} it's {time:six hours}
not-done| i leave out the {food:bacon}
tip| dry it well
promise| the {food:flatbreads} are in the post
"""


def invalid(draft: Draft) -> list[str]:
    """What breaks the contract, by its place in the JSON."""
    return [
        f"{error.json_path}: {error.message}" for error in VALIDATOR.iter_errors(json.loads(draft.model_dump_json()))
    ]


@pytest.mark.parametrize(
    "talk",
    [SOUP, "chat| hello", "does| {action:stir} it", "states| {amount:two cups} of {food:flour}", "promise| later"],
    ids=["a whole soup", "only a greeting", "only a stir", "only a food", "only a promise"],
)
def test_the_contract_holds(talk: str) -> None:
    assert invalid(drafted(talk)) == []


def test_the_schema_itself_is_valid_and_bites() -> None:
    Draft202012Validator.check_schema(CONTRACT)
    broken = json.loads(drafted(SOUP).model_dump_json())
    del broken["steps"][0]["until"]
    broken["gaps"][0]["kind"] = "unheard of"
    assert len(list(VALIDATOR.iter_errors(broken))) == 2


def test_a_whole_soup_fills_every_part() -> None:
    draft = drafted(SOUP)
    assert draft.title == "chicken soup"
    for name in ("servings", "ingredients", "steps", "equipment", "variations", "tips", "promises", "set_aside",
                 "cautions", "gaps"):  # fmt: skip
        assert getattr(draft, name), name
    assert draft.times.total and draft.times.stated
    assert draft.source.words == sum(len(clause.split("| ")[1].split()) for clause in SOUP.strip().splitlines())


def test_json_round_trip_is_the_identity() -> None:
    draft = drafted(SOUP)
    assert Draft.model_validate_json(draft.model_dump_json()) == draft


def test_a_draft_does_not_change_when_the_talk_is_drafted_again() -> None:
    assert drafted(SOUP) == drafted(SOUP)


def test_parts_are_immutable_and_strict() -> None:
    draft = drafted(SOUP)
    with pytest.raises(ValueError, match="frozen"):
        draft.steps[0].text = "Serve."
    with pytest.raises(ValueError, match="extra"):
        Draft.model_validate({**json.loads(draft.model_dump_json()), "mood": "cheerful"})
