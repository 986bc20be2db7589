"""The review page in a real browser, as the cook uses it: from questions to a draft on disk, by mouse and by keyboard.

Outside the project: axe-core's rules for WCAG 2.2 A and AA; success criteria are named beside their checks.
"""

import re
import shutil
import subprocess
import sys
import wave
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from stovescript.answers import DraftFiles, read_answers, read_heard
from stovescript.draft_file import read_draft
from stovescript.recipe.draft import Draft
from tests.browser.conftest import DESKTOP, PHONE
from tests.cli.running import run
from tests.npm import npm_package
from tests.pages.demo import DEMO

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo as the command line drafts it, with a recording of silence."""
    folder = tmp_path_factory.mktemp("demo")
    assert run("draft", DEMO, "--out", ".", cwd=folder).code == 0
    with wave.open(str(folder / "talk.wav"), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(1)
        sound.setframerate(1000)
        sound.writeframes(b"\x80" * 1000 * 605)
    return folder


@dataclass(frozen=True)
class Desk:
    """A running review page and the files of its draft."""

    address: str
    files: DraftFiles

    @property
    def draft(self) -> Draft:
        return read_draft(self.files.draft)


@pytest.fixture
def desk(once: Path, tmp_path: Path) -> Iterator[Desk]:
    """`stovescript desk` on a copy of the demo, in a process of its own."""
    folder = tmp_path / "drafts"
    shutil.copytree(once, folder)
    files = DraftFiles(folder, DEMO.stem)
    media = folder / "talk.wav"
    command = [sys.executable, "-m", "stovescript", "desk", str(files.draft), "--media", str(media), "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout
        yield Desk(server.stdout.readline().split(" at ")[1].strip(), files)
        server.terminate()


def line_of(page: Page, desk: Desk, name: str) -> Locator:
    """An ingredient's line."""
    id_ = next(one.id for one in read_heard(desk.files.heard).draft.ingredients if one.name == name)
    return page.locator(f"#{id_}-pick")


NewPage = Callable[..., Page]


@pytest.fixture
def visit(browser: Browser) -> Iterator[NewPage]:
    """Opens an address; a script error or anything that the policy stops fails the test at its end."""
    contexts = []
    wrong: list[str] = []

    def open_page(address: str, width: int = DESKTOP, dark: bool = False, **options: Any) -> Page:
        scheme: Any = "dark" if dark else "light"
        context = browser.new_context(viewport={"width": width, "height": 800}, color_scheme=scheme, **options)
        contexts.append(context)
        context.set_default_timeout(15_000)
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("console", lambda told: wrong.append(told.text) if "Content Security" in told.text else None)
        page.goto(address)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert wrong == []


def question(page: Page, words: str) -> None:
    page.get_by_role("button", name=re.compile(re.escape(words))).first.click()


def amount_of(page: Page) -> Locator:
    """The amount in the editor that is open."""
    return page.locator(".editor").get_by_label("Amount", exact=True)


def said(page: Page, words: str) -> None:
    expect(page.locator("#said")).to_contain_text(words)


def test_a_sitting_from_questions_to_the_draft_on_disk(desk: Desk, visit: NewPage, once: Path) -> None:
    """Three gaps answered, an amount corrected, a step moved; reloaded, and drafted again on the command line."""
    page = visit(desk.address)
    asked = len(desk.draft.gaps)
    question(page, "How many does it serve")
    page.get_by_label("Your answer").fill("6 servings")
    page.keyboard.press("Enter")
    said(page, f"{asked - 1} questions left")
    expect(page.locator("#dish .facts")).to_contain_text("6 servings")
    expect(page.get_by_label("Or in words")).to_be_focused()  # the next question is open
    page.get_by_role("button", name="15 ounces", exact=True).click()
    said(page, f"{asked - 2} questions left")
    question(page, "How is the pressure released")
    page.get_by_role("button", name="natural for 10 minutes").click()
    said(page, f"{asked - 3} questions left")
    page.get_by_role("button", name="Change cumin").click()
    amount_of(page).fill("2 teaspoons")
    page.keyboard.press("Enter")
    expect(line_of(page, desk, "cumin")).to_have_text("2 teaspoons cumin")
    expect(page.locator("#method")).to_contain_text("2 teaspoons of cumin")
    moved = desk.draft.steps[6]
    page.get_by_role("button", name="Move step 7 earlier").click()
    said(page, "Step 7 is now step 6")
    page.reload()
    expect(line_of(page, desk, "cumin")).to_have_text("2 teaspoons cumin")
    expect(page.locator("li.step").nth(5)).to_contain_text(moved.text)
    on_page = desk.draft
    assert run("draft", DEMO, "--out", ".", cwd=desk.files.folder).code == 0
    draft = desk.draft
    assert draft == on_page
    assert draft.servings and draft.servings.low == 6
    assert any("tomatoes" in one.name and one.package and one.package.size for one in draft.ingredients)
    assert "timed natural" in [setting.release for step in draft.steps for setting in step.settings]
    cumin = next(one for one in draft.ingredients if one.name == "cumin")
    assert cumin.total and (cumin.total.low, cumin.total.unit) == (2, "teaspoon")
    assert draft.steps[5] == moved
    assert {gap.kind for gap in draft.gaps}.isdisjoint({"no_servings", "no_release", "no_size"})


def test_picking_shows_the_words_and_plays_them(desk: Desk, visit: NewPage) -> None:
    page = visit(desk.address)
    line_of(page, desk, "cumin").click()
    words = page.locator("#clauses [aria-selected=true]")
    expect(words).to_have_text(["one teaspoon of come in"])
    expect(words.first).to_be_in_viewport()
    page.wait_for_function("document.getElementById('player').currentTime >= 246.4")
    assert page.evaluate("document.getElementById('player').currentTime") < 252
    page.locator("#clauses p", has_text="four cloves of garlic").click()
    expect(page.locator("#pane-draft [aria-current] .pick").first).to_contain_text("garlic")


@pytest.mark.parametrize(("width", "dark"), [(PHONE, True), (DESKTOP, False)], ids=["phone, dark", "desktop, light"])
def test_axe_finds_no_violation(desk: Desk, visit: NewPage, width: int, dark: bool) -> None:
    axe = (npm_package("axe-core") / "axe.min.js").read_text(encoding="utf-8")
    page = visit(desk.address, width, dark, bypass_csp=True, reduced_motion="reduce")
    page.evaluate(axe)

    def check(state: str) -> None:
        found = page.evaluate("rules => axe.run({runOnly: rules})", RULES)
        assert found["passes"], "the rules were run"
        assert [(state, each["id"], [n["html"] for n in each["nodes"]]) for each in found["violations"]] == []
        sideways = page.evaluate("document.documentElement.scrollWidth")
        assert sideways <= width, "1.4.10 Reflow"

    check("opened")
    question(page, "You set out bay leaves")
    page.get_by_role("button", name="Put it there").wait_for()
    check("question")
    if width == PHONE:
        page.get_by_role("button", name="Draft", exact=True).click()
    page.get_by_role("button", name="Change olive oil").click()
    page.get_by_label("Amount, time 1").fill("7 of something else")
    page.keyboard.press("Tab")
    expect(page.locator("#pane-draft [role=alert]:not(:empty)")).to_contain_text("is no amount")
    page.get_by_text("More", exact=True).click()
    check("ingredient, with a mistake")
    page.get_by_role("button", name="Change step 9").click()
    page.get_by_label("Done when").wait_for()
    check("step")
    line_of(page, desk, "cumin").click()
    if width == PHONE:
        page.get_by_role("button", name="Show in the talk").click()
        check("talk")


def test_what_is_pressed_is_large_enough(desk: Desk, visit: NewPage) -> None:
    """WCAG 2.2, 2.5.8 Target Size: 24 by 24 CSS pixels."""
    page = visit(desk.address, PHONE)
    page.get_by_role("button", name="Draft", exact=True).click()
    boxes = [each.bounding_box() for each in page.locator("button:visible, summary:visible").all()]
    assert len(boxes) > 100
    assert [box for box in boxes if box and (box["height"] < 24 or box["width"] < 24)] == []


def focus(page: Page) -> str:
    return str(page.evaluate("document.activeElement.id"))


def tab_to(page: Page, id_: str, most: int = 250) -> None:
    """Tab until the focus is there; each stop on the way can be seen (2.4.7, 2.4.11) and none is a trap (2.1.2)."""
    before, stuck = "", 0
    for _ in range(most):
        page.keyboard.press("Tab")
        here = focus(page)
        if here == id_:
            return
        stuck = stuck + 1 if here == before else 0
        assert stuck < 12 or here == "", f"the keyboard is trapped at {here}"  # the player has stops of its own
        before = here
    raise AssertionError(f"{id_} is not reached by keyboard")


def test_everything_is_done_by_keyboard_alone(desk: Desk, visit: NewPage) -> None:
    page = visit(desk.address)
    gaps = desk.draft.gaps
    first = next(gap.id for gap in gaps if gap.kind == "no_servings")
    tab_to(page, "clauses")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    expect(page.locator("#c2")).to_have_attribute("aria-selected", "true")
    tab_to(page, f"{first}-change")
    page.keyboard.press("Enter")
    expect(page.locator(f"#{first}-text")).to_be_focused()
    page.keyboard.type("6 servings")
    page.keyboard.press("Enter")
    said(page, f"{len(gaps) - 1} questions left")
    expect(page.locator(f"#{desk.draft.gaps[0].id}-text")).to_be_focused()
    page.keyboard.press("Escape")
    assert focus(page) == f"{desk.draft.gaps[0].id}-change"
    cumin = next(one for one in desk.draft.ingredients if one.name == "cumin")
    tab_to(page, f"{cumin.id}-change")
    page.keyboard.press("Enter")
    expect(amount_of(page)).to_be_focused()
    page.keyboard.press("Control+A")
    page.keyboard.type("2 teaspoons")
    page.keyboard.press("Tab")
    expect(line_of(page, desk, "cumin")).to_have_text("2 teaspoons cumin")
    assert focus(page) == f"{cumin.uses[0].id}-where", "keeping does not move the focus"
    page.keyboard.press("Escape")
    tab_to(page, "s2-pick")
    page.keyboard.press("Alt+ArrowDown")
    said(page, "Step 2 is now step 3")
    assert [step.id for step in desk.draft.steps[:3]] == ["s1", "s3", "s2"]
    assert focus(page) in ("s2-down", "s2-pick"), "the focus stays with the step"
    page.keyboard.press("Control+z")
    said(page, "Undone")
    assert [step.id for step in desk.draft.steps[:3]] == ["s1", "s2", "s3"]
    assert page.evaluate("document.activeElement !== document.body")
    seen = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert seen != "none", "2.4.7 Focus Visible"


def test_two_tabs_never_overwrite_each_other(desk: Desk, visit: NewPage) -> None:
    one, two = visit(desk.address), visit(desk.address)
    for page in (one, two):
        page.get_by_role("button", name="Change cumin").click()
        amount_of(page).wait_for()
    amount_of(one).fill("2 teaspoons")
    one.keyboard.press("Enter")
    expect(line_of(one, desk, "cumin")).to_have_text("2 teaspoons cumin")
    amount_of(two).fill("3 teaspoons")
    two.keyboard.press("Enter")
    expect(two.get_by_role("heading", name="Changed elsewhere")).to_be_focused()
    expect(two.locator("#elsewhere-lines")).to_have_text("amount of cumin: 2 teaspoons")
    assert "3 teaspoons" not in desk.files.answers.read_text(encoding="utf-8")
    two.get_by_role("button", name="Show the draft as it is now").click()
    expect(line_of(two, desk, "cumin")).to_have_text("2 teaspoons cumin")
    expect(amount_of(two)).to_have_value("3 teaspoons")  # what she typed is still there
    two.get_by_role("button", name="Keep mine as well").click()
    expect(line_of(two, desk, "cumin")).to_have_text("3 teaspoons cumin")
    one.bring_to_front()
    one.evaluate("window.dispatchEvent(new Event('focus'))")
    expect(one.locator("#elsewhere")).to_be_visible()  # told when she comes back to it
    assert [entry.text for entry in read_answers(desk.files.answers).entries] == ["3 teaspoons"]


def test_what_is_typed_stays_when_the_server_is_gone(desk: Desk, visit: NewPage) -> None:
    page = visit(desk.address)
    question(page, "How many does it serve")
    page.get_by_label("Your answer").fill("6 servings")
    page.route("**/answer/**", lambda route: route.abort())
    page.keyboard.press("Enter")
    expect(page.locator("#pane-questions [role=alert]:not(:empty)")).to_contain_text("still here")
    expect(page.get_by_label("Your answer")).to_have_value("6 servings")


def test_typing_in_one_field_is_not_lost_when_another_is_kept(desk: Desk, visit: NewPage) -> None:
    page = visit(desk.address)
    page.get_by_role("button", name="Change cumin").click()
    amount_of(page).fill("2 teaspoons")
    page.get_by_label("Preparation", exact=True).click()
    page.keyboard.type("toasted")
    expect(line_of(page, desk, "cumin")).to_have_text("2 teaspoons cumin")
    expect(page.get_by_label("Preparation", exact=True)).to_have_value("toasted")
    expect(page.get_by_label("Preparation", exact=True)).to_be_focused()
    page.keyboard.press("Enter")
    expect(line_of(page, desk, "cumin")).to_have_text("2 teaspoons cumin, toasted")


def test_ingredients_are_split_added_and_taken_out(desk: Desk, visit: NewPage) -> None:
    page = visit(desk.address)
    page.get_by_role("button", name="Change cumin").click()
    page.get_by_text("More", exact=True).click()
    page.get_by_label("It is really two things").fill("coriander")
    page.keyboard.press("Enter")
    expect(page.locator("#ingredients")).to_contain_text("coriander")
    page.get_by_role("button", name="Take out cumin").click()
    expect(line_of(page, desk, "cumin")).to_have_count(0)
    assert page.evaluate("document.activeElement !== document.body"), "the focus is not lost"
    page.get_by_text("Add an ingredient").click()
    page.locator("#add-ingredient").fill("sour cream")
    page.locator("#add-ingredient-amount").fill("1/2 cup")
    page.get_by_role("button", name="Add it").first.click()
    expect(page.locator("#ingredients")).to_contain_text("1/2 cup sour cream")
    names = [one.name for one in desk.draft.ingredients]
    assert "cumin" not in names and "coriander" in names and "sour cream" in names


def test_only_this_address_is_asked(desk: Desk, visit: NewPage, browser: Browser) -> None:
    page = visit("about:blank")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(desk.address)
    line_of(page, desk, "cumin").click()
    page.get_by_role("button", name="Change cumin").click()
    amount_of(page).wait_for()
    start = desk.address.split("/drafts/")[0]
    assert len(asked) > 5 and all(url.startswith((start, "data:")) for url in asked)
