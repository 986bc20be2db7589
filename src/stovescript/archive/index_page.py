"""The index of an archive as one page that needs no network; `templates/index.html` reads as the page does."""

import base64
import hashlib
import os
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

from stovescript.archive.index import Index
from stovescript.archive.pictures import bars, points
from stovescript.archive.rows import Cell
from stovescript.talk.clock import clock_of

if TYPE_CHECKING:
    from jinja2 import Environment

_TEMPLATES = Path(__file__).parent / "templates"
_MOST = 10  # talks in the list of those that need her most
_MOST_ASKED = 5  # questions shown for each of them


def index_page(index: Index) -> str:
    """The whole page. Names and words of the talks are text in it; only its own script and style are run."""
    from markupsafe import Markup

    script, style = _file("index.js"), _file("index.css")
    by_name = {str(talk["talk"]): talk for talk in index.drafted}
    waiting = [talk for talk in index.drafted if talk["must"] or talk["promises"]]
    waiting.sort(key=lambda talk: (-_number(talk["must"]), -_number(talk["promises"])))
    noticed = [talk for talk in index.drafted if talk["notices"]]
    pictures = _pictures(index)
    return (
        _environment()
        .get_template("index.html")
        .render(
            policy=f"default-src 'none'; style-src {_hash(style)}; script-src {_hash(script)}; base-uri 'none'; "
            "form-action 'none'",
            css=Markup(style),
            script=Markup(script),
            sections=(
                ("needs-you", "What needs you most", waiting),
                ("all", "All drafts", True),
                ("twice", "Perhaps the same dish twice", index.likely),
                ("failed", "Could not be drafted", index.failed),
                ("look-again", "Answers to look at again", noticed),
                ("gone", "No longer found", index.gone),
                ("passed-over", "Files passed over", index.passed_over),
                ("pictures", "The archive at a glance", pictures),
                ("tables", "Tables", True),
            ),
            drafted=index.drafted,
            failed=index.failed,
            gone=index.gone,
            noticed=noticed,
            ready=sum(talk["must"] == 0 for talk in index.drafted),
            must=sum(_number(talk["must"]) for talk in index.drafted),
            promises=sum(_number(talk["promises"]) for talk in index.drafted),
            neediest=[(talk, index.questions.get(str(talk["talk"]), ())) for talk in waiting[:_MOST]],
            most_asked=_MOST_ASKED,
            twice=[(pair, by_name[pair.first], by_name[pair.second]) for pair in index.likely],
            passed_over=[
                item.why if item.why.startswith(item.path) else f"{item.path}: {item.why}."
                for item in index.passed_over
            ],
            ingredients=index.ingredients,
            sources=index.sources,
            tables=index.tables,
            pictures=[(caption, Markup(picture)) for caption, picture in pictures],
        )
    )


def _pictures(index: Index) -> list[tuple[str, str]]:
    made = []
    if index.by_kind:
        made.append(("What is asked", bars("Questions by kind", index.by_kind)))
    timed = [
        (float(talk["words"]), float(talk["drafting_seconds"]))
        for talk in index.drafted
        if talk["words"] and talk["drafting_seconds"]
    ]
    if timed:
        made.append(("How long drafting took", points("Seconds per draft, by words", timed, "words", "seconds")))
    return made


@cache
def _environment() -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES), autoescape=True, undefined=StrictUndefined, keep_trailing_newline=True
    )
    environment.filters["clock"] = clock_of
    environment.filters["address"] = lambda path: quote(os.fsencode(path))
    return environment


def _file(name: str) -> str:
    return (_TEMPLATES / name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    """The mark by which a policy lets one inline script or style run (W3C Content Security Policy Level 3)."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def _number(value: Cell) -> int:
    return int(value or 0)
