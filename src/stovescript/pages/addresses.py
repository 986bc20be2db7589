"""Web addresses inside a text that the cook wrote."""

import re
from collections.abc import Iterator

from stovescript.errors import StovescriptError
from stovescript.pages.video_link import checked

_ADDRESS = re.compile(r"\bhttps?://[^\s<>\"'`]+", re.IGNORECASE)
_CLOSING = ".,;:!?)]}"


def linked(text: str) -> Iterator[tuple[str, str]]:
    """The text in pieces, each with the address it links to, "" where it is plain."""
    done = 0
    for found in _ADDRESS.finditer(text):
        shown = found[0].rstrip(_CLOSING)
        try:
            address = checked(shown)
        except StovescriptError:
            continue
        if found.start() > done:
            yield text[done : found.start()], ""
        yield shown, address
        done = found.start() + len(shown)
    if done < len(text):
        yield text[done:], ""
