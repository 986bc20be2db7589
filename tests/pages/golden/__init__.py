"""Golden files of the post, and the command that renews them: `python -m tests.pages.golden`.

They are made from a draft that is kept beside them, not from a talk, so that they change only when a page does.
After renewing, read `git diff tests/pages/golden` line by line: every line is one that a stranger cooks from.
"""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from stovescript.draft_file import read_draft
from stovescript.pages.forms import Publication
from stovescript.pages.post_page import post_html
from stovescript.pages.post_text import post_markdown
from stovescript.recipe.draft import Draft, Gap

FOLDER = Path(__file__).parent
VIDEO = "https://video.example/watch?v=lentils&list=soups#top"


def lentils() -> Draft:
    """Braised lentils with herb yogurt, invented: every question that must be answered is."""
    return read_draft(FOLDER.parent / "braised-lentils.draft.json")


def unanswered() -> Draft:
    """The same while it is not said how much it makes."""
    gap = Gap(
        id="no_servings-a1b2c3",
        kind="no_servings",
        severity="must",
        about="the post",
        question="How many does it serve, or how much does it make?",
        ingredient=None,
        step=None,
        evidence=[],
    )
    draft = lentils()
    return draft.model_copy(update={"servings": None, "gaps": [gap, *draft.gaps]})


def pages() -> Mapping[str, str]:
    """The golden files as the program makes them now."""
    final = Publication(lentils(), "braised-lentils", VIDEO)
    draft = Publication(unanswered(), "braised-lentils", VIDEO, with_sources=True)
    return {
        "final.md": post_markdown(final),
        "final.main.html": _main(post_html(final)),
        "final-no-video.md": post_markdown(replace(final, video=None)),
        "draft-with-sources.md": post_markdown(draft),
        "draft-with-sources.main.html": _main(post_html(draft)),
    }


def _main(page: str) -> str:
    """What is read of a page: style, script and data are tested in the browser."""
    return page[page.index("<main>") : page.index("</main>") + len("</main>")] + "\n"
