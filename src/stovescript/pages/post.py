"""The form "post": the page to publish, as HTML and as Markdown."""

from collections.abc import Mapping

from stovescript.pages.forms import Publication, form
from stovescript.pages.post_page import post_html
from stovescript.pages.post_text import post_markdown


@form("post")
def post(publication: Publication) -> Mapping[str, str | bytes]:
    """STEM.post.html and STEM.post.md."""
    stem = publication.stem
    return {f"{stem}.post.html": post_html(publication), f"{stem}.post.md": post_markdown(publication)}
