"""The PDF: the post's page in print, read back by pypdf; without WeasyPrint it is left out and said so."""

import io
import sys

import pytest

from stovescript.errors import StovescriptError
from stovescript.pages.forms import CannotBeMade, Publication
from stovescript.pages.pdf import pdf
from stovescript.pages.post_content import post_of
from stovescript.pages.publish import written
from stovescript.recipe.draft import Draft
from tests.pages.demo import demo_draft
from tests.pages.posts import full_draft

pypdf = pytest.importorskip("pypdf")
SENTENCE = "a PDF needs WeasyPrint; install it with: pip install 'stovescript[pdf]'."


@pytest.fixture
def weasyprint() -> None:
    """Skips where WeasyPrint is not installed or does not find Pango."""
    try:
        import weasyprint  # noqa: F401
    except ImportError:
        pytest.skip("WeasyPrint is not installed: pip install 'stovescript[pdf]'")
    except OSError as error:
        pytest.skip(f"WeasyPrint finds no Pango: {error}")


@pytest.fixture
def no_weasyprint(monkeypatch: pytest.MonkeyPatch) -> None:
    """A machine on which WeasyPrint is not installed."""
    monkeypatch.setitem(sys.modules, "weasyprint", None)


def read(draft: Draft) -> "pypdf.PdfReader":
    content = pdf(Publication(draft, "soup", video="https://video.example/watch?v=1"))["soup.pdf"]
    assert isinstance(content, bytes)
    return pypdf.PdfReader(io.BytesIO(content))


def words(reader: "pypdf.PdfReader") -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in reader.pages)


@pytest.mark.usefixtures("weasyprint")
def test_the_text_comes_back_in_the_order_of_the_post() -> None:
    draft = demo_draft().model_copy(update={"gaps": []})
    text = words(read(draft))
    post = post_of(Publication(draft, "soup"))
    places = [text.find(piece) for piece in (post.title, "Ingredients", "Equipment", "Method", "Tips")]
    assert -1 not in places
    assert places == sorted(places)
    for step in post.method:
        assert step.text in text


@pytest.mark.usefixtures("weasyprint")
def test_a_post_is_one_or_two_sheets() -> None:
    assert len(read(demo_draft().model_copy(update={"gaps": []})).pages) == 2
    assert len(read(full_draft().model_copy(update={"gaps": []})).pages) == 1


@pytest.mark.usefixtures("weasyprint")
def test_it_is_a_tagged_file_with_title_and_language() -> None:
    """PDF/UA-1 (ISO 14289-1): marked content, a language, a title, and its mark in the metadata."""
    reader = read(full_draft().model_copy(update={"gaps": []}))
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert str(root["/Lang"]).startswith("en")
    assert reader.metadata.title == "Roasted Carrots and Chickpeas"
    assert b"pdfuaid" in root["/Metadata"].get_data()


@pytest.mark.usefixtures("weasyprint")
def test_a_draft_with_open_questions_carries_its_mark_in_print() -> None:
    assert "not to be published" in words(read(demo_draft()))


@pytest.mark.usefixtures("no_weasyprint")
def test_asked_for_by_name_one_sentence_names_the_extra() -> None:
    with pytest.raises(CannotBeMade) as failure:
        written(Publication(full_draft(), "soup"), ["pdf"])
    assert isinstance(failure.value, StovescriptError)
    assert str(failure.value) == SENTENCE


def test_without_its_name_it_is_not_written() -> None:
    names = set(written(Publication(full_draft(), "soup")))
    assert "soup.docx" in names
    assert "soup.pdf" not in names


def test_where_weasyprint_finds_no_pango_the_sentence_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    class Finder:
        @staticmethod
        def find_spec(name: str, path: object = None, target: object = None) -> None:
            if name == "weasyprint":
                raise OSError("cannot load library 'libpango-1.0-0'")

    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Finder, *sys.meta_path])
    with pytest.raises(CannotBeMade, match="Pango"):
        pdf(Publication(full_draft(), "soup"))
