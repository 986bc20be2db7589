"""Where talks are drafted: processes of this machine, or the workers of a cluster, through one interface."""

import logging
import os
import signal
import sys
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, CancelledError, Executor, Future, wait
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stovescript.archive.work import Drafted, Failed, Job, Outcome, draft_one
from stovescript.errors import StovescriptError

if TYPE_CHECKING:
    from distributed import Client

_MOST_WORKERS = 61 if sys.platform == "win32" else 512  # as many as the system can wait for at once
_PATIENCE = 30  # seconds for a cluster to answer
_LOST = "The cluster was lost; run the same command again to go on."


@dataclass(frozen=True, slots=True)
class Pool:
    """An executor, and how many jobs keep all of its workers busy; `elsewhere` where they may run another program."""

    executor: Executor
    at_once: Callable[[], int]
    elsewhere: bool = False


OpenPool = Callable[[], AbstractContextManager[Pool]]


def processors() -> int:
    """The processors that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@contextmanager
def local(workers: int) -> Iterator[Pool]:
    """Processes of this machine. Each loads the model once, with its first talk, and ends with this one."""
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    executor = ProcessPoolExecutor(
        min(workers, _MOST_WORKERS), mp_context=get_context("spawn"), initializer=_be_a_worker
    )
    try:
        yield Pool(executor, lambda: 2 * workers)
    finally:
        executor.shutdown(wait=True, cancel_futures=True)


@contextmanager
def cluster(address: str) -> Iterator[Pool]:
    """The workers of the Dask scheduler at ADDRESS. Raises StovescriptError where none can be reached."""
    try:
        from distributed import Client
    except ImportError:
        raise StovescriptError(
            "--cluster needs the package distributed; install it with: pip install 'stovescript[cluster]'."
        ) from None
    for name in ("distributed", "distributed.client", "tornado.application"):
        logging.getLogger(name).setLevel(logging.CRITICAL)  # what goes wrong there is told in one sentence here
    try:
        client = Client(address, timeout=_PATIENCE, set_as_default=False)
    except (OSError, ValueError) as error:
        raise StovescriptError(
            f"{address}: no scheduler answers there ({str(error).splitlines()[0]}); check the address."
        ) from None
    try:
        try:
            client.wait_for_workers(1, timeout=_PATIENCE)
        except TimeoutError:
            raise StovescriptError(f"{address}: this scheduler has no workers; start one and run again.") from None
        try:
            yield Pool(client.get_executor(pure=False), lambda: _places(client), elsewhere=True)
        except OSError:
            raise StovescriptError(_LOST) from None
    finally:
        client.close()


def _places(client: "Client") -> int:
    """Jobs that keep the workers of a cluster busy; it may grow and shrink."""
    return max(2, 2 * int(sum(client.nthreads().values())))


def each_done(jobs: Iterable[Job], open_pool: OpenPool) -> Iterator[tuple[Job, Outcome]]:
    """The outcome of each job, in the order in which they are done; jobs are taken only when they can be begun.

    Where a worker process ends in mid-talk (short of memory, killed), the talks that were under way are drafted
    again one at a time, and only one that ends its worker again has failed.
    """
    waiting = iter(jobs)
    while True:
        lost: deque[Job] = deque()
        with open_pool() as pool:
            for job, outcome in _through(pool, waiting):
                if outcome is None:
                    lost.append(job)
                else:
                    yield job, outcome
        if not lost:
            return
        while lost:
            with open_pool() as pool:
                alone = replace(pool, at_once=lambda: 1)
                for job, outcome in _through(alone, _taken_from(lost)):
                    yield job, outcome or _ended(job)


def _taken_from(jobs: deque[Job]) -> Iterator[Job]:
    while jobs:
        yield jobs.popleft()


def _through(pool: Pool, jobs: Iterator[Job]) -> Iterator[tuple[Job, Outcome | None]]:
    """Jobs with their outcomes, until they are all done or the pool breaks; None for those lost with it."""
    under_way: dict[Future[Outcome], Job] = {}
    broken = False
    while True:
        while not broken and len(under_way) < pool.at_once():
            job = next(jobs, None)
            if job is None:
                break
            try:
                under_way[pool.executor.submit(draft_one, job)] = job
            except BrokenExecutor:
                broken = True
                yield job, None
        if not under_way:
            return
        for future in wait(under_way, return_when=FIRST_COMPLETED).done:
            job = under_way.pop(future)
            outcome = _outcome(future, job)
            if pool.elsewhere and isinstance(outcome, Drafted):
                _same_program(outcome)
            broken = broken or outcome is None
            yield job, outcome


def _outcome(future: "Future[Outcome]", job: Job) -> Outcome | None:
    try:
        return future.result()
    except BrokenExecutor:
        return None
    except CancelledError:
        raise StovescriptError(_LOST) from None
    except Exception as error:
        return _ended(job) if type(error).__name__ == "KilledWorker" else Failed(_fault(job, error), lasting=False)


def _ended(job: Job) -> Failed:
    return Failed(f"{job.path}: the process that drafted it was ended, perhaps short of memory.", lasting=False)


def _fault(job: Job, error: Exception) -> str:
    return f"{job.path}: its worker answered with a fault ({type(error).__name__}: {error})."


def _same_program(outcome: Drafted) -> None:
    """Raises StovescriptError for a draft by another version, as an outdated worker of a cluster makes it."""
    from stovescript.archive.fingerprint import program

    if outcome.program != program():
        raise StovescriptError(
            f"A worker runs stovescript {outcome.program} and this is {program()}; install the same everywhere."
        )


def _be_a_worker() -> None:
    """Leaves Ctrl-C to the run, and ends with it, even where it was killed."""
    from multiprocessing import parent_process
    from multiprocessing.connection import wait as wait_for

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = parent_process()
    if parent is None:
        return

    def end_with_it() -> None:
        wait_for([parent.sentinel])
        os._exit(1)

    threading.Thread(target=end_with_it, daemon=True).start()
