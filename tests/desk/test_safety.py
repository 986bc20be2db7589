"""What must not get in or out: other sites, other names, other files, too much, and a talk that is no text.

Outside the project: OWASP's cheat sheets on cross-site request forgery and DNS rebinding, W3C Fetch Metadata, and
RFC 9110 (range requests).
"""

import json
import os
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from stovescript.answers import DraftFiles
from stovescript.desk.guard import LARGEST, TOKEN_HEADER, Door
from stovescript.desk.shelf import NotHere, Shelf, shelf_of
from stovescript.desk.site import Site, media_of
from stovescript.errors import StovescriptError
from tests.desk.conftest import HERE, PORT, STEM, TOKEN, Tab, client_of

OURS = {"origin": HERE, "content-type": "application/json", TOKEN_HEADER: TOKEN}


@pytest.mark.parametrize(
    "host", ["evil.example", f"evil.example:{PORT}", "127.0.0.1", "127.0.0.1:1", "", "localhost."]
)
def test_another_name_is_refused(client: TestClient, host: str) -> None:
    """DNS rebinding: the browser asks 127.0.0.1, but under another site's name."""
    assert client.get(f"/{TOKEN}/drafts/{STEM}", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("host", [f"127.0.0.1:{PORT}", f"localhost:{PORT}", f"LOCALHOST:{PORT}", f"[::1]:{PORT}"])
def test_this_machine_s_names_are_let_in(client: TestClient, host: str) -> None:
    assert client.get(f"/{TOKEN}/drafts/{STEM}", headers={"host": host}).status_code == 200


def test_on_a_network_any_address_is_let_in_but_no_name() -> None:
    door = Door(TOKEN, PORT, frozenset({"kitchen"}), any_address=True)
    assert door.knows(f"192.0.2.7:{PORT}") and door.knows(f"kitchen:{PORT}")
    assert not door.knows(f"evil.example:{PORT}")


@pytest.mark.parametrize("token", ["", "x", TOKEN[:-1], TOKEN + "x", TOKEN.upper(), "%00", "é"])
def test_without_the_token_nothing_is_shown(client: TestClient, token: str) -> None:
    for path in ("", f"/drafts/{STEM}", f"/state/{STEM}", "/static/desk.js", "/media"):
        answer = client.get(f"/{token}{path}")
        assert answer.status_code == 403 and "cumin" not in answer.text


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:1"},
        {"origin": f"https://127.0.0.1:{PORT}"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
        {TOKEN_HEADER: "another"},
        {"content-type": "text/plain"},
        {"content-type": "application/x-www-form-urlencoded"},
    ],
    ids=str,
)
def test_another_site_s_post_changes_nothing(tab: Tab, drafted: DraftFiles, headers: dict[str, str]) -> None:
    body = json.dumps({"edition": tab.edition, "do": "title", "to": "Taken"})
    answer = tab.client.post(f"/{TOKEN}/change/{STEM}", content=body, headers={**OURS, **headers})
    assert answer.status_code in (403, 415)
    assert not drafted.answers.exists()


@pytest.mark.parametrize("missing", ["origin", TOKEN_HEADER])
def test_a_post_without_its_marks_changes_nothing(tab: Tab, drafted: DraftFiles, missing: str) -> None:
    headers = {name: value for name, value in OURS.items() if name != missing}
    body = json.dumps({"edition": tab.edition, "do": "title", "to": "Taken"})
    assert tab.client.post(f"/{TOKEN}/change/{STEM}", content=body, headers=headers).status_code == 403
    assert not drafted.answers.exists()


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_no_other_method_is_known(client: TestClient, method: str) -> None:
    assert client.request(method, f"/{TOKEN}/change/{STEM}").status_code == 405


def test_a_change_is_not_made_by_following_a_link(client: TestClient, drafted: DraftFiles) -> None:
    assert client.get(f"/{TOKEN}/undo/{STEM}").status_code == 404
    assert client.get(f"/{TOKEN}/change/{STEM}?do=title&to=Taken").status_code == 404
    assert not drafted.answers.exists()


def test_too_much_is_refused_with_and_without_a_length(tab: Tab) -> None:
    long = json.dumps({"edition": tab.edition, "do": "title", "to": "x" * LARGEST}).encode()
    assert tab.client.post(f"/{TOKEN}/change/{STEM}", content=long, headers=OURS).status_code == 413
    parts = (long[at : at + 1000] for at in range(0, len(long), 1000))
    assert tab.client.post(f"/{TOKEN}/change/{STEM}", content=parts, headers=OURS).status_code == 413


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"[]",
        b"null",
        b'{"edition": 1}',
        b'{"edition": "x", "do": "title", "to": ["a"]}',
        b'{"edition": "x", "do": "title", "to": "a", "path": "/etc"}',
        b'{"edition": "x", "do": "title", "to": "\\ud800"}',
        b'{"edition": "x", "do": "title", "to": "a\\u0000b"}',
        b'{"edition": "x", "do": "title", "to": "\\u001b[31m"}',
        b"\xff\xfe",
        b"[" * 5000,
    ],
)
def test_what_is_no_change_is_refused_in_one_sentence(tab: Tab, drafted: DraftFiles, body: bytes) -> None:
    answer = tab.client.post(f"/{TOKEN}/change/{STEM}", content=body, headers=OURS)
    assert answer.status_code == 422 and answer.json()["sentence"].endswith(".")
    assert not drafted.answers.exists()


NAMES = [
    "../secret",
    "..%2fsecret",
    "%2e%2e/secret",
    "%2e%2e%2fsecret",
    "..%5csecret",
    "/secret",
    "//secret",
    "%2fsecret",
    "./secret",
    "inner/../../secret",
    "inner/%2e%2e/%2e%2e/secret",
    "secret%00",
    ".hidden",
    "inner/.hidden",
    "link",
    "outside/secret",
    "C:%5csecret",
    "",
]


@pytest.fixture
def folder(drafted: DraftFiles) -> Path:
    """A folder with drafts, links that lead out of it, and a draft beside it that nobody may see."""
    inside = drafted.folder
    outside = inside.parent
    (inside / "inner").mkdir()
    for place, stem in ((outside, "secret"), (inside, ".hidden"), (inside / "inner", ".hidden")):
        for file in (drafted.draft, drafted.heard):
            text = file.read_text(encoding="utf-8").replace("cumin", "hidden")
            (place / file.name.replace(STEM, stem)).write_text(text, encoding="utf-8")
    os.symlink(outside / "secret.draft.json", inside / "link.draft.json")
    os.symlink(outside / "secret.heard.json", inside / "link.heard.json")
    os.symlink(outside, inside / "outside")
    return inside


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("kind", ["drafts", "state", "edition", "edit/i9"])
def test_no_file_outside_the_folder_is_shown(folder: Path, name: str, kind: str) -> None:
    client = client_of(Site(shelf_of(folder), Door(TOKEN, PORT)))
    answer = client.get(f"/{TOKEN}/{kind}/{name}")
    assert answer.status_code in (403, 404), "a client may tidy the path before it asks: then the token is gone"
    assert "hidden" not in answer.text.replace(".hidden", "")


@pytest.mark.parametrize(
    "name", ["../secret", "/etc/secret", "inner/../../secret", "..\\secret", "a//b", "a/", ".", ".."]
)
def test_the_shelf_itself_knows_no_way_out(folder: Path, name: str) -> None:
    with pytest.raises(NotHere):
        Shelf(folder).files(name)


def test_only_the_draft_that_was_given_is_opened(folder: Path) -> None:
    shelf = shelf_of(folder / f"{STEM}.draft.json")
    with pytest.raises(NotHere):
        shelf.files("link")
    assert [one.name for one in shelf.waiting()] == [STEM]


def test_an_answers_file_that_leads_out_is_not_opened(folder: Path, tmp_path: Path) -> None:
    os.symlink(tmp_path / "elsewhere.toml", folder / f"{STEM}.answers.toml")
    with pytest.raises(NotHere, match="leads out of the folder"):
        shelf_of(folder).files(STEM)


@pytest.mark.parametrize("name", ["../guard.py", "%2e%2e/guard.py", "..%2f__init__.py", "desk.css/..", "/etc/passwd"])
def test_only_the_page_s_own_files_are_static(client: TestClient, name: str) -> None:
    assert client.get(f"/{TOKEN}/static/{name}").status_code in (403, 404)


HEADERS = {
    "cache-control": "no-store",
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-resource-policy": "same-origin",
}


@pytest.mark.parametrize(
    "path", [f"/{TOKEN}/drafts/{STEM}", f"/{TOKEN}/static/desk.js", "/wrong", f"/{TOKEN}/nothing"]
)
def test_every_answer_is_private_and_under_the_policy(client: TestClient, path: str) -> None:
    """W3C Content Security Policy Level 3: no script but the page's own files, nothing from elsewhere."""
    headers = client.get(path).headers
    assert {name: headers[name] for name in HEADERS} == HEADERS
    policy = dict(part.strip().partition(" ")[::2] for part in headers["content-security-policy"].split(";"))
    assert policy["default-src"] == "'none'" and policy["script-src"] == policy["style-src"] == "'self'"
    assert policy["frame-ancestors"] == policy["base-uri"] == policy["form-action"] == "'none'"
    assert "unsafe" not in headers["content-security-policy"]


def test_the_page_has_no_script_or_style_in_it(tab: Tab) -> None:
    assert tab.html.count("<script") == 1 and "<style" not in tab.html
    assert " style=" not in tab.html and " onclick=" not in tab.html


HOSTILE = """<script>alert(1)</script>"'><img src=x onerror=alert(1)> {{ 7*7191 }} &amp; </textarea>"""


def test_a_talk_is_shown_as_text_only(drafted: DraftFiles) -> None:
    heard = json.loads(drafted.heard.read_text(encoding="utf-8"))
    heard["clauses"][3]["text"] = HOSTILE
    draft = heard["draft"]
    draft["title"] = draft["summary"] = draft["steps"][0]["text"] = draft["ingredients"][0]["name"] = HOSTILE
    draft["tips"][0]["text"] = draft["gaps"][0]["question"] = draft["equipment"][0]["name"] = HOSTILE
    drafted.heard.write_text(json.dumps(heard), encoding="utf-8")
    tab = Tab(client_of(Site(shelf_of(drafted.draft), Door(TOKEN, PORT))))
    given = tab.ask("change", do="add tip", to=HOSTILE)
    pages = [tab.html, *given["pieces"].values()]
    for id_ in ("dish", "i1", "s1", "t1", "e1", draft["gaps"][0]["id"]):
        pages.append(tab.client.get(f"/{TOKEN}/edit/{id_}/{STEM}").json()["editor"])
    for html in pages:
        assert "<script>alert" not in html and "<img" not in html and "50337" not in html
    assert "&lt;script&gt;alert(1)&lt;/script&gt;&#34;&#39;&gt;" in pages[0]


@pytest.fixture
def recording(tmp_path: Path) -> Path:
    file = tmp_path / "talk.mp4"
    file.write_bytes(bytes(range(256)) * 40)
    return file


def test_the_recording_is_sent_in_the_parts_asked_for(drafted: DraftFiles, recording: Path) -> None:
    """RFC 9110, section 14: range requests, without which a browser can't go to a second."""
    client = client_of(Site(shelf_of(drafted.draft), Door(TOKEN, PORT), media_of(recording)))
    whole = client.get(f"/{TOKEN}/media")
    assert (whole.status_code, whole.headers["content-type"]) == (200, "video/mp4")
    assert whole.headers["accept-ranges"] == "bytes"
    part = client.get(f"/{TOKEN}/media", headers={"range": "bytes=300-309"})
    assert part.status_code == 206 and part.content == recording.read_bytes()[300:310]
    assert part.headers["content-range"] == "bytes 300-309/10240"
    assert client.get(f"/{TOKEN}/media", headers={"range": "bytes=20000-"}).status_code == 416
    assert client.get(f"/{TOKEN}/media?file=/etc/passwd").content == recording.read_bytes()
    assert client.get(f"/{TOKEN}/media/other.mp4").status_code == 404


def test_without_a_recording_there_is_none(client: TestClient) -> None:
    assert client.get(f"/{TOKEN}/media").status_code == 404


@pytest.mark.parametrize("name", ["notes.txt", "draft.json", "page.html", "noending"])
def test_only_a_video_or_sound_is_played(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_text("x", encoding="utf-8")
    with pytest.raises(StovescriptError, match="no video or audio file"):
        media_of(tmp_path / name)


def test_a_failure_inside_tells_nothing_of_the_machine(
    tab: Tab, site: Site, monkeypatch: pytest.MonkeyPatch, drafted: DraftFiles
) -> None:
    def fail(edition: str) -> None:
        raise RuntimeError(f"at {drafted.folder}")

    monkeypatch.setattr(site.sitting(STEM), "undo", fail)
    told = tab.ask("undo")
    assert told["status"] == 500 and str(drafted.folder) not in told["sentence"]
