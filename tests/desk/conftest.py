"""A review page to be tested: the demo drafted once, copied for each test, and tabs that ask as a browser does."""

import re
import shutil
from collections.abc import Callable
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from stovescript.answers import DraftFiles, read_answers
from stovescript.desk.guard import TOKEN_HEADER, Door
from stovescript.desk.shelf import shelf_of
from stovescript.desk.site import Site, application
from stovescript.drafting import written_draft
from stovescript.files import write_together
from tests.pages.demo import DEMO, demo_talk

TOKEN = "token-of-this-run"
PORT = 8123
HERE = f"http://127.0.0.1:{PORT}"
STEM = DEMO.stem


@pytest.fixture(scope="session")
def demo_files(tmp_path_factory: pytest.TempPathFactory) -> DraftFiles:
    """What `stovescript draft` writes for the demo."""
    files = DraftFiles(tmp_path_factory.mktemp("desk"), STEM)
    write_together(written_draft(demo_talk(), read_answers(files.answers), files)[1])
    return files


@pytest.fixture
def drafted(demo_files: DraftFiles, tmp_path: Path) -> DraftFiles:
    """The demo's files in a folder of this test's own."""
    folder = tmp_path / "drafts"
    shutil.copytree(demo_files.folder, folder)
    return DraftFiles(folder, STEM)


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
