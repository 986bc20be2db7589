"""An entry of the answers file: one answer or one correction, as the cook gives it."""

from dataclasses import dataclass

from stovescript.answers.parts import Ref


@dataclass(frozen=True, slots=True)
class Entry:
    """What is done (a key of CHANGES), to which part (None: the draft as a whole), and what it becomes.

    `where` is the step it goes into or comes after, or what it is merged into; `amount` belongs to something
    added, `reason` to a question dismissed; `new` is the id of what is added.
    """

    do: str
    of: Ref | None = None
    to: str | bool | tuple[str, ...] = ""
    where: Ref | None = None
    amount: str = ""
    reason: str = ""
    new: str = ""

    @property
    def text(self) -> str:
        """What it becomes, as words."""
        if isinstance(self.to, bool):
            return "yes" if self.to else "no"
        return self.to if isinstance(self.to, str) else ", ".join(self.to)


@dataclass(frozen=True, slots=True)
class Change:
    """What one kind of entry does: to which parts, how `to` is written ("" needs none), and what `where` is."""

    of: tuple[str, ...]
    to: str = ""
    where: str = ""
    adds: str = ""  # the letter with which the id of what is added begins
    may_be_empty: bool = False
    may_repeat: bool = False  # another entry that does the same to the same part does not replace it


CHANGES: dict[str, Change] = {
    "answer": Change(("gap",), "answer", where="step"),
    "dismiss": Change(("gap",)),
    "title": Change((), "text"),
    "summary": Change((), "text", may_be_empty=True),
    "servings": Change((), "servings"),
    "prep time": Change((), "time"),
    "cook time": Change((), "time"),
    "total time": Change((), "time"),
    "rename": Change(("ingredient", "alternative", "equipment"), "text"),
    "amount": Change(("use", "alternative"), "amount", may_be_empty=True),
    "goes in": Change(("use",), where="step"),
    "add use": Change(("ingredient",), "amount", where="step", adds="u", may_be_empty=True, may_repeat=True),
    "size": Change(("ingredient", "equipment"), "size", may_be_empty=True),
    "preparation": Change(("ingredient",), "list", may_be_empty=True),
    "optional": Change(("ingredient",), "yes or no"),
    "component": Change(("ingredient",), "text", may_be_empty=True),
    "add ingredient": Change((), "text", where="step", adds="i", may_repeat=True),
    "split": Change(("ingredient", "use"), "text", adds="i", may_repeat=True),
    "merge": Change(("ingredient", "step"), where="the same"),
    "drop": Change(
        ("ingredient", "use", "alternative", "step", "setting", "tip", "variation", "promise", "equipment"),
    ),
    "words": Change(("step", "tip", "variation", "promise"), "text"),
    "until": Change(("step",), "text", may_be_empty=True),
    "add step": Change((), "text", where="step", adds="s", may_repeat=True),
    "move": Change(("step",), where="step"),
    "appliance": Change(("setting", "step"), "text", may_be_empty=True),
    "program": Change(("setting", "step"), "text", may_be_empty=True),
    "level": Change(("setting", "step"), "text", may_be_empty=True),
    "temperature": Change(("setting", "step"), "temperature", may_be_empty=True),
    "time": Change(("setting", "step"), "time", may_be_empty=True),
    "release": Change(("setting", "step"), "release", may_be_empty=True),
    "fulfil": Change(("promise",), "text", may_be_empty=True),
    "add tip": Change((), "text", adds="t", may_repeat=True),
    "add variation": Change((), "text", adds="v", may_repeat=True),
}
"""Every kind of entry by its name."""

SETTING = ("appliance", "program", "level", "temperature", "time", "release")
