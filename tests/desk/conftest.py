"""A review page to be tested: a talk as heard, drafted for each test, and tabs that ask as a browser does."""

import re
from collections.abc import Callable
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from stovescript.answers import DraftFiles, answered, heard_text, read_heard
from stovescript.desk.guard import TOKEN_HEADER, Door
from stovescript.desk.shelf import shelf_of
from stovescript.desk.site import Site, application
from stovescript.files import write_together

TOKEN = "token-of-this-run"
PORT = 8123
HERE = f"http://127.0.0.1:{PORT}"
STEM = "tortilla-soup"
HEARD = Path(__file__).with_name(f"{STEM}.heard.json")
"""Kept, so that what is tested here does not follow every change in how talks are heard."""


@pytest.fixture
def drafted(tmp_path: Path) -> DraftFiles:
    """What `stovescript draft` once wrote for the demo talk, in a folder of this test's own."""
    files = DraftFiles(tmp_path / "drafts", STEM)
    heard = read_heard(HEARD)
    write_together({**files.written(answered(heard.draft, ())), files.heard: heard_text(heard)})
    return files


class Tab:
    """One tab of the browser: it knows the edition that it shows, and asks as the page's script does."""

    def __init__(self, client: TestClient, name: str = STEM) -> None:
        self.client, self.name = client, name
        page = client.get(f"/{TOKEN}/drafts/{name}")
        assert page.status_code == 200, page.text
        self.html = page.text
        self.edition = re.findall(r'data-edition="([^"]+)"', page.text)[0]

    def ask(self, path: str, **wish: Any) -> Any:
        """A POST with this tab's edition, which is then the new one."""
        answer = self.client.post(
            f"/{TOKEN}/{path}/{self.name}",
            json={"edition": self.edition, **wish},
            headers={"origin": HERE, TOKEN_HEADER: TOKEN},
        )
        data = answer.json()
        if answer.status_code == 200:
            self.edition = data["edition"]
        return {"status": answer.status_code, **data}

    def text(self, piece: str, answer: Any) -> str:
        """A piece of an answer as a reader sees it."""
        return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer["pieces"][piece])).split())


@pytest.fixture
def site(drafted: DraftFiles) -> Site:
    return Site(shelf_of(drafted.draft), Door(TOKEN, PORT))


@pytest.fixture
def client(site: Site) -> TestClient:
    return client_of(site)


def client_of(site: Site) -> TestClient:
    """What talks to a site as a browser on this machine does."""
    return TestClient(application(site), base_url=HERE, follow_redirects=False, raise_server_exceptions=False)


@pytest.fixture
def tab(client: TestClient) -> Tab:
    return Tab(client)


NewTab = Callable[[], Tab]


@pytest.fixture
def new_tab(client: TestClient) -> NewTab:
    return lambda: Tab(client)
