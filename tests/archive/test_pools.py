"""Workers that end in mid-talk cost no more than their talk: processes of this machine, and of a cluster."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import Any

import psutil  # type: ignore[import-untyped]
import pytest

from stovescript.archive import pools, run
from stovescript.archive.pools import cluster, each_done, local
from stovescript.archive.run import archive
from stovescript.archive.work import Drafted, Failed, Job
from stovescript.errors import StovescriptError
from tests.archive.talks import COCOA, DEADLY, SOUP, deadly, laid_out
from tests.cli.running import DIP, contents
from tests.talk.reading import vtt

POSIX = pytest.mark.skipif(sys.platform == "win32", reason="needs POSIX signals")


def job(name: str, text: str) -> Job:
    return Job(name, name, text.encode(), Path(name).stem)


@POSIX
def test_a_talk_that_ends_its_worker_fails_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pools, "draft_one", deadly)
    jobs = [job("a.vtt", DIP), job("b.vtt", vtt(DEADLY)), job("c.vtt", SOUP), job("d.vtt", COCOA), job("e.vtt", DIP)]
    outcomes = {done.path: outcome for done, outcome in each_done(jobs, partial(local, 2))}
    assert outcomes["b.vtt"] == Failed(
        "b.vtt: the process that drafted it was ended, perhaps short of memory.", lasting=False
    )
    assert [type(outcomes[path]) for path in ("a.vtt", "c.vtt", "d.vtt", "e.vtt")] == [Drafted] * 4


def test_jobs_are_taken_only_when_they_can_be_begun() -> None:
    """The captions of ten years are not in memory at once."""
    taken: list[str] = []

    def jobs() -> Iterator[Job]:
        for number in range(9):
            taken.append(str(number))
            yield job(f"{number}.vtt", DIP)

    from tests.archive.talks import here

    for done, (_, outcome) in enumerate(each_done(jobs(), partial(here, 1)), 1):
        assert isinstance(outcome, Drafted)
        assert len(taken) <= done + 2


@POSIX
def test_workers_end_with_a_run_that_is_killed(tmp_path: Path) -> None:
    folder = laid_out(tmp_path / "talks", {f"{n}.vtt": SOUP for n in range(200)})
    ran = subprocess.Popen(
        [sys.executable, "-m", "stovescript", "archive", folder, "--out", tmp_path / "out", "--workers", "1"],
        stderr=subprocess.DEVNULL,
    )
    page = tmp_path / "out" / "drafts" / "0.md"
    _until(page.exists)
    workers = _children(ran.pid)
    assert workers
    ran.kill()
    ran.wait()
    _until(lambda: not any(_lives(pid) for pid in workers))


def _children(pid: int) -> list[int]:
    return [child.pid for child in psutil.Process(pid).children(recursive=True)]


def _lives(pid: int) -> bool:
    try:
        return bool(psutil.Process(pid).status() != psutil.STATUS_ZOMBIE)
    except psutil.NoSuchProcess:
        return False


def _until(true: Any, seconds: float = 30) -> None:
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end
        time.sleep(0.05)


@pytest.fixture(scope="module")
def scheduler() -> Iterator[Any]:
    """A real Dask cluster of two worker processes."""
    distributed = pytest.importorskip("distributed")
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=60
    ) as made:
        yield made


pytestmark = pytest.mark.filterwarnings(
    "ignore::DeprecationWarning", "ignore::ResourceWarning", "ignore::pytest.PytestUnraisableExceptionWarning"
)


@POSIX
def test_a_cluster_drafts_the_same_and_outlives_a_killed_worker(
    scheduler: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    talks = {f"{n}.vtt": (DIP, SOUP, COCOA)[n % 3] for n in range(24)}
    folder = laid_out(tmp_path / "talks", talks)
    pids = scheduler.scheduler.workers
    first = [worker.process.pid for worker in scheduler.workers.values()]
    assert len(pids) == len(first) == 2
    written = run.write_together
    done: list[Path] = []

    def killing(files: dict[Path, str]) -> None:
        written(files)
        done.extend(files)
        if len(done) == 15:  # five talks of three files
            os.kill(first[0], signal.SIGKILL)

    monkeypatch.setattr(run, "write_together", killing)
    monkeypatch.setattr(pools, "_same_program", lambda outcome: None)  # code may be edited while this runs
    made = archive(folder, tmp_path / "cluster", scheduler=scheduler.scheduler_address)
    assert (made.drafted, made.failed) == (24, 0)
    assert not _lives(first[0])
    monkeypatch.undo()
    archive(folder, tmp_path / "here", workers=2)
    assert contents(tmp_path / "cluster" / "drafts") == contents(tmp_path / "here" / "drafts")


def test_a_worker_of_another_version_is_refused(
    scheduler: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("stovescript.archive.fingerprint.program", lambda: "0.0.1+older")
    folder = laid_out(tmp_path / "talks", {"dip.vtt": DIP})
    with pytest.raises(StovescriptError, match="install the same everywhere"):
        archive(folder, tmp_path / "out", scheduler=scheduler.scheduler_address)


@pytest.mark.parametrize("address", ["tcp://127.0.0.1:9", "no such thing"])
def test_a_scheduler_that_does_not_answer_is_told(address: str, monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("distributed")
    monkeypatch.setattr(pools, "_PATIENCE", 1)
    with pytest.raises(StovescriptError, match="no scheduler answers there"), cluster(address):
        pass


def test_a_cluster_without_the_package_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    with pytest.raises(StovescriptError, match=r"pip install 'stovescript\[cluster\]'"), cluster("tcp://x:1"):
        pass
