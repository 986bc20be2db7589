"""Finds the talks under a folder, pairs them with their videos, and says of each file passed over why."""

import os
import stat
import unicodedata
from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from stovescript.archive.small_tables import endings, kind_of
from stovescript.errors import StovescriptError

MANIFEST = "archive.sqlite"


@dataclass(frozen=True, slots=True)
class Found:
    """One talk: its path under the folder with "/" between the parts, and its video's, where there is one.

    `certain` is false for a text file: it may be a note that holds no talk.
    """

    path: str
    certain: bool
    video: str | None = None

    @property
    def stem(self) -> str:
        """The path without its ending: two talks of a folder never share it."""
        return str(PurePosixPath(self.path).with_suffix(""))


@dataclass(frozen=True, slots=True)
class PassedOver:
    """A file or folder that was not read, and the reason as the end of a sentence."""

    path: str
    why: str


@dataclass(frozen=True, slots=True)
class Gathered:
    """All that was found, in the order of the paths."""

    talks: tuple[Found, ...]
    passed_over: tuple[PassedOver, ...]


def shown(path: str) -> str:
    r"""A path as text that can be printed and kept, no two alike: a byte that is no UTF-8 becomes "\xe9"."""
    text = os.fsencode(path.replace("\\", r"\\")).decode("utf-8", "backslashreplace")
    return "".join(c if c.isprintable() or c in _JOINERS else c.encode("unicode_escape").decode() for c in text)


_JOINERS = "\u200c\u200d"  # they show nothing by themselves, but some scripts and emoji need them


def gather(folder: Path, out: Path) -> Gathered:
    """The talks under FOLDER. The out folder is no part of it, nor is that of another archive.

    Links to folders are followed, each real folder once. Raises StovescriptError where FOLDER can't be read.
    """
    walk = _Walk(folder, out)
    try:
        walk.read("")
    except OSError as error:
        raise StovescriptError(f"{folder}: this folder can't be read ({_reason(error)}).") from None
    return Gathered(
        tuple(sorted(walk.talks, key=lambda talk: os.fsencode(talk.path))),
        tuple(sorted(walk.passed_over, key=lambda item: os.fsencode(item.path))),
    )


@dataclass(slots=True)
class _Walk:
    folder: Path
    out: Path
    talks: list[Found] = field(default_factory=list)
    passed_over: list[PassedOver] = field(default_factory=list)
    seen: set[tuple[int, int]] = field(default_factory=set)

    def read(self, top: str) -> None:
        """Real folders first, then what links lead to, so that a talk is listed where it lies."""
        self.seen.add(_identity(self.folder / top))
        folders, links = deque([top]), deque[str]()
        while folders or links:
            linked = not folders
            path = (links if linked else folders).popleft()
            try:
                if linked and not self._is_new(path):
                    continue
                found = self._entries(path)
            except OSError as error:
                if path == top:
                    raise
                self._pass(path, f"this folder can't be read ({_reason(error)})")
                continue
            for name, is_link in sorted(found):
                inner = f"{path}/{name}" if path else name
                if is_link:
                    links.append(inner)
                elif self._is_new(inner):
                    folders.append(inner)

    def _is_new(self, path: str) -> bool:
        """True for a folder to be read; any other is passed over with its reason."""
        try:
            identity = _identity(self.folder / path)
            if self.out.exists() and identity == _identity(self.out):
                return False
            if (self.folder / path / MANIFEST).exists():
                self._pass(path, "this is the out folder of an archive")
                return False
        except OSError as error:
            self._pass(path, f"this folder can't be read ({_reason(error)})")
            return False
        if identity in self.seen:
            self._pass(path, "this link leads to a folder that is read already")
            return False
        self.seen.add(identity)
        return True

    def _entries(self, path: str) -> list[tuple[str, bool]]:
        """The folders in a folder, and whether each is a link; its talks are taken up."""
        names: list[str] = []
        folders: list[tuple[str, bool]] = []
        with os.scandir(self.folder / path) as entries:
            for entry in entries:
                if _is_folder(entry):
                    if not entry.name.startswith("."):
                        folders.append((entry.name, entry.is_symlink()))
                elif kind_of(PurePosixPath(entry.name).suffix) or entry.name.endswith(endings("written")):
                    names.append(entry.name)
        self.talks += self._talks_in(path, names)
        return folders

    def _talks_in(self, path: str, names: list[str]) -> Iterator[Found]:
        where = f"{path}/" if path else ""
        written = _written(names)
        videos = {_same(PurePosixPath(name).stem): name for name in sorted(names) if _kind(name) == "video"}
        taken: dict[str, str] = {}
        for name in _preferred_first(names):
            inner, stem = where + name, PurePosixPath(name).stem
            if why := self._unfit(inner, name, written):
                self._pass(inner, why)
            elif (first := taken.setdefault(_same(stem), name)) != name:
                self._pass(inner, f"{shown(first)} has the same name and is drafted; rename one to draft both")
            else:
                video = videos.get(_same(stem)) or videos.get(_same(PurePosixPath(stem).stem))
                yield Found(inner, _kind(name) == "captions", video and where + video)

    def _unfit(self, inner: str, name: str, written: set[str]) -> str | None:
        if name.startswith("."):
            return "this is a hidden file"
        if name in written:
            return "stovescript wrote it"
        try:
            mode = (self.folder / inner).stat().st_mode
        except OSError as error:
            return f"it can't be found ({_reason(error)}); a link may lead nowhere"
        return None if stat.S_ISREG(mode) else "this is no plain file"

    def _pass(self, path: str, why: str) -> None:
        self.passed_over.append(PassedOver(path, why))


def _written(names: Iterable[str]) -> set[str]:
    """The files that stovescript wrote: two or more of its endings after one stem."""
    by_stem: dict[str, set[str]] = {}
    for name in names:
        for ending in endings("written"):
            if name.endswith(ending):
                by_stem.setdefault(name.removesuffix(ending), set()).add(name)
    return {name for together in by_stem.values() if len(together) > 1 for name in together}


def _preferred_first(names: Iterable[str]) -> list[str]:
    """The possible talks, captions before text."""
    order = [*endings("captions"), *endings("text")]
    talks = [name for name in names if _kind(name) in ("captions", "text")]
    return sorted(talks, key=lambda name: (order.index(PurePosixPath(name).suffix.lower()), os.fsencode(name)))


def _kind(name: str) -> str | None:
    return kind_of(PurePosixPath(name).suffix)


def _same(stem: str) -> str:
    """What two stems share that some disks take for one name, or that differ only in how an accent is stored."""
    return unicodedata.normalize("NFC", stem).casefold()


def _is_folder(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_dir()
    except OSError:
        return False  # a link in a circle: told as a file that can't be found, where its ending is a talk's


def _identity(folder: Path) -> tuple[int, int]:
    found = folder.stat()
    return found.st_dev, found.st_ino


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()
