"""Foods of the home kitchen: spoken names, how lists measure them, allergens, weights; read from tables."""

import csv
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from .tables import listed, rows, text

US_ALLERGENS = (
    "milk",
    "egg",
    "fish",
    "crustacean shellfish",
    "tree nuts",
    "peanuts",
    "wheat",
    "soybeans",
    "sesame",
)
"""The nine of FALCPA (2004) and the FASTER Act (2021)."""

EU_ALLERGENS = (
    "cereals containing gluten",
    "crustaceans",
    "eggs",
    "fish",
    "peanuts",
    "soybeans",
    "milk",
    "nuts",
    "celery",
    "mustard",
    "sesame",
    "sulphur dioxide and sulphites",
    "lupin",
    "molluscs",
)
"""The fourteen of Regulation (EU) 1169/2011, Annex II, in its order (wording from memory, shortened)."""


@dataclass(frozen=True, slots=True)
class Food:
    """One food. Weights are grams per level US measure or per item, None where the source gives none."""

    name: str
    synonyms: tuple[str, ...]
    misheard: tuple[str, ...]
    """Spellings automatic captions make of it that are no ordinary English."""
    category: str
    usual_unit: str
    """How a list usually measures it; "" means whole items."""
    loose: bool
    """Customarily given "to taste" or unmeasured, without harm."""
    ambiguous: bool
    """The name is also an everyday or cooking word: needs context."""
    ambiguous_forms: tuple[str, ...]
    """Synonyms of which the same is true."""
    dish_like: bool
    """More often the name of something made in the recipe, or of a finished dish."""
    allergens_us: tuple[str, ...]
    allergens_eu: tuple[str, ...]
    allergen_note: str
    """"often" or "check the label" where products differ."""
    ndb_no: str
    g_per_cup: float | None
    g_per_tablespoon: float | None
    g_per_teaspoon: float | None
    g_per_each: float | None
    each: str
    """What one item is: "medium", "clove", "large egg"; "" without a weight."""
    source: str


@cache
def foods() -> dict[str, Food]:
    """Every food by its name, in the order of the table, whose columns are the fields of `Food`."""
    table = csv.reader(text("foods.csv").splitlines())
    next(table)
    return {cells[0]: _food(cells) for cells in table}


@cache
def food_categories() -> dict[str, bool]:
    """The closed set of categories; True where foods are counted, so that a name has another number."""
    return {row["category"]: row["counted"] == "1" for row in rows("food_categories")}


@cache
def food_forms() -> dict[str, str]:
    """From every spoken form, lower-case, to the food's name: "garbanzo bean" gives "chickpeas".

    A form written in the table goes before a variant made by rule (plural, singular, spelling).
    """
    forms = {form: food.name for food in foods().values() for form in _written(food)}
    for food in foods().values():
        uncounted = _written(food) if not food_categories()[food.category] else _everyday(food)
        for form in _written(food):
            for spelling in _spellings(form):
                forms.setdefault(spelling, food.name)
                if form not in uncounted:
                    for variant in _other_number(spelling):
                        forms.setdefault(variant, food.name)
    return forms


@cache
def ambiguous_food_forms() -> frozenset[str]:
    """Forms that are also everyday words ("flour", "mince", "date"): a food only where the context says so.

    Plurals and singulars are not made of them ("greens" gives no "green").
    """
    return frozenset(form for food in foods().values() for form in _everyday(food))


def food_named(form: str) -> Food | None:
    """The food of a spoken or written form, whatever its case, accents and spaces: "Crème  Fraîche"."""
    name = food_forms().get(_plain(form))
    return foods()[name] if name is not None else None


def _food(cells: list[str]) -> Food:
    """One row; unpacked by place, since over two thousand rows of dictionaries cost twice the time."""
    name, synonyms, misheard, category, unit, loose, ambiguous, ambiguous_forms, dish_like, *rest = cells
    us, eu, note, ndb_no, cup, tablespoon, teaspoon, one, each, source = rest
    return Food(
        name,
        listed(synonyms),
        listed(misheard),
        category,
        unit,
        loose == "1",
        ambiguous == "1",
        listed(ambiguous_forms),
        dish_like == "1",
        listed(us),
        listed(eu),
        note,
        ndb_no,
        _grams(cup),
        _grams(tablespoon),
        _grams(teaspoon),
        _grams(one),
        each,
        source,
    )


def _grams(cell: str) -> float | None:
    return float(cell) if cell else None


def _written(food: Food) -> tuple[str, ...]:
    return (food.name, *food.synonyms, *food.misheard)


def _everyday(food: Food) -> tuple[str, ...]:
    return (food.name, *food.ambiguous_forms) if food.ambiguous else food.ambiguous_forms


def _plain(form: str) -> str:
    """Lower case, one space between words, straight apostrophes, no accents: "Jalapeño" is "jalapeno"."""
    lowered = " ".join(form.replace("\u2019", "'").lower().split())
    return "".join(c for c in unicodedata.normalize("NFKD", lowered) if not unicodedata.combining(c))


def _spellings(form: str) -> Iterator[str]:
    """The form, and where it differs: without accents, with spaces for hyphens, without apostrophes."""
    yield form
    plain = form if form.isascii() else _plain(form)
    if plain != form:
        yield plain
    if "-" in plain:
        yield plain.replace("-", " ")
    if "'" in plain:
        yield plain.replace("'", "")


IRREGULAR_PLURALS = {"leaf": "leaves", "loaf": "loaves", "half": "halves"}
IRREGULAR_SINGULARS = {plural: singular for singular, plural in IRREGULAR_PLURALS.items()}

TAKES_ES = re.compile(r"(?:ch|sh|x|z|ss)$")
"""peach, radish."""

TAKES_IES = re.compile(r"[^aeiou]y$")
"""strawberry, not turkey."""

SINGULAR_IN_S = re.compile(r"(?:ss|us|is)$")
"""watercress, asparagus, cassis end in s and are singular."""


def _other_number(form: str) -> Iterator[str]:
    """The plural of a singular form, the singular of a plural one; in "leg of lamb" of the first noun."""
    head, of, rest = form.partition(" of ")
    before, space, noun = head.rpartition(" ")
    for other in _singulars(noun) if noun.endswith("s") else _plurals(noun):
        yield f"{before}{space}{other}{of}{rest}"


def _plurals(noun: str) -> tuple[str, ...]:
    if noun in IRREGULAR_PLURALS:
        return (IRREGULAR_PLURALS[noun],)
    if TAKES_IES.search(noun):
        return (f"{noun[:-1]}ies",)
    if TAKES_ES.search(noun):
        return (f"{noun}es",)
    if noun.endswith("o"):
        return (f"{noun}es", f"{noun}s")
    return (f"{noun}s",)


def _singulars(noun: str) -> tuple[str, ...]:
    if SINGULAR_IN_S.search(noun):
        return ()
    if noun in IRREGULAR_SINGULARS:
        return (IRREGULAR_SINGULARS[noun],)
    if noun.endswith("ies") and len(noun) > len("pies"):
        return (f"{noun[:-3]}y",)
    if noun.endswith("es") and (noun.endswith("oes") or TAKES_ES.search(noun[:-2])):
        return (noun[:-2],)
    return (noun[:-1],)
