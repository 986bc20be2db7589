"""Triggers (ConText): each row's invented example is matched by its phrase, in its direction and scope."""

from collections import Counter

import pytest

from stovescript.kitchen.triggers import CATEGORIES, DIRECTIONS, Trigger, matches, normal, triggers


def _example(trigger: Trigger) -> tuple[list[str], list[int]]:
    """The words of an example and the places of those in brackets."""
    words: list[str] = []
    target: list[int] = []
    inside = False
    for word in trigger.example.split():
        inside = inside or word.startswith("[")
        if inside:
            target.append(len(words))
        if word.endswith("]"):
            inside = False
        words.append(word.strip("[]"))
    return words, target


@pytest.mark.parametrize("trigger", triggers(), ids=lambda trigger: trigger.phrase)
def test_example_is_matched_in_direction_and_scope(trigger: Trigger) -> None:
    words, target = _example(trigger)
    assert target, "an example shows its target in brackets"
    assert any(match.trigger == trigger and set(target) <= set(match.reach) for match in matches(words))


def test_closed_sets() -> None:
    assert {trigger.category for trigger in triggers()} == CATEGORIES
    assert {trigger.direction for trigger in triggers()} == DIRECTIONS
    assert all(trigger.source and trigger.phrase == trigger.phrase.lower() for trigger in triggers())
    assert all((trigger.scope == 0) == (trigger.category in ("filler", "pseudo")) for trigger in triggers())


def test_every_phrase_is_one_row() -> None:
    spoken = Counter(" ".join(map(normal, trigger.phrase.split())) for trigger in triggers())
    assert not [phrase for phrase, count in spoken.items() if count > 1]
    assert len(triggers()) >= 450


@pytest.mark.parametrize(
    ("clause", "category", "acted_on"),
    [
        ("i'm not using bacon but i'm using mushrooms", "not_used", "bacon"),
        ("instead of the white wine i'm using stock", "not_used", "the white wine"),
        ("lemon works too", "alternative", "lemon"),
        ("the raisins are totally optional", "optional", "the raisins are"),
        ("this serves six people and then some", "yield", "six people"),
    ],
)
def test_scope_ends_at_a_terminator(clause: str, category: str, acted_on: str) -> None:
    words = clause.split()
    first = next(match for match in matches(words) if match.trigger.category == category)
    assert " ".join(words[at] for at in first.reach) == acted_on


@pytest.mark.parametrize("clause", ["ten minutes or until golden", "turn it without breaking it", "no problem"])
def test_pseudo_trigger_blocks_the_shorter_one(clause: str) -> None:
    assert {match.trigger.category for match in matches(clause.split())} <= {"pseudo", "refer"}


def test_captions_without_apostrophes_match_too() -> None:
    assert [match.trigger.phrase for match in matches(["Im", "not", "using", "cream"])] == ["i'm not using"]
