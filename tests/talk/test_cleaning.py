"""What is in captions but was not said: conventions of captioners (common practice)."""

import pytest

from tests.talk.reading import said, vtt

NOT_SAID = [
    ("[music] stir", "stir"),
    ("stir [Applause]", "stir"),
    ("stir [&nbsp;__&nbsp;] pot", "stir pot"),
    ("[oil\nsizzling] stir", "stir"),
    ("(laughs) stir", "stir"),
    ("stir (upbeat music) it", "stir it"),
    ("stir *chuckles* it", "stir it"),
    ("♪ la la la ♪ stir", "stir"),
    ("♪ stir", "stir"),
    ("stir 🎶", "stir"),
    (">> stir", "stir"),
    ("&gt;&gt; stir &gt;&gt; it", "stir it"),
    (">> MARIA: stir", "stir"),
    (">> Maria Lopez: stir", "stir"),
    ("- stir\n- it", "stir it"),
    ("-Stir\n\N{EN DASH} it", "Stir it"),
    ("SPEAKER 2: stir", "stir"),
    ("Speaker 2: stir", "stir"),
    ("MARIA: stir", "stir"),
    ("- MARIA: stir", "stir"),
    ("{\\an8}stir", "stir"),
    ("<font color='#fff'>stir</font><br/>it", "stir it"),
    ("sti\u00adr\u200b it\ufeff \u200eso", "stir it so"),
    ("stir -- it \N{EM DASH} so", "stir it so"),
    ("stir ... it", "stir... it"),
    ("wait !", "wait!"),
]
SAID = [
    "add (and this is optional) the zest",
    "cook until (bubbling) hot",
    "salt & pepper",
    "1\N{FRACTION SLASH}2 1/2 ½ 1½ cups",
    "a well-known all-purpose flour",
    "2 - 3 cups",
    "8 \N{MULTIPLICATION SIGN} 8 dish",
    "350 °F 180° 50 % 50%",
    "-18 degrees",
    "here's what I'd do, okay?",
    "BAKE: 350 degrees",
    "Ingredients: salt",
    "so here's the thing: salt",
    "at 10:30 we eat",
    "jalapeño crème fraîche",
    "ADD THE SALT: TWO PINCHES",
]


@pytest.mark.parametrize(("text", "words"), NOT_SAID)
def test_not_said(text: str, words: str) -> None:
    assert said(vtt(text)) == words


@pytest.mark.parametrize("text", SAID)
def test_said(text: str) -> None:
    assert said(vtt(text)) == text


def test_a_name_that_labels_three_lines_is_a_speaker() -> None:
    assert said(vtt("Maria: stir", "Joan: why", "Maria: because", "Maria: look")) == "stir Joan: why because look"


def test_accents_are_composed() -> None:
    assert said(vtt("jalapen\u0303o")) == "jalapeño"


def test_bullets_of_a_list_keep_what_they_list() -> None:
    assert said("[0:01]\n- Butter: two spoons\n- Salt: a pinch", "a.md") == "Butter: two spoons Salt: a pinch"


def test_odd_characters_beside_times_inside_the_text_do_no_harm() -> None:
    assert said(vtt("stir <00:00:01.000>it a\U0010fffd \U000fffff<00:00:01.500> now")) == "stir it a\U0010fffd now"
