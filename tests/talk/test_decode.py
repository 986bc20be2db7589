"""Encodings. Byte order marks: The Unicode Standard, section 23.8 (from memory)."""

import codecs

import pytest

from stovescript.talk import read_bytes

TEXT = "WEBVTT\n\n00:01.000 --> 00:03.000\n½ cup crème fraîche at 180°\n"

ENCODINGS = [
    ("UTF-8", TEXT.encode()),
    ("UTF-8 with a mark", codecs.BOM_UTF8 + TEXT.encode()),
    ("UTF-16 with a mark", TEXT.encode("utf-16")),
    ("UTF-16 little-endian with a mark", codecs.BOM_UTF16_LE + TEXT.encode("utf-16-le")),
    ("UTF-16 big-endian with a mark", codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be")),
    ("UTF-16 little-endian", TEXT.encode("utf-16-le")),
    ("UTF-16 big-endian", TEXT.encode("utf-16-be")),
    ("UTF-32 with a mark", TEXT.encode("utf-32")),
    ("Windows-1252", TEXT.encode("cp1252")),
    ("an end-of-file sign", TEXT.encode() + b"\x1a"),
]


@pytest.mark.parametrize(("case", "data"), ENCODINGS, ids=[row[0] for row in ENCODINGS])
def test_encodings(case: str, data: bytes) -> None:
    words = [word.text for word in read_bytes(data, "talk.vtt").words]
    assert words == ["½", "cup", "crème", "fraîche", "at", "180°"]


def test_windows_quotes() -> None:
    data = "WEBVTT\n\n00:01.000 --> 00:03.000\nlet\N{RIGHT SINGLE QUOTATION MARK}s stir\n".encode("cp1252")
    assert read_bytes(data, "a.vtt").words[0].text == "let\N{RIGHT SINGLE QUOTATION MARK}s"


def test_one_bad_byte_leaves_the_rest_of_utf_8_whole() -> None:
    data = TEXT.encode().replace(b" at", b" \xffat")
    words = [word.text for word in read_bytes(data, "a.vtt").words]
    assert words == ["½", "cup", "crème", "fraîche", "\ufffdat", "180°"]
