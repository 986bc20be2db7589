"""Cooking verbs: their forms, the neutral verb of the written method, and what a step with them needs."""

import pytest

from stovescript.kitchen.actions import KINDS, actions, by_form


def test_schema() -> None:
    assert len(actions()) >= 250
    assert {action.kind for action in actions()} == KINDS
    for action in actions():
        assert action.forms[0] == action.verb == action.verb.lower()
        assert action.imperative[0].isupper()
        assert not action.particle or action.verb.endswith(f" {action.particle}")


def test_a_form_belongs_to_one_action() -> None:
    assert len(by_form()) == sum(len(action.forms) for action in actions())


@pytest.mark.parametrize(
    ("form", "verb", "imperative"),
    [
        ("chucked in", "chuck in", "Add"),
        ("whacking in", "whack in", "Add"),
        ("went in with", "go in with", "Add"),
        ("tipped in", "tip in", "Add"),
        ("popped in", "pop in", "Add"),
        ("blitzing", "blitz", "Blend"),
        ("stirred", "stir", "Stir"),
        ("giving it a whisk", "give it a whisk", "Whisk"),
        ("set aside", "set aside", "Set aside"),
        ("brought to a boil", "bring to a boil", "Bring to a boil"),
        ("knocking back", "knock back", "Knock back"),
        ("left to rise", "leave to rise", "Let rise"),
        ("deep-fried", "deep fry", "Deep-fry"),
        ("froze", "freeze", "Freeze"),
        ("ground", "grind", "Grind"),
        ("caramelised", "caramelize", "Caramelize"),
        ("marinading", "marinade", "Marinate"),
    ],
)
def test_spoken_form_and_written_verb(form: str, verb: str, imperative: str) -> None:
    assert (by_form()[form].verb, by_form()[form].imperative) == (verb, imperative)


@pytest.mark.parametrize("verb", ["bake", "roast", "deep fry", "simmer", "fry", "braise"])
def test_steps_that_need_time_and_heat(verb: str) -> None:
    assert by_form()[verb].needs_time and by_form()[verb].needs_heat


@pytest.mark.parametrize("verb", ["rest", "marinate", "chill", "let rise", "boil"])
def test_steps_that_need_time_only(verb: str) -> None:
    assert by_form()[verb].needs_time and not by_form()[verb].needs_heat


@pytest.mark.parametrize(
    "verb",
    [
        "cut",
        "cook",
        "top",
        "season",
        "drain",
        "mix",
        "dress",
        "set",
        "get",
        "put",
        "have",
        "go",
        "rest",
        "turn",
        "open",
        "cover",
    ],
)
def test_everyday_words_are_marked(verb: str) -> None:
    assert by_form()[verb].ambiguous


@pytest.mark.parametrize("verb", ["put in", "throw in", "bung in", "dump in", "go in", "pour over", "stir in"])
def test_adding_verbs(verb: str) -> None:
    assert by_form()[verb].adds and by_form()[verb].kind == "add"
