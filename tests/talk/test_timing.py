"""When words were said. The speeds are common practice: about 150 words a minute in conversation."""

import pytest

from tests.talk.reading import read


def times(text: str, name: str = "talk.vtt") -> list[tuple[str, float, float]]:
    return [(word.text, word.start, word.end) for word in read(text, name).words]


def test_words_share_their_block_by_length() -> None:
    assert times("WEBVTT\n\n00:10.000 --> 00:12.000\nadd butter x\n") == [
        ("add", 10.0, 10.6),
        ("butter", 10.6, 11.8),
        ("x", 11.8, 12.0),
    ]


def test_words_do_not_stretch_over_a_silence() -> None:
    assert times("[0:10] stir it\n[9:00] done", "a.txt") == [
        ("stir", 10.0, 11.6),
        ("it", 11.6, 12.4),
        ("done", 540.0, 540.4),
    ]


def test_a_block_that_overlaps_the_next_gives_way() -> None:
    text = "WEBVTT\n\n00:00.000 --> 00:05.000\nstir it\n\n00:02.000 --> 00:06.000\nnow rest\n"
    assert [word.start for word in read(text).words] == pytest.approx([0, 1.333, 2, 3.029], abs=0.001)


def test_two_blocks_at_the_same_time_come_one_after_the_other() -> None:
    text = "WEBVTT\n\n00:00.000 --> 00:02.000\n- why\n\n00:00.000 --> 00:02.000\n- yes\n"
    assert times(text) == [("why", 0.0, 1.0), ("yes", 1.0, 2.0)]


def test_a_block_without_length_is_estimated() -> None:
    assert times("WEBVTT\n\n00:01.000 --> 00:01.000\nstir it\n")[-1] == ("it", 1.533, 1.8)


def test_a_start_that_jitters_back_is_moved_up() -> None:
    text = "WEBVTT\n\n00:02.000 --> 00:03.000\nstir\n\n00:01.500 --> 00:04.000\nit\n"
    talk = read(text)
    assert [word.start for word in talk.words] == [2.0, 3.333]
    assert [cue.start for cue in talk.cues] == [2.0, 2.0]
