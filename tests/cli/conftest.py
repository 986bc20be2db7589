"""What the command line's tests share: a way to run it, and the demo drafted once by its own process."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.cli.running import DIP, Ran, Stovescript, run
from tests.pages.demo import DEMO


@pytest.fixture
def stove(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Stovescript:
    return Stovescript(monkeypatch, capsys)


@pytest.fixture
def dip(tmp_path: Path) -> Path:
    """The captions of a small complete talk, alone in a folder."""
    file = tmp_path / "dip.vtt"
    file.write_text(DIP, encoding="utf-8")
    return file


@dataclass(frozen=True)
class Drafted:
    """The demo's draft as its own process wrote it into a new nested folder."""

    ran: Ran
    out: Path

    @property
    def data(self) -> Path:
        return self.out / f"{DEMO.stem}.draft.json"

    @property
    def page(self) -> Path:
        return self.out / f"{DEMO.stem}.md"


@pytest.fixture(scope="session")
def drafted(tmp_path_factory: pytest.TempPathFactory) -> Drafted:
    folder = tmp_path_factory.mktemp("demo")
    return Drafted(run("draft", DEMO, "--out", "new/nested", cwd=folder), folder / "new" / "nested")
