"""Runs the review page on this machine until it is stopped."""

import contextlib
import ipaddress
import secrets
import socket
from pathlib import Path

from stovescript.answers import read_heard
from stovescript.desk.guard import Door
from stovescript.desk.shelf import shelf_of
from stovescript.errors import StovescriptError


def serve(path: Path, media: Path | None, host: str, port: int, open_browser: bool) -> None:
    """Serves a draft, or a folder of drafts, and prints the address. Port 0 takes any free one.

    Raises StovescriptError where there is nothing to show, or the port is taken.
    """
    import uvicorn

    from stovescript.desk.site import Site, application, media_of

    shelf = shelf_of(path)
    if media is not None and not shelf.only:
        raise StovescriptError(f"{media}: --media belongs to one draft; give its .draft.json file, not a folder.")
    recording = media_of(media) if media else None
    if shelf.only:
        read_heard(shelf.files(shelf.only).heard)
    listening = _listening(host, port)
    port = int(listening.getsockname()[1])
    inside = _is_loopback(host)
    names = {"127.0.0.1", "localhost", "::1"} | (set() if inside else {host.lower(), socket.gethostname().lower()})
    door = Door(secrets.token_urlsafe(24), port, frozenset(names), any_address=not inside)
    site = Site(shelf, door, recording)
    shown = "127.0.0.1" if host in ("0.0.0.0", "localhost") else "[::1]" if host == "::" else _in_address(host)
    address = f"http://{shown}:{port}{site.start}"
    print(f"The review page is at {address}", flush=True)
    if not inside:
        print("Whoever on your network has this address can read and change the drafts.", flush=True)
    print("Every change is kept at once. Ctrl-C ends it.", flush=True)
    if open_browser:
        import webbrowser

        webbrowser.open(address)
    config = uvicorn.Config(
        application(site),
        http="h11",
        ws="none",
        lifespan="off",
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=False,
        timeout_graceful_shutdown=2,
    )
    with contextlib.suppress(KeyboardInterrupt):
        uvicorn.Server(config).run(sockets=[listening])


def _listening(host: str, port: int) -> socket.socket:
    """A socket bound to the address. Raises StovescriptError."""
    try:
        family, _, _, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
        made = socket.create_server(address, family=family)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise StovescriptError(f"{host}:{port}: can't be listened at ({reason}); choose another --port.") from None
    return made


def _is_loopback(host: str) -> bool:
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return host.lower() == "localhost"


def _in_address(host: str) -> str:
    return f"[{host}]" if ":" in host else host
