"""What a draft depends on, as digests: a talk is drafted again where one of them has changed."""

import hashlib
from functools import cache
from importlib.resources import files
from pathlib import Path

_NOT_DRAFTING = frozenset({"archive", "desk", "training"})  # rooms that no draft passes through
_READ = frozenset({".py", ".csv", ".toml", ".txt", ".json"})


def digest(data: bytes | None) -> str:
    """The SHA-256 of some bytes; "" where there are none."""
    return "" if data is None else hashlib.sha256(data).hexdigest()


def fingerprint(captions: bytes, answers: bytes | None) -> str:
    """Of one talk: its captions, its answers, the model and the program."""
    return digest("|".join([digest(captions), digest(answers), model(), program()]).encode())


@cache
def model() -> str:
    """Of the trained tagger's files."""
    folder = files("stovescript.models").joinpath("speech")
    parts = sorted((item.name, item.read_bytes()) for item in folder.iterdir() if item.is_file())
    return digest(b"".join(name.encode() + digest(data).encode() for name, data in parts if not name.endswith(".py")))


@cache
def program() -> str:
    """The version, and a digest of the code and tables that draft: a changed table row counts as a new program."""
    from stovescript import __version__

    root = Path(__file__).parents[1]
    paths = sorted(
        path
        for path in root.rglob("*")
        if path.suffix in _READ and path.relative_to(root).parts[0] not in _NOT_DRAFTING
    )
    whole = "".join(f"{path.relative_to(root).as_posix()} {digest(path.read_bytes())}\n" for path in paths)
    return f"{__version__}+{digest(whole.encode())[:12]}"
