"""`stovescript write`, as she runs it."""

from pathlib import Path

import pytest

from stovescript.pages.publish import forms
from tests.cli.running import Stovescript, contents, one_line, untouched
from tests.pages.golden import VIDEO, lentils, unanswered

CAPTIONS = "WEBVTT\n\n00:00:01.000 --> 00:00:05.000\nso today we're making lentils\n"


@pytest.fixture
def stove(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Stovescript:
    return Stovescript(monkeypatch, capsys)


@pytest.fixture
def draft(tmp_path: Path) -> Path:
    file = tmp_path / "lentils.draft.json"
    file.write_text(lentils().model_dump_json(), encoding="utf-8")
    return file


@pytest.fixture
def asking(tmp_path: Path) -> Path:
    """A draft with a question that must be answered."""
    file = tmp_path / "asking.draft.json"
    file.write_text(unanswered().model_dump_json(), encoding="utf-8")
    return file


def test_all_forms_are_written(stove: Stovescript, draft: Path, tmp_path: Path) -> None:
    ran = stove("write", draft, "--to", tmp_path / "out")
    names = {file.name for file in (tmp_path / "out").iterdir()}
    assert ran.code == 0 and {"lentils.post.html", "lentils.post.md"} <= names
    assert all(str(tmp_path / "out" / name) in ran.out for name in names)
    assert ran.out.splitlines()[-1] == "Nothing must be answered; 1 question may still be."


def test_one_form_alone(stove: Stovescript, draft: Path, tmp_path: Path) -> None:
    assert stove("write", draft, "--to", tmp_path / "out", "--only", "post", "--only", "post").code == 0
    assert set(contents(tmp_path / "out")) == {"lentils.post.html", "lentils.post.md"}


def test_a_form_that_there_is_not(stove: Stovescript, draft: Path, tmp_path: Path) -> None:
    with untouched(tmp_path):
        ran = stove("write", draft, "--to", tmp_path / "out", "--only", "poster")
    assert ran.code == 2
    assert all(name in one_line(ran) for name in ("poster", *forms()))


def test_an_unfinished_post_says_so_and_final_refuses(stove: Stovescript, asking: Path, tmp_path: Path) -> None:
    ran = stove("write", asking, "--to", tmp_path / "out", "--only", "post")
    assert ran.code == 0 and "draft mark" in ran.out.splitlines()[-1]
    assert "Draft, not to be published" in (tmp_path / "out" / "asking.post.md").read_text(encoding="utf-8")
    with untouched(tmp_path):
        ran = stove("write", asking, "--to", tmp_path / "final", "--final")
    assert ran.code == 1
    assert "How many does it serve" in ran.out and "no_servings-a1b2c3" in ran.out


def test_final_writes_where_nothing_must_be_answered(stove: Stovescript, draft: Path, tmp_path: Path) -> None:
    assert stove("write", draft, "--to", tmp_path / "out", "--final", "--only", "post").code == 0
    assert "not to be published" not in (tmp_path / "out" / "lentils.post.html").read_text(encoding="utf-8")


def test_links_and_sources_where_they_are_asked_for(stove: Stovescript, draft: Path, tmp_path: Path) -> None:
    page = tmp_path / "lentils.post.md"
    stove("write", draft, "--to", tmp_path, "--only", "post")
    assert "](http" not in page.read_text(encoding="utf-8").split("## Promised")[0]
    stove("write", draft, "--to", tmp_path, "--only", "post", "--video", VIDEO)
    assert "[3:25](https://video.example/watch?v=lentils&list=soups&t=205#top)" in page.read_text(encoding="utf-8")
    stove("write", draft, "--to", tmp_path, "--only", "post", "--with-sources")
    assert "(heard at 3:25)" in page.read_text(encoding="utf-8")


@pytest.mark.parametrize("video", ["javascript:alert(1)", "soup.mp4", "https://"])
def test_an_address_that_is_none(stove: Stovescript, draft: Path, tmp_path: Path, video: str) -> None:
    with untouched(tmp_path):
        ran = stove("write", draft, "--to", tmp_path / "out", "--video", video)
    assert ran.code == 2 and video in one_line(ran)


def test_captions_that_the_draft_was_not_made_from(stove: Stovescript, draft: Path, tmp_path: Path) -> None:
    """Beside the draft they are passed over; given by name they are an error."""
    other = tmp_path / "braised-lentils.vtt"
    other.write_text(CAPTIONS, encoding="utf-8")
    assert stove("write", draft, "--to", tmp_path / "out", "--only", "post").code == 0
    with untouched(tmp_path):
        ran = stove("write", draft, "--to", tmp_path / "other", "--talk", other)
    assert ran.code == 2 and "other captions" in one_line(ran)


def test_what_is_there_is_not_written_over(
    stove: Stovescript, draft: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    link = tmp_path / "out" / "lentils.post.md"
    link.parent.mkdir()
    link.symlink_to(draft)
    with untouched(tmp_path):
        ran = stove("write", draft, "--to", tmp_path / "out", "--only", "post")
    assert ran.code == 2 and "written over" in one_line(ran)


def test_nothing_is_written_where_one_file_cannot_be(stove: Stovescript, draft: Path, tmp_path: Path) -> None:
    (tmp_path / "out" / "lentils.post.md").mkdir(parents=True)
    with untouched(tmp_path):
        ran = stove("write", draft, "--to", tmp_path / "out", "--only", "post")
    assert ran.code == 2 and "lentils.post.md" in one_line(ran)


@pytest.mark.parametrize("content", ["", "{}", "[]", "not json"])
def test_a_file_that_is_no_draft(stove: Stovescript, tmp_path: Path, content: str) -> None:
    file = tmp_path / "soup.draft.json"
    file.write_text(content, encoding="utf-8")
    with untouched(tmp_path):
        assert stove("write", file, "--to", tmp_path / "out").code == 2
