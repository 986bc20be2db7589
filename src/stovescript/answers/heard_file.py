"""STEM.heard.json: the draft as heard, before any answer, and the talk's clauses, so that nothing is heard anew."""

import json
from pathlib import Path
from typing import Literal

from pydantic import ValidationError

from stovescript.errors import StovescriptError
from stovescript.recipe.draft import Draft, Part
from stovescript.speech.heard import Heard


class HeardClause(Part):
    """One clause of the talk: its seconds, what it was taken for (does, states, alternative ...), and its words."""

    start: float
    end: float
    intent: str
    text: str


class HeardTalk(Part):
    """A talk as heard: what answers are applied to, and what the review page shows."""

    format: Literal["stovescript/heard"] = "stovescript/heard"
    version: Literal[1] = 1
    draft: Draft
    clauses: list[HeardClause]


def heard_talk(draft: Draft, heard: Heard) -> HeardTalk:
    """The draft as heard with the clauses that it was made from."""
    words = heard.talk.words
    clauses = [
        HeardClause(
            start=round(words[one.start].start, 2),
            end=round(words[one.end - 1].end, 2),
            intent=one.intent,
            text=heard.text(one.start, one.end),
        )
        for one in heard.clauses
        if one.end > one.start
    ]
    return HeardTalk(draft=draft, clauses=clauses)


def heard_text(talk: HeardTalk) -> str:
    """The file's text."""
    return talk.model_dump_json(indent=1) + "\n"


def read_heard(path: Path) -> HeardTalk:
    """The talk as heard. Raises StovescriptError, in one sentence, where the file can't be used."""
    remedy = "run stovescript draft again, which writes it"
    try:
        return HeardTalk.model_validate(json.loads(path.read_bytes().decode("utf-8-sig")))
    except FileNotFoundError:
        raise StovescriptError(f"{path}: no such file; {remedy}.") from None
    except OSError as error:
        raise StovescriptError(
            f"{path}: can't be read ({(error.strerror or str(error)).lower()}); {remedy}."
        ) from None
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(map(str, first["loc"])) or "the whole file"
        raise StovescriptError(f"{path}: this is no talk as heard ({place}); {remedy}.") from None
    except (ValueError, RecursionError):
        raise StovescriptError(f"{path}: this is no JSON; {remedy}.") from None
