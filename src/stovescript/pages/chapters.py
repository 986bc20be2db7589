"""Chapters of the video: a WebVTT chapters file, and a plain list of times for the video's description."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from stovescript.pages.captions import vtt_time
from stovescript.pages.chapter_titles import chapter_title, main_foods
from stovescript.pages.forms import Publication, form
from stovescript.recipe.draft import Draft, Step
from stovescript.talk.clock import clock_of

SHORTEST_SECONDS = 10
"""The least that video sites take for a chapter: common practice, from memory."""
FEWEST = 3
"""Video sites show chapters from three on, and the first must start at 0:00: common practice, from memory."""
INTRODUCTION = "Introduction"
INGREDIENTS = "Ingredients"
COOKING = "Cooking"
CLOSING = "Last words"

_READABLE_SECONDS = 20
"""A chapter shorter than this goes together with a neighbour, where there are enough."""
_SECONDS_EACH = 75.0
_FEWEST_COOKING, _MOST_COOKING = 4, 9
"""With introduction, ingredients and last words 5 to 12 chapters."""
_SHOWN_BEFORE = 4
"""So many foods shown before the first step make a chapter of their own."""
_CLOSING_SECONDS = 30


@dataclass(frozen=True, slots=True)
class Chapter:
    """One chapter, in whole seconds; `steps` are those told in it."""

    start: int
    end: int
    title: str
    steps: tuple[Step, ...] = ()


@form("chapters")
def chapters(publication: Publication) -> Mapping[str, str | bytes]:
    """STEM.chapters.vtt and STEM.chapters.txt; nothing where the talk is too short for chapters or has no steps."""
    found = chapters_of(publication.draft)
    if not found:
        return {}
    cues = [f"{vtt_time(each.start)} --> {vtt_time(each.end)}\n{_escaped(each.title)}\n" for each in found]
    lines = [f"{clock_of(each.start)} {each.title}\n" for each in found]
    return {
        f"{publication.stem}.chapters.vtt": "\n".join(["WEBVTT\n", *cues]),
        f"{publication.stem}.chapters.txt": "".join(lines),
    }


def chapters_of(draft: Draft) -> tuple[Chapter, ...]:
    """The chapters, each up to the next, the first from 0:00; none where fewer than two would be long enough."""
    end = int(draft.source.seconds)
    steps = sorted((step for step in draft.steps if 0 <= step.start < end), key=lambda step: step.start)
    if not steps:
        return ()
    told_until = int(max(step.end for step in steps))
    closes = end - told_until >= _CLOSING_SECONDS and told_until - steps[-1].start >= SHORTEST_SECONDS
    last = told_until if closes else end
    cooking = _grouped(draft, _opened(steps, last))
    made = [*_before(draft, cooking[0].start), *_titled(draft, cooking)]
    if last < end:
        made.append(Chapter(last, end, CLOSING))
    made = _long_enough(made)
    return tuple(made) if len(made) > 1 else ()


def _opened(steps: Sequence[Step], end: int) -> list[Chapter]:
    """A chapter for each second in which a step starts, up to the next one's."""
    starts: dict[int, list[Step]] = {}
    for step in steps:
        starts.setdefault(int(step.start), []).append(step)
    ends = [*list(starts)[1:], end]
    return [
        Chapter(start, max(start, stop), "", tuple(told))
        for (start, told), stop in zip(starts.items(), ends, strict=True)
    ]


def _grouped(draft: Draft, chapters: Sequence[Chapter]) -> list[Chapter]:
    """Neighbours put together where they belong together most, until they are few enough and long enough."""
    made = list(chapters)
    seconds = made[-1].end - made[0].start
    most = min(_MOST_COOKING, max(_FEWEST_COOKING, round(seconds / _SECONDS_EACH)))
    while len(made) > 1:
        short = min(each.end - each.start for each in made) < _READABLE_SECONDS and len(made) > FEWEST - 1
        if len(made) <= most and not short:
            break
        parting = [_parting(draft, made[i], made[i + 1]) for i in range(len(made) - 1)]
        weakest = parting.index(min(parting))
        one, other = made[weakest : weakest + 2]
        made[weakest : weakest + 2] = [Chapter(one.start, other.end, "", (*one.steps, *other.steps))]
    return made


def _parting(draft: Draft, one: Chapter, other: Chapter) -> float:
    """How much parts two neighbours: other foods, another appliance, and how long the shorter one is."""
    foods = main_foods(draft, one.steps), main_foods(draft, other.steps)
    shared = len(foods[0] & foods[1]) / (len(foods[0] | foods[1]) or 1)
    appliances = [
        {setting.appliance for step in each.steps for setting in step.settings if setting.appliance}
        for each in (one, other)
    ]
    elsewhere = bool(appliances[0] and appliances[1]) and not appliances[0] & appliances[1]
    shorter = min(one.end - one.start, other.end - other.start)
    return min(shorter, _SECONDS_EACH) / _SECONDS_EACH * 2 + elsewhere + 0.5 * (1 - shared)


def _before(draft: Draft, first_step: int) -> list[Chapter]:
    """What is told before the first step: the introduction, and the foods where they are shown."""
    if first_step <= 0:
        return []
    shown = sorted(
        min(one.start for use in each.uses for one in use.evidence)
        for each in draft.ingredients
        if any(one.start < first_step for use in each.uses for one in use.evidence)
    )
    if len(shown) < _SHOWN_BEFORE or first_step - int(shown[0]) < _READABLE_SECONDS:
        return [Chapter(0, first_step, INTRODUCTION)]
    return [Chapter(0, int(shown[0]), INTRODUCTION), Chapter(int(shown[0]), first_step, INGREDIENTS)]


def _titled(draft: Draft, cooking: Sequence[Chapter]) -> list[Chapter]:
    """The chapters with their titles; one that nothing tells goes to the chapter before."""
    made: list[Chapter] = []
    for each in cooking:
        title = chapter_title(draft, each.steps, [other.title for other in made])
        if title is None and made:
            made[-1] = replace(made[-1], end=each.end, steps=(*made[-1].steps, *each.steps))
        else:
            made.append(replace(each, title=title or COOKING))
    return made


def _long_enough(made: Sequence[Chapter]) -> list[Chapter]:
    """The chapters from 0:00 on; one that is too short goes to the chapter before, the first takes in the next."""
    kept: list[Chapter] = []
    for each in made:
        if kept and (each.end - each.start < SHORTEST_SECONDS or kept[-1].end - kept[-1].start < SHORTEST_SECONDS):
            before = kept.pop()
            title = before.title if each.end - each.start < SHORTEST_SECONDS else each.title
            each = Chapter(before.start, each.end, title, (*before.steps, *each.steps))
        kept.append(each)
    return [replace(kept[0], start=0), *kept[1:]]


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
