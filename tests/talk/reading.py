"""Short ways to say what a test reads."""

from stovescript.talk import Talk, read_bytes


def read(text: str, name: str = "talk.vtt") -> Talk:
    return read_bytes(text.encode(), name)


def said(text: str, name: str = "talk.vtt") -> str:
    """All words of the talk, one space between."""
    return " ".join(word.text for word in read(text, name).words)


def vtt(*cues: str) -> str:
    """A WebVTT file with a cue of two seconds for each text."""
    blocks = [f"{clock(2 * place)} --> {clock(2 * place + 2)}\n{cue}" for place, cue in enumerate(cues)]
    return "WEBVTT\n\n" + "\n\n".join(blocks) + "\n"


def clock(seconds: float) -> str:
    """``00:01:02.500``, as WebVTT writes it."""
    whole, thousandths = divmod(round(seconds * 1000), 1000)
    return f"{whole // 3600:02}:{whole // 60 % 60:02}:{whole % 60:02}.{thousandths:03}"
