"""The draft as a page: its parts in a post's order, amounts as a kitchen prints them, a time mark on everything."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stovescript.drafting import draft_talk
from stovescript.pages.markdown import amount_text, draft_page, temperature_text
from stovescript.recipe.draft import Amount, Package
from tests.pages.demo import DEMO, demo_draft
from tests.pages.posts import amount, full_draft
from tests.pages.reading import OWN_TAGS, shown
from tests.talk.reading import read, vtt

# The order of a printed recipe: headnote, yield and times, ingredients, method, notes (common practice).
SECTIONS = [
    "Ingredients",
    "Method",
    "Equipment",
    "Alternatives",
    "Other ways to make it",
    "Tips",
    "Promised to viewers",
    "Named, but not in this dish",
    "Cautions",
    "Questions for the cook",
]


def test_sections_come_in_a_posts_order() -> None:
    headings = shown(draft_page(full_draft())).headings
    assert headings[0] == (1, "Roasted Carrots and Chickpeas")
    assert [text for level, text in headings if level == 2] == SECTIONS
    assert [text for level, text in headings if level == 3] == [
        "For the tray",
        "For the dressing",
        "Must be answered",
        "Should be answered",
        "Could be answered",
    ]


def test_the_demo_has_its_sections_in_that_order() -> None:
    found = [text for level, text in shown(draft_page(demo_draft())).headings if level == 2]
    assert found == [section for section in SECTIONS if section in found]
    assert {"Ingredients", "Method", "Questions for the cook"} <= set(found)


def test_a_section_without_content_is_left_out() -> None:
    bare = full_draft().model_copy(update={"tips": [], "variations": [], "equipment": [], "cautions": []})
    headings = [text for level, text in shown(draft_page(bare)).headings if level == 2]
    assert headings == [s for s in SECTIONS if s not in ("Equipment", "Other ways to make it", "Tips", "Cautions")]


@pytest.mark.parametrize(
    "line",
    [
        "- Serves 4 to 6",
        "- Preparation: 10 minutes",
        "- Cooking: 25 to 30 minutes",
        "- In all: 1 hour 30 minutes",
        "  - roasting: 25 to 30 minutes `1:01`",
        "- 2 15-ounce cans chickpeas, drained, rinsed `1:01`",
        "- 1 1/2 cups yogurt, plain, divided (1 cup, then about 1/2 cup) (optional) `2:00` `1:02:05`",
        "1. Roast the chickpeas until they are crisp. `1:01`",
        "2. Stir the yogurt smooth. `2:00`",
        "- sheet pan (13 by 18 inches)",
        "- yogurt: sour cream (3/4 cup) `2:10`",
        "- feta (not used) `3:50`",
        "- Does it serve four or six? `1:15` `no_servings-0a1b2c`",
    ],
)
def test_a_line_of_the_page(line: str) -> None:
    assert line in draft_page(full_draft()).splitlines()


def test_a_step_tells_its_settings_below_it() -> None:
    lines = draft_page(full_draft()).splitlines()
    below = lines[lines.index("1. Roast the chickpeas until they are crisp. `1:01`") + 1]
    for setting in ("oven", "convection bake", "400 to 425 °F", "(scale not said)", "25 to 30 minutes"):
        assert setting in below


def test_what_was_not_said_is_told_so() -> None:
    times = full_draft().times.model_copy(update={"prep": None, "cook": None, "total": None})
    page = draft_page(full_draft().model_copy(update={"title": None, "servings": None, "times": times, "gaps": []}))
    assert page.startswith("# Untitled dish\n")
    for line in (
        "- Yield: *not said*",
        "- Preparation: *not said*",
        "- Cooking: *not said*",
        "- In all: *not said*",
        "None: everything was said.",
    ):
        assert line in page.splitlines()


def test_an_ingredient_never_measured_is_told_so() -> None:
    ingredient = full_draft().ingredients[0]
    use = ingredient.uses[0].model_copy(update={"amount": None})
    bare = ingredient.model_copy(update={"uses": [use], "total": None, "package": None})
    page = draft_page(full_draft().model_copy(update={"ingredients": [bare]}))
    assert "- *amount not said* chickpeas, drained, rinsed `1:01`" in page.splitlines()


@pytest.mark.parametrize(
    ("what", "text"),
    [
        (amount(1.5, "cup"), "1 1/2 cups"),
        (amount(4 / 3, "cup"), "1 1/3 cups"),
        (amount(0.5, "cup", approximate=True), "about 1/2 cup"),
        (amount(3, "tablespoon", 4), "3 to 4 tablespoons"),
        (amount(4, "clove"), "4 cloves"),
        (amount(1, "fluid ounce"), "1 fluid ounce"),
        (amount(1, "pinch", approximate=True), "1 pinch"),
        (amount(2, "leaf"), "2 leaves"),
        (amount(3), "3"),
    ],
)
def test_an_amount_in_print(what: Amount, text: str) -> None:
    """Plurals and fractions: common English."""
    assert amount_text(what) == text


@pytest.mark.parametrize(
    ("what", "size", "text"),
    [
        (amount(2, "can"), amount(15, "ounce"), "2 15-ounce cans"),
        (amount(1, "can"), amount(28, "ounce"), "1 28-ounce can"),
        (amount(0.5, "can"), amount(400, "gram"), "1/2 400-gram can"),
        (amount(2, "can"), None, "2 cans"),
        (amount(6, "cup"), amount(32, "ounce"), "6 cups"),  # measured out of packages
        pytest.param(
            amount(1, "can"),
            amount(14.5, "ounce"),
            "1 (14 1/2-ounce) can",
        ),
    ],
)
def test_packages_in_print(what: Amount, size: Amount | None, text: str) -> None:
    """The size as a compound adjective, in the singular with a hyphen: common practice of recipe writing."""
    assert amount_text(what, Package(count=what.high, size=size)) == text


@given(st.integers(0, 20), st.sampled_from([Fraction(n, d) for d in (1, 2, 3, 4, 8) for n in range(d)]))
def test_a_fraction_in_print_is_the_amount(whole: int, part: Fraction) -> None:
    """Read back by the standard library's fractions."""
    exact = whole + part
    printed = amount_text(amount(round(float(exact), 6)))
    assert sum(map(Fraction, printed.split())) == exact


@pytest.mark.parametrize(
    ("low", "high", "unit", "text"),
    [(350, 375, "F", "350 to 375 °F"), (180, 180, "C", "180 °C"), (6, 6, "gas mark", "gas mark 6")],
)
def test_a_temperature_in_print(low: float, high: float, unit: str, text: str) -> None:
    assert temperature_text(low, high, unit) == text


def test_amounts_from_a_talk_are_printed_so() -> None:
    talk = read(
        vtt(
            "hi everybody today we're making black bean soup",
            "so we're gonna add two fifteen ounce cans of black beans to the pot",
            "and then i'm pouring in a cup and a half of vegetable broth and stir that",
            "and it serves four people",
        )
    )
    ingredients = draft_page(draft_talk(talk)).partition("## Method")[0]
    assert "- 2 15-ounce cans black beans" in ingredients
    assert "- 1 1/2 cups vegetable broth" in ingredients


def test_everything_heard_carries_a_time_mark_within_the_talk() -> None:
    page = draft_page(demo_draft())
    marks = re.findall(r"`(?:(\d+):)?(\d+):(\d\d)`", page)
    assert all(int(h or 0) * 3600 + int(m) * 60 + int(s) <= demo_draft().source.seconds for h, m, s in marks)
    for section in ("Ingredients", "Alternatives", "Tips", "Promised to viewers", "Named, but not in this dish"):
        lines = page.partition(f"## {section}\n")[2].partition("\n## ")[0].strip().splitlines()
        assert all(re.search(r"`[\d:]+`$", line) for line in lines if line.startswith("- ")), section


def test_every_question_is_on_the_page_under_its_severity() -> None:
    page = draft_page(demo_draft())
    for severity, heading in (("must", "Must"), ("should", "Should"), ("could", "Could")):
        part = page.partition(f"### {heading} be answered\n")[2].partition("\n### ")[0]
        ids = [gap.id for gap in demo_draft().gaps if gap.severity == severity]
        assert re.findall(r"`(\w+-[0-9a-f]{6})`$", part, re.MULTILINE) == ids


def test_the_demo_page_is_plain_markdown() -> None:
    page = draft_page(demo_draft())
    assert page.endswith("\n") and not page.endswith("\n\n")
    assert shown(page).tags <= OWN_TAGS
    assert str(DEMO.parent) not in page, "no path of this machine on the page"


def test_a_page_is_made_the_same_way_twice() -> None:
    assert draft_page(demo_draft()) == draft_page(demo_draft().model_copy(deep=True))
