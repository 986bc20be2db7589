"""`python -m tests.benchmark [TALK]`: seconds and megabytes of the command line, and words a second inside."""

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from stovescript.drafting import draft_file, draft_talk
from stovescript.pages.forms import Publication
from stovescript.pages.publish import written
from stovescript.speech.listen import listen
from stovescript.talk import Talk, Word, read_talk

DEMO = Path(__file__).parents[2] / "fixtures" / "demo" / "chicken-tortilla-soup.vtt"


def stretched(talk: Talk, minutes: float) -> Talk:
    """The talk repeated until it lasts that long."""
    words: list[Word] = []
    while not words or words[-1].end < minutes * 60:
        shift = words[-1].end + 1 if words else 0.0
        words += [Word(w.text, w.start + shift, w.end + shift) for w in talk.words]
    kept = tuple(word for word in words if word.end <= minutes * 60)
    return Talk(talk.file, talk.sha256, kept[-1].end, kept, ())


def as_captions(talk: Talk) -> str:
    """The talk as SubRip, ten words a block."""
    blocks = []
    for number, start in enumerate(range(0, len(talk.words), 10), 1):
        part = talk.words[start : start + 10]
        text = " ".join(word.text for word in part)
        blocks.append(f"{number}\n{_clock(part[0].start)} --> {_clock(part[-1].end)}\n{text}\n")
    return "\n".join(blocks)


def _clock(seconds: float) -> str:
    thousandths = round(seconds * 1000)
    whole = thousandths // 1000
    return f"{whole // 3600:02}:{whole // 60 % 60:02}:{whole % 60:02},{thousandths % 1000:03}"


def run(*arguments: str) -> tuple[float, float]:
    """Seconds and peak megabytes of one whole process."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    started = time.perf_counter()
    usual = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    subprocess.run([sys.executable, "-m", "stovescript", *arguments], check=False, capture_output=True, env=usual)
    seconds = time.perf_counter() - started
    return seconds, max(before, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss) / 1024


def main() -> None:
    """Print the figures."""
    talk = stretched(read_talk(sys.argv[1] if len(sys.argv) > 1 else DEMO), 15)
    print(f"a talk of {talk.seconds / 60:.0f} minutes, {len(talk.words)} words")
    for name, arguments in (("--help", ["--help"]), ("schema", ["schema"])):
        print(f"stovescript {name:<22} {min(run(*arguments)[0] for _ in range(3)):6.2f} s")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "talk.srt"
        path.write_text(as_captions(talk), encoding="utf-8")
        seconds, megabytes = min(run("draft", str(path), "--out", folder) for _ in range(3))
    print(f"stovescript draft, whole process {seconds:6.2f} s, {megabytes:.0f} MB at most")
    publication = Publication(draft_file(DEMO), DEMO.stem, "https://video.example/soup", read_talk(DEMO))
    for when in ("first", "again"):
        started = time.perf_counter()
        files = written(publication)
        print(f"writing {len(files)} files of the demo, {when:<5}{time.perf_counter() - started:5.2f} s")
    listen(talk)
    started = time.perf_counter()
    listen(talk)
    heard = time.perf_counter() - started
    started = time.perf_counter()
    draft_talk(talk)
    whole = time.perf_counter() - started
    print(
        f"hearing {len(talk.words) / heard:8.0f} words/s; hearing and drafting {len(talk.words) / whole:8.0f} words/s"
    )


if __name__ == "__main__":
    main()
