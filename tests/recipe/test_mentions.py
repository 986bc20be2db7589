"""Mentions: how tagged words and the amount grammar come together, before anything is known of a recipe."""

import numpy as np
import pytest

from stovescript.speech.food_spans import with_table_foods
from stovescript.speech.labels import TAGS
from stovescript.speech.listen import spans_of
from stovescript.speech.words import plain, singular

from .talking import heard


def mentions(text: str) -> list[tuple[str, str]]:
    (clause,) = heard(text).clauses
    return [(mention.label, mention.text) for mention in clause.mentions]


def value(text: str, label: str) -> tuple[float, float, str]:
    (clause,) = heard(text).clauses
    (mention,) = clause.labelled(label)
    assert mention.quantity
    return mention.quantity.low, mention.quantity.high, mention.quantity.unit


@pytest.mark.parametrize(
    ("text", "amount"),
    [
        ("does| {action:add} {amount:two cups} of {food:flour}", (2, 2, "cup")),
        ("does| {action:add} {amount:a cup and a half} of {food:flour}", (1.5, 1.5, "cup")),
        ("does| {action:add} {amount:two or three} {food:eggs}", (2, 3, "")),
        ("does| {action:add} {amount:for cloves} of {food:garlic}", (4, 4, "clove")),
        ("does| {action:add} {amount:three ladles} of {food:broth}", (3, 3, "ladle")),
        ("does| {action:add} {amount:both cans} of {food:beans}", (2, 2, "can")),
        ("does| {action:add} {amount:1/2 tsp} {food:salt}", (0.5, 0.5, "teaspoon")),
    ],
)
def test_amounts(text: str, amount: tuple[float, float, str]) -> None:
    assert value(text, "amount") == amount


@pytest.mark.parametrize(
    ("text", "label", "expected"),
    [
        ("does| {action:heat} it to {temp:350}", "temp", (350, 350, "")),
        ("does| {action:heat} it to {temp:gas mark four}", "temp", (4, 4, "gas mark")),
        ("does| {action:bake} it for {time:an hour and a half}", "time", (5400, 5400, "second")),
        ("does| {action:bake} it for {time:25 to 30 minutes}", "time", (1500, 1800, "second")),
    ],
)
def test_temperatures_and_times(text: str, label: str, expected: tuple[float, float, str]) -> None:
    """Times are in seconds."""
    low, high, _ = value(text, label)
    assert (low, high) == expected[:2]


def test_a_tag_decides_what_a_bare_number_is() -> None:
    assert value("does| {action:add} {amount:six} {food:eggs}", "amount") == (6, 6, "")
    assert ("amount", "six") not in mentions("chat| there are six of us at home")


def test_an_amount_that_no_tag_vouches_for_is_heard_by_its_unit() -> None:
    assert ("amount", "two cups") in mentions("does| {action:add} two cups of {food:flour}")


def test_a_tagged_amount_without_a_value_is_no_amount() -> None:
    assert mentions("does| {action:add} {amount:some} {food:flour}") == [("action", "add"), ("food", "flour")]


def test_mentions_come_in_the_order_of_speech() -> None:
    found = mentions("does| {action:put} {amount:two} {food:leeks} in the {vessel:pan} for {time:ten minutes}")
    assert [label for label, _ in found] == ["action", "amount", "food", "vessel", "time"]


def tags(*names: str) -> np.ndarray:
    """Tag probabilities that are sure of each word's tag."""
    scores = np.zeros((len(names), len(TAGS)), dtype=np.float32)
    for place, name in enumerate(names):
        scores[place, TAGS.index(name)] = 1.0
    return scores


def test_spans_of_tags() -> None:
    assert spans_of(tags("B-action", "B-amount", "I-amount", "O", "B-food", "I-food")) == [
        ("action", 0, 1),
        ("amount", 1, 3),
        ("food", 4, 6),
    ]


def test_a_span_that_begins_with_an_inside_tag_still_counts() -> None:
    assert spans_of(tags("O", "I-food", "I-food", "B-food")) == [("food", 1, 3), ("food", 3, 4)]


def test_a_food_is_widened_to_the_name_that_the_table_knows() -> None:
    scores = tags("B-action", "O", "B-food")
    assert with_table_foods([("food", 2, 3)], ("add", "smoked", "paprika"), scores) == [("food", 1, 3)]


def test_a_food_that_the_tagger_missed_is_found_by_the_table() -> None:
    scores = tags("B-action", "O")
    scores[1, TAGS.index("B-food")] = 0.4
    assert with_table_foods([], ("add", "chickpeas"), scores) == [("food", 1, 2)]


def test_an_everyday_word_is_no_food_by_the_table_alone() -> None:
    scores = tags("O", "B-action", "O")
    scores[2, TAGS.index("B-food")] = 0.4
    assert with_table_foods([], ("we", "toast", "ice"), scores) == []


@pytest.mark.parametrize(
    ("plural", "one"),
    [
        ("onions", "onion"),
        ("tomatoes", "tomato"),
        ("cherries", "cherry"),
        ("radishes", "radish"),
        ("peaches", "peach"),
        ("boxes", "box"),
        ("leaves", "leaf"),
        ("hummus", "hummus"),
        ("watercress", "watercress"),
        ("egg", "egg"),
    ],
)
def test_singular(plural: str, one: str) -> None:
    assert singular(plural) == one


@pytest.mark.parametrize(
    ("captioned", "word"), [("Flour,", "flour"), ("“Okay”", "“okay”"), ("...", "..."), ("(Two)", "two")]
)
def test_plain(captioned: str, word: str) -> None:
    """Lower case, without punctuation at its edges; a word of punctuation alone stays."""
    assert plain(captioned) == word
