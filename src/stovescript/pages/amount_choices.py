"""The post's amounts for other sizes and unit systems, computed beforehand, so that a page can switch without help."""

from collections.abc import Iterator
from dataclasses import dataclass

from stovescript.pages.forms import Publication
from stovescript.pages.post_content import Post, amounts_of
from stovescript.pages.scaling import Variant, by_factor
from stovescript.pages.unit_systems import System

FACTORS = (("1/2", 0.5), ("1", 1.0), ("2", 2.0), ("3", 3.0))
"""How many times as much, as shown and as reckoned with."""
SYSTEMS: tuple[tuple[str, System | None], ...] = (("As said", None), ("Metric", "metric"), ("US", "us"))
_METRIC = "In milliliters, grams and °C. A tablespoon is 15 milliliters, a teaspoon 5."


@dataclass(frozen=True, slots=True)
class Choices:
    """`texts`: of each place in the page its text by choice, sizes first, systems within; `notes` likewise.

    Places that read the same in every choice are left out.
    """

    texts: dict[str, tuple[str, ...]]
    notes: tuple[tuple[str, ...], ...]


def choices_of(publication: Publication, post: Post) -> Choices:
    """Every choice of size and system."""
    every = [_choice(publication, post, factor, system) for _, factor in FACTORS for _, system in SYSTEMS]
    texts = {place: tuple(texts.get(place, "") for texts, _ in every) for place in every[0][0]}
    return Choices(
        {place: each for place, each in texts.items() if len(set(each)) > 1}, tuple(notes for _, notes in every)
    )


def _choice(
    publication: Publication, post: Post, factor: float, system: System | None
) -> tuple[dict[str, str], tuple[str, ...]]:
    if factor == 1.0 and system is None:
        return post.amounts(), ()
    variant = by_factor(publication.draft, factor, system)
    return amounts_of(variant.draft), tuple(_notes(variant, system))


def _notes(variant: Variant, system: System | None) -> Iterator[str]:
    if system == "metric":
        yield _METRIC
    if variant.factor != 1.0:
        for kind in ("whole", "rounding", "fill", "mind", "text"):
            yield from variant.told(kind)
