"""`python -m tests.benchmark.archive`: an archive of made-up talks and of the annotated ones, on 1 and 2 processors.

Prints talks a second, how much of a second processor is put to use, the memory of a worker from talk 100 to the
last, and how the cost of a talk grows with its words. Figures are of this machine at this hour: nothing else
should be running.
"""

import argparse
import os
import random
import resource
import sqlite3
import tempfile
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import psutil  # type: ignore[import-untyped]

from stovescript.archive.pools import processors
from stovescript.archive.run import Summary, archive
from stovescript.archive.work import Drafted, Job, draft_one
from stovescript.kitchen.foods import foods
from stovescript.kitchen.tables import rows
from tests.accuracy.corpus import TALKS, captions, read_said
from tests.talk.reading import clock

SEED = 11
_SECONDS_PER_WORD = 0.35
_WORDS_PER_CUE = 9
_ADDED = (
    "so add {n} {unit} of {food} to the {vessel}",
    "and then you want about {n} {unit} of the {food}",
    "i've got {n} {unit} of {food} here and that goes in",
    "now i'm gonna {verb} the {food} for {minutes} minutes on medium heat",
    "some people put {food} in here but i don't",
    "if you don't have {food} you can use {food2}",
    "{verb} that until it smells good",
)
_CHAT = (
    "my neighbour called this morning and i told her to come by",
    "okay um where was i right",
    "it's been raining all week here and the kids are home",
    "don't rush this part you guys it's worth it",
    "i'll put the rest in the post so check the description",
)
_NUMBERS = ("a", "one", "two", "three", "half a", "one and a half", "a quarter")


def made_up(chance: random.Random, words: int) -> str:
    """A talk of about that many words from the kitchen's tables: foods, units, vessels and verbs at random."""
    food = list(foods())
    units = [row["name"] for row in rows("units") if row["dimension"] in ("volume", "mass")]
    vessels = [row["name"] for row in rows("vessels")]
    verbs = [row["verb"] for row in rows("actions") if row["kind"] in ("cook", "heat", "combine", "cut")]
    said = f"hi everybody today we're making {chance.choice(food)} soup".split()
    while len(said) < words:
        pattern = chance.choice(_ADDED if chance.random() < 0.6 else _CHAT)
        filled = pattern.format(
            n=chance.choice(_NUMBERS),
            unit=chance.choice(units),
            food=chance.choice(food),
            food2=chance.choice(food),
            vessel=chance.choice(vessels),
            verb=chance.choice(verbs),
            minutes=chance.choice(("five", "ten", "twenty")),
        )
        said += filled.split()
    cues = (said[start : start + _WORDS_PER_CUE] for start in range(0, len(said), _WORDS_PER_CUE))
    step = _WORDS_PER_CUE * _SECONDS_PER_WORD
    return "WEBVTT\n\n" + "\n\n".join(
        f"{clock(number * step)} --> {clock((number + 1) * step)}\n{' '.join(cue)}" for number, cue in enumerate(cues)
    )


def annotated(folder: Path) -> int:
    """Writes the captions of the open talks, and returns how many."""
    paths = sorted((TALKS / "open").glob("*.said"))
    for path in paths:
        ending, text = captions(read_said(path))
        (folder / f"{path.stem}.{ending.removeprefix('.')}").write_text(text, encoding="utf-8")
    return len(paths)


@dataclass
class Memory:
    """Megabytes of the largest worker and of the run itself, by talks done."""

    drafts: Path
    seen: list[tuple[int, float, float]] = field(default_factory=list)
    ended: threading.Event = field(default_factory=threading.Event)

    def watch(self) -> None:
        own = psutil.Process()
        while not self.ended.wait(0.5):
            done = sum(path.suffix == ".md" for path in self.drafts.iterdir()) if self.drafts.exists() else 0
            workers = [size for child in own.children(recursive=True) if (size := _megabytes(child))]
            self.seen.append((done, max(workers, default=0.0), _megabytes(own)))

    def at(self, talks: int) -> tuple[float, float]:
        """The largest worker and the run when that many talks were done."""
        return next(((worker, own) for done, worker, own in self.seen if done >= talks), self.seen[-1][1:])


def _megabytes(process: psutil.Process) -> float:
    try:
        return float(process.memory_info().rss) / 1e6
    except psutil.NoSuchProcess:
        return 0.0


@dataclass(frozen=True)
class Timed:
    """One run: its seconds, those of a processor, what it did, the words it read, and the memory meanwhile."""

    seconds: float
    processor: float
    done: Summary
    words: int
    memory: Memory


def timed(folder: Path, workers: int) -> Timed:
    with tempfile.TemporaryDirectory() as place:
        out = Path(place) / "out"
        memory = Memory(out / "drafts")
        watching = threading.Thread(target=memory.watch)
        watching.start()
        started, used = time.perf_counter(), _processor_seconds()
        done = archive(folder, out, workers)
        seconds = time.perf_counter() - started
        memory.ended.set()
        watching.join()
        kept = sqlite3.connect(out / "archive.sqlite")
        (words,) = kept.execute("SELECT sum(words) FROM talks WHERE state = 'drafted'").fetchone()
        kept.close()
    return Timed(seconds, _processor_seconds() - used, done, words, memory)


def _processor_seconds() -> float:
    """Of this process and of its workers that have ended."""
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(each.ru_utime + each.ru_stime for each in used)


def report(name: str, folder: Path) -> dict[int, Timed]:
    """Prints talks a second on 1 and 2 processors."""
    runs = {workers: timed(folder, workers) for workers in (1, 2)}
    for workers, run in runs.items():
        talks, words = run.done.drafted, run.words
        print(
            f"{name}, {workers} worker{'s' if workers > 1 else ' '}: {run.seconds:6.1f} s for {talks} talks of "
            f"{words / talks:.0f} words; {talks / run.seconds:5.2f} talks/s, {words / run.seconds:6.0f} words/s, "
            f"as many as {words / run.seconds / 2000:.2f} talks of 2,000 words/s; {run.processor:.0f} s of a processor"
        )
    print(
        f"{name}: scaling efficiency from 1 to 2: {runs[1].seconds / runs[2].seconds / 2:.0%}; "
        f"the processor's seconds alone would give {runs[1].processor / runs[2].processor:.0%}"
    )
    return runs


def fit(name: str, folder: Path) -> None:
    """Prints the straight line through the processor's seconds of each talk, and how much a bend would add."""
    pairs = []
    for path in sorted(folder.iterdir()):
        job = Job(path.name, path.name, path.read_bytes(), path.stem)
        started = time.process_time()
        outcome = draft_one(job)
        if isinstance(outcome, Drafted):
            pairs.append((float(outcome.rows.talk["words"] or 0), time.process_time() - started))
    words, took = np.array(pairs[1:]).T  # the first also loads the model
    left = {}
    for degree in (2, 1):
        line = np.polyfit(words, took, degree)
        left[degree] = float(((took - np.polyval(line, words)) ** 2).sum())
    spread = float(((took - took.mean()) ** 2).sum())
    print(
        f"{name}: {line[1] * 1000:.0f} ms + {line[0] * 1e6:.0f} µs of a processor a word "
        f"({words.min():.0f} to {words.max():.0f} words); "
        f"a straight line explains {1 - left[1] / spread:.1%} of the spread, a bent one {1 - left[2] / spread:.1%}"
    )


def growth(run: Timed, first: int, last: int) -> None:
    """Prints the memory of a worker and of the run itself at some talks."""
    for talks in (first, (first + last) // 2, last):
        worker, own = run.memory.at(talks)
        print(f"at talk {talks:>5}: worker {worker:4.0f} MB, run {own:4.0f} MB")
    (worker, own), (worker_after, own_after) = run.memory.at(first), run.memory.at(last)
    print(f"growth: worker {worker_after / worker - 1:+.1%}, run {own_after / own - 1:+.1%}")


def spreads(chance: random.Random, lengths: tuple[int, ...], folder: Path) -> Iterator[Path]:
    """Writes talks of growing length."""
    for number, words in enumerate(lengths):
        path = folder / f"{number:04}.vtt"
        path.write_text(made_up(chance, words), encoding="utf-8")
        yield path


def main() -> None:
    """Print the figures."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--talks", type=int, default=1000)
    options.add_argument("--words", type=int, default=200)
    given = options.parse_args()
    print(f"{processors()} processors, of which {os.getloadavg()[0]:.1f} were in use by others before")
    chance = random.Random(SEED)
    with tempfile.TemporaryDirectory() as place:
        many, fixtures, longer = (Path(place) / name for name in ("many", "annotated", "longer"))
        for folder in (many, fixtures, longer):
            folder.mkdir()
        list(spreads(chance, (given.words,) * given.talks, many))
        list(spreads(chance, (250, 500, 1000, 2000, 4000, 8000) * 3, longer))
        annotated(fixtures)
        runs = report("made-up talks", many)
        growth(runs[2], given.talks // 10, given.talks)
        report("annotated talks", fixtures)
        fit("made-up talks of growing length", longer)


if __name__ == "__main__":
    main()
