"""Addresses of the published video, and of a second in it."""

import re
from urllib.parse import SplitResult, quote, unquote_plus, urlsplit, urlunsplit

from stovescript.errors import StovescriptError

_SCHEMES = ("http", "https")
_KEPT = "%/:?#@!$&*+,;=~.-_"
"""Marks that stay as they are; brackets, quotes and all else are written as RFC 3986 asks (percent-encoded)."""
_FILE = re.compile(r"\.(?:mp4|m4v|mov|webm|ogv|ogg|mp3|m4a)$", re.IGNORECASE)


def checked(text: str) -> str:
    """The address as it may stand in a page. Raises StovescriptError where it is no address on the web."""
    address = text.strip()
    try:
        parts = urlsplit(address)
        fits = parts.scheme in _SCHEMES and bool(parts.hostname) and parts.port != 0
    except ValueError:
        fits = False
    if not fits or re.search(r"[\s\x00-\x1f\x7f\\]", text.strip()):
        raise StovescriptError(f"--video {text}: this is no web address; give one that starts with https://.")
    host = parts.netloc if parts.netloc.isascii() else parts.netloc.encode("idna").decode()
    safe = (quote(part, safe=_KEPT) for part in (parts.path, parts.query, parts.fragment))
    return urlunsplit(SplitResult(parts.scheme, re.sub(r"[\"'<>()`]", "", host), *safe))


def at_second(video: str, seconds: float) -> str:
    """The video from a whole second on: t= in the query, which replaces one that is there.

    A media file has no page that reads a query: there the second stands in the fragment, as W3C Media Fragments
    URI 1.0 has it (#t=95).
    """
    parts = urlsplit(video)
    start = f"t={int(seconds)}"
    if _FILE.search(parts.path):
        return urlunsplit(parts._replace(fragment=start))
    kept = [pair for pair in parts.query.split("&") if pair and unquote_plus(pair.partition("=")[0]) != "t"]
    return urlunsplit(parts._replace(query="&".join([*kept, start])))
