"""The page of a draft in another size or system: the draft's page with what changed, and what to mind, on top."""

from stovescript.pages.markdown import bulleted, draft_page
from stovescript.pages.nutrition import nutrition_lines
from stovescript.pages.resized import Kind
from stovescript.pages.scaling import Variant

_FIRST: tuple[Kind, ...] = ("size", "units", "whole", "rounding", "text")
_BEFORE = "## Ingredients"


def scaled_page(variant: Variant) -> str:
    """The Markdown page of a variant."""
    changed = [text for kind in _FIRST for text in variant.told(kind)]
    mind = [*variant.told("fill"), *variant.told("mind")]
    head, mark, rest = draft_page(variant.draft).partition(f"\n{_BEFORE}\n")
    sections = [
        *bulleted("Changed for this size", changed),
        *bulleted("What does not scale by arithmetic", mind),
        *bulleted("Nutrition, an estimate", nutrition_lines(variant.draft)),
    ]
    return "\n".join([head, *sections]).rstrip() + f"\n{mark}{rest}"
