"""The demo talk: read, heard and drafted once for all tests."""

from functools import cache
from pathlib import Path

from stovescript.answers.parts import numbered
from stovescript.gaps import ask
from stovescript.recipe.assemble import assemble
from stovescript.recipe.draft import Draft
from stovescript.speech.heard import Heard
from stovescript.speech.listen import listen
from stovescript.talk import Talk, read_talk

DEMO = Path(__file__).parents[2] / "fixtures" / "demo" / "chicken-tortilla-soup.vtt"


@cache
def demo_talk() -> Talk:
    return read_talk(DEMO)


@cache
def demo_heard() -> Heard:
    return listen(demo_talk())


@cache
def demo_draft() -> Draft:
    return numbered(ask(assemble(demo_heard()), demo_heard()))
