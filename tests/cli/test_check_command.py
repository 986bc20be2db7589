"""`stovescript check`: the questions and nothing else; the exit code tells whether one must be answered."""

import re
from pathlib import Path

import pytest

from stovescript.recipe.draft import Gap
from tests.cli.running import DIP, PROMISE, Stovescript, untouched
from tests.pages.demo import DEMO, demo_draft
from tests.talk.reading import vtt

# "must      1:23  What size is the can of tomatoes?  [no_size-0a1b2c]"
LINE = re.compile(r"(must|should|could) +(-|\d+:\d\d|\d+:\d\d:\d\d)  (\S.*\S)  \[([a-z_]+-[0-9a-f]{6})\]")


def at(gap: Gap) -> str:
    """Where it was heard, minutes and seconds; the demo is shorter than an hour."""
    return "{}:{:02}".format(*divmod(int(gap.evidence[0].start), 60)) if gap.evidence else "-"


def test_the_demo_has_questions_that_must_be_answered(
    stove: Stovescript, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with untouched(tmp_path):
        ran = stove("check", DEMO)
    assert (ran.code, ran.err) == (1, "")
    printed = [LINE.fullmatch(line) for line in ran.out.splitlines()]
    assert all(printed), "only questions are printed"
    assert [(found[1], found[2], found[3], found[4]) for found in printed if found] == [
        (gap.severity, at(gap), gap.question, gap.id) for gap in demo_draft().gaps
    ]


def test_a_complete_talk_leaves_no_question(stove: Stovescript, dip: Path) -> None:
    ran = stove("check", dip)
    assert (ran.code, ran.out, ran.err) == (0, "", "")


def test_what_should_be_answered_does_not_fail(stove: Stovescript) -> None:
    ran = stove("check", "-", stdin=(DIP + PROMISE).encode())
    assert (ran.code, ran.err) == (0, "")
    found = LINE.fullmatch(ran.out.rstrip("\n"))
    assert found and found[1] == "should" and found[4].startswith("promise-")


def test_a_talk_that_names_no_dish_must_be_given_a_name(stove: Stovescript) -> None:
    ran = stove("check", "-", stdin=vtt("stir that", "and it serves four people").encode())
    assert ran.code == 1
    assert "What is this dish called?" in ran.out
