"""What the page asks for: a change or an answer as JSON, read strictly, and the entry that it becomes."""

import json
from typing import TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

from stovescript.answers import CHANGES, Entry, NotUnderstood, Ref, answer_to, ref_of
from stovescript.recipe.draft import Draft


class Wish(BaseModel):
    """Base of all: the edition of the draft that the page shows, and the part that is open for editing there."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)

    edition: str
    open: str = ""


class Change(Wish):
    """A correction: as an Entry, with the ids of parts in place of references."""

    do: str
    of: str = ""
    to: str | bool = ""
    where: str = ""
    amount: str = ""

    def entry(self, draft: Draft) -> Entry:
        """The entry for it. Raises NotUnderstood."""
        to: str | bool | tuple[str, ...] = self.to
        if isinstance(to, str) and self.do in CHANGES and CHANGES[self.do].to == "list":
            to = tuple(part.strip() for part in to.split(",") if part.strip())
        return Entry(self.do, _part(draft, self.of), to, _part(draft, self.where), self.amount)


class Answer(Wish):
    """An answer to a question, as typed."""

    gap: str
    text: str

    def entry(self, draft: Draft) -> Entry:
        """The entry for it. Raises NotUnderstood."""
        for gap in draft.gaps:
            if gap.id == self.gap:
                return answer_to(gap, self.text, draft)
        raise NotUnderstood("that question is not asked any more")


class TakeBack(Wish):
    """One of her own entries taken back, by its place in the answers file."""

    number: int


_W = TypeVar("_W", bound=Wish)


def read_wish(kind: type[_W], body: bytes) -> _W:
    """The wish in a request's body. Raises NotUnderstood."""
    try:
        data = json.loads(body)
        json.dumps(data, ensure_ascii=False).encode()  # half a surrogate pair can't be kept in a file
        wish = kind.model_validate(data)
    except (ValidationError, ValueError, RecursionError):
        raise NotUnderstood("the page sent something that is no change of a draft; load it again") from None
    if any(isinstance(text, str) and not _plain(text) for text in wish.model_dump().values()):
        raise NotUnderstood("there are control characters in the text; type it again")
    return wish


def _part(draft: Draft, id_: str) -> Ref | None:
    if not id_:
        return None
    try:
        return ref_of(draft, id_)
    except KeyError:
        raise NotUnderstood("that is not in the draft any more") from None


def _plain(text: str) -> bool:
    return all(letter >= " " or letter in "\n\r\t" for letter in text) and "\x7f" not in text
