"""Laws of reading: any bytes are a talk or a refusal; what others write, we read; nothing is said twice."""

import datetime
import itertools
import math
import string

import srt
import webvtt
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from stovescript.errors import TalkError
from stovescript.talk import Talk, read_bytes
from tests.talk.reading import clock, read, said, vtt

NAMES = st.sampled_from(["a.vtt", "a.srt", "a.sbv", "a.txt", "a.md", "a", "-", ""])
LAW = settings(max_examples=200, deadline=None)

FILES = [
    vtt("so <00:00:00.500><c>today</c>", "[music]\n>> MARIA: stir &amp; rest", "½ cup (laughs)"),
    "WEBVTT\n\nNOTE by hand\n\n1\n00:01.000 --> 00:02.000 align:start\n<v Maria>stir\n",
    "1\n00:00:01,000 --> 00:00:02,000\nstir\nit\n\n2\n00:00:03,000 --> 00:00:04,000\n{\\an8}2 - 3 cups\n",
    "0:00:01.000,0:00:03.500\nstir[br]it\n\n0:00:04.000,0:00:05.000\nrest\n",
    "# Soup\n\n- [0:05] stir **it** [0:09 - 0:12] rest\n\n[1:00:00](x) eat\n",
    "0:05\nstir it\n10:30 am\n0:20 - rest\n",
    "Maria (0:05):\nstir it\nJoan (0:20):\nwhy\n",
]
PIECES = [
    *("WEBVTT", "NOTE ", "STYLE", "\n", "\n\n", "\r", " ", "\t", "\x00", "\x1a", "\x85", "\u2028"),
    *("-->", "->", "<", ">", "<c>", "</c>", "<v ", "<00:00:01.200>", "00:01.000", "0:05", "1", "2", ":", "."),
    *("[0:05]", "(0:05)", "[0:75]", "0:00:01.000,0:00:03.500", "00:00:01,000 --> 00:00:02,000"),
    *("&amp;", "&nbsp;", "&#0;", "&#xF0000;", "\u00ad", "\u200b", "\ufeff", "\ufffd", "\U000f0000"),
    *("[", "]", "(", ")", "(laughs)", "*", "_", "♪", ">>", "MARIA:", "- ", "½", "e\u0301", "stir", "salt"),
    "\U0010fffd",
]  # fmt: skip


def is_sound(talk: Talk) -> None:
    assert talk.words
    for word in talk.words:
        assert word.text
        assert word.text.split() == [word.text]
        assert math.isfinite(word.start)
        assert 0 <= word.start <= word.end <= talk.seconds
        assert math.isfinite(word.end)
    for before, after in itertools.pairwise(talk.words):
        assert before.start <= after.start
    for cue in talk.cues:
        assert 0 <= cue.start <= cue.end <= talk.seconds
        assert all(line.strip() for line in cue.text.split("\n"))
    for earlier, later in itertools.pairwise(talk.cues):
        assert earlier.start <= later.start
        assert earlier.line <= later.line


def reads_or_refuses(data: bytes, name: str) -> None:
    try:
        talk = read_bytes(data, name)
    except TalkError as error:
        assert "\n" not in str(error)
        return
    is_sound(talk)


@st.composite
def damaged_files(draw: st.DrawFn) -> bytes:
    """A good file in some encoding with up to eight cuts, insertions and repeats."""
    encoding = draw(st.sampled_from(["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-le", "utf-16-be"]))
    text = draw(st.sampled_from(FILES))
    data = bytearray(text.encode(encoding))
    for _ in range(draw(st.integers(0, 8))):
        first = draw(st.integers(0, len(data)))
        last = draw(st.integers(first, min(len(data), first + 30)))
        piece = draw(
            st.sampled_from(PIECES).map(str.encode) | st.binary(max_size=4) | st.just(bytes(data[first:last]))
        )
        if draw(st.booleans()):
            data[first:last] = piece
        else:
            data[first:first] = piece
    return bytes(data)


@LAW
@given(st.binary(max_size=400), NAMES)
@example(b"", "a.vtt")
@example(b"\xff\xfe", "a.vtt")
@example(b"WEBVTT", "a.vtt")
def test_any_bytes_are_a_talk_or_a_refusal(data: bytes, name: str) -> None:
    reads_or_refuses(data, name)


@LAW
@given(damaged_files(), NAMES)
def test_damaged_files_are_a_talk_or_a_refusal(data: bytes, name: str) -> None:
    reads_or_refuses(data, name)


@LAW
@given(st.sampled_from(["", "WEBVTT\n\n", "[0:01] "]), st.lists(st.sampled_from(PIECES), max_size=40), NAMES)
def test_pieces_of_captions_are_a_talk_or_a_refusal(opening: str, pieces: list[str], name: str) -> None:
    reads_or_refuses((opening + "".join(pieces)).encode(), name)


@LAW
@given(st.lists(st.sampled_from(PIECES), max_size=30), st.floats(0, 9000))
def test_a_cue_of_pieces_is_a_talk_or_a_refusal(pieces: list[str], start: float) -> None:
    reads_or_refuses(f"WEBVTT\n\n{clock(start)} --> {clock(start + 3)}\n{''.join(pieces)}".encode(), "a.vtt")


# Words that are all different, so that nothing may look like a rolling repeat.
WORD = st.text(string.ascii_letters + "éñüß½", min_size=1, max_size=8)
DIFFERENT_WORDS = st.lists(WORD, min_size=1, max_size=40, unique_by=str.casefold)
GAPS = st.integers(0, 5000)


@st.composite
def spoken_blocks(draw: st.DrawFn) -> list[tuple[int, int, list[str]]]:
    """Blocks in order: start and end in milliseconds, and the words."""
    words = draw(DIFFERENT_WORDS)
    blocks, now = [], 0
    while words:
        count = draw(st.integers(1, 6))
        now += draw(GAPS)
        length = draw(st.integers(1, 6000))
        blocks.append((now, now + length, words[:count]))
        words, now = words[count:], now + length
    return blocks


def all_words(blocks: list[tuple[int, int, list[str]]]) -> list[str]:
    return [word for _, _, words in blocks for word in words]


def words_of(talk: Talk) -> list[str]:
    is_sound(talk)
    return [word.text for word in talk.words]


@LAW
@given(spoken_blocks(), st.booleans())
def test_what_webvtt_py_writes_is_read(blocks: list[tuple[int, int, list[str]]], two_lines: bool) -> None:
    written = webvtt.WebVTT()
    for start, end, words in blocks:
        text = ("\n" if two_lines else " ").join(words)
        written.captions.append(webvtt.Caption(clock(start / 1000), clock(end / 1000), text))
    talk = read(written.content)
    assert words_of(talk) == all_words(blocks)
    assert [(round(cue.start * 1000), round(cue.end * 1000)) for cue in talk.cues] == [b[:2] for b in blocks]


@LAW
@given(spoken_blocks(), st.sampled_from(["\n", "\r\n"]))
def test_what_srt_writes_is_read(blocks: list[tuple[int, int, list[str]]], line_end: str) -> None:
    written = srt.compose(
        srt.Subtitle(
            place,
            datetime.timedelta(milliseconds=start),
            datetime.timedelta(milliseconds=end),
            " ".join(words),
        )
        for place, (start, end, words) in enumerate(blocks, start=1)
    ).replace("\n", line_end)
    talk = read(written, "a.srt")
    assert words_of(talk) == all_words(blocks)
    assert [(round(cue.start * 1000), round(cue.end * 1000)) for cue in talk.cues] == [b[:2] for b in blocks]


@LAW
@given(spoken_blocks(), st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"]))
def test_the_encoding_changes_nothing(blocks: list[tuple[int, int, list[str]]], encoding: str) -> None:
    text = vtt(*(" ".join(words) for _, _, words in blocks))
    assert words_of(read_bytes(text.encode(encoding), "a.vtt")) == all_words(blocks)


@LAW
@given(spoken_blocks(), st.integers(0, 10_000))
def test_a_talk_that_starts_later_is_the_same_talk_later(blocks: list[tuple[int, int, list[str]]], later: int) -> None:
    def starts(shift: int) -> list[float]:
        cues = (
            f"{clock(start / 1000 + shift)} --> {clock(end / 1000 + shift)}\n{' '.join(words)}\n"
            for start, end, words in blocks
        )
        return [word.start - shift for word in read("WEBVTT\n\n" + "\n".join(cues)).words]

    assert all(abs(a - b) < 0.0021 for a, b in zip(starts(0), starts(later), strict=True))


LINE = st.lists(st.sampled_from(["stir", "it", "and", "rest", "slowly"]), min_size=1, max_size=4).map(" ".join)


@LAW
@given(st.lists(LINE, min_size=2, max_size=12), st.integers(2, 4))
def test_rolling_captions_say_every_word_once(lines: list[str], shown: int) -> None:
    screens = ["\n".join(lines[max(0, end - shown) : end]) for end in range(1, len(lines) + 1)]
    # Two screens alike cannot be told from one screen shown longer.
    assume(all(before != after for before, after in itertools.pairwise(screens)))
    assert said(vtt(*screens)) == " ".join(lines)


@LAW
@given(DIFFERENT_WORDS, st.data())
def test_marks_in_text_time_what_follows_them(words: list[str], data: st.DataObject) -> None:
    cuts = sorted(data.draw(st.sets(st.integers(0, len(words) - 1), min_size=1, max_size=6)) | {0})
    text = "".join(f"[{place}:00] {' '.join(words[cut:end])}\n\n" for place, (cut, end) in enumerate(
        itertools.pairwise([*cuts, len(words)])
    ))  # fmt: skip
    talk = read(text, "a.txt")
    assert words_of(talk) == words
    assert [talk.words[cut].start for cut in cuts] == [60.0 * place for place in range(len(cuts))]
