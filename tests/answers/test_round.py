"""The question round in the terminal, typed into a process of its own, and stopped in the middle of it."""

import os
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from stovescript.answers import DraftFiles, answered, heard_text, read_answers, read_heard
from stovescript.answers.heard_file import HeardClause, HeardTalk
from stovescript.draft_file import read_draft
from tests.answers.kitchen import kinds, soup
from tests.cli.running import Ran, run

ANSWERS = {
    "no_servings": "4",
    "total_mismatch": "a",
    "no_size": "400 grams",
    "unused": "in step 3",
    "unmeasured": "1 teaspoon",
    "promise": "It keeps three months frozen.",
}


@pytest.fixture
def files(tmp_path: Path) -> DraftFiles:
    """The soup as `stovescript draft` leaves it."""
    draft = soup()
    clauses = [
        HeardClause(start=e.start, end=e.end, intent="does", text=e.text)
        for step in draft.steps
        for e in step.evidence
    ]
    files = DraftFiles(tmp_path, "soup")
    files.heard.write_text(heard_text(HeardTalk(draft=draft, clauses=clauses)), encoding="utf-8")
    for path, text in files.written(answered(draft, [])).items():
        path.write_text(text, encoding="utf-8")
    return files


def typed(files: DraftFiles, *lines: str) -> Ran:
    return run("answer", files.draft, cwd=files.folder, stdin="".join(f"{line}\n" for line in lines).encode())


def answers_in_order() -> list[str]:
    return [ANSWERS[gap.kind] for gap in soup().gaps]


def test_every_question_answered(files: DraftFiles) -> None:
    ran = typed(files, *answers_in_order())
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[-1] == f"6 answered and kept in {files.answers}. Left: none."
    assert read_draft(files.draft).gaps == []
    assert "None: everything was said." in files.page.read_text(encoding="utf-8")


def test_the_most_serious_comes_first_with_the_words_around_it(files: DraftFiles) -> None:
    lines = typed(files, *[""] * 6).out.splitlines()
    assert [line.split(" · ")[0] for line in lines if line.endswith(" left")] == ["must"] * 4 + ["should"] * 2
    place = next(n for n, line in enumerate(lines) if "What size is the can" in line)
    assert lines[place - 1] == "      1:00  “stir in 1 can of coconut milk”"


def test_the_end_of_input_stops_and_keeps(files: DraftFiles) -> None:
    ran = typed(files, "4")
    assert ran.code == 0 and "1 answered" in ran.out and "Left: 3 must, 2 should." in ran.out
    assert "no_servings" not in kinds(read_draft(files.draft))


def test_what_is_not_understood_is_asked_again_with_an_example(files: DraftFiles) -> None:
    ran = typed(files, "lots", "4")
    assert '"lots" is no yield; write it like "6 servings" or "24 cookies".' in ran.out
    assert [entry.to for entry in read_answers(files.answers).entries] == ["4"]


def test_a_size_that_fits_a_pan_and_not_a_can_is_asked_again(files: DraftFiles) -> None:
    position = [gap.kind for gap in soup().gaps].index("no_size")
    ran = typed(files, *["skip"] * position, "9 by 13 inches", "400 grams")
    assert "is no size" in ran.out and [e.to for e in read_answers(files.answers).entries] == ["400 grams"]


def test_skip_back_and_stop(files: DraftFiles) -> None:
    ran = typed(files, "back", "skip", "back", "4", "back", "6", "stop")
    assert "This is the first question." in ran.out and "[4] >" in ran.out
    assert [entry.to for entry in read_answers(files.answers).entries] == ["6"]
    assert ran.out.splitlines()[-1].startswith("1 answered")


def test_a_question_may_be_let_go_with_a_reason(files: DraftFiles) -> None:
    typed(files, "not needed: it is for one pot")
    entry = read_answers(files.answers).entries[0]
    assert (entry.do, entry.reason) == ("dismiss", "it is for one pot")


def test_a_round_goes_on_where_it_stopped(files: DraftFiles) -> None:
    answers = answers_in_order()
    typed(files, *answers[:2])
    ran = typed(files, *answers[2:])
    assert ran.out.splitlines()[-1].startswith("4 answered") and read_draft(files.draft).gaps == []


def test_an_answer_that_found_no_place_is_told(files: DraftFiles) -> None:
    files.answers.write_text(
        '[[entry]]\ndo = "rename"\nof = { ingredient = "i77", about = "saffron" }\nto = "turmeric"\n'
    )
    ran = typed(files)
    assert ran.out.startswith('Kept in the answers file, but not used: rename "turmeric" of saffron: ')


def test_without_the_talk_as_heard_it_tells_the_remedy(files: DraftFiles) -> None:
    files.heard.unlink()
    ran = typed(files)
    assert ran.code == 2 and "run stovescript draft again" in ran.err and ran.err.count("\n") == 1


def _going(files: DraftFiles) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-c", "from stovescript.cli import main; main()", "answer", str(files.draft)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    )


def _until(process: subprocess.Popen[bytes], questions: int) -> bytes:
    """What the process prints until it has asked so many questions."""
    assert process.stdout is not None
    seen, end = b"", time.monotonic() + 60
    while seen.count(b" > ") < questions and time.monotonic() < end:
        if select.select([process.stdout], [], [], 1)[0]:
            seen += os.read(process.stdout.fileno(), 65536)
    return seen


@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGKILL], ids=["ctrl-C", "killed"])
def test_what_was_answered_is_kept(files: DraftFiles, how: signal.Signals) -> None:
    process = _going(files)
    assert process.stdin is not None
    _until(process, 1)
    process.stdin.write(f"{answers_in_order()[0]}\n{answers_in_order()[1]}\n".encode())
    process.stdin.flush()
    _until(process, 2)
    process.send_signal(how)
    out, err = process.communicate(timeout=60)
    assert len(read_answers(files.answers).entries) == 2
    assert len(read_draft(files.draft).gaps) == len(read_heard(files.heard).draft.gaps) - 2
    if how is signal.SIGINT:
        assert process.returncode == 130 and b"2 answered and kept" in out and b"Traceback" not in err


def test_killed_at_any_moment_the_file_is_whole(files: DraftFiles) -> None:
    """Each time the answers file and the draft can be read, and no answer that was kept is lost."""
    kept = 0
    for number, delay in enumerate((0.0, 0.02, 0.05, 0.1)):
        process = _going(files)
        assert process.stdin is not None
        _until(process, 1)
        process.stdin.write("".join(f"{line}\n" for line in (f"{number + 2}", "skip", "skip")).encode())
        process.stdin.flush()
        time.sleep(delay)
        process.kill()
        process.communicate()
        entries = read_answers(files.answers).entries
        assert len(entries) >= kept and read_draft(files.draft).title == "carrot soup"
        kept = len(entries)
