"""Answers on every run of `stovescript draft` and `stovescript check`."""

import json
from pathlib import Path

from stovescript.answers import read_heard
from stovescript.draft_file import read_draft
from tests.cli.running import DIP, PROMISE, Stovescript, one_line

KEPT = (
    '[[entry]]\ndo = "servings"\nto = "24 toasts"\n\n[[entry]]\ndo = "fulfil"\nof = { promise = "p1" }\nto = "Cold."\n'
)


def a_talk(folder: Path) -> Path:
    talk = folder / "dip.vtt"
    talk.write_text(DIP + PROMISE, encoding="utf-8")
    return talk


def test_draft_applies_the_answers_in_its_folder(stove: Stovescript, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "dip.answers.toml").write_text(KEPT)
    ran = stove("draft", a_talk(tmp_path), "--out", out)
    assert (ran.code, ran.err) == (0, "")
    draft = read_draft(out / "dip.draft.json")
    assert draft.servings and (draft.servings.low, draft.servings.unit) == (24, "toast")
    assert draft.gaps == [] and [one.do for one in draft.answered] == ["fulfil", "servings"]
    assert (out / "dip.answers.toml").read_text() == KEPT


def test_the_draft_as_heard_is_kept_beside_it(stove: Stovescript, tmp_path: Path) -> None:
    (tmp_path / "dip.answers.toml").write_text(KEPT)
    stove("draft", a_talk(tmp_path), "--out", tmp_path)
    heard = read_heard(tmp_path / "dip.heard.json")
    assert heard.draft.servings and heard.draft.servings.unit == "serving" and heard.draft.answered == []
    assert [gap.kind for gap in heard.draft.gaps] == ["promise"]
    words = json.loads((tmp_path / "dip.heard.json").read_text())["clauses"]
    assert set(words[0]) == {"start", "end", "intent", "text"}
    assert " ".join(clause["text"] for clause in words).startswith("hi everybody today we're making white bean dip")


def test_another_run_gives_the_same_files(stove: Stovescript, tmp_path: Path) -> None:
    (tmp_path / "dip.answers.toml").write_text(KEPT)
    written = []
    for _ in range(2):
        stove("draft", a_talk(tmp_path), "--out", tmp_path)
        written.append([(tmp_path / f"dip.{end}").read_bytes() for end in ("draft.json", "heard.json", "md")])
    assert written[0] == written[1]


def test_check_applies_the_answers_beside_the_talk(stove: Stovescript, tmp_path: Path) -> None:
    talk = a_talk(tmp_path)
    assert "promise" in stove("check", talk).out
    (tmp_path / "dip.answers.toml").write_text(KEPT)
    assert stove("check", talk).out == ""


def test_check_applies_the_answers_given(stove: Stovescript, tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(KEPT)
    assert stove("check", a_talk(tmp_path), "--answers", tmp_path / "mine.toml").out == ""
    assert "no such file" in one_line(stove("check", tmp_path / "dip.vtt", "--answers", tmp_path / "none.toml"))


def test_a_wrong_answers_file_writes_nothing(stove: Stovescript, tmp_path: Path) -> None:
    (tmp_path / "dip.answers.toml").write_text('[[entry]]\ndo = "servings"\nto = "some"\n')
    ran = stove("draft", a_talk(tmp_path), "--out", tmp_path)
    assert ran.code == 2 and "dip.answers.toml, line 3:" in one_line(ran)
    assert not (tmp_path / "dip.draft.json").exists()


def test_an_answer_that_found_no_place_is_told(stove: Stovescript, tmp_path: Path) -> None:
    (tmp_path / "dip.answers.toml").write_text('[[entry]]\ndo = "drop"\nof = { tip = "t9" }\n')
    assert (
        "Kept in the answers file, but not used: drop of t9" in stove("draft", a_talk(tmp_path), "--out", tmp_path).out
    )
