"""The review page served by processes of their own, each forked from one that is warm.

`python -m tests.desk.serving DRAFT`: for each line read it forks a server and prints its process id, port and token.
"""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path


@dataclass(frozen=True)
class Served:
    """A server in a process of its own."""

    process: int
    port: int
    token: str

    def post(self, path: str, body: str) -> int:
        """The status of a change, asked as the page does. Raises OSError or HTTPException where the server dies."""
        connection = HTTPConnection("127.0.0.1", self.port, timeout=20)
        headers = {
            "origin": f"http://127.0.0.1:{self.port}",
            "content-type": "application/json",
            "x-desk-token": self.token,
        }
        try:
            connection.request("POST", f"/{self.token}/{path}", body, headers)
            return connection.getresponse().status
        finally:
            connection.close()

    def page(self, path: str) -> str:
        connection = HTTPConnection("127.0.0.1", self.port, timeout=20)
        try:
            connection.request("GET", f"/{self.token}/{path}")
            return connection.getresponse().read().decode()
        finally:
            connection.close()


@contextmanager
def servers(draft: Path) -> Iterator[Iterator[Served]]:
    """As many servers as are asked for, one after the other."""
    command = [sys.executable, "-m", "tests.desk.serving", str(draft)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as warm:
        assert warm.stdin and warm.stdout

        def new() -> Iterator[Served]:
            assert warm.stdin and warm.stdout
            while True:
                warm.stdin.write("one\n")
                warm.stdin.flush()
                process, port, token = warm.stdout.readline().split()
                yield Served(int(process), int(port), token)

        yield new()
        warm.stdin.close()


def main() -> None:
    """Fork servers until there is no more to read."""
    import uvicorn

    from stovescript.answers import Entry, answered, files_of, put, read_answers, read_heard
    from stovescript.desk.guard import Door
    from stovescript.desk.render import Lines, rendered
    from stovescript.desk.serve import _listening
    from stovescript.desk.shelf import shelf_of
    from stovescript.desk.site import Site, application
    from stovescript.desk.sitting import Sitting

    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    files = files_of(Path(sys.argv[1]))
    heard = read_heard(files.heard)
    answered(heard.draft, put(read_answers(files.answers), Entry("title", to="Warm"), heard.draft).entries)
    sitting = Sitting(files)
    rendered(sitting, sitting.now(), Lines())
    for number, _ in enumerate(sys.stdin):
        listening = _listening("127.0.0.1", 0)
        port = listening.getsockname()[1]
        token = f"token{number}"
        process = os.fork()
        if process == 0:
            site = Site(shelf_of(files.draft), Door(token, port))
            uvicorn.Server(uvicorn.Config(application(site), lifespan="off", log_level="error")).run([listening])
            os._exit(0)
        listening.close()
        print(process, port, token, flush=True)


if __name__ == "__main__":
    main()
