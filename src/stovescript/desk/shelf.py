"""The drafts that may be opened: one, or all in a folder, and nothing outside it."""

import json
from dataclasses import dataclass
from pathlib import Path

from stovescript.answers import DraftFiles, files_of
from stovescript.errors import StovescriptError

_DRAFT = ".draft.json"
_SCALED = ".scaled.draft.json"


class NotHere(StovescriptError):
    """There is no such draft on the shelf."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """One draft in the list: its name in addresses, its dish, and how many questions are open; `why` it can't be
    opened, "" where it can."""

    name: str
    title: str = ""
    must: int = 0
    others: int = 0
    why: str = ""


@dataclass(frozen=True, slots=True)
class Shelf:
    """A folder whose drafts may be opened by name ("soup", "winter/soup"); only one of them where `only` is given."""

    folder: Path
    only: str = ""

    def files(self, name: str) -> DraftFiles:
        """The files of the draft with that name. Raises NotHere for anything else, whatever the name says."""
        parts = name.split("/")
        plain = all(part and not part.startswith(".") and "\\" not in part and part.isprintable() for part in parts)
        if not plain or (self.only and name != self.only):
            raise NotHere(f"There is no draft “{name}” here.")
        files = files_of(self.folder.joinpath(*parts[:-1], parts[-1] + _DRAFT))
        if not self._inside(files.draft) or not files.draft.is_file():
            raise NotHere(f"There is no draft “{name}” here.")
        if not all(self._inside(file) for file in (files.heard, files.answers, files.page)):
            raise NotHere(f"A file of “{name}” is a link that leads out of the folder; it is not opened.")
        return files

    def waiting(self) -> list[Waiting]:
        """Every draft, those with most to answer first."""
        names = [self.only] if self.only else sorted(self._names())
        found = [self._waiting(name) for name in names]
        return sorted(found, key=lambda one: (bool(one.why), -one.must, -one.others, one.name))

    def _names(self) -> list[str]:
        paths = [path.relative_to(self.folder) for path in self.folder.rglob(f"*{_DRAFT}")]
        return [
            path.as_posix().removesuffix(_DRAFT)
            for path in paths
            if not path.name.endswith(_SCALED) and not any(part.startswith(".") for part in path.parts)
        ]

    def _waiting(self, name: str) -> Waiting:
        try:
            files = self.files(name)
            draft = json.loads(files.draft.read_bytes())
            severities = [gap["severity"] for gap in draft["gaps"]]
            title = str(draft["title"] or "")
        except NotHere as reason:
            return Waiting(name, why=str(reason))
        except (OSError, ValueError, KeyError, TypeError, RecursionError):
            return Waiting(name, why="The draft can't be read; run stovescript draft again.")
        why = "" if files.heard.is_file() else "It has no .heard.json beside it; run stovescript draft again."
        must = severities.count("must")
        return Waiting(name, title, must, len(severities) - must, why)

    def _inside(self, path: Path) -> bool:
        try:
            return path.resolve().is_relative_to(self.folder)
        except (OSError, RuntimeError):  # a link that leads to itself
            return False


def shelf_of(path: Path) -> Shelf:
    """The shelf for a draft's file or for a folder. Raises StovescriptError where there is nothing to open."""
    if path.is_dir():
        shelf = Shelf(path.resolve())
        if not shelf.waiting():
            raise StovescriptError(f"{path}: there is no {_DRAFT} file in this folder; run stovescript draft first.")
        return shelf
    files = files_of(path)
    if not files.draft.is_file():
        raise StovescriptError(f"{files.draft}: no such file; give the {_DRAFT} file that stovescript draft wrote.")
    shelf = Shelf(files.folder.resolve(), files.stem)
    shelf.files(files.stem)
    return shelf
