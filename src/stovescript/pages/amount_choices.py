"""The post's amounts for other sizes and unit systems, computed beforehand, so that a page can switch without help."""

from dataclasses import dataclass

from stovescript.pages.forms import Publication
from stovescript.pages.post_content import Post, amounts_of
from stovescript.pages.resized import Kind
from stovescript.pages.scaling import by_factor
from stovescript.pages.unit_systems import System

FACTORS = (("half of it", 0.5), ("all of it", 1.0), ("twice as much", 2.0), ("three times as much", 3.0))
"""How much to make, as shown and as reckoned with."""
SYSTEMS: tuple[tuple[str, System | None], ...] = (
    ("as she says it", None),
    ("by grams and milliliters", "metric"),
    ("by cups and ounces", "us"),
)
_METRIC = "In milliliters, grams and °C. A tablespoon is 15 milliliters, a teaspoon 5."

_SEEN: tuple[Kind, ...] = ("whole", "fill")
_KNOWN: tuple[Kind, ...] = ("mind", "rounding", "text")


@dataclass(frozen=True, slots=True)
class Choices:
    """`texts`: of each place in the page its text by choice, sizes first, within each the `systems`; likewise
    `notes`, what must be seen at that size, and `mind`, what is good to know.

    Places that read the same in every choice are left out, and systems in which all reads as it was said.
    """

    systems: tuple[str, ...]
    texts: dict[str, tuple[str, ...]]
    notes: tuple[tuple[str, ...], ...]
    mind: tuple[tuple[str, ...], ...]


def choices_of(publication: Publication, post: Post) -> Choices:
    """Every choice of size and system that changes something."""
    as_said = post.amounts()
    once = {name: _choice(publication, as_said, 1.0, system) for name, system in SYSTEMS}
    systems = [
        (name, system) for name, system in SYSTEMS if system is None or _cooks(once[name].texts) != _cooks(as_said)
    ]
    every = [
        once[name] if factor == 1.0 else _choice(publication, as_said, factor, system)
        for _, factor in FACTORS
        for name, system in systems
    ]
    texts = {place: tuple(each.texts.get(place, "") for each in every) for place in as_said}
    return Choices(
        tuple(name for name, _ in systems),
        {place: each for place, each in texts.items() if len(set(each)) > 1},
        tuple(each.notes for each in every),
        tuple(each.mind for each in every),
    )


def _cooks(texts: dict[str, str]) -> dict[str, str]:
    """What is measured; a pan that is told in inches is no reason to offer a system."""
    return {place: text for place, text in texts.items() if not place.startswith("equipment-")}


@dataclass(frozen=True, slots=True)
class _Choice:
    texts: dict[str, str]
    notes: tuple[str, ...] = ()
    mind: tuple[str, ...] = ()


def _choice(publication: Publication, as_said: dict[str, str], factor: float, system: System | None) -> _Choice:
    if factor == 1.0 and system is None:
        return _Choice(as_said)
    variant = by_factor(publication.draft, factor, system)
    mind = [_METRIC] if system == "metric" else []
    notes: list[str] = []
    if factor != 1.0:
        notes += [text for kind in _SEEN for text in variant.told(kind)]
        mind += [text for kind in _KNOWN for text in variant.told(kind)]
    return _Choice(amounts_of(variant.draft), tuple(notes), tuple(mind))
