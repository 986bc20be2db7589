"""The guard before the review page: only this machine's own page, with this run's token, is let in.

Against DNS rebinding the Host must be an address we listen at; against other sites' posts Origin and Sec-Fetch-Site
must be our own (W3C Fetch Metadata), and a header that only our page knows must be there.
"""

import hmac
import ipaddress
import json
from collections.abc import Awaitable, Callable, Mapping, MutableMapping
from dataclasses import dataclass
from typing import Any

Message = MutableMapping[str, Any]
Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

LARGEST = 64 * 1024
"""Bytes of a request's body: the longest step or promise is far below it."""
TOKEN_HEADER = "x-desk-token"
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; media-src 'self'; img-src data:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_HEADERS = {
    "content-security-policy": _POLICY,
    "cache-control": "no-store",
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
}


@dataclass(frozen=True, slots=True)
class Door:
    """Where the page may be asked for: the token of this run, the names that a Host may have, and the port.

    `any_address` lets in every Host that is a plain IP address: a page of another site can't have one as its name
    and be this server, so it is no rebinding.
    """

    token: str
    port: int
    names: frozenset[str] = frozenset({"127.0.0.1", "localhost", "::1"})
    any_address: bool = False

    def knows(self, host: str) -> bool:
        """True for a Host header that is ours."""
        name, port = _name_and_port(host)
        if port != self.port:
            return False
        return name in self.names or (self.any_address and _is_address(name))


class Guard:
    """An ASGI application before another one, which it calls only for requests that are ours."""

    def __init__(self, app: App, door: Door) -> None:
        self._app, self._door = app, door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answers what is not ours in one sentence, and lets in the rest with its body read up to LARGEST bytes."""
        if scope["type"] != "http":
            return
        headers = {name.decode("latin-1").lower(): value.decode("latin-1") for name, value in scope["headers"]}
        wrong = refusal(self._door, scope["method"], scope["path"], headers)
        body = b""
        if wrong is None and scope["method"] == "POST":
            body, wrong = await _body(headers, receive)
        if wrong is not None:
            await _refuse(send, *wrong)
            return

        async def replay() -> Message:
            nonlocal body
            given, body = body, b""
            return {"type": "http.request", "body": given, "more_body": False}

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                ours = {name.encode(): value.encode() for name, value in _HEADERS.items()}
                kept = [(name, value) for name, value in message["headers"] if name.lower() not in ours]
                message["headers"] = [*kept, *ours.items()]
            await send(message)

        await self._app(scope, replay if scope["method"] == "POST" else receive, guarded)


def refusal(door: Door, method: str, path: str, headers: Mapping[str, str]) -> tuple[int, str] | None:
    """Why a request is not let in, as a status and a sentence; None where it is ours."""
    host = headers.get("host", "")
    if not door.knows(host):
        return 421, "This server does not go by that name; open the address that stovescript desk printed."
    if not _same(path.split("/")[1] if path.startswith("/") else "", door.token):
        return 403, "Open the address that stovescript desk printed; it changes with every start."
    if method in ("GET", "HEAD"):
        return None
    if method != "POST":
        return 405, "That can't be done here."
    if headers.get("origin") != f"http://{host}" or headers.get("sec-fetch-site", "same-origin") != "same-origin":
        return 403, "Another site asked for this change; it was refused."
    if headers.get("content-type", "").split(";")[0].strip().lower() != "application/json":
        return 415, "A change is sent as JSON."
    if not _same(headers.get(TOKEN_HEADER, ""), door.token):
        return 403, "This page is from an earlier start; open the address that stovescript desk printed."
    return None


async def _body(headers: Mapping[str, str], receive: Receive) -> tuple[bytes, tuple[int, str] | None]:
    too_long = (413, f"That is too long; at most {LARGEST // 1024} KB are kept at once.")
    length = headers.get("content-length", "0")
    if not length.isdecimal() or int(length) > LARGEST:
        return b"", too_long
    parts: list[bytes] = []
    while True:
        message = await receive()
        if message["type"] == "http.disconnect":
            return b"", (400, "The page went away before it had sent everything.")
        parts.append(message.get("body", b""))
        if sum(map(len, parts)) > LARGEST:
            return b"", too_long
        if not message.get("more_body", False):
            return b"".join(parts), None


async def _refuse(send: Send, status: int, sentence: str) -> None:
    body = json.dumps({"sentence": sentence}, ensure_ascii=False).encode()
    headers = {**_HEADERS, "content-type": "application/json; charset=utf-8", "content-length": str(len(body))}
    start = [(name.encode(), value.encode()) for name, value in headers.items()]
    await send({"type": "http.response.start", "status": status, "headers": start})
    await send({"type": "http.response.body", "body": body})


def _same(given: str, token: str) -> bool:
    """Compared in a time that tells nothing of the token."""
    return hmac.compare_digest(given.encode(), token.encode())


def _name_and_port(host: str) -> tuple[str, int]:
    if host.startswith("["):
        name, _, rest = host[1:].partition("]")
        port = rest.removeprefix(":")
    else:
        name, _, port = host.partition(":")
    return name.lower(), int(port) if port.isdecimal() and len(port) < 6 else 80 if not port else -1


def _is_address(name: str) -> bool:
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True
