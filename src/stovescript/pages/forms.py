"""The registry of forms in which a draft is published: one function each, from a publication to its files."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from stovescript.errors import StovescriptError
from stovescript.recipe.draft import Draft
from stovescript.talk import Talk


@dataclass(frozen=True, slots=True)
class Publication:
    """What is to be published: the draft with its answers, and what belongs to it.

    `video` is the address of the published video, `talk` the captions that the draft was made from; None where
    they are not given. `with_sources` asks for the second at which each statement was heard.
    """

    draft: Draft
    stem: str
    video: str | None = None
    talk: Talk | None = None
    with_sources: bool = False


class CannotBeMade(StovescriptError):
    """A form needs something that is not installed: a note where all are written, an error where it is asked for."""


Form = Callable[[Publication], Mapping[str, str | bytes]]
"""The files that a form makes: content by file name; empty where the draft has nothing to fill it."""

FORMS: dict[str, Form] = {}


def form(name: str) -> Callable[[Form], Form]:
    """Registers a form under the name by which it is asked for."""

    def register(function: Form) -> Form:
        FORMS[name] = function
        return function

    return register
