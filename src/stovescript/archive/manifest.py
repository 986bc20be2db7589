"""The archive's memory: one SQLite file in the out folder, kept to one run at a time by its own lock."""

import sqlite3
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from importlib.resources import files
from pathlib import Path
from typing import NamedTuple

from stovescript.archive.gather import MANIFEST
from stovescript.archive.rows import Cell, Row, Rows
from stovescript.errors import StovescriptError

_EDITION = 1  # of schema.sql: another one is made anew, and the talks are drafted again
_APPLICATION = 0x73746F76  # "stov", in the file's header
_TABLES = ("gaps", "settings", "ingredients", "talks", "facts")


class Known(NamedTuple):
    """How a talk stands: its state, its fingerprint, and the digest of its captions where they could be read."""

    state: str
    fingerprint: str
    captions: str | None


class Table(NamedTuple):
    """The answer to a query."""

    columns: tuple[str, ...]
    rows: Iterable[tuple[Cell, ...]]


class Manifest:
    """An open manifest. Each talk is kept in one transaction, so that a run that is killed loses no other."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection

    def fact(self, name: str) -> str | None:
        """Something known of the archive as a whole."""
        found = self._connection.execute("SELECT value FROM facts WHERE name = ?", [name]).fetchone()
        return found[0] if found else None

    def know(self, name: str, value: str) -> None:
        """Keeps something known of the archive as a whole."""
        with self._connection as change:
            change.execute("INSERT OR REPLACE INTO facts VALUES (?, ?)", [name, value])

    def known(self) -> dict[str, Known]:
        """What is known of each talk."""
        rows = self._connection.execute("SELECT talk, state, fingerprint, captions_sha256 FROM talks")
        return {talk: Known(state, fingerprint, captions) for talk, state, fingerprint, captions in rows}

    def counts(self) -> Counter[str]:
        """How many of the talks found are drafted, ready, failed or no talk, and how many are gone."""
        rows = self._connection.execute("SELECT iif(found, state, 'gone'), found AND must = 0 FROM talks").fetchall()
        return Counter([*(state for state, _ in rows), *("ready" for _, ready in rows if ready)])

    def keep(self, talk: Row, rows: Rows | None = None) -> None:
        """Keeps what is known of one talk in place of what was."""
        with self._connection as change:
            change.execute("DELETE FROM talks WHERE talk = ?", [talk["talk"]])
            _insert(change, "talks", [{**talk, **(rows.talk if rows else {})}])
            for table in ("ingredients", "settings", "gaps"):
                _insert(change, table, [{"talk": talk["talk"], **row} for row in (getattr(rows, table, ()))])

    def note_found(self, videos: Mapping[str, str | None]) -> None:
        """Keeps which talks are there now, and the video of each."""
        with self._connection as change:
            change.execute("UPDATE talks SET found = 0, video = NULL")
            change.executemany(
                "UPDATE talks SET found = 1, video = ? WHERE talk = ?", [(v, talk) for talk, v in videos.items()]
            )

    def forget(self, is_gone: Callable[[str], bool]) -> None:
        """Forgets the talks that are not there now and have no draft, or one whose page is gone."""
        rows = self._connection.execute("SELECT talk, page FROM talks WHERE NOT found").fetchall()
        with self._connection as change:
            for talk, page in rows:
                if page is None or is_gone(page):
                    change.execute("DELETE FROM talks WHERE talk = ?", [talk])

    def table(self, query: str) -> Table:
        """The columns and rows of a query, the rows one after the other."""
        found = self._connection.execute(query)
        return Table(tuple(column[0] for column in found.description), found)

    def records(self, query: str) -> Iterator[dict[str, Cell]]:
        """The rows of a query, column → value."""
        columns, rows = self.table(query)
        return (dict(zip(columns, row, strict=True)) for row in rows)


@contextmanager
def opened(out: Path) -> Iterator[Manifest]:
    """The manifest of an out folder, which no other run can use meanwhile.

    The lock is the operating system's and ends with the process that holds it, however it ends.
    Raises StovescriptError where the folder can't be written, is in use, or its manifest is damaged.
    """
    path = out / MANIFEST
    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise StovescriptError(f"{out}: can't be made ({reason}); choose another folder with --out.") from None
    connection: sqlite3.Connection | None = None
    try:
        connection = sqlite3.connect(path, timeout=0)
        connection.execute("PRAGMA locking_mode = EXCLUSIVE")
        connection.execute("PRAGMA foreign_keys = ON")
        _prepare(connection, path)
        yield Manifest(connection)
    except sqlite3.DatabaseError as error:
        raise StovescriptError(_told(error, path)) from None
    finally:
        if connection is not None:
            connection.close()


def _told(error: sqlite3.DatabaseError, path: Path) -> str:
    code = getattr(error, "sqlite_errorname", "")
    if code.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return f"{path}: another run is using this archive, or another program has the file open; wait until it ends."
    if code.startswith(("SQLITE_CANTOPEN", "SQLITE_READONLY", "SQLITE_PERM", "SQLITE_IOERR", "SQLITE_FULL")):
        return f"{path}: can't be written ({error}); make room there or choose another folder with --out."
    return f"{path}: this is no archive, or it is damaged ({error}); move it away and run again to draft anew."


def _prepare(connection: sqlite3.Connection, path: Path) -> None:
    """Takes the lock, and makes the tables where they are missing or of another edition."""
    connection.execute("BEGIN EXCLUSIVE")
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    (edition,) = connection.execute("PRAGMA user_version").fetchone()
    (tables,) = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    if tables and application != _APPLICATION:
        raise StovescriptError(f"{path}: this file is not an archive's; choose another folder with --out.")
    if (application, edition) != (_APPLICATION, _EDITION):
        for table in _TABLES:
            connection.execute(f"DROP TABLE IF EXISTS {table}")
        for statement in files(__package__).joinpath("schema.sql").read_text(encoding="utf-8").split(";\n"):
            connection.execute(statement)
        connection.execute(f"PRAGMA application_id = {_APPLICATION}")
        connection.execute(f"PRAGMA user_version = {_EDITION}")
    connection.commit()


def _insert(connection: sqlite3.Connection, table: str, rows: Iterable[Row]) -> None:
    for row in rows:
        names, marks = ", ".join(row), ", ".join("?" * len(row))
        connection.execute(f"INSERT INTO {table} ({names}) VALUES ({marks})", list(row.values()))
