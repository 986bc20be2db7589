"""`stovescript draft`: two files in a folder, and a short word about them."""

import json
import re
from pathlib import Path

import pytest

from stovescript.pages.markdown import draft_page
from tests.cli.conftest import Drafted
from tests.cli.running import DIP, Stovescript, contents
from tests.pages.demo import demo_draft


def test_the_demo_is_drafted_into_a_new_nested_folder(drafted: Drafted) -> None:
    assert (drafted.ran.code, drafted.ran.err) == (0, "")
    heard = drafted.data.name.replace(".draft.", ".heard.")
    assert sorted(path.name for path in drafted.out.iterdir()) == [drafted.data.name, heard, drafted.page.name]


def test_the_summary_tells_what_was_found_and_written(drafted: Drafted) -> None:
    first, counts, *rest = drafted.ran.out.splitlines()
    draft = demo_draft()
    assert first == draft.title
    numbers = [len(draft.ingredients), len(draft.steps), len(draft.promises)]
    numbers += [sum(gap.severity == severity for gap in draft.gaps) for severity in ("must", "should", "could")]
    assert list(map(int, re.findall(r"\d+", counts))) == numbers
    assert rest[-1] == f"Wrote new/nested/{drafted.data.name} and new/nested/{drafted.page.name}"
    assert any(draft.gaps[0].question in line for line in rest), "the most serious question is shown"


def test_the_summary_is_plain_where_there_is_no_terminal(drafted: Drafted) -> None:
    """Escape sequences begin with ESC: ECMA-48."""
    assert "\x1b" not in drafted.ran.out
    assert "[bold]" not in drafted.ran.out


def test_another_run_gives_the_same_bytes(drafted: Drafted) -> None:
    """Drafted by two processes, with two hash seeds."""
    assert drafted.data.read_bytes() == (demo_draft().model_dump_json(indent=2) + "\n").encode()
    assert drafted.page.read_bytes() == draft_page(demo_draft()).encode()


def test_a_second_run_writes_the_same_bytes(stove: Stovescript, dip: Path, tmp_path: Path) -> None:
    for out in ("first", "second"):
        assert stove("draft", dip, "--out", tmp_path / out).code == 0
    assert contents(tmp_path / "first") == contents(tmp_path / "second")


def test_the_files_are_utf_8_with_unix_line_ends(drafted: Drafted) -> None:
    for file in (drafted.data, drafted.page):
        data = file.read_bytes()
        assert data.decode("utf-8").endswith("\n")
        assert b"\r" not in data and not data.startswith(b"\xef\xbb\xbf")


def test_without_out_the_files_go_into_the_working_folder(
    stove: Stovescript, dip: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = tmp_path / "desk"
    desk.mkdir()
    monkeypatch.chdir(desk)
    assert stove("draft", dip).code == 0
    assert list(contents(desk)) == ["dip.draft.json", "dip.heard.json", "dip.md"]


def test_standard_input_is_drafted_as_talk(stove: Stovescript, tmp_path: Path) -> None:
    ran = stove("draft", "-", "--out", tmp_path, stdin=DIP.encode())
    assert (ran.code, ran.err) == (0, "")
    assert list(contents(tmp_path)) == ["talk.draft.json", "talk.heard.json", "talk.md"]
    assert json.loads((tmp_path / "talk.draft.json").read_text())["source"]["file"] == "-"


def test_standard_input_gives_the_same_draft_as_the_file(stove: Stovescript, dip: Path, tmp_path: Path) -> None:
    assert stove("draft", "-", "--out", tmp_path, stdin=dip.read_bytes()).code == 0
    assert stove("draft", dip, "--out", tmp_path).code == 0
    piped, filed = (json.loads((tmp_path / f"{stem}.draft.json").read_text()) for stem in ("talk", "dip"))
    assert piped["source"].pop("file") == "-"
    assert filed["source"].pop("file") == "dip.vtt"
    assert piped == filed


def test_a_title_given_is_the_dishs_name(stove: Stovescript, dip: Path, tmp_path: Path) -> None:
    ran = stove("draft", dip, "--out", tmp_path, "--title", "Garlicky Bean Dip [No. 2]")
    assert ran.out.startswith("Garlicky Bean Dip [No. 2]\n")
    draft = json.loads((tmp_path / "dip.draft.json").read_text())
    assert draft["title"] == "Garlicky Bean Dip [No. 2]"
    assert "title" not in {gap["kind"] for gap in draft["gaps"]}
    assert (tmp_path / "dip.md").read_text().startswith("# Garlicky Bean Dip \\[No. 2\\]\n")


def test_a_blank_title_is_no_title(stove: Stovescript, dip: Path, tmp_path: Path) -> None:
    stove("draft", dip, "--out", tmp_path, "--title", "  ")
    assert (json.loads((tmp_path / "dip.draft.json").read_text())["title"] or "").strip()


def test_a_file_name_with_dots_and_spaces_keeps_them(stove: Stovescript, tmp_path: Path) -> None:
    talk = tmp_path / "bean dip.take 2.vtt"
    talk.write_text(DIP)
    assert stove("draft", talk, "--out", tmp_path / "out").code == 0
    assert list(contents(tmp_path / "out")) == [
        f"bean dip.take 2.{ending}" for ending in ("draft.json", "heard.json", "md")
    ]


def test_an_older_draft_is_replaced(stove: Stovescript, dip: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert stove("draft", dip, "--out", out).code == 0
    fresh = contents(out)
    for file in out.iterdir():
        file.write_text("an older and much longer draft\n" * 1000)
    assert stove("draft", dip, "--out", out).code == 0
    assert contents(out) == fresh


def test_a_talk_in_markdown_is_never_overwritten(
    stove: Stovescript, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A text with time marks may be .md, and the page is .md too: her transcript must survive its own draft."""
    monkeypatch.chdir(tmp_path)
    talk = tmp_path / "dip.md"
    talk.write_text("[0:01] hi everybody so add two cups of white beans to the bowl and stir")
    before = talk.read_bytes()
    stove("draft", "dip.md")
    assert talk.read_bytes() == before


def test_a_talk_without_a_dish_is_not_told_to_be_complete(stove: Stovescript, tmp_path: Path) -> None:
    talk = tmp_path / "car.txt"
    talk.write_text("[0:01] hi everybody so i finally bought a car and it is blue [0:09] it serves four people")
    stove("draft", talk, "--title", "Blue Car", "--out", tmp_path)
    draft = json.loads((tmp_path / "car.draft.json").read_text())
    assert draft["ingredients"] or draft["gaps"], "no ingredient was heard, so there is something to ask"
