"""Chapters of the video: a WebVTT chapters file and the list for the video's description.

Outside the project: webvtt-py reads the file back. What video sites ask of a list of chapters (the first at 0:00,
three or more, 10 seconds each) is common practice, from memory.
"""

import re
from itertools import pairwise

import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from stovescript.pages.chapters import FEWEST, SHORTEST_SECONDS, chapters, chapters_of
from stovescript.pages.forms import Publication
from stovescript.recipe.draft import Draft, Setting, Step
from tests.pages.demo import demo_draft
from tests.pages.posts import full_draft


def step(number: int, start: float, text: str, *foods: str, settings: list[Setting] | None = None) -> Step:
    return Step(
        id=f"s{number}",
        text=text,
        start=start,
        end=start + 5,
        ingredients=list(foods),
        settings=settings or [],
        until=None,
        equipment=[],
    )


def talk_of(seconds: float, *steps: Step) -> Draft:
    draft = full_draft()
    source = draft.source.model_copy(update={"seconds": seconds})
    return draft.model_copy(update={"steps": list(steps), "source": source})


def test_the_demo_talk() -> None:
    assert [(each.start, each.title) for each in chapters_of(demo_draft())] == [
        (0, "Introduction"),
        (44, "Ingredients"),
        (106, "Bake the corn tortillas"),
        (172, "Sauté the onion"),
        (282, "Pressure-cook the chicken breast"),
        (340, "Chicken broth"),
        (404, "Simmer the black beans and corn"),
        (548, "Serve"),
        (585, "Last words"),
    ]


def test_read_back_by_webvtt_py() -> None:
    made = chapters(Publication(demo_draft(), "soup"))
    cues = list(webvtt.from_string(str(made["soup.chapters.vtt"])))
    assert [(cue.start_in_seconds, cue.end_in_seconds, cue.text) for cue in cues] == [
        (each.start, each.end, each.title) for each in chapters_of(demo_draft())
    ]


def test_the_list_for_the_description() -> None:
    lines = str(chapters(Publication(demo_draft(), "soup"))["soup.chapters.txt"]).splitlines()
    assert lines[:3] == ["0:00 Introduction", "0:44 Ingredients", "1:46 Bake the corn tortillas"]
    assert all(re.fullmatch(r"(?:\d+:)?\d{1,2}:\d{2} \S.*", line) for line in lines)


def test_hours_are_written_where_there_are_any() -> None:
    steps = [step(1, 60, "Roast the chickpeas.", "i1"), step(2, 4000, "Stir the yogurt smooth.", "i2")]
    made = chapters(Publication(talk_of(4200, *steps), "long"))
    assert "1:06:40 Stir the yogurt\n" in str(made["long.chapters.txt"])
    assert "01:06:40.000 --> " in str(made["long.chapters.vtt"])


@pytest.mark.parametrize(
    ("text", "foods", "title"),
    [
        ("Chop the chickpeas. Roast them until crisp.", ("i1",), "Roast the chickpeas"),
        ("Put the chickpeas in a bowl.", ("i1",), "Add the chickpeas"),
        ("Drain the chick peas and rinse them.", ("i1",), "Drain the chickpeas"),
        ("Let it simmer.", (), "Simmer"),
        ("Look at that.", (), "Cooking"),
        ("Do that.", ("i1",), "Chickpeas"),
    ],
)
def test_titles(text: str, foods: tuple[str, ...], title: str) -> None:
    (_, made) = chapters_of(talk_of(90, step(1, 60, text, *foods)))
    assert made.title == title


def test_an_oven_is_named_where_no_food_is() -> None:
    setting = full_draft().steps[0].settings[0]
    (_, made) = chapters_of(talk_of(90, step(1, 60, "Slide it all in.", settings=[setting])))
    assert made.title == "In the oven"


def test_no_chapter_for_each_of_thirty_steps() -> None:
    steps = [
        step(n, 30 + 20 * n, f"Stir the {'chickpeas' if n % 2 else 'yogurt'}.", "i1" if n % 2 else "i2")
        for n in range(30)
    ]
    made = chapters_of(talk_of(660, *steps))
    assert 5 <= len(made) <= 12
    assert len({each.title for each in made}) >= 3


def test_a_draft_without_steps_has_no_chapters() -> None:
    assert chapters(Publication(talk_of(600), "x")) == {}


def test_a_title_is_escaped() -> None:
    food = full_draft().ingredients[0].model_copy(update={"name": "b --> <c>", "heard_as": ["chickpeas"]})
    draft = talk_of(90, step(1, 60, "Roast the chickpeas.", "i1")).model_copy(update={"ingredients": [food]})
    cues = list(webvtt.from_string(str(chapters(Publication(draft, "x"))["x.chapters.vtt"])))
    assert [cue.text for cue in cues] == ["Introduction", "Roast the b --&gt; &lt;c&gt;"]


TEXTS = st.sampled_from(["Roast the chickpeas.", "Stir the yogurt.", "Open it up.", "Let it rise.", "So there.", ""])


@given(
    st.lists(st.tuples(st.floats(0, 5000), TEXTS), min_size=1, max_size=30),
    st.floats(1, 6000),
)
def test_laws_of_any_talk(told: list[tuple[float, str]], seconds: float) -> None:
    """From 0:00 to the end without a gap, none too short, at most twelve, all steps in one of them."""
    steps = [step(n, start, text, "i1") for n, (start, text) in enumerate(told)]
    made = chapters_of(talk_of(seconds, *steps))
    if not made:
        return
    assert made[0].start == 0
    assert all(one.end == other.start for one, other in pairwise(made))
    assert all(each.end - each.start >= SHORTEST_SECONDS and each.title for each in made)
    assert 2 <= len(made) <= 12
    inside = {each.id for each in steps if each.start < int(seconds)}
    assert {each.id for chapter in made for each in chapter.steps} == inside


def test_three_chapters_where_there_is_room_for_them() -> None:
    steps = [step(1, 12, "Roast the chickpeas.", "i1"), step(2, 24, "Stir the yogurt.", "i2")]
    made = chapters_of(talk_of(40, *steps))
    assert len(made) == FEWEST
