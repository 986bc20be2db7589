"""What a reader's browser makes of a Markdown page.

Outside the project: markdown-it-py renders it as CommonMark with raw HTML and tables allowed, and the standard
library's HTML parser reads the result.
"""

from dataclasses import dataclass, field
from html.parser import HTMLParser

from markdown_it import MarkdownIt


@dataclass
class Shown:
    """A page as shown: the tags with their attributes, the headings, the code, and all visible text."""

    tags: set[str] = field(default_factory=set)
    attributes: list[tuple[str, str | None]] = field(default_factory=list)
    headings: list[tuple[int, str]] = field(default_factory=list)
    code: list[str] = field(default_factory=list)
    text: str = ""


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.shown = Shown()
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.shown.tags.add(tag)
        self.shown.attributes += attrs
        self._open.append(tag)
        if tag in ("h1", "h2", "h3"):
            self.shown.headings.append((int(tag[1]), ""))

    def handle_endtag(self, tag: str) -> None:
        if tag in self._open:
            self._open.remove(tag)

    def handle_data(self, data: str) -> None:
        self.shown.text += data
        if "code" in self._open:
            self.shown.code.append(data)
        if {"h1", "h2", "h3"} & set(self._open):
            level, heading = self.shown.headings[-1]
            self.shown.headings[-1] = (level, heading + data)


def shown(page: str) -> Shown:
    """The page as a browser shows it."""
    reader = _Reader()
    reader.feed(MarkdownIt("commonmark", {"html": True}).enable("table").render(page))
    reader.close()
    return reader.shown


OWN_TAGS = frozenset({"h1", "h2", "h3", "blockquote", "p", "ul", "ol", "li", "em", "code"})
"""The tags that the page's own Markdown makes; anything else came out of a talk."""
