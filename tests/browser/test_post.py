"""The post in a real browser: accessible, readable without script or network, switched, by keyboard, and in print.

Outside the project: axe-core's rules for WCAG 2.2 A and AA; pypdf counts and reads the printed sheets.
"""

import io
from collections.abc import Iterator
from itertools import pairwise

import pytest
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from stovescript.pages.forms import Publication
from stovescript.pages.post_content import post_of
from stovescript.pages.post_page import post_html
from tests.browser.conftest import DESKTOP, PHONE, Opened
from tests.npm import npm_package
from tests.pages.golden import VIDEO, lentils, unanswered
from tests.pages.posts import full_draft
from tests.pages.test_escaping import HOSTILE, replaced

PAGES = {
    "final": post_html(Publication(lentils(), "soup", VIDEO)),
    "draft": post_html(Publication(unanswered(), "soup", VIDEO, with_sources=True)),
    "bare": post_html(Publication(full_draft(), "soup")),
}
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [PHONE, DESKTOP], ids=["phone", "desktop"])
@pytest.mark.parametrize("name", PAGES)
def test_axe_finds_no_violation(opened: Opened, name: str, width: int, dark: bool) -> None:
    axe = (npm_package("axe-core") / "axe.min.js").read_text(encoding="utf-8")
    page = opened(PAGES[name], width=width, dark=dark)
    choose(page, "twice as much")
    page.evaluate(axe)
    found = page.evaluate("rules => axe.run({runOnly: rules})", RULES)
    assert found["passes"], "the rules were run"
    assert [(each["id"], [node["html"] for node in each["nodes"]]) for each in found["violations"]] == []


def choose(page: Page, label: str) -> None:
    page.get_by_role("radio", name=label, exact=True).check()


@pytest.mark.parametrize("width", [320, PHONE, DESKTOP])
@pytest.mark.parametrize("name", PAGES)
def test_nothing_scrolls_sideways(opened: Opened, name: str, width: int) -> None:
    """WCAG 2.2, 1.4.10 Reflow: at 320 CSS pixels."""
    page = opened(PAGES[name], width=width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("width", [PHONE, DESKTOP])
def test_what_is_pressed_is_large_enough(opened: Opened, width: int) -> None:
    """WCAG 2.2, 2.5.8 Target Size: 24 by 24 CSS pixels, links in a sentence excepted."""
    page = opened(PAGES["final"], width=width)
    for box in [each.bounding_box() for each in page.locator("#switch label, .watch a").all()]:
        assert box is not None and box["height"] >= 24 and box["width"] >= 24


def test_it_is_read_without_script(opened: Opened) -> None:
    page = opened(PAGES["final"], script=False)
    assert page.get_by_text("3 tablespoons").first.is_visible()
    assert not page.locator("#switch").is_visible()
    assert page.locator("main ol > li").count() == 6


@pytest.fixture
def asked(browser: Browser) -> Iterator[list[str]]:
    """Every address that a page asks for when it is opened, switched and printed."""
    addresses: list[str] = []
    context = browser.new_context()
    page = context.new_page()
    page.on("request", lambda request: addresses.append(request.url))
    page.set_content(PAGES["final"], wait_until="networkidle")
    choose(page, "by grams and milliliters")
    page.pdf()
    yield addresses
    context.close()


def test_nothing_is_fetched(asked: list[str]) -> None:
    assert asked == []


def test_amounts_are_switched_and_switched_back(opened: Opened) -> None:
    page = opened(PAGES["final"])
    before = page.inner_text("main")
    choose(page, "twice as much")
    assert page.get_by_text("1/4 cup plus 2 tablespoons", exact=True).is_visible()
    assert page.get_by_text("Serves 8 to 12").is_visible()
    assert "Amounts shown: twice as much, as she says it." in page.inner_text("[role=status]")
    choose(page, "by grams and milliliters")
    assert page.get_by_text("Oven: 160 °C").is_visible()
    choose(page, "all of it")
    choose(page, "as she says it")
    assert page.inner_text("main").replace("Amounts shown: all of it, as she says it.", "").split() == before.split()


def test_the_keyboard_goes_through_the_page_in_reading_order(opened: Opened) -> None:
    page = opened(PAGES["draft"])
    places = []
    for _ in range(200):
        page.keyboard.press("Tab")
        place = page.evaluate(
            "() => { const at = document.activeElement;"
            " if (at === document.body) return null;"
            " const all = [...document.querySelectorAll('*')]; return all.indexOf(at); }"
        )
        if place is None:
            break
        places.append(place)
    assert len(places) > 30 and places == sorted(places)


def test_the_switch_works_by_keyboard(opened: Opened) -> None:
    page = opened(PAGES["final"])
    page.locator("[name=size]:checked").focus()
    page.keyboard.press("ArrowRight")
    assert page.get_by_text("1/4 cup plus 2 tablespoons", exact=True).is_visible()


def test_headings_are_in_order_and_sections_are_named(opened: Opened) -> None:
    page = opened(PAGES["draft"])
    levels = [int(tag[1]) for tag in page.evaluate("[...document.querySelectorAll('h1,h2,h3')].map(h => h.tagName)")]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    names = page.evaluate("[...document.querySelectorAll('section')].map(s => s.getAttribute('aria-labelledby'))")
    assert names and all(page.locator(f"#{name}").count() == 1 for name in names)


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_it_prints_on_one_or_two_sheets(opened: Opened, size: str) -> None:
    page = opened(PAGES["final"])
    sheets = PdfReader(io.BytesIO(page.pdf(format=size))).pages
    text = " ".join(sheet.extract_text() for sheet in sheets)
    assert len(sheets) <= 2
    assert "3 tablespoons" in text and "Make ahead and storage" in text
    assert "Watch step" not in text and "twice as much" not in text, "what only a screen needs is left out"


def test_the_draft_mark_is_printed_and_the_questions_stand_on_a_sheet_of_their_own(opened: Opened) -> None:
    sheets = PdfReader(io.BytesIO(opened(PAGES["draft"]).pdf(format="A4"))).pages
    assert "not to be published" in sheets[0].extract_text()
    assert sheets[-1].extract_text().lstrip().startswith("Questions before")


def test_the_policy_lets_only_the_page_s_own_script_run(opened: Opened) -> None:
    """W3C Content Security Policy Level 3: a script that is not the page's is not run, even if it got in."""
    page = opened(PAGES["final"].replace("</main>", "<script>document.title = 'taken'</script></main>"))
    assert page.title() == "Braised lentils with herb yogurt"


def test_a_hostile_talk_runs_nothing(opened: Opened) -> None:
    data = full_draft().model_dump()
    for path in ("title", "summary", "ingredients.name", "steps.text", "tips.text", "variations.text"):
        data = replaced(data, path, f"{HOSTILE} <img src=x onerror=alert(1)>")
    draft = type(full_draft()).model_validate(data)
    dialogs: list[str] = []
    page = opened("<title>before</title>")
    page.on("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
    page.set_content(post_html(Publication(draft, "soup")))
    choose(page, "three times as much")
    page.wait_for_timeout(100)
    assert dialogs == [] and page.locator("main script, main img").count() == 0
    assert page.inner_text("h1") == post_of(Publication(draft, "soup")).title
