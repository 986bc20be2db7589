"""The registry of what entries do to a draft: one function for each kind of entry and part."""

from collections.abc import Callable

from stovescript.answers.entry import Entry
from stovescript.answers.state import Gone, State

Effect = Callable[[State, Entry, str], State]
"""The state after an entry; the text is the id that the part it is about has now ("" for the whole draft)."""

_EFFECTS: dict[tuple[str, str], Effect] = {}


def effect(do: str, *kinds: str) -> Callable[[Effect], Effect]:
    """Registers what `do` does to parts of those kinds; to the draft as a whole where none is named."""

    def register(function: Effect) -> Effect:
        for kind in kinds or ("",):
            _EFFECTS[do, kind] = function
        return function

    return register


def done(state: State, entry: Entry, id_: str) -> State:
    """The state after an entry. Raises Gone where it can't be carried out."""
    function = _EFFECTS.get((entry.do, entry.of.kind if entry.of else ""))
    if function is None:
        raise Gone(f"{entry.do} is nothing that can be done to it")
    return function(state, entry, id_)
