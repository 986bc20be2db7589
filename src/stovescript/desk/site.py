"""The review page's addresses: the list, a draft, its editors, and what may be changed; all under this run's token."""

import json
import logging
import threading
from collections.abc import Callable
from pathlib import Path
from urllib.parse import quote

from markupsafe import Markup
from starlette.applications import Starlette
from starlette.background import BackgroundTask
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import FileResponse, HTMLResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from stovescript.answers import Entry, NotUnderstood
from stovescript.desk.guard import Door, Guard
from stovescript.desk.render import Lines, Rendered, editor, rendered, talk_groups, template
from stovescript.desk.shelf import NotHere, Shelf
from stovescript.desk.sitting import ChangedElsewhere, Now, Sitting
from stovescript.desk.telling import told
from stovescript.desk.wishes import Answer, Change, TakeBack, Wish, read_wish
from stovescript.errors import StovescriptError
from stovescript.recipe.draft import Draft

STATIC = Path(__file__).parent / "static"
_STATIC = {
    "desk.css": "text/css",
    "desk.js": "text/javascript",
    "morph.js": "text/javascript",
    "talk.js": "text/javascript",
}
_log = logging.getLogger("uvicorn.error")

Answerer = Callable[["Site", Request, str, bytes], Response]


class Site:
    """The pages for one shelf. `media` is the recording that may be played, the only file sent beside our own."""

    def __init__(self, shelf: Shelf, door: Door, media: Path | None = None) -> None:
        self.shelf, self.door, self.media = shelf, door, media
        self._sittings: dict[str, Sitting] = {}
        self._lines: dict[str, Lines] = {}
        self._shown: dict[str, tuple[str, Rendered]] = {}
        self._lock = threading.Lock()

    @property
    def start(self) -> str:
        """The path of the first page."""
        return f"/{self.door.token}/" + (f"drafts/{quote(self.shelf.only)}" if self.shelf.only else "")

    def sitting(self, name: str) -> Sitting:
        """The draft of that name as it is worked on. Raises NotHere."""
        files = self.shelf.files(name)
        return self._sittings.setdefault(name, Sitting(files))

    def pieces(self, name: str, now: Now, shown: str = "") -> dict[str, str]:
        """The sections of the draft; for a page that shows the edition `shown`, only what is new."""
        with self._lock:
            made = rendered(self.sitting(name), now, self._lines.setdefault(name, Lines()))
            edition, before = self._shown.get(name, ("", made))
            self._shown[name] = now.edition, made
        return made.since(before) if shown and shown == edition else made.whole()


def application(site: Site) -> Guard:
    """The whole site as an ASGI application, behind its guard."""

    def page(answer: Callable[[Site, Request], Response]) -> Callable[[Request], Response]:
        def endpoint(request: Request) -> Response:
            return _told(lambda: answer(site, request), plain=True)

        return endpoint

    def wish(answer: Answerer) -> Callable[[Request], object]:
        async def endpoint(request: Request) -> Response:
            body = await request.body()
            name = request.path_params["name"]
            return await run_in_threadpool(_told, lambda: answer(site, request, name, body))

        return endpoint

    gets = {
        "/": _list,
        "/static/{file}": _static,
        "/media": _media,
        "/drafts/{name:path}": _page,
        "/state/{name:path}": _state,
        "/edition/{name:path}": _edition,
        "/edit/{id}/{name:path}": _edit,
    }
    posts = {
        "/change/{name:path}": _change,
        "/answer/{name:path}": _answer,
        "/take-back/{name:path}": _take_back,
        "/undo/{name:path}": _undo,
        "/redo/{name:path}": _redo,
    }
    at = f"/{site.door.token}"
    routes = [Route(at + path, page(answer), methods=["GET"]) for path, answer in gets.items()]
    routes += [Route(at + path, wish(answer), methods=["POST"]) for path, answer in posts.items()]

    def not_found(request: Request, error: Exception) -> Response:
        return _sentence(404, "There is nothing at this address.", plain=request.method == "GET")

    pages = Starlette(routes=routes, exception_handlers={404: not_found, 405: not_found})
    pages.router.redirect_slashes = False
    return Guard(pages, site.door)


def _list(site: Site, request: Request) -> Response:
    if site.shelf.only:
        return RedirectResponse(site.start)
    folder = site.shelf.folder.name or str(site.shelf.folder)
    return HTMLResponse(
        template("shelf.html")(at=f"/{site.door.token}", folder=folder, drafts=site.shelf.waiting(), quote=quote)
    )


def _page(site: Site, request: Request) -> Response:
    name = request.path_params["name"]
    sitting = site.sitting(name)
    sitting.bring_up_to_date()
    now = sitting.now()
    return HTMLResponse(
        template("page.html")(
            at=f"/{site.door.token}",
            token=site.door.token,
            name=quote(name),
            edition=now.edition,
            title=now.draft.title or "Untitled dish",
            pieces={key: Markup(text) for key, text in site.pieces(name, now).items()},
            groups=talk_groups(now),
            media=_media_kind(site.media),
            listed=not site.shelf.only,
        ),
        background=BackgroundTask(sitting.warm),
    )


def _state(site: Site, request: Request) -> Response:
    name = request.path_params["name"]
    now = site.sitting(name).now()
    return _json({"edition": now.edition, "pieces": site.pieces(name, now)})


def _edition(site: Site, request: Request) -> Response:
    return _json({"edition": site.sitting(request.path_params["name"]).now().edition})


def _edit(site: Site, request: Request) -> Response:
    now = site.sitting(request.path_params["name"]).now()
    made = editor(now, request.path_params["id"])
    if made is None:
        raise NotHere("That is not in the draft any more.")
    return _json({"edition": now.edition, "editor": made})


def _change(site: Site, request: Request, name: str, body: bytes) -> Response:
    asked = read_wish(Change, body)
    sitting = site.sitting(name)
    now, entry = sitting.change(asked.edition, asked.entry)
    return _after(site, name, now, asked, f"Kept: {told(entry)}.", new=entry.new)


def _answer(site: Site, request: Request, name: str, body: bytes) -> Response:
    asked = read_wish(Answer, body)
    sitting = site.sitting(name)
    before: list[str] = []

    def make(draft: Draft) -> Entry:
        before.extend(gap.id for gap in draft.gaps)
        return asked.entry(draft)

    now, entry = sitting.change(asked.edition, make)
    left = {gap.id for gap in now.draft.gaps}
    later = before[before.index(asked.gap) :] + before
    following = next((id_ for id_ in later if id_ in left and id_ != asked.gap), "")
    following = following or next(iter(gap.id for gap in now.draft.gaps), "")
    count = f"{len(left)} question{'' if len(left) == 1 else 's'} left" if left else "No question is left"
    asked = asked.model_copy(update={"open": following})
    return _after(site, name, now, asked, f"Kept: {told(entry)}. {count}.")


def _take_back(site: Site, request: Request, name: str, body: bytes) -> Response:
    asked = read_wish(TakeBack, body)
    sitting = site.sitting(name)
    now, entry = sitting.take_back(asked.edition, asked.number)
    return _after(site, name, now, asked, f"Taken back: {told(entry)}.")


def _undo(site: Site, request: Request, name: str, body: bytes) -> Response:
    asked = read_wish(Wish, body)
    sitting = site.sitting(name)
    now, what = sitting.undo(asked.edition)
    return _after(site, name, now, asked, f"Undone: {what}.")


def _redo(site: Site, request: Request, name: str, body: bytes) -> Response:
    asked = read_wish(Wish, body)
    sitting = site.sitting(name)
    now, what = sitting.redo(asked.edition)
    return _after(site, name, now, asked, f"Done again: {what}.")


def _after(site: Site, name: str, now: Now, asked: Wish, said: str, new: str = "") -> Response:
    """What the page puts in the place of what it shows."""
    open_ = editor(now, asked.open) if asked.open else None
    return _json(
        {
            "edition": now.edition,
            "pieces": site.pieces(name, now, asked.edition),
            "said": said,
            "open": asked.open if open_ else "",
            "editor": open_ or "",
            "new": new,
        }
    )


def _told(answer: Callable[[], Response], plain: bool = False) -> Response:
    """The answer, or one sentence about what went wrong."""
    try:
        return answer()
    except ChangedElsewhere as changed:
        return _json({"sentence": str(changed), "lines": changed.lines, "edition": changed.now.edition}, 409)
    except NotUnderstood as reason:
        text = str(reason)
        return _sentence(422, f"{text[:1].upper()}{text[1:]}.", plain)
    except NotHere as reason:
        return _sentence(404, str(reason), plain)
    except StovescriptError as error:
        return _sentence(500, " ".join(str(error).split()), plain)
    except Exception:
        _log.exception("the review page failed")
        return _sentence(500, "Something went wrong here; what was kept before is safe. Load the page again.", plain)


def _sentence(status: int, text: str, plain: bool = False) -> Response:
    return PlainTextResponse(text + "\n", status) if plain else _json({"sentence": text}, status)


def _json(data: dict[str, object], status: int = 200) -> Response:
    return Response(json.dumps(data, ensure_ascii=False), status, media_type="application/json")


def _static(site: Site, request: Request) -> Response:
    name = request.path_params["file"]
    if name not in _STATIC:
        raise NotHere("There is nothing at this address.")
    return FileResponse(STATIC / name, media_type=_STATIC[name])


def _media(site: Site, request: Request) -> Response:
    if site.media is None or not site.media.is_file():
        raise NotHere("There is no recording; start stovescript desk with --media.")
    return FileResponse(site.media, media_type=_type_of(site.media))


def _type_of(media: Path) -> str:
    from mimetypes import guess_type

    return guess_type(media.name)[0] or ""


def _media_kind(media: Path | None) -> str:
    """ "video", "audio", or "" where there is nothing to play."""
    return _type_of(media).split("/")[0] if media else ""


def media_of(path: Path) -> Path:
    """A recording that can be played. Raises StovescriptError."""
    if not path.is_file():
        raise StovescriptError(f"{path}: no such file; give the recording as --media.")
    if _media_kind(path) not in ("video", "audio"):
        raise StovescriptError(
            f"{path}: this is no video or audio file by its name; give one like talk.mp4 or talk.m4a."
        )
    return path.resolve()
