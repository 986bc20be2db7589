"""How this room says no: one sentence with the file, the line where there is one, and the remedy."""

from stovescript.errors import TalkError


def unreadable(name: str, what: str, line: int | None = None) -> TalkError:
    """The error to raise: ``unreadable("a.srt", "the time is …; correct it", 7)``."""
    shown = "".join(letter if letter.isprintable() else "?" for letter in name)
    if shown in ("", "-"):
        shown = "standard input"
    place = f", line {line}" if line else ""
    return TalkError(f"{shown}{place}: {what}.")
