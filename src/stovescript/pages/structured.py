"""The recipe as schema.org's Recipe in JSON-LD: what the post says, for machines; what is not known is left out."""

import json
import math
from collections.abc import Mapping, Sequence

from stovescript.pages.chapter_titles import chapter_title
from stovescript.pages.chapters import chapters_of
from stovescript.pages.forms import Publication, form
from stovescript.pages.method_lines import MethodStep
from stovescript.pages.post_content import Post, post_of
from stovescript.pages.servings import yield_text
from stovescript.pages.video_link import at_second
from stovescript.pages.voice import sentence_case
from stovescript.recipe.draft import Draft, Span, Step

Data = dict[str, object]

_IN_SCRIPT = str.maketrans({mark: f"\\u{ord(mark):04x}" for mark in "<>&\u2028\u2029"})
"""Marks that could end or open an element inside a script, as JSON's own escapes (HTML, WHATWG, 4.12.1.3)."""


@form("structured")
def structured(publication: Publication) -> Mapping[str, str | bytes]:
    """STEM.recipe.jsonld; nothing for a draft with neither ingredients nor steps."""
    data = recipe_data(publication)
    text = json.dumps(data, ensure_ascii=False, indent=2) + "\n"
    return {f"{publication.stem}.recipe.jsonld": text} if data else {}


def script_element(publication: Publication) -> str:
    """The whole element for the head of an HTML page, safe whatever was said in the talk; "" for an empty draft."""
    data = recipe_data(publication)
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":")).translate(_IN_SCRIPT)
    return f'<script type="application/ld+json">{text}</script>' if data else ""


def recipe_data(publication: Publication) -> Data:
    """The Recipe; {} where there is nothing to cook.

    Ingredients, steps and equipment are worded as in the post, for search engines ask that both say the same. Diets,
    cuisine, category, pictures and the author are not in a talk and never guessed. While a question must be answered
    the work's status is "Draft". Of a length of time said as a range, the longer one is given.
    """
    draft = publication.draft
    if not draft.ingredients and not draft.steps:
        return {}
    post = post_of(publication)
    times = draft.times
    servings = draft.servings
    return _known(
        {
            "@context": "https://schema.org",
            "@type": "Recipe",
            "name": post.title if draft.title else None,
            "description": post.headnote,
            "creativeWorkStatus": "Draft" if post.must_answer else None,
            "recipeYield": ("about " if servings.approximate else "") + yield_text(servings) if servings else None,
            "prepTime": iso_duration(times.prep),
            "cookTime": iso_duration(times.cook),
            "totalTime": iso_duration(times.total),
            "recipeIngredient": [line.text for part in post.components for line in part.lines],
            "tool": [{"@type": "HowToTool", "name": each.text} for each in post.equipment],
            "recipeInstructions": _instructions(publication, post),
            "video": _video(publication, post) if publication.video else None,
        }
    )


def iso_duration(span: Span | None) -> str | None:
    """ "PT1H15M" (ISO 8601) for the longer end of the span; None where it is none."""
    seconds = round(span.high) if span else 0
    if seconds <= 0:
        return None
    minutes, rest = divmod(seconds, 60)
    days, minutes = divmod(minutes, 24 * 60)
    parts = ((minutes // 60, "H"), (minutes % 60, "M"), (rest, "S"))
    clock = "".join(f"{number}{name}" for number, name in parts if number)
    return "P" + (f"{days}D" if days else "") + (f"T{clock}" if clock else "")


def _known(data: Data) -> Data:
    """Only what has a value."""
    return {name: value for name, value in data.items() if value not in (None, "", [])}


def _instructions(publication: Publication, post: Post) -> list[Data]:
    """The steps, those of one part of the dish in a row as a section under its name."""
    draft = publication.draft
    made: list[Data] = []
    named: str | None = None
    for step, written, part in zip(draft.steps, post.method, _parts(draft), strict=True):
        data = _step(publication, step, written)
        if part is None:
            made.append(data)
        elif part == named and isinstance(steps := made[-1]["itemListElement"], list):
            steps.append(data)
        else:
            made.append({"@type": "HowToSection", "name": sentence_case(part), "itemListElement": [data]})
        named = part
    return made


def _parts(draft: Draft) -> Sequence[str | None]:
    """The part of the dish that each step makes.

    That of its ingredients, where they are all of one; a step without ingredients goes on with the step before.
    """
    part_of = {each.id: each.component for each in draft.ingredients}
    parts: list[str | None] = []
    for step in draft.steps:
        own = {part_of[each] for each in step.ingredients if each in part_of}
        before = parts[-1] if parts else None
        parts.append(before if not own else own.pop() if len(own) == 1 else None)
    return parts


def _step(publication: Publication, step: Step, written: MethodStep) -> Data:
    """One step with its name, its heat and its cautions, and the part of the video that shows it."""
    text = f"{written.text} {written.heat}." if written.heat else written.text
    name = chapter_title(publication.draft, [step])
    cautions: list[Data] = [{"@type": "HowToTip", "text": caution} for caution in written.cautions]
    return _known(
        {
            "@type": "HowToStep",
            "name": name,
            "text": text,
            "itemListElement": [{"@type": "HowToDirection", "text": text}, *cautions] if cautions else None,
            "video": _clip(publication.video, name or f"Step {written.number}", step.start, step.end)
            if publication.video
            else None,
        }
    )


def _video(publication: Publication, post: Post) -> Data:
    """The video with its chapters. When it was uploaded and what its picture is, no talk says."""
    draft, video = publication.draft, publication.video or ""
    return _known(
        {
            "@type": "VideoObject",
            "name": post.title if draft.title else None,
            "description": post.headnote,
            "url": video,
            "hasPart": [_clip(video, each.title, each.start, each.end) for each in chapters_of(draft)],
        }
    )


def _clip(video: str, name: str, start: float, end: float) -> Data:
    """A part of the video in whole seconds, at least one long."""
    first = int(start)
    return {
        "@type": "Clip",
        "name": name,
        "startOffset": first,
        "endOffset": max(math.ceil(end), first + 1),
        "url": at_second(video, first),
    }
