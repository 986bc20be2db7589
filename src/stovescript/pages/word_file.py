"""The post as a Word file for an editor: real headings and lists, and the open questions where there are any."""

import io
import re
from collections.abc import Iterable, Mapping
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from stovescript.pages.forms import Publication, form
from stovescript.pages.ingredient_lines import Component
from stovescript.pages.markdown import SEVERITIES
from stovescript.pages.method_lines import MethodStep
from stovescript.pages.post_content import Post, Question, Said, heard, post_of
from stovescript.pages.time_account import TimeAccount
from stovescript.pages.video_link import at_second
from stovescript.talk.clock import clock_of

if TYPE_CHECKING:
    from docx.document import Document
    from docx.text.paragraph import Paragraph

_LINK = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/hyperlink"
_UNPRINTABLE = re.compile("[^\t\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Characters that XML 1.0 does not allow."""
_STYLES = ("List Bullet", "List Number", "List Continue")
_INK = "1F2328"
_LINK_INK = "0B57A4"


@form("word")
def word(publication: Publication) -> Mapping[str, str | bytes]:
    """STEM.docx."""
    return {f"{publication.stem}.docx": word_file(publication)}


def word_file(publication: Publication) -> bytes:
    """The post of a publication as the bytes of a .docx file."""
    from docx import Document as new_document

    post = post_of(publication)
    document = new_document()
    _prepare(document, post)
    writer = _Writer(document, publication)
    writer.heading(post.title, 1)
    if post.draft_mark:
        writer.paragraph(post.draft_mark, bold=True)
    writer.paragraph(post.headnote)
    writer.facts(post)
    writer.section("Before you start", post.cautions)
    writer.ingredients(post.components)
    writer.section("Equipment", map(writer.sourced, post.equipment))
    writer.method(post.method)
    for heading, said in (
        ("Substitutions", post.substitutions),
        ("Other ways to cook it", post.other_ways),
        ("Tips", post.tips),
        ("Make ahead and storage", post.keeping),
        ("Promised in the video", post.promised),
    ):
        writer.section(heading, map(writer.sourced, said))
    if post.must_answer:
        writer.questions(post.questions)
    out = io.BytesIO()
    document.save(out)
    return out.getvalue()


def _prepare(document: "Document", post: Post) -> None:
    """Properties that a reader of the file sees, and a quiet look: one ink, one size for the text."""
    from docx.shared import Pt, RGBColor

    properties = document.core_properties
    properties.title = _printable(post.title)
    properties.author = properties.comments = properties.last_modified_by = ""
    properties.created = properties.modified = datetime.now(UTC)
    properties.language = "en-US"
    document.styles["Normal"].font.size = Pt(11)
    for level in (1, 2, 3):
        document.styles[f"Heading {level}"].font.color.rgb = RGBColor.from_string(_INK)


class _Writer:
    """Writes into one document, from top to bottom."""

    def __init__(self, document: "Document", publication: Publication) -> None:
        self._document = document
        self._video = publication.video
        self._sources = publication.with_sources
        self._style_ids = {name: document.styles[name].style_id for name in _STYLES}

    def heading(self, text: str, level: int) -> None:
        self._document.add_heading(_printable(text), level)

    def paragraph(self, text: str, style: str | None = None, *, bold: bool = False) -> "Paragraph | None":
        if not text:
            return None
        paragraph = self._styled(style)
        paragraph.add_run(_printable(text)).bold = bold or None
        return paragraph

    def _styled(self, style: str | None) -> "Paragraph":
        """A new paragraph; its style is set by id, as python-docx looks a name up among all styles every time."""
        paragraph = self._document.add_paragraph()
        if style:
            paragraph._p.style = self._style_ids[style]
        return paragraph

    def labelled(self, label: str, text: str, style: str | None = None) -> None:
        """A line of a definition: the label in bold."""
        if text:
            paragraph = self._styled(style)
            paragraph.add_run(f"{_printable(label)}: ").bold = True
            paragraph.add_run(_printable(text))

    def section(self, heading: str, texts: Iterable[str]) -> None:
        """A heading of the second level and a bullet for each text; nothing where there are none."""
        lines = list(texts)
        if lines:
            self.heading(heading, 2)
        for line in lines:
            self.paragraph(line, "List Bullet")

    def sourced(self, said: Said) -> str:
        return self._with_source(said.text, said.at)

    def facts(self, post: Post) -> None:
        self.labelled("Yield", post.makes)
        if post.time:
            self._times(post.time)
        self.labelled("Allergens", post.allergens)
        if self._video:
            paragraph = self._document.add_paragraph()
            paragraph.add_run("Video: ").bold = True
            self._link(paragraph, self._video, self._video)

    def _times(self, time: TimeAccount) -> None:
        self.labelled("Time", time.total)
        for part in time.parts:
            self.labelled(part.what, part.span, "List Bullet")
        self.paragraph(time.note)

    def ingredients(self, components: tuple[Component, ...]) -> None:
        if components:
            self.heading("Ingredients", 2)
        for component in components:
            if component.heading:
                self.heading(component.heading, 3)
            for line in component.lines:
                self.paragraph(self._with_source(line.text, line.at), "List Bullet")

    def method(self, steps: tuple[MethodStep, ...]) -> None:
        """The steps as one numbered list; heat and cautions stand under their step."""
        if steps:
            self.heading("Method", 2)
        for step in steps:
            paragraph = self.paragraph(step.text, "List Number")
            if self._video and paragraph:
                paragraph.add_run(" ")
                self._link(paragraph, f"Video at {clock_of(step.start)}", at_second(self._video, step.start))
            elif self._sources and paragraph:
                paragraph.add_run(f" ({heard((step.start,))})")
            self.paragraph(step.heat, "List Continue")
            for caution in step.cautions:
                self.labelled("Caution", caution, "List Continue")

    def questions(self, questions: tuple[Question, ...]) -> None:
        """Every open question, those that must be answered first."""
        self.heading("Open questions", 2)
        for severity, heading in SEVERITIES:
            mine = [question for question in questions if question.severity == severity]
            if mine:
                self.heading(heading, 3)
            for question in mine:
                at = f" ({clock_of(question.at[0])})" if question.at else ""
                self.paragraph(question.text + at, "List Bullet")

    def _with_source(self, text: str, at: tuple[float, ...]) -> str:
        source = heard(at) if self._sources else ""
        return f"{text} ({source})" if source else text

    def _link(self, paragraph: "Paragraph", text: str, address: str) -> None:
        """A link that opens the address; python-docx reads links but has no call that makes one."""
        from docx.oxml.ns import qn
        from docx.oxml.parser import OxmlElement
        from docx.shared import RGBColor

        link = OxmlElement("w:hyperlink")
        link.set(qn("r:id"), paragraph.part.relate_to(address, _LINK, is_external=True))
        run = paragraph.add_run(_printable(text))
        run.font.underline = True
        run.font.color.rgb = RGBColor.from_string(_LINK_INK)
        paragraph._p.append(link)
        link.append(run._r)


def _printable(text: str) -> str:
    """The text on one line, without what XML can't hold."""
    return " ".join(_UNPRINTABLE.sub(" ", text).split())
