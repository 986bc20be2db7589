"""What the page does to a draft: answers, corrections, undo, and two people at once."""

import os
import re
from html import unescape

import pytest

from stovescript.answers import DraftFiles, Entry, put, read_answers, read_heard, ref_of, save_round
from stovescript.desk.guard import Door
from stovescript.desk.render import editor
from stovescript.desk.shelf import shelf_of
from stovescript.desk.site import Site
from stovescript.desk.sitting import Sitting
from stovescript.desk.wishes import Change
from stovescript.draft_file import read_draft
from stovescript.errors import StovescriptError
from tests.desk.conftest import PORT, STEM, TOKEN, NewTab, Tab, client_of


def gap_of(files: DraftFiles, kind: str) -> str:
    return next(gap.id for gap in read_draft(files.draft).gaps if gap.kind == kind)


def test_an_answer_is_on_disk_at_once_and_its_question_goes(tab: Tab, drafted: DraftFiles) -> None:
    gap, before = gap_of(drafted, "no_servings"), len(read_draft(drafted.draft).gaps)
    given = tab.ask("answer", gap=gap, text="6 servings")
    assert given["status"] == 200 and "6 servings" in tab.text("dish", given)
    assert gap not in given["pieces"]["questions"]
    assert f"{before - 1} questions left" in given["said"]
    draft = read_draft(drafted.draft)
    assert draft.servings and draft.servings.high == 6
    assert "Serves 6" in drafted.page.read_text(encoding="utf-8")


def test_the_next_question_is_opened(tab: Tab, drafted: DraftFiles) -> None:
    gaps = [gap.id for gap in read_draft(drafted.draft).gaps]
    given = tab.ask("answer", gap=gaps[2], text="leave out")
    assert given["open"] == gaps[3] and gaps[3] in given["editor"]


def test_an_amount_brings_total_and_question_up_to_date(tab: Tab, drafted: DraftFiles) -> None:
    """4 cups and 1 cup were heard, and six cups in all: a second cup settles it."""
    broth = next(one for one in read_draft(drafted.draft).ingredients if one.name == "chicken broth")
    given = tab.ask("change", do="amount", of=broth.uses[1].id, to="2 cups")
    assert "6 cups chicken broth" in tab.text("ingredients", given)
    assert "adds up" not in tab.text("questions", given)


def test_what_cannot_be_understood_is_told_with_an_example_and_not_kept(tab: Tab, drafted: DraftFiles) -> None:
    given = tab.ask("change", do="amount", of="i9.u1", to="some 7 of it or 8")
    assert given["status"] == 422 and "1 1/2 cups" in given["sentence"]
    assert not drafted.answers.exists()


@pytest.mark.parametrize(
    ("wish", "why"),
    [
        ({"do": "amount", "of": "i999.u1", "to": "1 cup"}, "not in the draft"),
        ({"do": "amount", "of": "s1", "to": "1 cup"}, "needs what it is about"),
        ({"do": "explode", "of": "s1"}, "nothing that can be done"),
        ({"do": "goes in", "of": "i9.u1"}, "needs the step"),
        ({"do": "split", "of": "i9.u1", "to": "salt"}, "goes in only once"),
    ],
)
def test_what_cannot_be_done_is_refused_in_one_sentence(
    tab: Tab, drafted: DraftFiles, wish: dict[str, str], why: str
) -> None:
    given = tab.ask("change", **wish)
    assert given["status"] == 422 and why in given["sentence"]
    assert not drafted.answers.exists()


CHANGES = [
    ({"do": "title", "to": "Tortilla soup"}, "dish", "Tortilla soup"),
    ({"do": "servings", "to": "6 servings"}, "dish", "6 servings"),
    ({"do": "total time", "to": "1 hour 15 minutes"}, "dish", "1 hour 15 minutes"),
    ({"do": "rename", "of": "i9", "to": "ground cumin"}, "ingredients", "ground cumin"),
    ({"do": "amount", "of": "i9.u1", "to": "2 teaspoons"}, "ingredients", "2 teaspoons cumin"),
    ({"do": "amount", "of": "i9.u1", "to": "2 teaspoons"}, "method", "2 teaspoons of cumin"),
    ({"do": "preparation", "of": "i9", "to": "toasted, ground"}, "ingredients", "cumin, toasted, ground"),
    ({"do": "optional", "of": "i9", "to": True}, "ingredients", "cumin (optional)"),
    ({"do": "component", "of": "i9", "to": "spice mix"}, "ingredients", "For the spice mix"),
    (
        {"do": "add ingredient", "to": "sour cream", "amount": "1/2 cup", "where": "s16"},
        "ingredients",
        "1/2 cup sour cream",
    ),
    ({"do": "split", "of": "i9", "to": "coriander"}, "ingredients", "amount not said coriander"),
    ({"do": "merge", "of": "i18", "where": "i14"}, "yours", "put together with"),
    ({"do": "words", "of": "s12", "to": "Open the lid away from you."}, "method", "Open the lid away from you."),
    ({"do": "add step", "to": "Warm the bowls.", "where": "s15"}, "method", "Step 16: Warm the bowls."),
    ({"do": "move", "of": "s10", "where": "s7"}, "method", "Step 8: Scrape the bottom"),
    ({"do": "temperature", "of": "s1.g1", "to": "425 F"}, "method", "425 °F"),
    ({"do": "time", "of": "s13", "to": "5 minutes"}, "method", "5 minutes"),
    ({"do": "add tip", "to": "It freezes well."}, "notes", "It freezes well."),
    ({"do": "fulfil", "of": "p1", "to": "Double everything."}, "notes", "Double everything."),
    ({"do": "rename", "of": "e3", "to": "baking sheet"}, "notes", "baking sheet"),
]


@pytest.mark.parametrize(
    ("wish", "piece", "shown"), CHANGES, ids=lambda value: value["do"] if isinstance(value, dict) else ""
)
def test_a_change_shows_at_once_and_undo_takes_it_back(
    tab: Tab, drafted: DraftFiles, wish: dict[str, str | bool], piece: str, shown: str
) -> None:
    before = drafted.draft.read_text(encoding="utf-8")
    given = tab.ask("change", **wish)
    assert given["status"] == 200, given
    assert shown in tab.text(piece, given)
    assert drafted.draft.read_text(encoding="utf-8") != before
    assert tab.ask("undo")["status"] == 200
    assert drafted.draft.read_text(encoding="utf-8") == before


def test_undo_has_several_levels_and_can_be_taken_back(tab: Tab, drafted: DraftFiles) -> None:
    states = [drafted.draft.read_text(encoding="utf-8")]
    for wish, _, _ in CHANGES[:5]:
        assert tab.ask("change", **wish)["status"] == 200
        states.append(drafted.draft.read_text(encoding="utf-8"))
    for state in reversed(states[:-1]):
        tab.ask("undo")
        assert drafted.draft.read_text(encoding="utf-8") == state
    assert tab.ask("undo")["status"] == 422
    for state in states[1:]:
        tab.ask("redo")
        assert drafted.draft.read_text(encoding="utf-8") == state
    tab.ask("undo")
    assert tab.ask("change", do="title", to="Another way")["status"] == 200
    assert tab.ask("redo")["status"] == 422, "what follows a new change is a new way"


def test_one_entry_of_many_can_be_taken_back(tab: Tab, drafted: DraftFiles) -> None:
    for wish, _, _ in CHANGES[:4]:
        tab.ask("change", **wish)
    given = tab.ask("take-back", number=1)
    assert given["status"] == 200 and "yield" in given["said"]
    assert read_draft(drafted.draft).servings is None
    assert [entry.do for entry in read_answers(drafted.answers).entries] == ["title", "total time", "rename"]
    assert tab.ask("take-back", number=99)["status"] == 422


def test_two_tabs_never_overwrite_each_other_unseen(new_tab: NewTab, drafted: DraftFiles) -> None:
    one, two = new_tab(), new_tab()
    assert one.ask("change", do="amount", of="i9.u1", to="2 teaspoons")["status"] == 200
    refused = two.ask("change", do="amount", of="i9.u1", to="3 teaspoons")
    assert refused["status"] == 409 and refused["lines"] == ["amount of cumin: 2 teaspoons"]
    assert "3 teaspoons" not in drafted.answers.read_text(encoding="utf-8")
    two.edition = refused["edition"]
    assert two.ask("change", do="amount", of="i9.u1", to="3 teaspoons")["status"] == 200


@pytest.mark.parametrize("path", ["undo", "redo", "take-back"])
def test_undo_in_an_old_tab_is_refused_too(new_tab: NewTab, path: str) -> None:
    one, two = new_tab(), new_tab()
    one.ask("change", do="title", to="Soup")
    assert two.ask(path, **({"number": 0} if path == "take-back" else {}))["status"] == 409


def test_an_edit_in_another_program_is_never_overwritten(tab: Tab, drafted: DraftFiles) -> None:
    tab.ask("change", do="title", to="Soup")
    text = drafted.answers.read_text(encoding="utf-8") + '\n# mine\n[[entry]]\ndo = "summary"\nto = "By hand."\n'
    drafted.answers.write_text(text, encoding="utf-8")
    refused = tab.ask("change", do="title", to="Stew")
    assert refused["status"] == 409 and refused["lines"] == ["line under the title: By hand."]
    assert drafted.answers.read_text(encoding="utf-8") == text
    tab.edition = refused["edition"]
    assert tab.ask("undo")["status"] == 422, "what was done before the edit is not undone over it"
    tab.ask("change", do="title", to="Stew")
    assert "# mine" in drafted.answers.read_text(encoding="utf-8")


def test_a_talk_drafted_anew_is_noticed_and_the_same_talk_is_not(tab: Tab, drafted: DraftFiles) -> None:
    drafted.heard.write_bytes(drafted.heard.read_bytes())
    assert tab.ask("change", do="title", to="Soup")["status"] == 200
    text = drafted.heard.read_text(encoding="utf-8").replace("smoked paprika", "sweet paprika")
    drafted.heard.write_text(text, encoding="utf-8")
    assert tab.ask("change", do="title", to="Stew")["status"] == 409


def test_a_file_that_cannot_be_used_is_told_in_one_sentence(tab: Tab, drafted: DraftFiles) -> None:
    drafted.answers.write_text('format = "stovescript/answers"\nversion = 1\n[[entry]\n', encoding="utf-8")
    told = tab.ask("change", do="title", to="Soup")
    assert told["status"] == 500 and "line 3" in told["sentence"]
    assert tab.client.get(f"/{TOKEN}/drafts/{STEM}").status_code == 500


def test_answers_given_elsewhere_show_when_the_page_is_opened(drafted: DraftFiles, new_tab: NewTab) -> None:
    heard, answers = read_heard(drafted.heard), read_answers(drafted.answers)
    entry = Entry("rename", ref_of(heard.draft, "i9"), "ground cumin")
    save_round(drafted, heard, put(answers, entry, heard.draft))
    assert "ground cumin" in new_tab().html


def test_a_draft_that_lags_behind_its_answers_is_written_again(drafted: DraftFiles, new_tab: NewTab) -> None:
    """What a run that was killed between two files, or an answers file edited by hand, leaves."""
    drafted.answers.write_text(
        'format = "stovescript/answers"\nversion = 1\n[[entry]]\ndo = "title"\nto = "Soup"\n', encoding="utf-8"
    )
    new_tab()
    assert read_draft(drafted.draft).title == "Soup"


def test_what_a_killed_run_left_is_cleared_away_and_what_is_being_written_is_not(
    drafted: DraftFiles, new_tab: NewTab
) -> None:
    old, young = (drafted.folder / f".{STEM}.draft.json.{mark}.part" for mark in ("a1b2c3d4", "e5f6g7h8"))
    other = drafted.folder / ".stew.draft.json.a1b2c3d4.part"
    for file in (old, young, other):
        file.touch()
    for file in (old, other):
        os.utime(file, (1, 1))
    new_tab()
    assert not old.exists() and young.exists() and other.exists()


def test_an_answer_whose_target_is_gone_is_kept_and_shown(drafted: DraftFiles, new_tab: NewTab) -> None:
    drafted.answers.write_text(
        'format = "stovescript/answers"\nversion = 1\n[[entry]]\ndo = "rename"\n'
        'of = {ingredient = "i99", about = "saffron", at = "9:00", heard = "a pinch of saffron"}\nto = "turmeric"\n',
        encoding="utf-8",
    )
    page = unescape(new_tab().html)
    assert "Kept, but not used" in page and "saffron" in page


def test_what_an_editor_shows_is_understood_when_it_is_kept(drafted: DraftFiles) -> None:
    """Every field of every part of the demo, kept as it stands."""
    sitting = Sitting(drafted)
    now = sitting.now()
    draft = now.draft
    parts = [*draft.ingredients, *draft.steps, *draft.tips, *draft.variations, *draft.promises, *draft.equipment]
    form = re.compile(r'<form class="field[^"]*" data-do="([^"]+)" data-of="([^"]*)" data-kept>(.*?)</form>', re.S)
    value = re.compile(r'<input id="[^"]+" name="to" value="([^"]*)"|<textarea[^>]*>\n?(.*?)</textarea>', re.S)
    kept = 0
    for id_ in ["dish", *(part.id for part in parts)]:
        for do, of, inside in form.findall(editor(now, id_) or ""):
            found = value.search(inside)
            text = unescape(found[1] or found[2] or "") if found else ""
            if not text:
                continue
            entry = Change(edition="", do=do, of=of, to=text).entry(draft)
            put(now.answers, entry, now.heard.draft)  # raises NotUnderstood
            kept += 1
    assert kept > 80


def test_a_folder_lists_its_drafts_with_what_is_open(drafted: DraftFiles) -> None:
    (drafted.folder / "winter").mkdir()
    for file in (drafted.draft, drafted.heard):
        (drafted.folder / "winter" / file.name.replace(STEM, "soup & <b>")).write_bytes(file.read_bytes())
    (drafted.folder / "old.draft.json").write_bytes(drafted.draft.read_bytes())
    client = client_of(Site(shelf_of(drafted.folder), Door(TOKEN, PORT)))
    page = unescape(re.sub(r"<[^>]+>", " ", client.get(f"/{TOKEN}/").text))
    assert "no .heard.json" in page
    links = re.findall(r'href="([^"]+/drafts/[^"]+)"', client.get(f"/{TOKEN}/").text)
    assert len(links) == 2
    for link in links:
        assert client.get(unescape(link)).status_code == 200
    Tab(client, "winter/soup & <b>").ask("change", do="title", to="Winter soup")
    assert read_draft(drafted.folder / "winter" / "soup & <b>.draft.json").title == "Winter soup"
    assert "Winter soup" in client.get(f"/{TOKEN}/").text


def test_one_draft_opens_at_once(client: object, site: Site) -> None:
    answer = client_of(site).get(f"/{TOKEN}/")
    assert answer.status_code == 307 and answer.headers["location"] == site.start


@pytest.mark.parametrize("name", ["nothing.draft.json", "notes.txt", "empty"])
def test_where_there_is_nothing_to_open_one_sentence_says_so(drafted: DraftFiles, name: str) -> None:
    (drafted.folder / "empty").mkdir()
    with pytest.raises(StovescriptError, match="draft"):
        shelf_of(drafted.folder / name)
