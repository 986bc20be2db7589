"""The index of an archive in a browser: sorted and searched without network, whole without script, fit for a phone.

Outside the project: axe-core's rules for WCAG 2.2 A and AA.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

from stovescript.archive import run as running
from stovescript.archive.run import archive
from tests.archive.talks import COCOA, SOUP, here, laid_out
from tests.browser.conftest import DESKTOP, PHONE, Opened
from tests.cli.running import DIP
from tests.npm import npm_package

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture(scope="module")
def index(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    folder = tmp_path_factory.mktemp("archive")
    talks = {"dip.vtt": DIP, "2019/soup.vtt": SOUP, "2020/winter/cocoa.vtt": COCOA, "crème brûlée.vtt": COCOA}
    talks |= {"a-name-without-any-place-to-break-" * 4 + ".vtt": COCOA, "empty.vtt": ""}
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(running, "local", here)
        archive(laid_out(folder / "talks", talks), folder / "out")
    yield folder / "out" / "index.html"


def talks(page: Page) -> list[str]:
    """The talks of the rows that are shown, in order."""
    return page.locator("#drafts tbody tr:visible .soft a:first-child").all_inner_texts()


def test_a_column_is_sorted_both_ways(index: Path, opened: Opened) -> None:
    page = opened(index)
    heading = page.get_by_role("columnheader", name="Dish")
    heading.get_by_role("button").click()
    assert heading.get_attribute("aria-sort") == "ascending"
    titles = page.locator("#drafts tbody th > a").all_inner_texts()
    assert titles == sorted(titles, key=str.lower)
    heading.get_by_role("button").press("Enter")
    assert heading.get_attribute("aria-sort") == "descending"
    assert page.locator("#drafts tbody th > a").all_inner_texts()[0] == titles[-1]
    assert page.locator("th[aria-sort]").count() == 1
    must = page.get_by_role("columnheader", name="Must be answered")
    must.get_by_role("button").click()
    numbers = [int(text) for text in page.locator("#drafts tbody td:nth-child(2)").all_inner_texts()]
    assert numbers == sorted(numbers)


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("SOUP", ["2019/soup.vtt"]),
        ("creme brulee", ["crème brûlée.vtt"]),
        ("white beans", ["dip.vtt"]),
        ("beans cocoa", []),
        ("winter 2020", ["2020/winter/cocoa.vtt"]),
    ],
)
def test_drafts_are_found_by_dish_file_and_ingredient(
    index: Path, opened: Opened, words: str, found: list[str]
) -> None:
    page = opened(index)
    page.get_by_role("searchbox", name="Search the drafts").fill(words)
    assert talks(page) == found
    assert page.get_by_role("status").inner_text() == f"{len(found)} of 5 drafts hold these words."
    page.get_by_role("searchbox").fill("")
    assert len(talks(page)) == 5


def test_without_script_everything_is_there(index: Path, opened: Opened) -> None:
    page = opened(index, script=False)
    assert len(talks(page)) == 5
    assert page.get_by_role("searchbox").count() == 0 and page.locator("th button").count() == 0
    assert "empty.vtt: the file is empty" in page.inner_text("main")


@pytest.mark.parametrize("width", [PHONE, DESKTOP])
def test_nothing_is_wider_than_the_screen(index: Path, opened: Opened, width: int) -> None:
    page = opened(index, width=width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [PHONE, DESKTOP], ids=["phone", "desktop"])
def test_axe_finds_no_violation(index: Path, opened: Opened, width: int, dark: bool) -> None:
    axe = (npm_package("axe-core") / "axe.min.js").read_text(encoding="utf-8")
    page = opened(index, width=width, dark=dark)
    page.evaluate("document.querySelectorAll('details').forEach(details => { details.open = true; })")
    page.evaluate(axe)
    found = page.evaluate("rules => axe.run({runOnly: rules})", RULES)
    assert found["passes"], "the rules were run"
    assert [(each["id"], [node["html"] for node in each["nodes"]]) for each in found["violations"]] == []


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_text_stands_out_from_the_page(index: Path, opened: Opened, dark: bool) -> None:
    """WCAG 2.2, 1.4.3: a contrast of at least 4.5 to 1."""
    page = opened(index, dark=dark)
    ground = luminance(page.evaluate("getComputedStyle(document.body).backgroundColor"))
    for where in ("body", "a", ".soft", ".must", "thead th"):
        shown = page.locator(where).first.evaluate(
            "e => [getComputedStyle(e).color, getComputedStyle(e).backgroundColor]"
        )
        behind = ground if shown[1].endswith(", 0)") else luminance(shown[1])
        light, deep = sorted((luminance(shown[0]), behind), reverse=True)
        assert (light + 0.05) / (deep + 0.05) >= 4.5, where


def luminance(colour: str) -> float:
    """Relative luminance of "rgb(29, 27, 22)" (WCAG 2.2, definitions)."""
    parts = [int(part) / 255 for part in colour[colour.index("(") + 1 : -1].split(",")[:3]]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
