"""The whole way from a caption file to a draft with its questions."""

from pathlib import Path
from typing import BinaryIO

from stovescript.gaps import ask
from stovescript.recipe.assemble import assemble
from stovescript.recipe.draft import Draft
from stovescript.speech.listen import listen
from stovescript.talk import Talk, read_talk


def draft_talk(talk: Talk, title: str | None = None) -> Draft:
    """The draft of a talk that has been read; `title` overrides the dish's name as heard."""
    heard = listen(talk)
    return ask(assemble(heard, title), heard)


def draft_file(path: str | Path, title: str | None = None, stdin: BinaryIO | None = None) -> Draft:
    """The draft of the caption file at PATH; "-" reads `stdin`. Raises TalkError."""
    return draft_talk(read_talk(path, stdin), title)
