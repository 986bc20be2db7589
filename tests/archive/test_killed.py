"""A run that is killed (SIGKILL, which no program can catch) leaves whole files, and the next one goes on."""

import csv
import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest

from stovescript.answers import read_heard
from stovescript.draft_file import read_draft
from stovescript.pages.markdown import draft_page
from tests.archive.talks import COCOA, SOUP, laid_out
from tests.cli.running import DIP, contents

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs SIGKILL")
TIMES = 20


def started(folder: Path, out: Path) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-m", "stovescript", "archive", folder, "--out", out, "--workers", "1"]
    return subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def is_whole(path: Path) -> bool:
    """True for a file that ends as its kind ends and says what its kind says."""
    if path.name.endswith(".draft.json"):
        return bool(read_draft(path).steps)
    if path.name.endswith(".heard.json"):
        return bool(read_heard(path).clauses)
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".html":
        return text.startswith("<!doctype html>") and text.endswith("</html>\n")
    if path.suffix == ".csv":
        rows = list(csv.reader(text.splitlines()))
        return len({len(row) for row in rows}) == 1
    return text.startswith("# ") and text.endswith("\n") and "## Questions for the cook" in text


def test_killed_at_twenty_moments_it_goes_on_each_time(tmp_path: Path) -> None:
    """The moments are drawn from the length of a whole run; before each, half the captions change, to make work."""
    chance = random.Random(7)
    talks = {f"{n % 3}/{n}.vtt": (DIP, SOUP, COCOA)[n % 3] for n in range(12)}
    folder, out = laid_out(tmp_path / "talks", talks), tmp_path / "out"
    begun = time.monotonic()
    assert started(folder, tmp_path / "first").wait() == 0
    length = time.monotonic() - begun
    killed = 0
    for turn in range(TIMES):
        for name in chance.sample(sorted(talks), 6):
            talks[name] = talks[name] + f"\nNOTE changed {turn}\n"
        laid_out(folder, talks)
        ran = started(folder, out)
        time.sleep(chance.uniform(0.3, 1.0) * length)
        ran.kill()
        killed += ran.wait() == -signal.SIGKILL
        visible = [path for path in out.rglob("*") if path.is_file() and not path.name.startswith((".", "archive."))]
        assert [path for path in visible if not is_whole(path)] == []
        if (out / "archive.sqlite").exists():
            with sqlite3.connect(out / "archive.sqlite") as manifest:
                assert manifest.execute("PRAGMA integrity_check").fetchone() == ("ok",)
            manifest.close()
    assert killed >= TIMES / 2
    assert started(folder, out).wait() == 0
    assert [path for path in out.rglob("*") if path.name.endswith((".part", "-journal"))] == []
    for path in out.rglob("*.draft.json"):
        assert draft_page(read_draft(path)) == path.with_name(path.name.replace(".draft.json", ".md")).read_text()
    fresh = tmp_path / "fresh"
    assert started(folder, fresh).wait() == 0
    assert contents(out / "drafts") == contents(fresh / "drafts")
    for name in ("ingredients", "settings", "gaps", "duplicates"):
        assert (out / "tables" / f"{name}.csv").read_bytes() == (fresh / "tables" / f"{name}.csv").read_bytes()


def test_the_lock_of_a_killed_run_is_no_lock(tmp_path: Path) -> None:
    folder, out = laid_out(tmp_path / "talks", {f"{n}.vtt": SOUP for n in range(20)}), tmp_path / "out"
    ran = started(folder, out)
    while not (out / "drafts" / "0.md").exists():
        assert ran.poll() is None
        time.sleep(0.02)
    second = subprocess.run(
        [sys.executable, "-m", "stovescript", "archive", folder, "--out", out], capture_output=True, text=True
    )
    assert second.returncode == 2
    assert second.stderr.count("\n") == 1 and "another run is using this archive" in second.stderr
    os.kill(ran.pid, signal.SIGKILL)
    ran.wait()
    assert started(folder, out).wait() == 0
