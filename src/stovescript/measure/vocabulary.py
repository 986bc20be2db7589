"""The words of the amount grammar: each word's number, units and roles, from the tables."""

from dataclasses import dataclass, field
from functools import cache

from stovescript.kitchen.units import Unit, units

BREAK, COMMA, OPEN, CLOSE, DASH, SLASH = ".", ",", "(", ")", "-", "/"
INCH_MARK = '"'


@dataclass(frozen=True)
class NumberWord:
    """A word that says a number: "twelve", "hundred", "few" (2 to 4), "quarter" (kind part, one in 4)."""

    kind: str
    low: float
    high: float


@dataclass(frozen=True)
class UnitPhrase:
    """One way to say a unit: ("table", "spoons")."""

    words: tuple[str, ...]
    unit: Unit
    singular: bool
    short: bool
    """A written abbreviation such as "oz"; its full stop ends no sentence."""


@dataclass(frozen=True, slots=True, eq=False)
class Atom:
    """One word, number or mark: a token such as "15-ounce" or "350°f" holds several."""

    text: str
    value: float | None = None
    """The number written in digits."""
    fraction: bool = False
    """Written with a bar, as "1/2" or "½", with or without a whole number before."""
    roles: frozenset[str] = frozenset()
    number: NumberWord | None = None
    units: tuple[UnitPhrase, ...] = ()
    """Units whose saying begins with this word, the longest first."""
    opens: bool = False
    """A quantity may begin here."""


@dataclass(frozen=True)
class Vocabulary:
    """Every word that the grammar knows."""

    atoms: dict[str, Atom]
    phrases: dict[str, dict[str, tuple[tuple[str, ...], ...]]]
    """Role → first word → the phrases of that role which begin so, the longest first."""
    words: dict[str, frozenset[str]] = field(default_factory=dict)
    """Role → its phrases of one word; for roles that list unit names, those names."""


OPENING_ROLES = frozenset(
    (
        "approx_before",
        "article",
        "bare_unit",
        "determiner",
        "dimension_unit",
        "gas_mark",
        "not_a_quantity",
        "overnight",
        "range_between",
        "range_from",
    )
)


@cache
def vocabulary() -> Vocabulary:
    """The vocabulary, read once."""
    from stovescript.kitchen.tables import listed, rows  # late: importing the grammar stays quick

    numbers = {
        row["word"]: NumberWord(row["kind"], float(row["low"]), float(row["high"])) for row in rows("number_words")
    }
    phrases: dict[str, dict[str, list[tuple[str, ...]]]] = {}
    roles: dict[str, set[str]] = {}
    words: dict[str, frozenset[str]] = {}
    for row in rows("quantity_words"):
        role = row["role"]
        said = listed(row["phrases"])
        words[role] = frozenset(said)
        for phrase in said:
            first, *rest = phrase.split()
            phrases.setdefault(role, {}).setdefault(first, []).append((first, *rest))
            if not rest or role in OPENING_ROLES:
                roles.setdefault(first, set()).add(role)
    spoken = _unit_phrases(words["abbreviation"])
    for form, unit_phrases in spoken.items():
        if any(p.unit.name in words["bare_unit"] and len(p.words) == 1 for p in unit_phrases):
            roles.setdefault(form, set()).add("bare_unit")
        if any(p.unit.dimension == "length" and not p.short for p in unit_phrases):
            roles.setdefault(form, set()).add("dimension_unit")
    atoms = {
        word: Atom(
            text=word,
            value=float(word) if word.isdecimal() and word[0] != "0" else None,
            roles=frozenset(roles.get(word, ())),
            number=numbers.get(word),
            units=tuple(sorted(spoken.get(word, ()), key=lambda p: -len(p.words))),
            opens=word in numbers
            or word == "point"
            or word.isdecimal()
            or bool(OPENING_ROLES & roles.get(word, set())),
        )
        for word in {*numbers, *roles, *spoken}
    }
    return Vocabulary(
        atoms=atoms,
        phrases={
            role: {first: tuple(sorted(said, key=lambda words: -len(words))) for first, said in firsts.items()}
            for role, firsts in phrases.items()
        },
        words=words,
    )


def _unit_phrases(abbreviations: frozenset[str]) -> dict[str, list[UnitPhrase]]:
    """First word → the ways to say units that begin with it."""
    found: dict[str, list[UnitPhrase]] = {}
    for unit in units().values():
        for place, form in enumerate(unit.spoken):
            said = tuple(form.split())
            plural = place == 1 or (place > 1 and form.endswith("s") and len(form) > 2)
            found.setdefault(said[0], []).append(UnitPhrase(said, unit, not plural, form in abbreviations))
    return found
