"""The post as one HTML page that needs nothing else: no network, and no script to be read."""

import base64
import hashlib
import json
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from stovescript.pages.addresses import linked
from stovescript.pages.amount_choices import FACTORS, Choices, choices_of
from stovescript.pages.forms import Publication
from stovescript.pages.markdown import SEVERITIES
from stovescript.pages.post_content import post_of
from stovescript.pages.structured import script_element
from stovescript.pages.video_link import at_second
from stovescript.talk.clock import clock_of

if TYPE_CHECKING:
    from jinja2 import Environment

_TEMPLATES = Path(__file__).parent / "templates"


def post_html(publication: Publication) -> str:
    """The page. Whatever the talk says is text in it; only the page's own script and style are run."""
    from markupsafe import Markup

    post = post_of(publication)
    choices = choices_of(publication, post)
    video = publication.video
    script, style = _file("post.js"), _file("post.css")
    return (
        _environment()
        .get_template("post.html")
        .render(
            post=post,
            choices=choices,
            choices_json=Markup(_as_json(choices)),
            css=Markup(style),
            script=Markup(script),
            policy=f"default-src 'none'; style-src {_hash(style)}; script-src {_hash(script)}; base-uri 'none'; "
            "form-action 'none'",
            structured=Markup(script_element(publication)),
            factors=FACTORS,
            severities=SEVERITIES,
            sources=publication.with_sources,
            video=video,
            link=lambda second: at_second(video, second) if video else "",
        )
    )


def _as_json(choices: Choices) -> str:
    """The choices, every text once; nothing in it can close the element that holds it."""
    words: dict[str, int] = {}

    def number(text: str) -> int:
        return words.setdefault(text, len(words))

    data = {
        "systems": len(choices.systems),
        "texts": {place: [number(text) for text in texts] for place, texts in choices.texts.items()},
        "notes": [[number(text) for text in notes] for notes in choices.notes],
        "mind": [[number(text) for text in mind] for mind in choices.mind],
    }
    text = json.dumps({**data, "words": list(words)}, ensure_ascii=False, separators=(",", ":"))
    return text.replace("&", r"\u0026").replace("<", r"\u003c").replace(">", r"\u003e")


def _hash(text: str) -> str:
    """The source expression of CSP Level 3 that lets this very text run."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


@cache
def _file(name: str) -> str:
    return (_TEMPLATES / name).read_text(encoding="utf-8")


@cache
def _environment() -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    made = Environment(
        loader=FileSystemLoader(_TEMPLATES), autoescape=True, undefined=StrictUndefined, keep_trailing_newline=True
    )
    made.filters["clock"] = clock_of
    made.filters["linked"] = linked
    return made
