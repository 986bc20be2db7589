"""Files are written whole or not at all."""

import errno
import os
import tempfile
from pathlib import Path

import pytest

from stovescript.errors import StovescriptError
from stovescript.files import write_whole
from tests.cli.running import Stovescript, contents, one_line, untouched


def test_text_is_written_with_its_folder(tmp_path: Path) -> None:
    file = tmp_path / "new" / "nested" / "dip.md"
    write_whole(file, "crème\n½ cup\n")
    assert file.read_bytes() == "crème\n½ cup\n".encode()
    assert list(contents(tmp_path)) == ["new", "new/nested", "new/nested/dip.md"]


def test_an_older_file_is_replaced(tmp_path: Path) -> None:
    file = tmp_path / "dip.md"
    file.write_text("an older and longer page")
    write_whole(file, "new")
    assert contents(tmp_path) == {"dip.md": b"new"}


STOPPED = [
    (KeyboardInterrupt(), KeyboardInterrupt),
    (OSError(errno.ENOSPC, os.strerror(errno.ENOSPC)), StovescriptError),
    (PermissionError(errno.EACCES, os.strerror(errno.EACCES)), StovescriptError),
    (MemoryError(), MemoryError),
]


@pytest.mark.parametrize("where", ["replace", "chmod", "fdopen"])
@pytest.mark.parametrize(("stop", "raised"), STOPPED, ids=[type(stop).__name__ for stop, _ in STOPPED])
def test_stopped_half_way_the_old_file_stays_and_no_other_is_left(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, where: str, stop: BaseException, raised: type[BaseException]
) -> None:
    def stops(*_: object, **__: object) -> None:
        raise stop

    file = tmp_path / "dip.md"
    file.write_text("old")
    with monkeypatch.context() as patched, untouched(tmp_path):
        patched.setattr(os, where, stops)
        with pytest.raises(raised):
            write_whole(file, "new")


def test_a_draft_killed_half_way_leaves_the_old_one(
    stove: Stovescript, dip: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "out"
    assert stove("draft", dip, "--out", out).code == 0

    def killed(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", killed)
    with untouched(tmp_path):
        ran = stove("draft", dip, "--out", out, "--title", "Another Dip")
    assert ran.code == 130, "128 and the number of the signal, SIGINT: POSIX shells"
    assert "Traceback" not in ran.err


def test_a_full_disk_is_told_in_one_line(
    stove: Stovescript, dip: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "replace", full)
    with untouched(tmp_path):
        ran = stove("draft", dip, "--out", tmp_path)
    assert ran.code == 2
    assert one_line(ran).startswith(f"stovescript: {tmp_path}/dip.draft.json: can't be written (no space left")


def test_the_draft_and_its_page_stay_a_pair(
    stove: Stovescript, dip: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "out"
    assert stove("draft", dip, "--out", out).code == 0
    replace = os.replace

    def second_fails(source: str, target: Path) -> None:
        if str(target).endswith(".md"):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        replace(source, target)

    monkeypatch.setattr(os, "replace", second_fails)
    with untouched(out):
        stove("draft", dip, "--out", out, "--title", "Another Dip")


@pytest.mark.parametrize("out", ["shopping.txt", "shopping.txt/drafts"])
def test_a_file_in_place_of_the_folder_is_told(stove: Stovescript, dip: Path, tmp_path: Path, out: str) -> None:
    (tmp_path / "shopping.txt").write_text("beans")
    with untouched(tmp_path):
        ran = stove("draft", dip, "--out", tmp_path / out)
    assert ran.code == 2
    sentence = one_line(ran)
    assert str(tmp_path / out) in sentence and "choose another folder" in sentence


def test_a_folder_in_place_of_the_file_is_told(stove: Stovescript, dip: Path, tmp_path: Path) -> None:
    (tmp_path / "dip.draft.json").mkdir()
    with untouched(tmp_path):
        ran = stove("draft", dip, "--out", tmp_path)
    assert ran.code == 2
    assert "dip.draft.json: can't be written (is a directory)" in one_line(ran)


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="the superuser may write anywhere")
def test_an_unwritable_folder_is_told(stove: Stovescript, dip: Path, tmp_path: Path) -> None:
    locked = tmp_path / "locked"
    locked.mkdir(mode=0o500)
    ran = stove("draft", dip, "--out", locked)
    assert ran.code == 2
    assert "permission denied" in one_line(ran)


@pytest.mark.parametrize("code", [errno.EACCES, errno.EROFS])
def test_a_folder_that_refuses_is_told(
    stove: Stovescript, dip: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int
) -> None:
    """The same, and a read-only disk, as the operating system would say it."""

    def refuses(*_: object, **__: object) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(tempfile, "mkstemp", refuses)
    with untouched(tmp_path):
        ran = stove("draft", dip, "--out", tmp_path)
    assert ran.code == 2
    assert one_line(ran) == (
        f"stovescript: {tmp_path}/dip.draft.json: can't be written ({os.strerror(code).lower()}); "
        "choose another folder."
    )


def test_the_sentence_stays_one_line(stove: Stovescript, dip: Path, tmp_path: Path) -> None:
    (tmp_path / "two\nlines").write_text("no folder")
    one_line(stove("draft", dip, "--out", tmp_path / "two\nlines"))
