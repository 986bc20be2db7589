"""Plain text and Markdown with marks such as [1:30], as transcripts kept by hand have (common practice)."""

import pytest

from stovescript.talk import Cue
from tests.talk.reading import read, said

LAYOUTS = [
    ("square brackets", "[0:05] stir the pot\n[0:20] now two cups\n"),
    ("hours", "[0:00:05] stir the pot\n[0:00:20] now two cups\n"),
    ("round brackets", "(0:05) stir the pot\n(0:20) now two cups\n"),
    ("no brackets", "0:05 stir the pot\n0:20 now two cups\n"),
    ("no brackets, two digits", "00:05 stir the pot\n00:20 now two cups\n"),
    ("a mark alone on its line", "[0:05]\nstir the pot\n\n[0:20]\nnow two\ncups\n"),
    ("a bare mark alone on its line", "0:05\nstir the pot\n0:20\nnow two cups\n"),
    ("paragraphs", "[0:05] stir\nthe pot\n\n[0:20] now\n\ntwo cups\n"),
    ("headings", "# My talk\n\n## [0:05] stir the pot\n\n## [0:20] now two cups\n"),
    ("headings with the mark alone", "# My talk\n\n## 0:05\nstir the pot\n\n## 0:20\nnow two cups\n"),
    ("bullets", "- [0:05] stir the pot\n* [0:20] now two cups\n"),
    ("numbered", "1. [0:05] stir the pot\n2. [0:20] now two cups\n"),
    ("bold", "**[0:05]** stir the pot\n\n**[0:20]** now two cups\n"),
    ("bold and bare", "**0:05** stir the pot\n\n**0:20**: now two cups\n"),
    ("a separator after the mark", "0:05 - stir the pot\n0:20: now two cups\n"),
    ("quoted", "> [0:05] stir the pot\n> [0:20] now two cups\n"),
    ("a table", "| 0:05 | stir the pot |\n| 0:20 | now two cups |\n"),
    (
        "linked marks",
        "[0:05](https://video.example/?t=5) stir the pot\n[0:20](https://video.example/?t=20) now two cups\n",
    ),
    ("several marks in one line", "[0:05] stir the pot [0:20] now two cups\n"),
    (
        "a mark inside a sentence",
        "[0:05] stir the pot now\n[0:20] two cups\n".replace("now\n[0:20]", "[0:20] now"),
    ),
    ("ranges", "[0:05 - 0:10] stir the pot\n[0:20 - 0:25] now two cups\n"),
    (
        "ranges with an arrow",
        "[00:05.000 --> 00:10.000]  stir the pot\n[00:20.000 --> 00:25.000]  now two cups\n",
    ),
    ("a name above the text", "Maria 0:05\nstir the pot\n\nMaria 0:20\nnow two cups\n"),
    ("a name and a bracketed mark", "Maria (0:05):\nstir the pot\n\nMaria (0:20):\nnow two cups\n"),
    ("a name before the mark", "**Maria** [0:05]: stir the pot\n\n**Joan** [0:20]: now two cups\n"),
    ("ranges in words", "0:05 to 0:10 stir the pot\n0:20 to 0:25 now two cups\n"),
    ("a header of settings", "---\ntitle: soup\n---\n[0:05] stir the pot\n[0:20] now two cups\n"),
    ("headings between", "[0:05] stir the pot\n\n## The flour\n\n[0:20] now two cups\n"),
    ("emphasis and links", "[0:05] *stir* the [pot](https://pot.example)\n[0:20] now **two cups**\n"),
]


@pytest.mark.parametrize("name", ["talk.txt", "talk.md", "-"])
@pytest.mark.parametrize(("layout", "text"), LAYOUTS, ids=[row[0] for row in LAYOUTS])
def test_layouts(layout: str, text: str, name: str) -> None:
    talk = read(text, name)
    assert [word.text for word in talk.words] == ["stir", "the", "pot", "now", "two", "cups"]
    assert [talk.words[0].start, talk.words[3].start] == [5.0, 20.0]


NO_MARKS = [
    ("an hour of the day", "[0:05] we start at\n10:30 in the morning", "we start at 10:30 in the morning"),
    ("a ratio", "[0:05] mix it 2:1 with water", "mix it 2:1 with water"),
    ("a place in another video", "[0:05] look at\n(1:30) there", "look at (1:30) there"),
    ("a time inside a bare file", "0:05 we start at 10:30 sharp\n0:20 then", "we start at 10:30 sharp then"),
    (
        "an hour at the start of a bare line",
        "0:05 we start at\n10:30 am sharp\n0:20 then",
        "we start at 10:30 am sharp then",
    ),
]


@pytest.mark.parametrize(("case", "text", "words"), NO_MARKS, ids=[row[0] for row in NO_MARKS])
def test_times_that_are_talked_about(case: str, text: str, words: str) -> None:
    assert said(text, "talk.txt") == words


def test_text_above_the_first_mark_was_said_before_it() -> None:
    assert said("# Soup\n\nhello everyone\n[0:20] stir", "a.md") == "hello everyone stir"
    assert said("Soup, second take\n[0:00] stir", "a.md") == "stir"  # nothing comes before 0:00


def test_a_block_ends_where_its_words_end_or_at_the_next_mark() -> None:
    talk = read("[0:05] stir\nthe pot\n[5:00] now\n[5:01]\n", "a.txt")
    assert talk.cues == (Cue(5.0, 8.6, "stir\nthe pot", 1), Cue(300.0, 301.0, "now", 3))
    assert talk.seconds == 301.0
