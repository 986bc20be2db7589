"""The whole way from a caption file to a draft with its questions."""

from pathlib import Path
from typing import BinaryIO

from stovescript.answers.answers_file import Answers
from stovescript.answers.apply import Outcome, answered
from stovescript.answers.beside import DraftFiles
from stovescript.answers.heard_file import HeardTalk, heard_talk, heard_text
from stovescript.answers.parts import numbered
from stovescript.gaps import ask
from stovescript.recipe.assemble import assemble
from stovescript.recipe.draft import Draft
from stovescript.speech.heard import Heard
from stovescript.speech.listen import listen
from stovescript.talk import Talk, read_talk


def draft_talk(talk: Talk, title: str | None = None) -> Draft:
    """The draft of a talk that has been read; `title` overrides the dish's name as heard."""
    return hear_talk(talk, title).draft


def hear_talk(talk: Talk, title: str | None = None) -> HeardTalk:
    """The talk as heard, with its draft before any answer."""
    heard = listen(talk)
    return heard_talk(numbered_draft(heard, title), heard)


def numbered_draft(heard: Heard, title: str | None = None) -> Draft:
    """The draft of what was heard, with its questions and an id for every part."""
    return numbered(ask(assemble(heard, title), heard))


def written_draft(
    talk: Talk, answers: Answers, files: DraftFiles, title: str | None = None
) -> tuple[Outcome, dict[Path, str]]:
    """The draft with the answers, and the files that hold it: what one talk leaves, alone or in an archive."""
    heard = hear_talk(talk, title)
    made = answered(heard.draft, answers.entries)
    return made, {**files.written(made), files.heard: heard_text(heard)}


def hear_file(path: str | Path, title: str | None = None, stdin: BinaryIO | None = None) -> HeardTalk:
    """The caption file at PATH as heard; "-" reads `stdin`. Raises TalkError."""
    return hear_talk(read_talk(path, stdin), title)


def draft_file(path: str | Path, title: str | None = None, stdin: BinaryIO | None = None) -> Draft:
    """The draft of the caption file at PATH; "-" reads `stdin`. Raises TalkError."""
    return draft_talk(read_talk(path, stdin), title)
