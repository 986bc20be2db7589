"""Writes files whole or not at all."""

import os
import tempfile
from pathlib import Path

from stovescript.errors import StovescriptError


def write_whole(path: Path, text: str) -> None:
    """Writes UTF-8 text to PATH: to a temporary file beside it first, which then replaces it.

    Raises StovescriptError where the folder can't be made or written to.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        try:
            with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
                file.write(text)
            os.chmod(temporary, 0o644)
            os.replace(temporary, path)
        except BaseException:
            Path(temporary).unlink(missing_ok=True)
            raise
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise StovescriptError(f"{path}: can't be written ({reason}); choose another folder with --out.") from None
