"""SBV has no published standard; its layout here is common practice, checked against webvtt-py's reader."""

import io

import pytest
import webvtt

from tests.talk.reading import read, said

FILE = "0:00:01.000,0:00:03.500\nstir\nthe pot\n\n0:00:04.000,0:00:06.500\nnow two cups\n"

REAL_LIFE = [
    ("as it should be", FILE),
    ("CR LF", FILE.replace("\n", "\r\n")),
    ("[br] for a line break", FILE.replace("stir\nthe", "stir[br]the")),
    ("no blank line between blocks", FILE.replace("\n\n", "\n")),
    ("doubled blank lines", FILE.replace("\n", "\n\n")),
    ("a space after the comma", FILE.replace(",0:", ", 0:")),
    ("no hours", FILE.replace("0:00:", "00:")),
]


@pytest.mark.parametrize("name", ["talk.sbv", "talk.srt", "-"])
@pytest.mark.parametrize(("case", "text"), REAL_LIFE, ids=[row[0] for row in REAL_LIFE])
def test_files_from_real_life(case: str, text: str, name: str) -> None:
    assert said(text, name) == "stir the pot now two cups"


def test_an_outside_reader_sees_the_same_blocks() -> None:
    outside = webvtt.from_buffer(io.StringIO(FILE), format="sbv")
    assert [(cue.start, cue.end, cue.text) for cue in read(FILE, "a.sbv").cues] == [
        (cue.start_time.in_milliseconds() / 1000, cue.end_time.in_milliseconds() / 1000, cue.text)
        for cue in outside.captions
    ]
