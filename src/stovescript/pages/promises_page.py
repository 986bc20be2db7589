"""The page of promises: what is still to be written or linked, and what is done."""

from collections.abc import Iterator, Mapping, Sequence

from stovescript.kitchen.reminders import reminders
from stovescript.pages.forms import Publication, form
from stovescript.pages.markdown import safe
from stovescript.pages.promises import Promise, promises
from stovescript.pages.video_link import at_second
from stovescript.pages.voice import as_meant, cleaned
from stovescript.talk.clock import clock_of


@form("promises")
def promises_form(publication: Publication) -> Mapping[str, str | bytes]:
    """STEM.promises.md; nothing where nothing was promised."""
    found = promises(publication.draft)
    return {f"{publication.stem}.promises.md": promises_page(publication, found)} if found else {}


def promises_page(publication: Publication, found: Sequence[Promise]) -> str:
    """The page as Markdown."""
    waiting = [promise for promise in found if promise.state == "open" and not promise.link]
    links = [promise for promise in found if promise.link_owed]
    done = [promise for promise in found if promise not in waiting and promise not in links]
    lines = ["# Promised to viewers", "", _count(found), ""]
    for heading, some, box in (("To write down", waiting, " "), ("Links you still owe", links, " ")):
        lines += _section(publication, heading, some, box)
    if any(promise.link for promise in found):
        lines += [*_reminder(found), ""]
    lines += _section(publication, "Done", done, "x")
    return "\n".join(lines).rstrip() + "\n"


def _count(found: Sequence[Promise]) -> str:
    open_ = sum(promise.state == "open" for promise in found)
    promised = "1 promise" if len(found) == 1 else f"{len(found)} promises"
    return f"{promised}, {open_ or 'none'} still open."


def _section(publication: Publication, heading: str, some: Sequence[Promise], box: str) -> list[str]:
    if not some:
        return []
    return [f"## {heading}", "", *(line for promise in some for line in _lines(publication, promise, box)), ""]


def _lines(publication: Publication, promise: Promise, box: str) -> Iterator[str]:
    note = promise.note
    words = cleaned(as_meant(note.text, note.evidence, publication.draft.mishearings))
    where = f", for the {safe(promise.place)}" if promise.place else ""
    yield f"- [{box}] “{safe(words)}” {_at(publication, promise)}{where}"
    if note.fulfilled_by:
        yield f"  - {safe(note.fulfilled_by)}"
    elif promise.state == "dropped":
        yield "  - Taken back: the question was dismissed."
    elif promise.state == "kept":
        yield "  - No longer asked; no words for it are noted."
    if promise.state == "kept" and promise.link_owed:
        yield "  - The answer holds no address yet."
    if promise.asked:
        yield f"  - Not answered yet `{promise.asked.id}`"


def _at(publication: Publication, promise: Promise) -> str:
    """The second at which it was said, as a link where the video is known."""
    if not promise.note.evidence:
        return ""
    start = promise.note.evidence[0].start
    clock = clock_of(start)
    return f"[{clock}](<{at_second(publication.video, start)}>)" if publication.video else f"`{clock}`"


def _reminder(found: Sequence[Promise]) -> Iterator[str]:
    reminder = reminders()["disclosure"]
    if any(promise.paid for promise in found):
        yield "> You spoke of a code, a sponsor or a gift: readers must be told of it."
        yield ">"
    yield f"> {safe(reminder.text)} *({safe(reminder.source)})*"
