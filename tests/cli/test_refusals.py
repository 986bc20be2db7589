"""What can't be read is refused in one sentence with the file and the remedy, exit code 2, and nothing is written."""

import io
import os
import sys
from pathlib import Path

import pytest

from stovescript import cli
from tests.cli.running import DIP, PROMISE, Stovescript, one_line, run, untouched
from tests.talk.reading import vtt

# name, bytes (None: no file is there), what the sentence must tell
BAD = [
    ("missing.vtt", None, "no such file"),
    ("folder/missing.vtt", None, "no such file"),
    ("empty.vtt", b"", "empty"),
    ("blank.srt", b"\n \n", "blank"),
    ("binary.srt", bytes(range(256)) * 8, "binary"),
    # The first bytes of an MP4 film, ISO 14496-12, and of a Matroska one, RFC 8794; from memory.
    ("film.vtt", b"\x00\x00\x00\x18ftypmp42" + bytes(64), "video"),
    ("film.mkv", b"\x1aE\xdf\xa3\x01\x00\x00" + bytes(64), "video"),
    ("no-times.txt", b"add the salt and stir", "time marks"),
    ("backwards.md", b"[0:10] add the salt\n[0:05] stir", "line 2: the time runs backwards"),
    ("swapped.vtt", b"WEBVTT\n\n00:08.000 --> 00:07.000\nstir\n", "line 3: the block ends"),
    ("music.vtt", vtt("[music]").encode(), "no spoken words"),
]


@pytest.mark.parametrize("command", ["draft", "check"])
@pytest.mark.parametrize(("name", "data", "tells"), BAD, ids=[name for name, _, _ in BAD])
def test_a_bad_talk_is_refused(
    stove: Stovescript,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    command: str,
    name: str,
    data: bytes | None,
    tells: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    if data is not None:
        Path(name).write_bytes(data)
    with untouched(tmp_path):
        ran = stove(command, name, *(["--out", "drafts"] if command == "draft" else []))
    assert ran.code == 2
    sentence = one_line(ran)
    assert sentence.startswith(f"stovescript: {name}") and tells in sentence
    assert sentence.endswith(".")


def test_a_bad_talk_is_refused_by_its_own_process(tmp_path: Path) -> None:
    (tmp_path / "film.vtt").write_bytes(b"\x00\x00\x00\x18ftypmp42" + bytes(64))
    with untouched(tmp_path):
        ran = run("draft", "film.vtt", "--out", "drafts", cwd=tmp_path)
    assert ran.code == 2
    assert one_line(ran).startswith("stovescript: film.vtt: this is a video file")


def test_bad_standard_input_is_named(stove: Stovescript, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with untouched(tmp_path):
        ran = stove("draft", "-", stdin=b"")
    assert ran.code == 2
    assert one_line(ran) == "stovescript: standard input: the file is empty; export the captions again."


def test_a_folder_is_no_talk(stove: Stovescript, tmp_path: Path) -> None:
    ran = stove("check", tmp_path)
    assert ran.code == 2
    assert one_line(ran).startswith(f"stovescript: {tmp_path}: this is a folder")


@pytest.mark.parametrize("arguments", [("draft", "dip.vtt", "--out", "drafts"), ("check", "dip.vtt")])
def test_a_closed_standard_input_is_no_matter_for_a_file(
    dip: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...]
) -> None:
    """As a scheduler starts it, or ``stovescript check dip.vtt <&-``: Python's standard input is None then."""
    monkeypatch.chdir(dip.parent)
    monkeypatch.setattr(sys, "argv", ["stovescript", *arguments])
    monkeypatch.setattr(sys, "stdin", None)
    with pytest.raises(SystemExit) as done:
        cli.main()
    assert done.value.code in (0, None)
    assert capsys.readouterr().err == ""


def test_a_closed_standard_input_is_told(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(sys, "argv", ["stovescript", "check", "-"])
    monkeypatch.setattr(sys, "stdin", None)
    with pytest.raises(SystemExit) as done:
        cli.main()
    assert done.value.code == 2
    assert "standard input" in capsys.readouterr().err


@pytest.mark.parametrize(
    "command",
    [
        "check",
        pytest.param(
            "draft",
        ),
    ],
)
def test_a_terminal_without_unicode_gets_its_questions(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    """The questions quote her words in curly marks; an old terminal must get something it can show."""
    talk = tmp_path / "dip.vtt"
    talk.write_text(DIP + PROMISE)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "argv", ["stovescript", command, "dip.vtt"])
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(io.BytesIO(), encoding="ascii"))
    with pytest.raises(SystemExit) as done:
        cli.main()
    assert done.value.code in (0, None)


@pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="such names exist on Linux only")
def test_a_file_name_in_another_encoding_is_no_traceback(tmp_path: Path, stove: Stovescript) -> None:
    """A card reader's "purée.vtt" in Latin-1: a byte that is no UTF-8."""
    talk = os.fsencode(tmp_path) + b"/pur\xe9e.vtt"
    with open(talk, "w") as file:
        file.write(DIP)
    assert stove("draft", os.fsdecode(talk), "--out", tmp_path / "out").code in (0, 2)
