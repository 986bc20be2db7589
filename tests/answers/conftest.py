"""The command line, run in this process."""

import pytest

from tests.cli.running import Stovescript


@pytest.fixture
def stove(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Stovescript:
    return Stovescript(monkeypatch, capsys)
