"""The index is one page for the cook: whole, escaped, without network, and read from top to bottom without script."""

import re
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from stovescript.archive import run as running
from stovescript.archive.pictures import bars, points
from stovescript.archive.run import archive
from stovescript.archive.small_tables import label_of
from stovescript.recipe.draft import GapKind
from tests.archive.talks import COCOA, SOUP, here, laid_out
from tests.cli.running import DIP
from tests.talk.reading import vtt

SAME = vtt(
    "today we're making tomato soup again",
    "add three cans of tomatoes to the pot",
    "add two cups of chicken broth a pinch of salt and a pinch of cumin",
    "simmer it on low for half an hour",
)
NASTY = '"><script>alert(1)<'  # a "/" can't stand in a name
VOID = frozenset({"meta", "link", "input", "br", "img", "hr"})


class Page(HTMLParser):
    """What is on a page; fails where a tag is not closed in its turn."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if not self.open or self.open[-1] not in ("script", "style"):
            self.text.append(data)

    def all(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.tags if name == tag]


@pytest.fixture
def out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(running, "local", here)
    talks = {
        "dip.vtt": DIP,
        "2019/soup.vtt": SOUP.replace("a teaspoon of salt", "a teaspoon of salt and some cumin"),
        "2023/soup again.vtt": SAME,
        "2020/winter/cocoa.vtt": COCOA,
        f"{NASTY}.vtt": COCOA.replace("cocoa powder", "<b>cocoa</b> & cream"),
        "empty.vtt": "",
        "notes.txt": "batteries",
    }
    laid_out(tmp_path / "talks", talks)
    (tmp_path / "talks" / "2019" / "soup.mp4").write_bytes(b"")
    archive(tmp_path / "talks", tmp_path / "out")
    return tmp_path / "out"


@pytest.fixture
def page(out: Path) -> Page:
    return Page((out / "index.html").read_text(encoding="utf-8"))


def test_it_loads_nothing_and_its_policy_forbids_it(out: Path, page: Page) -> None:
    """Content-Security-Policy by meta element: W3C CSP Level 3."""
    policy = next(meta["content"] for meta in page.all("meta") if "http-equiv" in meta)
    assert policy and policy.startswith("default-src 'none'")
    assert not any("src" in attributes for _, attributes in page.tags)
    assert not page.all("link") and not page.all("img") and "@import" not in (out / "index.html").read_text()
    assert all(not urlsplit(a["href"] or "").netloc for a in page.all("a"))


def test_every_link_leads_somewhere(out: Path, page: Page) -> None:
    targets = {attributes.get("id") for _, attributes in page.tags}
    links = [a["href"] or "" for a in page.all("a")]
    assert len(links) > 20
    for link in links:
        parts = urlsplit(link)
        if parts.path:
            assert (out / unquote(parts.path)).exists(), link
        else:
            assert parts.fragment in targets


def test_questions_lead_to_their_second_in_the_video(page: Page) -> None:
    """W3C Media Fragments URI 1.0: "#t=8" begins at the eighth second."""
    timed = [a["href"] or "" for a in page.all("a") if "#t=" in (a["href"] or "")]
    assert timed and all(re.fullmatch(r"\.\./talks/2019/soup\.mp4#t=[0-9.]+", link) for link in timed)


def test_names_and_words_are_escaped(out: Path, page: Page) -> None:
    assert len(page.all("script")) == 1 and not page.all("b")
    assert f"{NASTY}.vtt" in page.text


def test_what_needs_her_most_comes_first(page: Page) -> None:
    text = " ".join("".join(page.text).split())
    assert text.index("What needs you most") < text.index("All drafts") < text.index("Could not be drafted")
    assert "empty.vtt: the file is empty; export the captions again." in text
    assert "1 promise to keep" in text and "notes.txt: there are no time marks in it" in text


def test_the_table_begins_with_what_lacks_least(page: Page) -> None:
    cells = [td for td in page.all("td") if "data-value" in td]
    must = [int(td["data-value"] or 0) for td in cells[::5]]
    assert len(must) == 5 and must == sorted(must) and must[0] < must[-1]
    (sorted_by,) = (th for th in page.all("th") if "aria-sort" in th)
    assert sorted_by["aria-sort"] == "ascending"


def test_a_reader_without_eyes_or_mouse_finds_the_way(page: Page) -> None:
    """WCAG 2.2: 3.1.1 language, 1.3.1 headings and headers, 1.1.1 pictures in words, 4.1.3 status, 3.3.2 labels."""
    assert page.all("html") == [{"lang": "en"}]
    assert len(page.all("h1")) == 1 and len(page.all("main")) == 1 and page.all("nav")[0]["aria-label"]
    assert all(th.get("scope") in ("col", "row") for th in page.all("th"))
    assert len(page.all("caption")) == len(page.all("table")) == 1
    assert all(svg["role"] == "img" and svg["aria-label"] for svg in page.all("svg"))
    assert page.all("label")[0]["for"] == page.all("input")[0]["id"]
    assert any(attributes.get("role") == "status" for _, attributes in page.tags)


def test_the_same_dish_twice_is_told(page: Page) -> None:
    text = " ".join("".join(page.text).split())
    twice = text[text.rindex("Perhaps the same dish twice") :]
    assert "2019/soup.vtt · 2023/soup again.vtt" in twice[:200] and "ingredients in common" in twice[:200]


def test_every_kind_of_question_has_a_name_for_the_cook() -> None:
    kinds = GapKind.__args__  # type: ignore[attr-defined]
    labels = {label_of(kind) for kind in kinds}
    assert len(labels) == len(kinds) and not labels & {kind for kind in kinds if "_" in kind}


def test_a_picture_says_in_words_what_it_shows() -> None:
    assert 'aria-label="By kind. no time: 3; what &amp; why: 1"' in bars(
        "By kind", [("no time", 3), ("what & why", 1)]
    )
    assert "2 drafts, of at most 2,000 words and 1.5 seconds." in points(
        "Seconds", [(100, 0.1), (2000, 1.5)], "words", "seconds"
    )
    widths = [float(width) for width in re.findall(r'rect [^>]*width="([0-9.]+)"', bars("x", [("a", 4), ("b", 2)]))]
    assert widths[0] == 2 * widths[1]
