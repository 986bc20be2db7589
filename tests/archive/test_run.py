"""A run drafts what is new or changed, tells what it could not draft, and keeps what it does not find any more."""

import json
import os
import sqlite3
import sys
from pathlib import Path

import pytest

from stovescript.archive import run as running
from stovescript.archive.run import archive
from stovescript.draft_file import read_draft
from stovescript.drafting import draft_file
from stovescript.errors import StovescriptError
from stovescript.pages.markdown import draft_page
from tests.archive.talks import COCOA, SOUP, TALKS, here, laid_out
from tests.cli.running import DIP, Stovescript, contents, one_line, untouched


@pytest.fixture(autouse=True)
def in_this_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(running, "local", here)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return laid_out(tmp_path / "talks")


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "out"


@pytest.fixture
def drafted(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The talks that are drafted from now on."""
    talks: list[str] = []
    each_done = running.each_done

    def noted(*arguments: object) -> object:
        for job, outcome in each_done(*arguments):  # type: ignore[arg-type]
            talks.append(job.path)
            yield job, outcome

    monkeypatch.setattr(running, "each_done", noted)
    return talks


def states(out: Path) -> dict[str, str]:
    with sqlite3.connect(out / "archive.sqlite") as manifest:
        found = dict(manifest.execute("SELECT talk, state FROM talks"))
    manifest.close()
    return found


def test_each_talk_is_drafted_as_draft_does_it(folder: Path, out: Path) -> None:
    archive(folder, out)
    for name in TALKS:
        draft = draft_file(folder / name)
        path = out / "drafts" / name.removesuffix(".vtt")
        written = json.loads(path.with_suffix(".draft.json").read_text())
        assert written == json.loads(draft.model_dump_json())
        assert path.with_suffix(".md").read_text() == draft_page(draft)


def test_the_manifest_knows_what_each_draft_depends_on(folder: Path, out: Path) -> None:
    archive(folder, out)
    manifest = sqlite3.connect(out / "archive.sqlite")
    rows = manifest.execute("SELECT captions_sha256, model, program, fingerprint FROM talks").fetchall()
    manifest.close()
    assert len({row[0] for row in rows}) == len({row[3] for row in rows}) == len(TALKS)
    assert len({row[1:3] for row in rows}) == 1 and all(all(row) for row in rows)


def test_a_second_run_drafts_nothing(folder: Path, out: Path, drafted: list[str]) -> None:
    archive(folder, out)
    assert sorted(drafted) == sorted(TALKS)
    drafted.clear()
    done = archive(folder, out)
    assert drafted == []
    assert (done.drafted, done.unchanged, done.failed) == (3, 3, 0)


def test_a_second_run_drafts_only_what_changed(folder: Path, out: Path, drafted: list[str]) -> None:
    archive(folder, out)
    drafted.clear()
    (folder / "dip.vtt").write_text(DIP + "\n00:00:20.000 --> 00:00:22.000\nand a pinch of cumin\n")
    (folder / "2021").mkdir()
    (folder / "2021" / "new.vtt").write_text(COCOA)
    os.utime(folder / "2019" / "soup.vtt")  # another time, the same words
    archive(folder, out)
    assert sorted(drafted) == ["2021/new.vtt", "dip.vtt"]


def test_a_draft_that_was_taken_away_is_made_again(folder: Path, out: Path, drafted: list[str]) -> None:
    archive(folder, out)
    drafted.clear()
    (out / "drafts" / "dip.md").unlink()
    archive(folder, out)
    assert drafted == ["dip.vtt"] and (out / "drafts" / "dip.md").exists()


@pytest.mark.parametrize("what", ["program", "model"])
def test_another_program_or_model_drafts_all_again(
    folder: Path, out: Path, drafted: list[str], monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    archive(folder, out)
    drafted.clear()
    monkeypatch.setattr(f"stovescript.archive.fingerprint.{what}", lambda: "another")
    archive(folder, out)
    assert sorted(drafted) == sorted(TALKS)


SERVES = """
[[entry]]
do = "servings"
to = "6 servings"
"""
NOT_THERE = """
[[entry]]
do = "drop"
of = { ingredient = "i99", about = "saffron", at = "15:00", heard = "a pinch of saffron" }
"""


def test_answers_are_applied_and_drafted_again_when_they_change(folder: Path, out: Path, drafted: list[str]) -> None:
    archive(folder, out)
    path = out / "drafts" / "2019" / "soup.draft.json"
    assert "no_servings" in {gap.kind for gap in read_draft(path).gaps}
    drafted.clear()
    (out / "drafts" / "2019" / "soup.answers.toml").write_text(SERVES)
    archive(folder, out)
    assert drafted == ["2019/soup.vtt"]
    draft = read_draft(path)
    assert draft.servings and draft.servings.high == 6
    assert "no_servings" not in {gap.kind for gap in draft.gaps}
    manifest = sqlite3.connect(out / "archive.sqlite")
    kept = manifest.execute("SELECT kind FROM gaps WHERE talk = '2019/soup.vtt'").fetchall()
    manifest.close()
    assert sorted(kind for (kind,) in kept) == sorted(gap.kind for gap in draft.gaps)


def test_an_answer_that_found_no_place_is_told(folder: Path, out: Path) -> None:
    answers = out / "drafts" / "dip.answers.toml"
    answers.parent.mkdir(parents=True)
    answers.write_text(NOT_THERE)
    assert archive(folder, out).failed == 0
    assert "Kept in the answers file, but not used: drop of saffron" in (out / "index.html").read_text()
    assert answers.read_text() == NOT_THERE


def test_answers_that_cannot_be_read_cost_one_talk(folder: Path, out: Path) -> None:
    answers = out / "drafts" / "dip.answers.toml"
    answers.parent.mkdir(parents=True)
    answers.write_text("[[entry]\n")
    done = archive(folder, out)
    assert (done.drafted, done.failed) == (2, 1)
    page = (out / "index.html").read_text()
    assert f"{answers}: " in page and "line 1" in page
    answers.write_text(SERVES)
    assert archive(folder, out).failed == 0


def test_talks_of_one_name_in_two_folders_stay_apart(tmp_path: Path, out: Path) -> None:
    archive(laid_out(tmp_path / "talks", {"2019/talk.vtt": SOUP, "2020/talk.vtt": COCOA}), out)
    pages = [(out / "drafts" / year / "talk.md").read_text() for year in ("2019", "2020")]
    assert "soup" in pages[0] and "cocoa" in pages[1]


BAD = {
    "empty.vtt": (b"", "empty.vtt: the file is empty; export the captions again."),
    "film.vtt": (b"\x00\x00\x00\x18ftypmp42" + bytes(64), "film.vtt: this is a video file"),
    "swapped.srt": (b"1\n00:00:08,000 --> 00:00:07,000\nstir\n", "swapped.srt, line 2: the block ends"),
}


def test_a_bad_talk_never_stops_the_rest(
    folder: Path, out: Path, stove: Stovescript, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, (data, _) in BAD.items():
        (folder / name).write_bytes(data)
    with (folder / "huge.vtt").open("wb") as huge:
        huge.truncate(50_000_001)  # more than any caption file: it is not even read
    ran = stove("archive", folder, "--out", out)
    assert ran.code == 1
    assert "3 of 7 talks are drafted" in ran.out and "Could not be drafted: 4" in ran.out
    page = (out / "index.html").read_text()
    for _, told in BAD.values():
        assert told in page and told in ran.err
    assert "huge.vtt: the file is larger than 50 MB" in page
    assert set(states(out).values()) == {"drafted", "failed"}


def test_a_file_that_may_not_be_read_is_told_and_tried_again(
    folder: Path, out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opens = Path.open

    def refuses(path: Path, *arguments: str, **named: str) -> object:
        if path.name == "soup.vtt":
            raise PermissionError(13, "Permission denied")
        return opens(path, *arguments, **named)  # type: ignore[call-overload]

    with monkeypatch.context() as patched:
        patched.setattr(Path, "open", refuses)
        assert archive(folder, out).failed == 1
    assert "2019/soup.vtt: you may not read this file" in (out / "index.html").read_text()
    assert archive(folder, out).failed == 0


def test_a_fault_of_the_program_costs_one_talk(folder: Path, out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from stovescript import drafting

    drafts = drafting.written_draft

    def faulty(talk: object, *more: object) -> object:
        if "soup" in talk.file:  # type: ignore[attr-defined]
            raise ZeroDivisionError("division by zero")
        return drafts(talk, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(drafting, "written_draft", faulty)
    assert archive(folder, out).failed == 1
    assert "fault of the program (ZeroDivisionError" in (out / "index.html").read_text()


def test_text_without_a_talk_is_passed_over_and_no_failure(folder: Path, out: Path) -> None:
    (folder / "shopping.txt").write_text("batteries\nlight bulbs\n")
    (folder / "meeting.md").write_text("[0:10] call the bank\n[0:20] then the garage\n")
    (folder / "cocoa.txt").write_text("[0:01] today we're making cocoa\n[0:05] add two cups of milk to the pan\n")
    done = archive(folder, out)
    assert (done.drafted, done.failed, done.passed_over) == (4, 0, 2)
    page = (out / "index.html").read_text()
    assert "shopping.txt: there are no time marks in it" in page
    assert "meeting.md: it holds no ingredient and no step" in page


def test_what_is_no_longer_found_is_told_and_kept(folder: Path, out: Path) -> None:
    archive(folder, out)
    (folder / "2019" / "soup.vtt").unlink()
    before = contents(out / "drafts")
    done = archive(folder, out)
    assert (done.talks, done.gone) == (2, 1)
    assert contents(out / "drafts") == before
    assert "2019/soup.vtt" in (out / "index.html").read_text().split("No longer found")[2]
    (folder / "2019" / "soup.vtt").write_text(SOUP)
    assert archive(folder, out).gone == 0


def test_a_talk_that_is_gone_is_forgotten_with_its_draft(folder: Path, out: Path) -> None:
    (folder / "empty.vtt").write_text("")
    archive(folder, out)
    for name in ("empty.vtt", "2019/soup.vtt"):
        (folder / name).unlink()
    assert archive(folder, out).gone == 1
    (out / "drafts" / "2019" / "soup.md").unlink()
    assert archive(folder, out).gone == 0
    assert set(states(out)) == {"dip.vtt", "2020/winter/cocoa.vtt"}


def test_an_out_folder_among_the_talks_is_not_read(folder: Path) -> None:
    for _ in range(2):
        assert archive(folder, folder / "out").talks == 3
    with pytest.raises(StovescriptError, match="among the talks"):
        archive(folder, folder)
    with pytest.raises(StovescriptError, match="among the talks"):
        archive(folder / "out" / "drafts" / "2019", folder / "out")


def test_an_out_folder_belongs_to_one_archive(folder: Path, out: Path, tmp_path: Path) -> None:
    archive(folder, out)
    other = laid_out(tmp_path / "other", {"dip.vtt": COCOA})
    with untouched(out / "drafts"), pytest.raises(StovescriptError, match="this is the archive of"):
        archive(other, out)
    assert archive(folder.rename(tmp_path / "moved"), out).unchanged == 3


def test_a_draft_that_cannot_be_written_costs_one_talk(folder: Path, out: Path) -> None:
    """A name of 250 letters is allowed, but not with ".draft.json" at its end (255 bytes: POSIX NAME_MAX, common)."""
    (folder / ("a" * 250 + ".vtt")).write_text(DIP)
    done = archive(folder, out)
    assert (done.drafted, done.failed) == (3, 1)


@pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="such names exist on Linux only")
def test_a_name_that_is_no_unicode_is_drafted(folder: Path, out: Path) -> None:
    (folder / os.fsdecode(b"pur\xe9e \xff.vtt")).write_text(DIP)
    assert archive(folder, out).drafted == 4
    assert archive(folder, out).unchanged == 4


def test_an_empty_folder_is_an_empty_archive(tmp_path: Path, out: Path) -> None:
    (tmp_path / "talks").mkdir()
    assert archive(tmp_path / "talks", out).talks == 0
    assert "No talk is drafted yet" in (out / "index.html").read_text()


@pytest.mark.parametrize(
    ("name", "told"), [("missing", "there is no such folder"), ("talks/dip.vtt", "use stovescript draft")]
)
def test_what_is_no_folder_is_refused(folder: Path, out: Path, stove: Stovescript, name: str, told: str) -> None:
    ran = stove("archive", folder.parent / name, "--out", out)
    assert ran.code == 2 and told in one_line(ran)
    assert not out.exists()


def test_an_out_folder_that_cannot_be_made_is_refused(folder: Path, stove: Stovescript) -> None:
    ran = stove("archive", folder, "--out", folder / "dip.vtt" / "out")
    assert ran.code == 2 and "choose another folder" in one_line(ran)


@pytest.mark.parametrize(
    ("made", "told"),
    [
        (b"SQLite format 3\x00" + bytes(range(256)) * 8, "damaged"),
        (b"a shopping list, and no database at all\n" * 30, "damaged"),
    ],
)
def test_a_damaged_manifest_is_told(folder: Path, out: Path, stove: Stovescript, made: bytes, told: str) -> None:
    out.mkdir()
    (out / "archive.sqlite").write_bytes(made)
    with untouched(out):
        ran = stove("archive", folder, "--out", out)
    assert ran.code == 2 and told in one_line(ran)


def test_another_programs_database_is_left_alone(folder: Path, out: Path, stove: Stovescript) -> None:
    out.mkdir()
    other = sqlite3.connect(out / "archive.sqlite")
    with other:
        other.execute("CREATE TABLE photos (name)")
    other.close()
    with untouched(out):
        ran = stove("archive", folder, "--out", out)
    assert ran.code == 2 and "not an archive's" in one_line(ran)


def test_a_second_run_at_once_is_refused(folder: Path, out: Path, stove: Stovescript) -> None:
    from stovescript.archive.manifest import opened

    with opened(out), untouched(out):
        ran = stove("archive", folder, "--out", out)
        assert ran.code == 2 and "another run is using this archive" in one_line(ran)
    assert stove("archive", folder, "--out", out).code == 0


def test_a_run_that_is_interrupted_shows_what_it_has(
    folder: Path, out: Path, monkeypatch: pytest.MonkeyPatch, drafted: list[str]
) -> None:
    written = running.write_together

    def interrupted(files: dict[Path, str]) -> None:
        written(files)
        if any("soup" in path.name for path in files):
            raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(running, "write_together", interrupted)
        with pytest.raises(KeyboardInterrupt):
            archive(folder, out)
    assert "All drafts" in (out / "index.html").read_text()
    drafted.clear()
    assert archive(folder, out).drafted == 3
    assert "2019/soup.vtt" in drafted


def test_what_a_killed_run_had_begun_is_taken_away_and_nothing_else(folder: Path, out: Path) -> None:
    archive(folder, out)
    begun = out / "drafts" / "2019" / ".soup.md.a1b2c3_9.part"
    hers = out / "drafts" / "2019" / ".soup.answers.toml.swp"
    for path in (begun, hers, out / ".index.html.abcdefgh.part", out / "tables" / ".gaps.csv.abc_efgh.part"):
        path.write_text("half of it")
    archive(folder, out)
    assert [path.name for path in out.rglob(".*")] == [hers.name]


def test_the_lines_at_the_end_tell_what_was_done(folder: Path, out: Path, stove: Stovescript) -> None:
    ran = stove("archive", folder, "--out", out)
    assert ran.code == 0
    assert ran.out.splitlines() == [
        "3 of 3 talks are drafted; 0 were unchanged",
        "Drafts without a question that must be answered: 1",
        f"Wrote {out / 'index.html'}",
    ]
    assert ran.err.startswith("3 of 3 talks, ")


def test_the_example_of_the_help_works_as_shown(
    folder: Path, tmp_path: Path, stove: Stovescript, monkeypatch: pytest.MonkeyPatch
) -> None:
    example = "stovescript archive talks --out archive"
    assert f"Example: {example}" in stove("archive", "--help").out
    monkeypatch.chdir(tmp_path)
    assert stove(*example.split()[1:]).code == 0
    assert {"index.html", "archive.sqlite", "drafts", "tables"} == {path.name for path in Path("archive").iterdir()}
