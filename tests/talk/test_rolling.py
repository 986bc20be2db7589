"""Rolling captions (common practice of recognisers and live captioners): every word comes out once."""

import pytest

from tests.talk.reading import clock, read, said, vtt

TALK = ["so today we make", "a big pot of", "lentil soup and", "then we stir", "it again"]
WORDS = " ".join(TALK)


def with_times(line: str, start: float) -> str:
    first, *others = line.split()
    return first + "".join(f"<{clock(start + 0.3 * n)}><c> {word}</c>" for n, word in enumerate(others, 1))


def recogniser() -> str:
    """The line before, then the new line with times; between two such cues the new line alone for 10 ms."""
    text, before = "WEBVTT\nKind: captions\nLanguage: en\n\n", " "
    for place, line in enumerate(TALK):
        start = 2.0 * place
        text += f"{clock(start)} --> {clock(start + 1.99)} align:start position:0%\n"
        text += f"{before}\n{with_times(line, start)}\n\n"
        text += f"{clock(start + 1.99)} --> {clock(start + 2)} align:start position:0%\n{line}\n \n\n"
        before = line
    return text


def pairs(lines: list[str], shown: int = 2) -> list[str]:
    return ["\n".join(lines[max(0, end - shown) : end]) for end in range(1, len(lines) + 1)]


GROWING = [
    "so today",
    "so today we make",
    "so today we make\na big",
    "so today we make\na big pot of",
    "a big pot of\nlentil",
]

ROLLING = [
    ("recogniser, with times", recogniser(), WORDS),
    ("two lines", vtt(*pairs(TALK)), WORDS),
    ("three lines", vtt(*pairs(TALK, 3)), WORDS),
    ("every block shown twice", vtt(*(block for block in pairs(TALK) for _ in range(2))), WORDS),
    ("growing word by word", vtt(*GROWING), "so today we make a big pot of lentil"),
    (
        "corrected as it rolls",
        vtt("so today we", "So today, we\nmake soup", "Make soup.\nit is good"),
        "so today we make soup it is good",
    ),
    (
        "a speaker's repeat",
        vtt("stir it", "stir it\nslowly", "slowly\nslowly now"),
        "stir it slowly slowly now",
    ),
    ("the same line said twice", vtt("stir", "stir\nstir", "stir\nthen rest"), "stir stir then rest"),
    (
        "a sound between",
        vtt("we stir", "we stir\n[music]", "[music]\nthen rest", "then rest\nand eat"),
        "we stir then rest and eat",
    ),
]


@pytest.mark.parametrize(("case", "text", "words"), ROLLING, ids=[row[0] for row in ROLLING])
def test_every_word_once(case: str, text: str, words: str) -> None:
    assert said(text) == words


NOT_ROLLING = [
    ("a short answer twice", ["okay", "okay", "we stir"]),
    ("a word across the cut", ["add it slowly", "slowly now", "and rest"]),
    ("two words across the cut", ["a little bit", "little bit of salt", "and rest"]),
    ("a line that begins like the last", ["and", "then we stir", "then we", "we rest", "we eat"]),
]


@pytest.mark.parametrize(("case", "cues"), NOT_ROLLING, ids=[row[0] for row in NOT_ROLLING])
def test_a_speakers_own_repeats_stay(case: str, cues: list[str]) -> None:
    assert said(vtt(*cues)) == " ".join(cues)


def test_a_long_line_shown_twice_is_said_once() -> None:
    assert said(vtt("now we add the flour", "now we add the flour", "and rest")) == "now we add the flour and rest"


def test_a_line_said_again_after_a_pause_stays() -> None:
    text = "[0:01] now we add the flour\n[1:00] now we add the flour\n"
    assert said(text, "a.txt") == "now we add the flour now we add the flour"


def test_words_keep_the_time_they_were_first_shown() -> None:
    starts = {word.text: word.start for word in read(recogniser()).words}
    assert (starts["so"], starts["today"], starts["lentil"], starts["soup"]) == (0.0, 0.3, 4.0, 4.3)


def test_all_cues_stay_for_writing_captions_back() -> None:
    assert len(read(recogniser()).cues) == 2 * len(TALK)
