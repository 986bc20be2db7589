"""Bytes to text: UTF-8, UTF-16 with or without a byte order mark, UTF-32, or Windows-1252."""

import codecs
import re

from stovescript.talk.signatures import HEAD_BYTES, what_it_is
from stovescript.talk.unreadable import unreadable

_MARKS = (  # the UTF-32 mark starts with the UTF-16 one, so it is tried first
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_CONTROLS = re.compile("[\x00-\x08\x0e-\x1f\x7f]")
_CONTROLS_PER_TEXT = 0.01  # more than this share of control characters is no text
_SAMPLE_BYTES = 4000
_SAVE_AS = "save the file again as UTF-8 text"


def decode(data: bytes, name: str) -> str:
    """The text of the file with plain ``\\n`` line ends and no control characters.

    Raises TalkError for an empty file, media, other binary data and an unknown encoding.
    """
    if not data:
        raise unreadable(name, "the file is empty; export the captions again")
    if what := what_it_is(data[:HEAD_BYTES]):
        raise unreadable(name, what)
    text = _text(data, name)
    text = (
        _printable(text, name).replace("\ufeff", "").replace("\r\r\n", "\n").replace("\r\n", "\n").replace("\r", "\n")
    )
    if not text.strip():
        raise unreadable(name, "the file holds only blank space; export the captions again")
    return text


def _text(data: bytes, name: str) -> str:
    for mark, marked in _MARKS:
        if data.startswith(mark):
            return _strictly(data, marked, name)
    if encoding := _unmarked_utf16(data):
        return _strictly(data, encoding, name)
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        _printable(data.decode("latin-1"), name)  # binary data is told from text with a wrong byte
        return _damaged_utf8(data) or _strictly(data, "cp1252", name)


def _printable(text: str, name: str) -> str:
    printable = _CONTROLS.sub("", text)
    controls = len(text) - len(printable)
    if controls > 2 and controls > len(text) * _CONTROLS_PER_TEXT:
        raise unreadable(name, "this is binary data, not text; give a caption file (.vtt, .srt, .sbv, .txt)")
    return printable


def _strictly(data: bytes, encoding: str, name: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        what = (
            "the text is in no encoding known here (UTF-8, UTF-16, Windows-1252)"
            if encoding == "cp1252"
            else f"the file says it is {encoding.removesuffix('-sig').upper()} but its text is damaged"
        )
        raise unreadable(name, f"{what}; {_SAVE_AS}", line) from None


def _unmarked_utf16(data: bytes) -> str | None:
    """Times are ASCII, so every second byte of UTF-16 captions is mostly zero: which one tells the order."""
    sample = data[:_SAMPLE_BYTES]
    pairs = len(sample) // 2
    even, odd = sample[0::2].count(0), sample[1::2].count(0)
    if odd > 0.3 * pairs and even < 0.05 * pairs:
        return "utf-16-le"
    if even > 0.3 * pairs and odd < 0.05 * pairs:
        return "utf-16-be"
    return None


def _damaged_utf8(data: bytes) -> str | None:
    """UTF-8 with a few bad bytes is still UTF-8: its good letters beyond ASCII outnumber the bad bytes.

    The bad ones stay visible as U+FFFD.
    """
    text = data.decode("utf-8", errors="replace")
    bad = text.count("\ufffd")
    good = len(text) - len(text.encode("ascii", errors="ignore")) - bad
    return text if good > bad else None
