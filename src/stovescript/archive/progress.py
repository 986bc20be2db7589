"""How far a run is: a bar on a terminal, a plain line now and then elsewhere."""

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from stovescript.talk.clock import clock_of

Tick = Callable[[str | None], None]
"""To be called for each talk that is done, with the sentence of one that failed."""

_EVERY = 10.0  # seconds between two plain lines


@contextmanager
def progress(total: int) -> Iterator[Tick]:
    """Shows on standard error how many of TOTAL talks are done, how many a second, and the time left."""
    if not total:
        yield lambda failed: None
    elif sys.stderr is not None and sys.stderr.isatty():
        with _bar(total) as tick:
            yield tick
    else:
        yield _lines(total)


@contextmanager
def _bar(total: int) -> Iterator[Tick]:
    from rich.console import Console
    from rich.markup import escape
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, ProgressColumn, Task, TextColumn
    from rich.text import Text

    class Rate(ProgressColumn):
        """Talks a second, and the time left."""

        def render(self, task: Task) -> Text:
            return Text(_pace(task.finished_speed or task.speed, task.remaining))

    columns = (TextColumn("Drafting"), BarColumn(), MofNCompleteColumn(), Rate())
    with Progress(*columns, console=Console(stderr=True, highlight=False)) as shown:
        task = shown.add_task("", total=total)

        def tick(failed: str | None) -> None:
            if failed:
                shown.console.print(f"[yellow]{escape(failed)}[/yellow]", soft_wrap=True)
            shown.advance(task)

        yield tick


def _lines(total: int) -> Tick:
    started = said = time.monotonic()
    done = 0

    def tick(failed: str | None) -> None:
        nonlocal done, said
        done += 1
        if failed:
            print(failed, file=sys.stderr)
        now = time.monotonic()
        if done == total or now - said >= _EVERY:
            said = now
            pace = _pace(done / max(now - started, 1e-9), total - done)
            print(f"{done} of {total} talks, {pace}", file=sys.stderr, flush=True)

    return tick


def _pace(rate: float | None, left: float | None) -> str:
    """ "8.3 a second, 2:05 left"; less where it is not known yet."""
    if not rate:
        return ""
    pace = f"{rate:.1f} a second" if rate >= 1 else f"{1 / rate:.1f} seconds each"
    return f"{pace}, {clock_of(left / rate)} left" if left else pace
