"""Short talks, and ways to run an archive over them without waiting for processes."""

import os
import signal
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path

from stovescript.archive.pools import Pool
from stovescript.archive.work import Job, Outcome, draft_one
from tests.cli.running import DIP
from tests.talk.reading import vtt

SOUP = vtt(
    "today we're making tomato soup",
    "add two cans of tomatoes to the pot",
    "add one cup of chicken broth and a teaspoon of salt",
    "simmer it on low for twenty minutes",
    "i'll put how to freeze it in the post so check the description",
)
COCOA = vtt(
    "today we're making hot cocoa",
    "pour two cups of milk in a pan",
    "add two tablespoons of cocoa powder and some sugar",
    "warm it on medium and whisk until it steams",
    "it serves two people",
)
TALKS = {"dip.vtt": DIP, "2019/soup.vtt": SOUP, "2020/winter/cocoa.vtt": COCOA}
DEADLY = "the deadly one"


def laid_out(folder: Path, talks: dict[str, str] = TALKS) -> Path:
    """The folder, with those talks in it."""
    for name, text in talks.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


@contextmanager
def here(workers: int) -> Iterator[Pool]:
    """A pool in this process, one talk at a time."""
    with ThreadPoolExecutor(1) as executor:
        yield Pool(executor, lambda: 2)


def deadly(job: Job) -> Outcome:
    """Drafts; but one talk ends its worker, as the system does with a process that takes too much memory."""
    if DEADLY.encode() in job.captions:
        os.kill(os.getpid(), signal.SIGKILL)
    return draft_one(job)
