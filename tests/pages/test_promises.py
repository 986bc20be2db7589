"""The promises list: open until the cook keeps it; a link is owed until there is an address, with its disclosure."""

import pytest

from stovescript.kitchen.reminders import reminders
from stovescript.pages.forms import Publication
from stovescript.pages.promises import Promise, promises
from stovescript.pages.promises_page import promises_form
from stovescript.recipe.draft import Answered, Draft, Note
from tests.pages.demo import demo_draft
from tests.pages.posts import full_draft, heard
from tests.pages.reading import shown

FREEZER = "i'm gonna put all the amounts for a double batch in the post"
PAN = "i'll link the pan i use in the description and there's a discount code for it"


def promised(*texts: str, kept: str | None = None, asked: bool = True) -> Draft:
    """A draft in which viewers were promised this."""
    gaps = [
        {
            "id": f"promise-{number}",
            "kind": "promise",
            "severity": "should",
            "about": text,
            "question": f"You told viewers: “{text}”. What should the post say?",
            "ingredient": None,
            "step": None,
            "evidence": heard(60 * number),
        }
        for number, text in enumerate(texts, 1)
    ]
    notes = [Note(text=t, evidence=heard(60 * n), fulfilled_by=kept) for n, t in enumerate(texts, 1)]
    bare = {**full_draft().model_dump(), "promises": notes, "gaps": gaps if asked and kept is None else []}
    return Draft.model_validate(bare)


def only(draft: Draft) -> Promise:
    (promise,) = promises(draft)
    return promise


def page(draft: Draft, video: str | None = None) -> str:
    return str(promises_form(Publication(draft, "soup", video=video))["soup.promises.md"])


def test_a_promise_is_open_while_it_is_asked_about_even_where_the_draft_resembles_it() -> None:
    freezer = Note(text="you can double it and freeze it", evidence=[])
    draft = promised(FREEZER).model_copy(update={"variations": [freezer]})
    assert only(draft).state == "open"
    assert "1 promise, 1 still open." in page(draft)
    assert "- Not answered yet `promise-1`" in page(draft)


@pytest.mark.parametrize("answer", ["Twice of everything, and 40 minutes.", ""])
def test_an_answer_keeps_it(answer: str) -> None:
    draft = promised(FREEZER, kept=answer)
    assert only(draft).state == "kept"
    assert "1 promise, none still open." in page(draft)
    assert "- [x] " in page(draft)
    assert "- [ ] " not in page(draft)
    assert answer in page(draft)


def test_a_promise_that_is_no_longer_asked_about_is_kept_and_a_dismissed_one_is_taken_back() -> None:
    draft = promised(FREEZER, asked=False)
    assert only(draft).state == "kept"
    back = Answered(do="dismiss", about=FREEZER, text="said on another day", gap="promise-1")
    assert only(draft.model_copy(update={"answered": [back]})).state == "dropped"


@pytest.mark.parametrize(
    ("words", "link", "paid"),
    [
        ("the spreadsheet with all weights i will link below the video", True, False),
        ("i'll put the shop where i buy the pandan in the description box", True, False),
        (PAN, True, True),
        ("i'll put the sponsor in the notes", True, True),
        ("i'll put what i do with the leftovers how to store it down in the description", False, False),
        ("i'll write out the dill ones in the post", False, False),
        ("i'll put the party size one for forty people in the description", False, False),
    ],
)
def test_words_tell_what_is_to_be_linked_and_what_is_paid(words: str, link: bool, paid: bool) -> None:
    found = only(promised(words))
    assert (found.link, found.paid) == (link, paid)


def test_a_link_is_owed_until_the_answer_holds_an_address() -> None:
    assert only(promised(PAN)).link_owed
    words_only = promised(PAN, kept="the big steel one")
    assert only(words_only).link_owed
    assert "The answer holds no address yet." in page(words_only)
    linked = promised(PAN, kept="https://pans.example/big")
    assert not only(linked).link_owed
    assert "## Links you still owe" not in page(linked)
    assert not only(promised(FREEZER)).link_owed


def test_links_bring_the_reminder_of_a_disclosure_that_names_the_rule() -> None:
    """16 CFR Part 255: a material connection is disclosed clearly and close to the endorsement."""
    reminder = reminders()["disclosure"]
    assert "16 CFR Part 255" in reminder.source
    assert "right beside the link" in reminder.text
    assert "Other countries have their own rules" in reminder.text
    for draft in (promised(PAN), promised(PAN, kept="https://pans.example/big")):
        assert "16 CFR Part 255" in page(draft)
    assert "readers must be told of it" in page(promised(PAN))
    assert "16 CFR" not in page(promised(FREEZER))


def test_each_promise_tells_where_it_was_said_and_for_which_place() -> None:
    assert "`1:00`, for the post" in page(promised(FREEZER))
    assert "[1:00](<https://video.example/watch?v=1&t=60>)" in page(
        promised(FREEZER), "https://video.example/watch?v=1"
    )
    assert only(promised("i'll put it in the pinned comment tomorrow")).place == "pinned comment"


def test_the_demo_owes_two_texts_and_no_link() -> None:
    text = page(demo_draft())
    assert "2 promises, 2 still open." in text
    assert "## To write down" in text
    assert "## Links you still owe" not in text


def test_no_promises_no_file() -> None:
    assert promises_form(Publication(promised(), "soup")) == {}


def test_what_a_talk_says_stays_text_on_the_page() -> None:
    hostile = "i'll link <script>alert(1)</script> [here](javascript:alert(1))"
    found = shown(page(promised(hostile, kept="<img src=x onerror=alert(1)>")))
    assert found.tags <= {"h1", "h2", "p", "ul", "li", "blockquote", "em", "code"}
