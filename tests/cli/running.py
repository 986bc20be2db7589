"""The command line as a cook runs it, in this process or in one of its own, and what it left behind."""

import io
import os
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest

from stovescript import cli
from tests.talk.reading import vtt

# All that a page needs is said, and nothing is cooked: no question is left.
DIP = vtt(
    "hi everybody today we're making white bean dip",
    "so add two cups of white beans to the bowl",
    "and then add three tablespoons of olive oil",
    "add half a teaspoon of salt and mash it all together",
    "it serves four people",
)

# Said at its end, it leaves one question that should be answered.
PROMISE = "\n00:00:10.000 --> 00:00:14.000\nand i'll put how to store it in the post so check the description\n"

_COLOURS = ("FORCE_COLOR", "CLICOLOR_FORCE", "PY_COLORS", "TTY_COMPATIBLE", "TTY_INTERACTIVE", "GITHUB_ACTIONS")


@dataclass(frozen=True)
class Ran:
    """The exit code and what was printed."""

    code: int
    out: str
    err: str


class Stovescript:
    """``stove("draft", "soup.vtt")``: one command, run in this process."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
        self._monkeypatch, self._capsys = monkeypatch, capsys
        for name in _COLOURS:
            monkeypatch.delenv(name, raising=False)

    def __call__(self, *arguments: str | Path, stdin: bytes = b"") -> Ran:
        self._capsys.readouterr()
        with self._monkeypatch.context() as patched:
            patched.setattr(sys, "argv", ["stovescript", *map(str, arguments)])
            patched.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin)))
            try:
                cli.main()
                code = 0
            except SystemExit as done:
                code = done.code if isinstance(done.code, int) else int(done.code is not None)
        return Ran(code, *self._capsys.readouterr())


def run(*arguments: str | Path, cwd: Path, stdin: bytes = b"") -> Ran:
    """One command in a process of its own, with no terminal."""
    return python("from stovescript.cli import main; main()", *arguments, cwd=cwd, stdin=stdin)


def python(code: str, *arguments: str | Path, cwd: Path, stdin: bytes = b"") -> Ran:
    """A Python process with that program and those arguments."""
    environment = {name: value for name, value in os.environ.items() if name not in _COLOURS}
    done = subprocess.run(
        [sys.executable, "-c", code, *map(str, arguments)], input=stdin, capture_output=True, cwd=cwd, env=environment
    )
    return Ran(done.returncode, done.stdout.decode(), done.stderr.decode())


def contents(folder: Path) -> Mapping[str, bytes | None]:
    """Everything under a folder: path → bytes, None for a folder."""
    return {
        str(path.relative_to(folder)): None if path.is_dir() else path.read_bytes()
        for path in sorted(folder.rglob("*"))
    }


@contextmanager
def untouched(folder: Path) -> Iterator[None]:
    """Fails where a file under the folder is made, changed or removed meanwhile."""
    before = contents(folder)
    yield
    assert contents(folder) == before


def one_line(ran: Ran) -> str:
    """The only line on standard error; fails where there is more, less, a traceback, or anything else printed."""
    assert ran.out == ""
    assert "Traceback" not in ran.err
    assert ran.err.endswith("\n") and ran.err.count("\n") == 1, ran.err
    return ran.err.removesuffix("\n")
