"""Where there is no terminal, progress is plain lines; on one, a bar with the pace and the time left."""

import io
import sys

import pytest

from stovescript.archive import progress as showing
from stovescript.archive.progress import progress


def test_plain_lines_tell_the_pace_and_the_time_left(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    clock = iter([0.0, 20.0, 30.0, 60.0])
    monkeypatch.setattr(showing.time, "monotonic", lambda: next(clock))
    with progress(3) as tick:
        tick(None)
        tick("a.vtt: the file is empty.")
        tick(None)
    out, err = capsys.readouterr()
    assert out == ""
    assert err.splitlines() == [
        "1 of 3 talks, 20.0 seconds each, 0:40 left",
        "a.vtt: the file is empty.",
        "2 of 3 talks, 15.0 seconds each, 0:15 left",
        "3 of 3 talks, 20.0 seconds each",
    ]


def test_lines_are_few(capsys: pytest.CaptureFixture[str]) -> None:
    with progress(5000) as tick:
        for _ in range(5000):
            tick(None)
    assert capsys.readouterr().err.count("\n") == 1


def test_a_terminal_gets_a_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    class Terminal(io.StringIO):
        def isatty(self) -> bool:
            return True

    monkeypatch.setattr(sys, "stderr", Terminal())
    monkeypatch.setenv("TERM", "xterm")
    with progress(2) as tick:
        tick(None)
        tick("[b]old[/b].vtt: the file is empty.")
    shown = sys.stderr.getvalue()  # type: ignore[attr-defined]
    assert "2/2" in shown and "[b]old[/b].vtt: the file is empty." in shown


def test_nothing_to_do_shows_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    with progress(0) as tick:
        assert callable(tick)
    assert capsys.readouterr() == ("", "")
