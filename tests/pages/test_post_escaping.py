"""A talk stays text in the post, whatever is in it: in Markdown, in HTML and in the data that the page carries.

Outside the project: markdown-it-py renders the Markdown, the standard library's HTML parser reads both.
"""

import json
from html.parser import HTMLParser
from typing import Any

import pytest

from stovescript.drafting import draft_talk
from stovescript.pages.forms import Publication
from stovescript.pages.markdown import safe
from stovescript.pages.post_page import post_html
from stovescript.pages.post_text import post_markdown
from stovescript.recipe.draft import Draft
from tests.pages.golden import VIDEO, lentils, unanswered
from tests.pages.posts import full_draft
from tests.pages.reading import shown
from tests.pages.test_escaping import HOSTILE, TALK, replaced
from tests.talk.reading import read, vtt

# Where a text of the draft stands in the post. A headnote and notes are cleaned, so they are looked for in lower case.
PRINTED = (
    "title",
    "summary",
    "ingredients.name",
    "ingredients.component",
    "ingredients.preparation",
    "ingredients.alternatives.name",
    "ingredients.alternatives.note",
    "ingredients.allergens",
    "steps.text",
    "steps.until",
    "steps.settings.program",
    "times.stated.what",
    "equipment.name",
    "variations.text",
    "tips.text",
    "cautions.text",
    "promises.fulfilled_by",
    "gaps.question",
)
OWN_MARKDOWN = {"h1", "h2", "h3", "p", "ul", "ol", "li", "em", "strong", "blockquote", "a"}


class Page(HTMLParser):
    """The tags, attributes, visible text and data of an HTML page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: set[tuple[str, str]] = set()
        self.links: set[str] = set()
        self.text = ""
        self.scripts: list[str] = []
        self._inside = ""
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes |= {(tag, name) for name, _ in attrs}
        self.links |= {value or "" for name, value in attrs if name == "href"}
        self._inside = tag
        if tag == "script":
            self.scripts.append("")

    def handle_endtag(self, tag: str) -> None:
        self._inside = ""

    def handle_data(self, data: str) -> None:
        if self._inside == "script":
            self.scripts[-1] += data
        elif self._inside != "style":
            self.text += data


CLEAN = Page(post_html(Publication(unanswered(), "soup", VIDEO, with_sources=True)))


def hostile(path: str) -> Draft:
    data: dict[str, Any] = replaced(full_draft().model_dump(), path, HOSTILE)
    return Draft.model_validate(data)


@pytest.mark.parametrize("path", PRINTED)
def test_a_text_of_the_draft_stays_text_in_markdown(path: str) -> None:
    page = shown(post_markdown(Publication(hostile(path), "soup")))
    assert page.tags <= OWN_MARKDOWN
    assert page.attributes == ([("href", "https://c.invalid")] if path == "promises.fulfilled_by" else [])
    assert HOSTILE.lower() in page.text.lower(), "shown in full"


@pytest.mark.parametrize("path", PRINTED)
def test_a_text_of_the_draft_stays_text_in_html(path: str) -> None:
    page = Page(post_html(Publication(hostile(path), "soup", VIDEO)))
    assert set(page.tags) <= {*CLEAN.tags, "section", "h3"}
    assert page.tags.count("script") == CLEAN.tags.count("script")
    assert page.attributes <= CLEAN.attributes | {("section", "class")}
    own = {link for link in page.links if link.startswith(("https://video.example/", "#"))}
    assert page.links - own == ({"https://c.invalid"} if path == "promises.fulfilled_by" else set())
    assert HOSTILE.lower() in page.text.lower()


def test_a_hostile_talk_stays_text() -> None:
    draft = draft_talk(read(vtt(*TALK)))
    page = Page(post_html(Publication(draft, "soup", VIDEO)))
    assert page.tags.count("script") <= 3 and "img" not in page.tags
    assert all(link.startswith(("https://video.example/", "#")) for link in page.links)
    assert shown(post_markdown(Publication(draft, "soup"))).tags <= OWN_MARKDOWN
    assert "alert(1)" in page.text


def test_the_data_that_the_page_carries_cannot_leave_its_element() -> None:
    draft = lentils()
    named = draft.ingredients[0].model_copy(update={"name": "</script><script>alert(1)</script>"})
    page = Page(post_html(Publication(draft.model_copy(update={"ingredients": [named]}), "soup")))
    data = next(json.loads(script) for script in page.scripts if script.startswith('{"systems"'))
    assert page.tags.count("script") == 3
    assert any("</script>" in words for words in data["words"]), "there as text"


@pytest.mark.parametrize(
    "text",
    [
        "# heading",
        "- item",
        "+ item",
        "1. item",
        "12) item",
        "=====",
        "~~~",
        "| a | b |",
        "&lt;b&gt;",
        "https://c.invalid www.c.invalid",
        "](javascript:alert(1))",
        "\"quoted\" 'and' `code`",
        "1 1/2 cups",
        "15-ounce can",
    ],
)
def test_safe_text_reads_in_markdown_as_it_was(text: str) -> None:
    """Alone in a line and in a list."""
    for page in (shown(safe(text)), shown(f"- {safe(text)}")):
        assert page.text.strip() == text
        assert page.tags <= {"p", "ul", "li"} and page.attributes == []
