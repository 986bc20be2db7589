"""Every refusal is one sentence with the file, the place where there is one, and what to do."""

import errno
import hashlib
import io
import os
from pathlib import Path

import pytest

from stovescript.errors import TalkError
from stovescript.talk import read_bytes, read_talk
from stovescript.talk.read import MOST_BYTES

GOOD = b"WEBVTT\n\n00:01.000 --> 00:03.000\nstir\n"
SRT = "1\n00:00:05,000 --> 00:00:06,000\nstir\n\n2\n{}\nit\n"

# name, bytes, what the sentence must tell
REFUSED = [
    ("empty.vtt", b"", "empty"),
    ("blank.txt", b" \n\t\r\n\xc2\xa0", "blank space"),
    ("marks.txt", b"\xef\xbb\xbf", "blank space"),
    ("plain.txt", b"add the salt and stir", "[1:30]"),
    ("none.vtt", b"WEBVTT\n\nNOTE nothing yet\n", "no captions"),
    (
        "music.vtt",
        b"WEBVTT\n\n00:01.000 --> 00:03.000\n[music]\n",
        "line 3: the captions hold no spoken words",
    ),
    ("marks.md", b"[0:10]\n\n[0:20]\n", "no spoken words"),
    ("junk.srt", bytes(range(256)) * 8, "binary"),
    ("odd.srt", b"1\n00:00:01,000 --> 00:00:02,000\ncr\x81me\n", "line 3: the text is in no encoding known"),
    (
        "half.srt",
        b"\xff\xfe" + "1\n00:00:01,000 --> 00:00:02,000\nstir".encode("utf-16-le") + b"x",
        "damaged",
    ),
    (
        "back.srt",
        SRT.format("00:00:02,000 --> 00:00:03,000").encode(),
        "line 6: the time runs backwards, from 0:05 to 0:02",
    ),
    ("back.md", b"[0:10] stir\n\n[0:05] it\n", "line 3: the time runs backwards, from 0:10 to 0:05"),
    (
        "ends.srt",
        SRT.format("00:00:08,000 --> 00:00:07,000").encode(),
        "line 6: the block ends at 00:00:07,000, before",
    ),
    ("ends.sbv", b"0:00:08.000,0:00:07.000\nstir\n", "line 1: the block ends at"),
    ("ends.txt", b"[0:08 - 0:07] stir\n", "line 1: the mark ends before"),
    ("bad.srt", SRT.format("00:00:61,000 --> 00:01:03,000").encode(), "line 6: “00:00:61,000” is not a time"),
    ("bad.vtt", b"WEBVTT\n\n00:61:00.000 --> 01:02:00.000\nstir\n", "bad.vtt"),
    (
        "bad2.vtt",
        b"WEBVTT\n\n00:00:0x.000 --> 00:00:02.000\nstir\n",
        "line 3: “00:00:0x.000 --> 00:00:02.000” is not",
    ),
    ("bad3.vtt", b"WEBVTT\n\n-00:00:01.000 --> 00:00:02.000\nstir\n", "line 3"),
    ("bad4.vtt", b"WEBVTT\n\n00:00:01.000 -->\nstir\n", "line 3"),
    ("bad.sbv", b"0:00:61.000,0:01:03.000\nstir\n", "line 1: “0:00:61.000” is not a time"),
    ("bad.txt", b"[0:10] stir\n[0:75] it\n", "line 2: “0:75” is not a time"),
    # Signatures: ISO 14496-12, RFC 8794 (EBML), RFC 3533 (Ogg), ID3v2, RIFF, PDF, ZIP; from memory.
    ("film.vtt", b"\x00\x00\x00\x18ftypmp42\x00\x00\x00\x00", "this is a video file, so export its captions"),
    ("film.mov", b"\x00\x00\x00\x14ftypqt  \x00\x00\x00\x00", "video"),
    ("film.mkv", b"\x1aE\xdf\xa3\x01\x00\x00", "video"),
    ("film.avi", b"RIFF\x10\x00\x00\x00AVI LIST", "video"),
    ("talk.m4a", b"\x00\x00\x00\x18ftypM4A \x00\x00\x00\x00", "audio"),
    ("talk.mp3", b"ID3\x04\x00\x00\x00", "audio"),
    ("talk2.mp3", b"\xff\xfb\x90\x44\x00", "audio"),
    ("talk.wav", b"RIFF\x10\x00\x00\x00WAVEfmt ", "audio"),
    ("talk.ogg", b"OggS\x00\x02", "audio"),
    ("talk.flac", b"fLaC\x00", "audio"),
    ("talk.docx", b"PK\x03\x04\x14\x00", "save its text"),
    ("talk.pdf", b"%PDF-1.7\n", "plain text"),
    ("talk.rtf", b"{\\rtf1\\ansi [0:10] stir}", "plain text"),
    ("shot.png", b"\x89PNG\r\n\x1a\n", "picture"),
]


def complaint(error: pytest.ExceptionInfo[TalkError]) -> str:
    sentence = str(error.value)
    assert "\n" not in sentence
    assert sentence.endswith(".")
    assert sentence.count(". ") == 0, "one sentence"
    return sentence


@pytest.mark.parametrize(("name", "data", "tells"), REFUSED, ids=[row[0] for row in REFUSED])
def test_refused(name: str, data: bytes, tells: str) -> None:
    with pytest.raises(TalkError) as error:
        read_bytes(data, name)
    assert tells in complaint(error)
    assert str(error.value).startswith(name)


def test_a_file_is_read(tmp_path: Path) -> None:
    file = tmp_path / "soup.vtt"
    file.write_bytes(GOOD)
    for path in (file, str(file)):
        talk = read_talk(path)
        assert (talk.file, talk.words[0].text) == ("soup.vtt", "stir")
        assert talk.sha256 == hashlib.sha256(GOOD).hexdigest()


def test_standard_input_is_read() -> None:
    talk = read_talk("-", io.BytesIO(GOOD))
    assert (talk.file, talk.words[0].text, talk.sha256) == ("-", "stir", hashlib.sha256(GOOD).hexdigest())


def test_standard_input_is_named_in_errors() -> None:
    with pytest.raises(TalkError, match="standard input: the file is empty"):
        read_talk("-", io.BytesIO(b""))


@pytest.mark.parametrize(
    ("path", "tells"),
    [
        ("nothing.vtt", "no such file"),
        (".", "this is a folder"),
        ("a\0b", "could not be read"),
        ("x" * 5000, "could not"),
    ],
)
def test_paths_that_are_no_file(tmp_path: Path, path: str, tells: str) -> None:
    with pytest.raises(TalkError) as error:
        read_talk(tmp_path / path)
    assert tells in complaint(error)


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "soup.vtt"
    file.write_bytes(GOOD)

    def refuse(*_: object) -> None:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(TalkError) as error:
        read_talk(file)
    assert "permissions" in complaint(error)


@pytest.mark.parametrize(("head", "tells"), [(GOOD, "larger than 50 MB"), (b"\x1aE\xdf\xa3", "this is a video file")])
def test_a_file_too_large_is_refused_by_its_size(tmp_path: Path, head: bytes, tells: str) -> None:
    file = tmp_path / "long.vtt"
    with file.open("wb") as stream:
        stream.write(head)
        stream.truncate(MOST_BYTES + 1)  # a sparse file: nothing of it is stored or read
    with pytest.raises(TalkError) as error:
        read_talk(file)
    assert tells in complaint(error)


class Endless(io.RawIOBase):
    """A stream that never ends and counts what was taken."""

    taken = 0

    def read(self, size: int = -1) -> bytes:
        assert size > 0
        self.taken += size
        return b"x" * size


def test_endless_standard_input_is_read_to_the_limit_only() -> None:
    endless = Endless()
    with pytest.raises(TalkError, match="larger than 50 MB"):
        read_talk("-", endless)  # type: ignore[arg-type]
    assert endless.taken == MOST_BYTES + 1
