"""What a worker does: the bytes of one talk become its draft's texts and rows; it reads and writes no file."""

import time
from collections.abc import Mapping
from dataclasses import dataclass

from stovescript.archive.rows import Rows, rows_of
from stovescript.errors import StovescriptError, TalkError

ENDINGS = (".draft.json", ".md")
ANSWERS = ".answers.toml"


@dataclass(frozen=True, slots=True)
class Job:
    """A talk to be drafted: its file's name and bytes. `path` and `answers_path` are how errors name the two files."""

    path: str
    name: str
    captions: bytes
    answers: bytes | None = None
    answers_path: str = ""


@dataclass(frozen=True, slots=True)
class Drafted:
    """The texts of one talk by file ending, its rows, and how long it took; `program` is what drafted it."""

    texts: Mapping[str, str]
    rows: Rows
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
    from stovescript.archive.fingerprint import program
    from stovescript.drafting import draft_talk
    from stovescript.pages.markdown import draft_page
    from stovescript.speech.model import read_with_one_thread
    from stovescript.talk import read_bytes

    read_with_one_thread()
    started = time.perf_counter()
    try:
        draft = draft_talk(read_bytes(job.captions, job.name, job.path))
        texts = {".draft.json": draft.model_dump_json(indent=2) + "\n", ".md": draft_page(draft)}
        rows = rows_of(draft)
    except StovescriptError as error:
        return Failed(" ".join(str(error).split()), unreadable=isinstance(error, TalkError))
    except Exception as error:  # a fault in the program must cost one talk, not the archive
        return Failed(f"{job.path}: drafting met a fault of the program ({type(error).__name__}: {error}).")
    return Drafted(texts, rows, time.perf_counter() - started, program())
