"""What viewers were told they would find: each promise kept or open, and the links that are still owed."""

import re
from dataclasses import dataclass
from typing import Literal

from stovescript.kitchen.words import phrases
from stovescript.recipe.draft import Draft, Gap, Note

State = Literal["open", "kept", "dropped"]
_ADDRESS = re.compile(r"\bhttps?://\S|\bwww\.\S")


@dataclass(frozen=True, slots=True)
class Promise:
    """A promise and how it stands. `asked` is the question that is still open for it.

    `place` is where she said she would keep it ("description"), "" where she didn't say.
    """

    note: Note
    state: State
    asked: Gap | None
    place: str
    link: bool
    """It speaks of a link, a shop, a product or a code."""
    paid: bool
    """It speaks of a discount or a sponsor, so that a disclosure is due."""

    @property
    def link_owed(self) -> bool:
        """True where a link was promised and no answer holds an address."""
        return self.link and self.state != "dropped" and not _ADDRESS.search(self.note.fulfilled_by or "")


def promises(draft: Draft) -> tuple[Promise, ...]:
    """Every promise, in the order said.

    What keeps a promise is for the cook to say: it is open while its question is, never kept by something in the
    draft that resembles it. A question that she dismissed takes the promise back.
    """
    return tuple(_promise(draft, note) for note in draft.promises)


def _promise(draft: Draft, note: Note) -> Promise:
    said = note.text.lower()
    asked = next((gap for gap in draft.gaps if gap.kind == "promise" and _about(gap, note)), None)
    dismissed = next((a for a in draft.answered if a.do == "dismiss" and a.gap and a.about == note.text), None)
    place = phrases("promised_places").search(said)
    paid = bool(phrases("paid_words").search(said))
    return Promise(
        note=note,
        state="kept" if note.fulfilled_by is not None else "open" if asked else "dropped" if dismissed else "kept",
        asked=asked,
        place=place[0] if place else "",
        link=paid or bool(phrases("link_words").search(said)),
        paid=paid,
    )


def _about(gap: Gap, note: Note) -> bool:
    return gap.about == note.text or bool(gap.evidence and gap.evidence == note.evidence)
