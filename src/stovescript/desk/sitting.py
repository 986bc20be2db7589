"""One draft while it is worked on: read anew when its files change, changed, undone, never overwritten unseen."""

import hashlib
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from glob import escape as glob_escape
from pathlib import Path

from stovescript.answers import (
    Answers,
    AnswersChanged,
    DraftFiles,
    Entry,
    HeardTalk,
    NotUnderstood,
    Outcome,
    answered,
    back_to,
    heard_text,
    put,
    read_answers,
    read_heard,
    remove,
    save_round,
)
from stovescript.desk.telling import told
from stovescript.files import UNFINISHED, write_together
from stovescript.recipe.draft import Draft

_REMEMBERED = 300  # editions, to tell what was changed since; also the levels of undo
_ABANDONED = 60.0  # seconds after which nobody is writing a file any more


@dataclass(frozen=True, slots=True)
class Now:
    """The draft as it stands. `edition` marks the talk and the answers that it was made from."""

    heard: HeardTalk
    answers: Answers
    outcome: Outcome
    edition: str

    @property
    def draft(self) -> Draft:
        return self.outcome.draft


@dataclass(frozen=True, slots=True)
class Before:
    """A point to go back to: the answers as they were, and what was then done in words."""

    answers: Answers
    what: str


class ChangedElsewhere(Exception):
    """The draft is not the one that the page shows: what it is now, and in words what was changed meanwhile."""

    def __init__(self, now: Now, lines: list[str]) -> None:
        super().__init__("The draft was changed elsewhere since you opened it.")
        self.now, self.lines = now, lines


class Sitting:
    """A draft on the desk. Every method may be called from any thread."""

    def __init__(self, files: DraftFiles) -> None:
        self.files = files
        self.past: list[Before] = []
        self.future: list[Before] = []
        self._lock = threading.Lock()
        self._now: Now | None = None
        self._heard: tuple[tuple[int, int, int] | None, str, HeardTalk] | None = None
        self._seen: dict[str, tuple[Entry, ...]] = {}

    def now(self) -> Now:
        """The draft as its files say. Raises StovescriptError where they can't be read."""
        with self._lock:
            return self._read()

    def bring_up_to_date(self) -> None:
        """Writes the draft and its page again where they lag behind the answers: a run was killed, a file edited.

        What a killed run had begun to write is taken away.
        """
        with self._lock:
            now = self._read()
            stale = {path: text for path, text in self.files.written(now.outcome).items() if _text(path) != text}
            if stale:
                write_together(stale)
            for path in self.files.folder.glob(f".{glob_escape(self.files.stem)}.*{UNFINISHED}"):
                with suppress(OSError):
                    if time.time() - path.stat().st_mtime > _ABANDONED:
                        path.unlink()

    def warm(self) -> None:
        """Loads the tables that the first change needs, so that it does not wait for them."""
        heard = self.now().heard.draft
        answered(heard, put(Answers(), Entry("title", to="Warm"), heard).entries)

    def change(self, edition: str, make: Callable[[Draft], Entry]) -> tuple[Now, Entry]:
        """The draft after one more entry, which `make` gives for the draft as it is; saved.

        Raises NotUnderstood where it can't be carried out, and ChangedElsewhere.
        """
        with self._lock:
            now = self._checked(edition)
            answers = put(now.answers, make(now.draft), now.heard.draft)
            entry = next((new for new in reversed(answers.entries) if new not in now.answers.entries), None)
            if entry is None:
                return now, make(now.draft)
            made = answered(now.heard.draft, answers.entries)
            for one in made.unplaced:
                if one.entry == entry:
                    raise NotUnderstood(one.why)
            return self._changed(now, answers, told(entry), made), entry

    def take_back(self, edition: str, number: int) -> tuple[Now, Entry]:
        """The draft without one of her entries. Raises NotUnderstood and ChangedElsewhere."""
        with self._lock:
            now = self._checked(edition)
            if not 0 <= number < len(now.answers.entries):
                raise NotUnderstood("there is no such answer in the file")
            entry = now.answers.entries[number]
            answers = remove(now.answers, entry)
            return self._changed(now, answers, f"took back: {told(entry)}"), entry

    def undo(self, edition: str) -> tuple[Now, str]:
        """The draft before the last change, and that change in words. Raises NotUnderstood, ChangedElsewhere."""
        return self._step_back(edition, self.past, self.future, "There is nothing to undo")

    def redo(self, edition: str) -> tuple[Now, str]:
        """The draft with the change that was undone last. Raises NotUnderstood, ChangedElsewhere."""
        return self._step_back(edition, self.future, self.past, "There is nothing to do again")

    def _step_back(self, edition: str, source: list[Before], other: list[Before], none: str) -> tuple[Now, str]:
        with self._lock:
            now = self._checked(edition)
            if not source:
                raise NotUnderstood(none)
            before = source[-1]
            made = self._save(now, back_to(now.answers, before.answers))
            source.pop()
            other.append(Before(now.answers, before.what))
            return made, before.what

    def _changed(self, now: Now, answers: Answers, what: str, made: Outcome | None = None) -> Now:
        """Saves a new change; it ends what could be done again."""
        saved = self._save(now, answers, made)
        self.past = [*self.past, Before(now.answers, what)][-_REMEMBERED:]
        self.future = []
        return saved

    def _save(self, now: Now, answers: Answers, made: Outcome | None = None) -> Now:
        try:
            answers, outcome = save_round(self.files, now.heard, answers, made)
        except AnswersChanged:
            was, now = now, self._read()
            raise ChangedElsewhere(now, self._difference(was.edition, now)) from None
        return self._remember(Now(now.heard, answers, outcome, _edition(answers, self._heard_now()[0])))

    def _checked(self, edition: str) -> Now:
        now = self._read()
        if edition != now.edition:
            raise ChangedElsewhere(now, self._difference(edition, now))
        return now

    def _difference(self, edition: str, now: Now) -> list[str]:
        """What was changed since that edition, one line each; none where it is not remembered."""
        if edition not in self._seen:
            return []
        was, is_ = self._seen[edition], now.answers.entries
        gone = [f"taken back: {told(entry)}" for entry in was if entry not in is_]
        return [*(told(entry) for entry in is_ if entry not in was), *gone]

    def _read(self) -> Now:
        """The draft as its files say; what could be undone is forgotten where somebody else has changed them."""
        data = _bytes(self.files.answers)
        if self._now and self._now.answers.edition and data == self._now.answers.text.encode():
            answers = self._now.answers
        else:
            answers = read_answers(self.files.answers)
        mark, heard = self._heard_now()
        edition = _edition(answers, mark)
        if self._now and self._now.edition == edition:
            return self._now
        self.past, self.future = [], []
        return self._remember(Now(heard, answers, answered(heard.draft, answers.entries), edition))

    def _remember(self, now: Now) -> Now:
        self._now = now
        self._seen[now.edition] = now.answers.entries
        for old in list(self._seen)[:-_REMEMBERED]:
            del self._seen[old]
        return now

    def _heard_now(self) -> tuple[str, HeardTalk]:
        """The talk as heard and a mark of it, read again only where the file was written again."""
        try:
            is_ = self.files.heard.stat()
            stamp = (is_.st_mtime_ns, is_.st_size, is_.st_ino)
        except OSError:
            stamp = None
        if stamp is None or self._heard is None or self._heard[0] != stamp:
            heard = read_heard(self.files.heard)
            self._heard = stamp, hashlib.sha256(heard_text(heard).encode()).hexdigest()[:16], heard
        return self._heard[1:]


def _edition(answers: Answers, mark: str) -> str:
    return f"{answers.edition or 'none'}-{mark}"


def _bytes(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None


def _text(path: Path) -> str | None:
    data = _bytes(path)
    return None if data is None else data.decode(errors="replace")
