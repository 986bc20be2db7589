"""What is heard in a talk: features of words, the trained model's reading, and clauses with their mentions."""

import json
from importlib.resources import files
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stovescript.drafting import draft_talk
from stovescript.speech import model
from stovescript.speech.features import FEATURES, features
from stovescript.speech.labels import BOUNDARIES, INTENTS, LABELS, TAGS
from stovescript.speech.listen import listen
from tests.pages.demo import demo_heard, demo_talk
from tests.talk.reading import read, vtt


def named(sentence: str) -> dict[str, set[str]]:
    """Each word with its features by name."""
    words = sentence.split()
    return {word: {FEATURES[one] for one in ones} for word, ones in zip(words, features(words), strict=True)}


@pytest.mark.parametrize(
    ("sentence", "word", "feature"),
    [
        ("add two cups of flour", "add", "action"),
        ("add two cups of flour", "two", "amount"),
        ("add two cups of flour", "cups", "amount on"),
        ("add two cups of broth", "broth", "food"),
        ("a teaspoon of smoked paprika", "paprika", "food on"),
        ("bake it at 350 degrees", "350", "temperature"),
        ("simmer for twenty minutes", "twenty", "duration"),
        ("cut it in half inch cubes", "half", "dimension"),
        ("put it in a skillet", "skillet", "vessel"),
        ("into the oven it goes", "oven", "appliance"),
        ("half an onion minced fine", "minced", "state"),
        ("Stir that. Now wait", "Now", "after stop"),
        ("first, stir that", "stir", "after comma"),
        ("and Stir that", "Stir", "capital"),
    ],
)
def test_a_word_has_a_feature(sentence: str, word: str, feature: str) -> None:
    """Common practice of the kitchen: what each word is."""
    assert feature in named(sentence)[word]


def test_chat_has_no_feature_of_the_kitchen() -> None:
    assert not any(named("hello there my dear friends").values())


@settings(max_examples=40, deadline=None)
@given(st.lists(st.text(min_size=1).filter(lambda word: not any(letter.isspace() for letter in word)), max_size=12))
def test_features_of_any_words(words: list[str]) -> None:
    found = features(words)
    assert len(found) == len(words)
    assert all(0 <= one < len(FEATURES) for ones in found for one in ones)


def labels() -> dict[str, object]:
    """What the trained model was trained with."""
    loaded: dict[str, object] = json.loads(files("stovescript.models").joinpath("speech/labels.json").read_text())
    return loaded


def test_the_trained_model_is_of_these_features_and_labels() -> None:
    told = labels()
    assert told["features"] == list(FEATURES)
    assert (told["boundary"], told["intent"], told["tag"]) == (list(BOUNDARIES), list(INTENTS), list(TAGS))


WINDOW = labels()["window"]
assert isinstance(WINDOW, int)


@pytest.mark.parametrize("count", [1, 2, WINDOW - 1, WINDOW, WINDOW + 1, 2 * WINDOW - 25, 3 * WINDOW])
def test_every_word_is_read_whatever_the_length_of_the_talk(count: int) -> None:
    words = [word.text for word in demo_talk().words[:count]]
    reading = model.read(words)
    for scores, width in (
        (reading.boundary, len(BOUNDARIES)),
        (reading.step, 2),
        (reading.intent, len(INTENTS)),
        (reading.tag, len(TAGS)),
    ):
        assert scores.shape == (count, width)
        assert np.allclose(scores.sum(axis=1), 1, atol=1e-4), "probabilities"
        assert scores.min() >= 0


def test_a_reading_is_the_same_every_time() -> None:
    words = [word.text for word in demo_talk().words[:100]]
    assert np.array_equal(model.read(words).tag, model.read(words).tag)


def test_clauses_cover_the_talk_without_gap_or_overlap() -> None:
    heard = demo_heard()
    edges = [(clause.start, clause.end) for clause in heard.clauses]
    assert edges[0][0] == 0 and edges[-1][1] == len(heard.tokens) == len(demo_talk().words)
    assert all(start < end for start, end in edges)
    assert all(a[1] == b[0] for a, b in pairwise(edges))


def test_a_clause_has_one_intent_and_its_votes() -> None:
    for clause in demo_heard().clauses:
        assert clause.intent in INTENTS
        assert [name for name, _ in clause.votes] == list(INTENTS)
        assert sum(vote for _, vote in clause.votes) == pytest.approx(1, abs=1e-3)
        assert clause.intent == "does" or not clause.new_step


def test_mentions_begin_in_their_clause_and_are_its_words() -> None:
    heard = demo_heard()
    for clause in heard.clauses:
        assert [m.start for m in clause.mentions] == sorted(m.start for m in clause.mentions)
        for mention in clause.mentions:
            assert mention.label in LABELS
            assert clause.start <= mention.start < clause.end
            assert mention.start < mention.end <= len(heard.tokens)
            assert mention.text == " ".join(heard.tokens[mention.start : mention.end])


def test_tokens_are_lower_case_and_the_text_is_as_captioned() -> None:
    heard = listen(read(vtt("Add the SALT, please.", "Now stir!")))
    assert heard.tokens == ("add", "the", "salt", "please", "now", "stir")
    assert heard.text(0, 4) == "Add the SALT, please."


def test_a_long_silence_ends_a_sentence() -> None:
    heard = listen(read("[0:01] so that goes in the\n[0:30] oven over there it is hot"))
    assert [(c.start, c.new_sentence) for c in heard.clauses if c.start == 5] == [(5, True)]


@pytest.mark.parametrize(
    "said",
    [
        "stir",
        "🍲 🧂 stir 🍲🧂",
        "bonjour aujourd’hui une soupe à l’oignon avec du fromage",
        "今日は スープ を 作ります",
        "... -- !!! ??? ,,, salt",
        "add 0 cups of flour and 1/0 cups of sugar",
        "add " + "9" * 400 + " cups of flour",
        "x" * 5000,
        "add two cups " * 500,
    ],
    ids=lambda said: said[:12],
)
def test_any_talk_is_drafted(said: str) -> None:
    draft = draft_talk(read(f"[0:01] {said}", "talk.txt"))
    assert draft.source.words > 0


@pytest.mark.parametrize(
    "word", ["https://kitchen.invalid/posts/bean-soup.html?ref=video&id=12345", "supercalifragilistic" * 3]
)
def test_a_talk_of_long_words_is_drafted(word: str) -> None:
    """A description with many links pasted below the captions; the model takes 512 pieces of words at a time."""
    assert draft_talk(read("[0:01] " + f"{word} " * 150, "talk.txt")).source.words > 0


KITCHEN = (
    "add",
    "two",
    "cups",
    "of",
    "flour",
    "and",
    "stir",
    "it",
    "until",
    "golden",
    ".",
    "salt",
    "half",
    "the",
    "rest",
)


@settings(max_examples=15, deadline=None)
@given(st.lists(st.sampled_from(KITCHEN), min_size=1))
def test_any_order_of_kitchen_words_is_drafted(words: list[str]) -> None:
    draft = draft_talk(read("[0:01] stir " + " ".join(words), "talk.txt"))
    assert all(step.start <= step.end <= draft.source.seconds for step in draft.steps)
