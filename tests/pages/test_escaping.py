"""A talk stays text on the page: nothing that was said or captioned becomes a tag, a link or code.

Outside the project: rendered by markdown-it-py and read by the standard library's HTML parser (tests.pages.reading).
"""

import re
from typing import Any

import pytest

from stovescript.drafting import draft_talk
from stovescript.measure import find_quantities
from stovescript.pages.markdown import draft_page
from stovescript.recipe.draft import Draft
from stovescript.recipe.headline import servings_of
from stovescript.speech.heard import Clause, Heard
from stovescript.speech.words import plain
from tests.pages.posts import full_draft
from tests.pages.reading import OWN_TAGS, Shown, shown
from tests.talk.reading import read, vtt

HOSTILE = "<script>alert(1)</script> [a](javascript:alert(1)) ![b](x) <https://c.invalid> `d` | *e* _f_ ]( \\"

# Where the text of a talk, of a table or of an option stands on the page.
PRINTED = (
    "title",
    "summary",
    "ingredients.name",
    "ingredients.component",
    "ingredients.preparation",
    "ingredients.alternatives.name",
    "steps.text",
    "equipment.name",
    "equipment.size",
    "variations.text",
    "tips.text",
    "promises.text",
    "set_aside.name",
    "cautions.text",
    "cautions.source",
    "gaps.question",
)
PRINTED_AS_IT_IS = (
    "servings.unit",
    "ingredients.total.unit",
    "ingredients.uses.amount.unit",
    "ingredients.alternatives.amount.unit",
    "ingredients.package.size.unit",
    "steps.settings.appliance",
    "steps.settings.program",
    "steps.settings.level",
    "steps.settings.release",
    "times.stated.what",
)

_MARK = re.compile(r"\d+:\d\d(?::\d\d)?|[a-z_]+-[0-9a-f]{6}")  # a time, "1:02:03", or a question's id


def replaced(value: Any, path: str, text: str) -> Any:
    """The value with every text at the path ("ingredients.name") replaced."""
    if isinstance(value, list):
        return [replaced(part, path, text) for part in value]
    if isinstance(value, dict):
        key, _, rest = path.partition(".")
        return {**value, key: replaced(value[key], rest, text)}
    return text


def assert_only_text(page: Shown) -> None:
    assert page.tags <= OWN_TAGS
    assert page.attributes == []
    assert all(_MARK.fullmatch(code) for code in page.code), page.code


@pytest.mark.parametrize("path", [*PRINTED, *(pytest.param(path) for path in PRINTED_AS_IT_IS)])
def test_a_text_of_the_draft_stays_text(path: str) -> None:
    draft = Draft.model_validate(replaced(full_draft().model_dump(), path, HOSTILE))
    page = shown(draft_page(draft))
    assert_only_text(page)
    assert HOSTILE in page.text, "shown in full, as it was said"


# Captions carry such signs as entities, WebVTT's own way to write them (W3C WebVTT, cue text).
SCRIPT = "&lt;script&gt;alert(1)&lt;/script&gt;"
LINK = "&#93;(javascript:alert(1))"
TALK = (
    f"hey everybody today we're making {SCRIPT} bean soup {LINK} and it's my favorite",
    "so add two cups of `beans` | and a cup of &lt;b&gt;broth&lt;/b&gt; to the big pot",
    f"stir that and simmer it on medium {LINK} for twenty minutes until it's {SCRIPT} thick",
    f"you could use lentils {LINK} instead of the beans same amount",
    f"don't skip the salt {SCRIPT} or it tastes of nothing",
    f"and i'll put the `freezer` | version {LINK} in the post &lt;img src=x onerror=alert(1)&gt;",
)


@pytest.mark.parametrize("suffix", ["vtt", "srt"])
def test_a_hostile_talk_stays_text(suffix: str) -> None:
    page = shown(draft_page(draft_talk(read(vtt(*TALK), f"talk.{suffix}"))))
    assert_only_text(page)
    assert "alert(1)" in page.text, "the words were heard at all"


@pytest.mark.parametrize(
    "thing",
    ["rolls", pytest.param("&lt;script&gt;rolls"), pytest.param("&lt;b&gt;rolls")],
)
def test_a_hostile_yield_stays_text(thing: str) -> None:
    """What twelve are made of is a word of the talk; the clause is given as heard, whatever the model would say."""
    talk = read(vtt(f"so this makes twelve {thing}"))
    words = [word.text for word in talk.words]
    clause = Clause(0, len(words), "states", new_sentence=True, new_step=False)
    made = servings_of(Heard(talk, tuple(map(plain, words)), (clause,), tuple(find_quantities(words))))
    assert made and made[0].low == 12 and "roll" in made[0].unit
    assert_only_text(shown(draft_page(full_draft().model_copy(update={"servings": made[0]}))))


def test_a_hostile_title_given_by_the_cook_stays_text() -> None:
    page = shown(draft_page(draft_talk(read(vtt(*TALK)), title=HOSTILE)))
    assert_only_text(page)
    assert page.headings[0] == (1, HOSTILE)


def test_a_title_is_one_heading() -> None:
    page = shown(draft_page(full_draft().model_copy(update={"title": "Bean Soup\n\n# Another"})))
    assert [heading for heading in page.headings if heading[0] == 1] == [(1, "Bean Soup # Another")]
