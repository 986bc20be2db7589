"""The post as Markdown, for a site that makes its own pages."""

import re
from collections.abc import Callable, Iterable, Iterator

from stovescript.pages.addresses import linked
from stovescript.pages.forms import Publication
from stovescript.pages.markdown import SEVERITIES, safe
from stovescript.pages.post_content import Post, Said, post_of
from stovescript.pages.video_link import at_second
from stovescript.talk.clock import clock_of

Marked = Callable[[Iterable[float]], str]


def post_markdown(publication: Publication) -> str:
    """The page as CommonMark; whatever the talk says is text in it."""
    post = post_of(publication)

    def heard(at: Iterable[float]) -> str:
        """ " (heard at 2:16)" where sources are asked for."""
        marks = dict.fromkeys(_time(second, publication.video) for second in at)
        return f" (heard at {', '.join(marks)})" if publication.with_sources and marks else ""

    lines = [
        *_head(post, heard),
        *_gathered(post, heard),
        *_method(post, heard, publication),
        *_notes("Substitutions", post.substitutions, heard),
        *_notes("Other ways to cook it", post.other_ways, heard),
        *_notes("Tips", post.tips, heard),
        *_notes("Make ahead and storage", post.keeping, heard),
        *_notes("Promised in the video", post.promised, heard, _text),
        *_questions(post, publication.video),
    ]
    return re.sub(r"\n{3,}", "\n\n", "\n".join(lines)).rstrip() + "\n"


def _head(post: Post, heard: Marked) -> Iterator[str]:
    if post.draft_mark:
        yield from (f"> **{safe(post.draft_mark)}** The questions are at the end.", "")
    yield from (f"# {safe(post.title)}", "")
    if post.headnote:
        yield from (safe(post.headnote), "")
    if post.makes:
        yield f"- **Yield:** {safe(post.makes)}"
    if post.time:
        yield f"- **Time:** {safe(post.time.total)}{heard(post.time.at)}"
        yield from (f"  - {safe(part.what)}: {safe(part.span)}{heard(part.at)}" for part in post.time.parts)
        if post.time.note:
            yield f"  - {safe(post.time.note)}"
    yield from (f"- **Allergens:** {safe(post.allergens)}", "")
    if post.cautions:
        yield from ("## Before you start", "", *(f"- {safe(caution)}" for caution in post.cautions), "")


def _gathered(post: Post, heard: Marked) -> Iterator[str]:
    yield from ("## Ingredients", "")
    for part in post.components:
        if part.heading:
            yield from (f"### {safe(part.heading)}", "")
        yield from (f"- {safe(line.text)}{heard(line.at)}" for line in part.lines)
        yield ""
    if post.equipment:
        yield from ("## Equipment", "", *(f"- {safe(each.text)}{heard(each.at)}" for each in post.equipment), "")


def _method(post: Post, heard: Marked, publication: Publication) -> Iterator[str]:
    yield from ("## Method", "")
    for step in post.method:
        watch = ""
        if publication.video and not publication.with_sources:
            watch = f" [{clock_of(step.start)}]({at_second(publication.video, step.start)})"
        yield f"{step.number}. {safe(step.text)}{watch}{heard((step.start,))}"
        indent = " " * len(f"{step.number}. ")
        if step.heat:
            yield from ("", f"{indent}**{safe(step.heat)}**")
        for caution in step.cautions:
            yield from ("", f"{indent}*Caution:* {safe(caution)}")
        if step.heat or step.cautions:
            yield ""
    yield ""


def _notes(heading: str, notes: Iterable[Said], heard: Marked, escaped: Callable[[str], str] = safe) -> Iterator[str]:
    lines = [f"- {escaped(note.text)}{_in_step(note)}{heard(note.at)}" for note in notes]
    if lines:
        yield from (f"## {heading}", "", *lines, "")


def _text(text: str) -> str:
    """What the cook wrote, with the addresses in it as links; what a talk says never becomes one."""
    return "".join(f"[{safe(piece)}]({link})" if link else _kept_spaces(piece) for piece, link in linked(text))


def _kept_spaces(text: str) -> str:
    """Escaped like all text, with the spaces at its ends."""
    return f"{' ' * text.startswith(' ')}{safe(text)}{' ' * (len(text) > 1 and text.endswith(' '))}"


def _in_step(note: Said) -> str:
    return f" (step {note.step})" if note.step else ""


def _questions(post: Post, video: str | None) -> Iterator[str]:
    """The questions, only while one must be answered: a page that may be published has none."""
    if not post.draft_mark:
        return
    yield from ("## Questions before this can be published", "")
    for severity, heading in SEVERITIES:
        mine = [question for question in post.questions if question.severity == severity]
        if mine:
            yield from (f"### {heading}", "")
            for question in mine:
                at = "".join(f" ({_time(second, video)})" for second in question.at)
                yield f"- {safe(question.text)}{at}"
            yield ""


def _time(second: float, video: str | None) -> str:
    return f"[{clock_of(second)}]({at_second(video, second)})" if video else clock_of(second)
