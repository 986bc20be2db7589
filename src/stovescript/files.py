"""Writes files whole or not at all, alone or as a set."""

import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from stovescript.errors import StovescriptError

UNFINISHED = ".part"  # the ending of a hidden file that is being written; one is left where a run was killed


def write_whole(path: Path, text: str) -> None:
    """Writes UTF-8 text to PATH: to a temporary file beside it first, which then replaces it.

    Raises StovescriptError where the folder can't be made or written to.
    """
    write_together({path: text})


def write_together(contents: Mapping[Path, str | bytes]) -> None:
    """Writes several files, text as UTF-8, so that either all are new or all stay as they were.

    Raises StovescriptError that names the file that could not be written.
    """
    ready: list[tuple[Path, str]] = []
    kept: list[tuple[Path, bytes | None]] = []
    path = next(iter(contents))
    try:
        for path, content in contents.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            ready.append((path, _temporary(path, content)))
        for path, temporary in ready:
            kept.append((path, path.read_bytes() if path.exists() else None))
            os.replace(temporary, path)
    except BaseException as error:
        for target, before in kept:
            _restore(target, before)
        for _, temporary in ready:
            Path(temporary).unlink(missing_ok=True)
        if isinstance(error, OSError):
            reason = (error.strerror or str(error)).lower()
            sentence = f"{path}: can't be written ({reason}); choose another folder."
            raise StovescriptError(sentence) from None
        raise


def _temporary(path: Path, content: str | bytes) -> str:
    """A temporary file beside PATH that holds the content, with the permissions that a new file has."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=UNFINISHED)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content.encode() if isinstance(content, str) else content)
        mask = os.umask(0)
        os.umask(mask)
        os.chmod(temporary, 0o666 & ~mask)
    except BaseException:
        with suppress(OSError):
            os.close(handle)
        Path(temporary).unlink(missing_ok=True)
        raise
    return temporary


def _restore(path: Path, before: bytes | None) -> None:
    """The file as it was before; the one at which it failed may never have changed, and is left alone then."""
    if before is None:
        path.unlink(missing_ok=True)
    elif not path.is_file() or path.read_bytes() != before:
        path.write_bytes(before)
