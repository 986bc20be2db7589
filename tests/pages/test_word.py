"""The Word file, read back by python-docx: what an editor sees, in which order and style."""

import io
import zipfile
from collections.abc import Sequence
from itertools import pairwise

import docx
import pytest
from docx.document import Document
from docx.text.hyperlink import Hyperlink

from stovescript.pages.forms import Publication
from stovescript.pages.post_content import post_of
from stovescript.pages.word_file import word, word_file
from stovescript.recipe.draft import Draft
from tests.pages.demo import demo_draft
from tests.pages.posts import full_draft

VIDEO = "https://video.example/watch?v=1"


def opened(draft: Draft, **more: object) -> Document:
    return docx.Document(io.BytesIO(word_file(Publication(draft, "soup", **more))))  # type: ignore[arg-type]


def lines(document: Document, *styles: str) -> list[str]:
    return [p.text for p in document.paragraphs if p.style and p.style.name in styles]


def in_order(wanted: Sequence[str], found: Sequence[str]) -> bool:
    rest = iter(found)
    return all(text in rest for text in wanted)


def without_questions(draft: Draft) -> Draft:
    return draft.model_copy(update={"gaps": []})


def test_the_form_is_one_docx_file() -> None:
    files = word(Publication(full_draft(), "soup"))
    assert list(files) == ["soup.docx"]
    content = files["soup.docx"]
    assert isinstance(content, bytes)
    assert "word/document.xml" in zipfile.ZipFile(io.BytesIO(content)).namelist()


def test_headings_are_headings_in_the_order_of_a_recipe() -> None:
    document = opened(full_draft())
    assert lines(document, "Heading 1") == ["Roasted Carrots and Chickpeas"]
    assert in_order(
        ["Ingredients", "Equipment", "Method", "Substitutions", "Other ways to cook it", "Tips", "Open questions"],
        lines(document, "Heading 2"),
    )
    assert in_order(["For the tray", "For the dressing", "Must be answered"], lines(document, "Heading 3"))


def test_no_level_of_heading_is_left_out() -> None:
    """WCAG 2.2, technique G141: headings are nested; an editor's outline shows the same."""
    styles = [p.style.name or "" for p in opened(full_draft()).paragraphs if p.style]
    levels = [int(name[-1]) for name in styles if name.startswith("Heading")]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_ingredients_and_steps_are_those_of_the_post_in_real_lists() -> None:
    publication = Publication(demo_draft(), "soup")
    post, document = post_of(publication), opened(demo_draft())
    ingredients = [line.text for part in post.components for line in part.lines]
    assert in_order(ingredients, lines(document, "List Bullet"))
    assert lines(document, "List Number") == [step.text for step in post.method]
    under = lines(document, "List Continue")
    assert in_order([step.heat for step in post.method if step.heat], under)
    assert in_order([f"Caution: {text}" for step in post.method for text in step.cautions], under)
    numbered = [p for p in document.paragraphs if p.style and p.style.name == "List Number"]
    assert all(p.style.element.pPr.numPr is not None for p in numbered)  # type: ignore[union-attr]


def test_open_questions_are_seen_while_one_must_be_answered() -> None:
    document = opened(demo_draft())
    texts = [paragraph.text for paragraph in document.paragraphs]
    assert texts[1].startswith("Draft, not to be published")
    assert document.paragraphs[1].runs[0].bold
    assert "How many does it serve, or how much does it make?" in texts
    final = [paragraph.text for paragraph in opened(without_questions(demo_draft())).paragraphs]
    assert "Open questions" not in final
    assert not any("not to be published" in text for text in final)


def test_the_properties_of_the_file_name_the_dish_and_nothing_of_the_tool() -> None:
    properties = opened(full_draft()).core_properties
    assert properties.title == "Roasted Carrots and Chickpeas"
    assert (properties.author, properties.comments, properties.last_modified_by) == ("", "", "")
    assert properties.language == "en-US"


def test_every_step_links_into_the_video() -> None:
    document = opened(full_draft(), video=VIDEO)
    steps = [p for p in document.paragraphs if p.style and p.style.name == "List Number"]
    links = [link for step in steps for link in step.iter_inner_content() if isinstance(link, Hyperlink)]
    assert [link.url for link in links] == [f"{VIDEO}&t=61", f"{VIDEO}&t=120"]
    assert [link.text for link in links] == ["Video at 1:01", "Video at 2:00"]


def test_sources_are_shown_where_they_are_asked_for() -> None:
    plain = [p.text for p in opened(full_draft()).paragraphs]
    sourced = [p.text for p in opened(full_draft(), with_sources=True).paragraphs]
    assert not any("heard at" in text for text in plain)
    assert "Roast the chickpeas until they are crisp. (heard at 1:01)" in sourced


@pytest.mark.parametrize("words", ["a\x00b\x0bc", "<w:p>&amp;</w:p>", "line\nbreak\ud800", "]]>"])
def test_a_talk_can_hold_anything_without_breaking_the_file(words: str) -> None:
    """XML 1.0, section 2.2: control characters and lone surrogates are no characters of it."""
    draft = full_draft()
    step = draft.steps[0].model_copy(update={"text": f"Stir {words} well."})
    document = opened(draft.model_copy(update={"title": words, "steps": [step]}))
    (text,) = lines(document, "List Number")
    assert text.startswith("Stir ")
    assert text.endswith(" well.")
    if words.isprintable():
        assert words in text


def test_a_draft_that_has_nothing_is_still_a_file() -> None:
    empty = {name: [] for name in ("ingredients", "steps", "tips", "promises", "variations", "equipment", "cautions")}
    times = {"prep": None, "cook": None, "total": None, "stated": []}
    bare = {**full_draft().model_dump(), **empty, "title": None, "summary": None, "servings": None, "times": times}
    assert lines(opened(Draft.model_validate(bare)), "Heading 1") == ["Untitled dish"]
