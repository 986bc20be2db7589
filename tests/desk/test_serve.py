"""`stovescript desk` as a command: where it listens, what it prints, and what it refuses in one sentence."""

import re
import signal
import socket
import subprocess
import sys
from http.client import HTTPConnection
from pathlib import Path

import pytest

from stovescript.answers import DraftFiles
from stovescript.desk.serve import serve
from stovescript.errors import StovescriptError


def test_it_listens_on_this_machine_under_a_new_token_and_ends_with_ctrl_c(drafted: DraftFiles) -> None:
    tokens = set()
    for _ in range(2):
        command = [sys.executable, "-m", "stovescript", "desk", str(drafted.folder), "--no-browser"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as server:
            assert server.stdout and server.stderr
            found = re.fullmatch(
                r"The review page is at http://127\.0\.0\.1:(\d+)/([\w-]{32})/\n", server.stdout.readline()
            )
            assert found
            tokens.add(found[2])
            page = HTTPConnection("127.0.0.1", int(found[1]), timeout=20)
            page.request("GET", f"/{found[2]}/")
            answer = page.getresponse()
            assert answer.status == 200 and answer.getheader("server") is None
            assert "tortilla-soup" in answer.read().decode()
            page.close()
            server.send_signal(signal.SIGINT)
            assert server.wait(20) == 0
            assert server.stderr.read() == ""
    assert len(tokens) == 2


def test_a_port_that_is_taken_is_told(drafted: DraftFiles) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(StovescriptError, match=f"127.0.0.1:{port}: can't be listened at .* another --port"):
            serve(drafted.draft, None, "127.0.0.1", port, open_browser=False)


def test_a_recording_belongs_to_one_draft(drafted: DraftFiles) -> None:
    with pytest.raises(StovescriptError, match="belongs to one draft"):
        serve(drafted.folder, Path("talk.mp4"), "127.0.0.1", 0, open_browser=False)


def test_a_recording_that_is_not_there_is_told(drafted: DraftFiles) -> None:
    with pytest.raises(StovescriptError, match="no such file"):
        serve(drafted.draft, Path("talk.mp4"), "127.0.0.1", 0, open_browser=False)


def test_a_draft_without_its_talk_is_told_before_anything_is_served(drafted: DraftFiles) -> None:
    drafted.heard.unlink()
    with pytest.raises(StovescriptError, match="run stovescript draft again"):
        serve(drafted.draft, None, "127.0.0.1", 0, open_browser=False)
