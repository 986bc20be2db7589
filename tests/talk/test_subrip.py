"""SubRip has no published standard: its layout is common practice, checked against the library srt."""

import pytest
import srt

from tests.talk.reading import read, said

FILE = "1\n00:00:01,000 --> 00:00:03,000\nstir\nthe pot\n\n2\n00:00:04,000 --> 00:00:06,500\nnow two cups\n"

REAL_LIFE = [
    ("as it should be", FILE),
    ("CR LF", FILE.replace("\n", "\r\n")),
    ("points for commas", FILE.replace(",", ".")),
    ("no counters", FILE.replace("1\n00", "00", 1).replace("2\n00", "00")),
    ("counters from 0", FILE.replace("1\n00", "0\n00", 1).replace("2\n00", "1\n00")),
    ("no blank line between blocks", FILE.replace("\n\n", "\n")),
    ("doubled blank lines", FILE.replace("\n", "\n\n")),
    ("no hours", FILE.replace("00:00:", "00:")),
    ("screen coordinates", FILE.replace("03,000", "03,000 X1:40 X2:600 Y1:20 Y2:50")),
    ("a one-line arrow", FILE.replace("-->", "->")),
    ("spaces inside the times", FILE.replace("00:00:01,000", "00: 00: 01, 000")),
    ("a colon before the thousandths", FILE.replace(",000", ":000")),
    ("font and position tags", FILE.replace("stir", '{\\an8}<font color="#ffff00">stir</font>')),
    ("a blank line in the text", FILE.replace("stir\nthe", "stir\n\nthe")),
    ("text on the line of times", FILE.replace("03,000\nstir", "03,000 stir")),
    ("an empty block first", "0\n00:00:00,000 --> 00:00:00,500\n\n" + FILE),
    ("no line end at the end", FILE.rstrip()),
]


@pytest.mark.parametrize("name", ["talk.srt", "talk.txt", "-"])
@pytest.mark.parametrize(("case", "text"), REAL_LIFE, ids=[row[0] for row in REAL_LIFE])
def test_files_from_real_life(case: str, text: str, name: str) -> None:
    assert said(text, name) == "stir the pot now two cups"


@pytest.mark.parametrize("number", ["2", "350"])
def test_a_spoken_number_alone_on_a_line_is_no_counter(number: str) -> None:
    text = FILE.replace("the pot", number) + f"\n3\n00:00:07,000 --> 00:00:08,000\n{number}\n"
    assert said(text, "a.srt") == f"stir {number} now two cups {number}"


def test_an_outside_reader_sees_the_same_blocks() -> None:
    assert [(cue.start, cue.end, cue.text) for cue in read(FILE, "a.srt").cues] == [
        (block.start.total_seconds(), block.end.total_seconds(), block.content) for block in srt.parse(FILE)
    ]


def test_a_block_remembers_its_line() -> None:
    assert [cue.line for cue in read(FILE, "a.srt").cues] == [2, 7]
