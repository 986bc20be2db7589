"""What a worker does: the bytes of one talk become its draft's texts and rows; it reads and writes no file."""

import time
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from stovescript.archive.rows import Rows, rows_of
from stovescript.errors import StovescriptError, TalkError


@dataclass(frozen=True, slots=True)
class Job:
    """A talk to be drafted: its file's name and bytes, the stem of its draft's files, and the answers there.

    `path` and `answers_path` are how errors name the two files.
    """

    path: str
    name: str
    captions: bytes
    stem: str
    answers: bytes | None = None
    answers_path: str = ""


@dataclass(frozen=True, slots=True)
class Drafted:
    """The texts of one talk by file name, its rows, and how long it took; `program` is what drafted it.

    `notices` are what the cook should look at again: answers that found no place, sentences they may have changed.
    """

    texts: Mapping[str, str]
    rows: Rows
    notices: tuple[str, ...]
    seconds: float
    program: str


@dataclass(frozen=True, slots=True)
class Failed:
    """Why a talk was not drafted, in one sentence.

    `lasting` where it would fail again, `unreadable` where its file can't be read as a talk.
    """

    sentence: str
    lasting: bool = True
    unreadable: bool = False


Outcome = Drafted | Failed


def draft_one(job: Job) -> Outcome:
    """The outcome of a job. The model is loaded by the first job of a process and stays."""
    from stovescript.answers import Answers, DraftFiles, answers_of
    from stovescript.archive.fingerprint import program
    from stovescript.drafting import written_draft
    from stovescript.speech.model import read_with_one_thread
    from stovescript.talk import read_bytes

    read_with_one_thread()
    started = time.perf_counter()
    try:
        talk = read_bytes(job.captions, job.name, job.path)
        answers = Answers() if job.answers is None else answers_of(job.answers, job.answers_path)
        made, texts = written_draft(talk, answers, DraftFiles(Path(), job.stem))
        rows = rows_of(made.draft)
    except StovescriptError as error:
        return Failed(" ".join(str(error).split()), unreadable=isinstance(error, TalkError))
    except Exception as error:  # a fault in the program must cost one talk, not the archive
        return Failed(f"{job.path}: drafting met a fault of the program ({type(error).__name__}: {error}).")
    unplaced = (f"Kept in the answers file, but not used: {one.text}." for one in made.unplaced)
    return Drafted(
        {path.name: text for path, text in texts.items()},
        rows,
        (*unplaced, *made.notices),
        time.perf_counter() - started,
        program(),
    )
