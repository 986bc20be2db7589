"""WebVTT: the syntax and parsing rules of the W3C Candidate Recommendation "WebVTT: The Web Video Text
Tracks Format" (section numbers from memory), and what real files get wrong."""

import pytest
import webvtt

from stovescript.talk import Cue
from tests.talk.reading import read, said, vtt

CUE = "00:00:01.000 --> 00:00:03.000"

W3C = [
    (
        "4.1 file structure: a byte order mark, WEBVTT, header text, metadata up to a blank line",
        f"\ufeffWEBVTT - my talk\nKind: captions\nLanguage: en\n\n{CUE}\nstir the pot\n",
        "stir the pot",
    ),
    ("4.1: a line ends in CR LF, LF or CR", f"WEBVTT\r\r{CUE}\rstir\rthe pot\r", "stir the pot"),
    ("4.1: hours may be missing in a timestamp", "WEBVTT\n\n00:01.000 --> 00:03.000\nstir\n", "stir"),
    ("4.1: hours may have more than two digits", "WEBVTT\n\n100:00:01.000 --> 100:00:03.000\nstir\n", "stir"),
    ("4.1: an identifier line stands above the times", f"WEBVTT\n\nintro - take 2\n{CUE}\nstir\n", "stir"),
    (
        "4.1: an identifier may be a number",
        f"WEBVTT\n\n1\n{CUE}\nstir\n\n2\n00:04.000 --> 00:05.000\nit\n",
        "stir it",
    ),
    (
        "4.1: a comment block begins with NOTE and lasts to a blank line",
        f"WEBVTT\n\nNOTE by hand\nsecond line\n\n{CUE}\nstir\n\nNOTE\nmore\n\n00:04.000 --> 00:05.000\nit\n",
        "stir it",
    ),
    ("4.1: NOTE inside a cue's text is text", f"WEBVTT\n\n{CUE}\nNOTE the heat\n", "NOTE the heat"),
    (
        "4.1: style and region blocks stand before the first cue",
        f"WEBVTT\n\nSTYLE\n::cue {{ color: white }}\n\nREGION\nid:top\nwidth:40%\n\n{CUE}\nstir\n",
        "stir",
    ),
    (
        "4.4 cue settings follow the end time",
        f"WEBVTT\n\n{CUE} vertical:rl line:0 position:10%,line-left size:35% align:start region:top\nstir\n",
        "stir",
    ),
    (
        "4.2.2 cue text: class, italic, bold, underline",
        vtt("<c.loud.first>stir</c> <i>the</i> <b><u>pot</u></b>"),
        "stir the pot",
    ),
    ("4.2.2: ruby and language", vtt("<lang en-GB>stir</lang> the pot"), "stir the pot"),
    ("4.2.2: a voice names who speaks", vtt("<v.first Maria Lopez>stir</v> <v Joan>the pot"), "stir the pot"),
    ("4.2.2: a voice's name may hold an entity", vtt("<v Tom &amp; Ann>stir"), "stir"),
    (
        "4.2.2: character references",
        vtt("salt &amp; oil &lt;3&nbsp;g&gt;&lrm; &#189; cup"),
        "salt & oil <3 g> ½ cup",
    ),
    ("4.2.2: a timestamp inside the text", vtt("stir <00:00:01.000>the pot"), "stir the pot"),
    (
        "6.1 parsing: a line of times ends the block above it",
        f"WEBVTT\n\n{CUE}\nstir\n00:04.000 --> 00:05.000\nit\n",
        "stir it",
    ),
    ("6.1: times right under the header start a cue", f"WEBVTT\n{CUE}\nstir\n", "stir"),
    ("6.1: a cue may be without text", f"WEBVTT\n\n{CUE}\n\n00:04.000 --> 00:05.000\nit\n", "it"),
    ("6.1: times need no space around the arrow", "WEBVTT\n\n00:01.000-->00:03.000\nstir\n", "stir"),
]


@pytest.mark.parametrize(("rule", "text", "words"), W3C, ids=[row[0] for row in W3C])
def test_rules_of_the_recommendation(rule: str, text: str, words: str) -> None:
    assert said(text) == words


REAL_LIFE = [
    ("no header line", f"{CUE}\nstir\n", "stir"),
    ("blank lines above the header", f"\n\nWEBVTT\n\n{CUE}\nstir\n", "stir"),
    ("a comma before the thousandths", "WEBVTT\n\n00:00:01,000 --> 00:00:03,000\nstir\n", "stir"),
    ("one digit each", "WEBVTT\n\n0:1.5 --> 0:3\nstir\n", "stir"),
    (
        "a stray blank line under the times",
        f"WEBVTT\n\n{CUE}\n\nstir\n\n00:04.000 --> 00:05.000\nit\n",
        "stir it",
    ),
    ("a stray blank line inside the text", f"WEBVTT\n\n{CUE}\nstir\n\nthe pot\n", "stir the pot"),
    ("blank lines doubled by a bad conversion", f"WEBVTT\r\r\n\r\r\n{CUE}\r\r\nstir\r\r\n", "stir"),
    (
        "numbered cues without blank lines",
        f"WEBVTT\n\n1\n{CUE}\nstir\n2\n00:04.000 --> 00:05.000\nit\n",
        "stir it",
    ),
    (
        "a header again, from joined parts",
        f"WEBVTT\n\n{CUE}\nstir\n\nWEBVTT\nX-MAP: 1\n\n00:04.000 --> 00:05.000\nit\n",
        "stir it",
    ),
    ("a tag that is not closed", vtt("<i>stir the pot"), "stir the pot"),
    ("an arrow in the text", f"WEBVTT\n\n{CUE}\nmix --> bake\n", "mix bake"),
    ("escaped twice", vtt("salt &amp;amp;&amp;nbsp;oil"), "salt & oil"),
]


@pytest.mark.parametrize(("case", "text", "words"), REAL_LIFE, ids=[row[0] for row in REAL_LIFE])
def test_files_from_real_life(case: str, text: str, words: str) -> None:
    assert said(text) == words


def test_times_inside_the_text_are_the_words_times() -> None:
    talk = read(
        "WEBVTT\n\n00:01.000 --> 00:04.000\n"
        "so<00:00:01.500><c> two</c><00:00:02.100><c> cups of</c><00:00:03.000><c> flour</c>\n"
    )
    assert [(word.text, word.start) for word in talk.words] == [
        ("so", 1.0),
        ("two", 1.5),
        ("cups", 2.1),
        ("of", 2.7),  # shares 2.1 to 3.0 with "cups", by its letters
        ("flour", 3.0),
    ]


def test_a_time_inside_the_text_that_is_out_of_its_cue_is_not_used() -> None:
    starts = [word.start for word in read(vtt("stir <00:05:00.000>the pot")).words]
    assert max(starts) < 2


def test_cues_are_the_blocks_as_written() -> None:
    talk = read(
        "WEBVTT\n\nfirst\n00:01.000 --> 00:03.000 align:start\n>> <i>stir</i>\n \nthe pot\n\n"
        "00:04.000 --> 00:05.000\n[music]\n"
    )
    assert talk.cues == (Cue(1.0, 3.0, ">> <i>stir</i>\nthe pot", 4), Cue(4.0, 5.0, "[music]", 9))
    assert talk.seconds == 5.0


def test_an_outside_reader_sees_the_same_cues() -> None:
    text = vtt("so today", "we make &amp; eat", "<i>soup</i>\nand bread")
    assert [(cue.start, cue.end, cue.text) for cue in read(text).cues] == [
        (cue.start_in_seconds, cue.end_in_seconds, cue.raw_text) for cue in webvtt.from_string(text).captions
    ]
