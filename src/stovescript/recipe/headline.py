"""What the post says first: the dish's name, its yield, and her own words about it."""

import itertools
from collections.abc import Sequence
from functools import cache

from stovescript.kitchen.foods import food_named
from stovescript.kitchen.units import by_spoken
from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import Quantity, convert, number_at
from stovescript.recipe.amounts import dimension
from stovescript.recipe.draft import Amount
from stovescript.recipe.evidence import as_amount
from stovescript.speech.heard import Clause, Heard
from stovescript.speech.words import singular

_OPENING = 0.35  # the share of a talk in which the dish is praised
_NAMED_WITHIN = 140  # words from the start within which a dish is named
_LONGEST_TITLE = 9  # words


def title_of(heard: Heard) -> str | None:
    """The dish as she names it ("today we're making chickpea flatbreads"); None where she never does.

    Of all that is named in the first and the last clauses, the surest: after an opener ("we're making", "this is
    my"), ending in what dishes are called, and without the words of other talk.
    """
    first = [clause for clause in heard.clauses if clause.start < _NAMED_WITHIN]
    last = [clause for clause in heard.clauses[-8:] if clause.intent in ("announce", "chat")]
    named = [
        (_sureness(heard, name, opened) + weight - place / 15, name)
        for clauses, weight in ((first, 0.0), (last, _AT_THE_END))
        for place, clause in enumerate(clauses)
        if clause.intent in _NAMING
        for name, opened in _names_in(heard, clause)
        if opened >= _OPENED or not weight
    ]
    sureness, name = max(named, default=(0.0, None))
    return name if sureness >= _SURE else None


_NAMING = ("announce", "chat")
_AT_THE_END = -1.5  # a dish that is named only at the end
_SURE = 1.5


def _names_in(heard: Heard, clause: Clause) -> list[tuple[str, float]]:
    """What a clause may name the dish, each with how it is led up to."""
    text = " ".join(heard.tokens[clause.start : clause.end])
    starts = [clause.start + len(text[: found.end()].split()) for found in phrases("title_openers").finditer(text)]
    found = [(_trimmed(heard, start, clause.end), _OPENED) for start in starts]
    if clause.intent == "announce":
        found.append((_trimmed(heard, clause.start, clause.end), _LEADING))
    bonus = float(clause.intent == "announce")
    appliances = {token for m in clause.labelled("appliance") for token in heard.tokens[m.start : m.end]}
    result = []
    for name, led in found:
        words = name.split() if name else []
        if not words or appliances & set(words[-1:]):
            continue
        if _edible(words) or _is_dish(words):
            result.append((" ".join(words), led + bonus))
        elif led == _OPENED and bonus and len(words) <= _UNKNOWN and not wordlist("title_talk") & set(words):
            result.append((" ".join(words), led + bonus - 1.0))  # "we're doing lazy koshari"
    return result


_OPENED, _LEADING = 1.5, 0.5
_UNKNOWN = 3  # words that a dish may have that no table knows


def _sureness(heard: Heard, name: str, led: float) -> float:
    """How surely words name the dish: what they end in, how many they are, and how they are led up to."""
    words = name.split()
    dish = _is_dish(words)
    talk = sum(
        word in wordlist("fillers")
        or word in wordlist("title_talk")
        or "'" in word
        or (number_at([word], 0) is not None and not dish)
        for word in words
    )
    part = len(words) == 1 and words[0] in _PARTS
    long = max(0, len(words) - 7)
    return led + 2.0 * dish - 1.5 * part + (0.5 if len(words) > 1 else -1.0) - 0.8 * talk - 0.4 * long


@cache
def _dishes() -> frozenset[str]:
    return frozenset(" ".join(map(singular, dish.split())) for dish in wordlist("dishes"))


def _is_dish(words: Sequence[str]) -> bool:
    """True where some one or two of the words are what a dish is called by."""
    one = [singular(word) for word in words]
    return any(word in _dishes() for word in (*one, *(" ".join(pair) for pair in itertools.pairwise(one))))


_PARTS = frozenset(
    {"sauce", "salsa", "gravy", "dressing", "dip", "dough", "batter", "rice", "marinade", "glaze", "broth"}
)
"""What alone is more often a part of a dish than the dish."""


def _edible(words: Sequence[str]) -> bool:
    """True where some one to three of the words name a food or a dish."""
    return any(food_named(" ".join(words[start : start + size])) for start in range(len(words)) for size in (3, 2, 1))


def _trimmed(heard: Heard, start: int, end: int) -> str | None:
    """The words [start, end) up to where a name stops, without the words around a name."""
    edges, stops = wordlist("title_edges"), wordlist("title_stops")
    tokens: list[str] = []
    for place in range(start, end):
        token = heard.tokens[place]
        if not tokens and token in edges:
            continue
        pair = " ".join(heard.tokens[place : min(place + 2, end)])
        if tokens and (token in stops or pair in stops):
            break
        tokens.append(token)
        if heard.talk.words[place].text[-1:] in ".,;:?!":
            break
    while tokens and tokens[-1] in edges:
        tokens.pop()
    return " ".join(tokens[:_LONGEST_TITLE]) or None


def servings_of(heard: Heard, title: str | None = None) -> tuple[Amount, int] | None:
    """How many the dish serves or makes, and the clause that says it; people go before pieces.

    A number of what the dish is named for ("eight burritos") is a yield too.
    """
    dish = singular(title.split()[-1].lower()) if title else ""
    found: list[tuple[int, Amount, int]] = []
    for number, clause in enumerate(heard.clauses):
        if clause.intent in ("not-done", "alternative", "promise", "chat"):
            continue
        words = heard.tokens[clause.start : clause.end]
        if phrases("once_upon").search(" ".join(words)) or words[0] == "or":
            continue
        end = _end_with_or(heard, number)
        counted = [q for q in heard.quantities if clause.start <= q.start < end and q.kind in _COUNTING]
        ranked = [(*_yield_by(heard, clause, q, dish), q) for q in counted if q.start < clause.end]
        rank, unit, quantity = max(ranked, key=lambda row: row[0], default=(0, "", None))
        if rank and quantity:
            update = {
                "unit": unit,
                "said": heard.text(clause.start, clause.end),
                "high": _or_more(heard, quantity, counted),
            }
            found.append(
                (rank + 2 * (clause.intent == "states"), as_amount(quantity).model_copy(update=update), number)
            )
    return max(((amount, number) for _, amount, number in sorted(found, key=lambda f: f[0])[-1:]), default=None)


def _end_with_or(heard: Heard, number: int) -> int:
    """The end of a clause, or of the next one where that goes on with "or"."""
    following = heard.clauses[number + 1 : number + 2]
    goes_on = following and heard.tokens[following[0].start] == "or"
    return following[0].end if goes_on else heard.clauses[number].end


def _or_more(heard: Heard, quantity: Quantity, counted: Sequence[Quantity]) -> float:
    """The upper end of "six people or eight if they're polite"; a smaller number after "or" is a joke or a warning."""
    later = (
        q
        for q in counted
        if q.start >= quantity.end
        if "or" in heard.tokens[quantity.end : q.start] or heard.tokens[q.end : q.end + 1] == ("if",)
    )
    return max(quantity.high, next((q.high for q in later if q.unit == quantity.unit), 0.0))


_HALVES = 2
_PIECES = frozenset({"slices", "squares", "wedges", "bars", "pieces", "helpings"})
"""What a dish is cut into: "that's one loaf, twelve good slices"."""
_COUNTING = ("count", "number", "amount", "package")
_MADE_OF = ("count", "package", "vague")


def _yield_by(heard: Heard, clause: Clause, quantity: Quantity, dish: str) -> tuple[int, str]:
    """How surely a number is the yield (0 = not), and what it counts."""
    before = " ".join(heard.tokens[max(clause.start, quantity.start - 5) : quantity.start])
    after = heard.tokens[quantity.end : min(quantity.end + 4, clause.end)]
    last_fed = max((found.start() for found in phrases("feeding").finditer(before)), default=-1)
    last_made = max((found.start() for found in phrases("yielding").finditer(before)), default=-1)
    fed, made = last_fed >= 0 and last_fed >= last_made, last_made > last_fed
    eaters = wordlist("eaters")
    if quantity.kind in ("amount", "package"):
        enough = dimension(quantity.unit) == "volume" and convert(quantity.high, quantity.unit, "cup") >= 1
        made = made and (dimension(quantity.unit) in _MADE_OF or enough) and after[:1] != ("of",)
        return (2 if dimension(quantity.unit) in _MADE_OF else 1, quantity.unit) if made else (0, "")
    measured = any(m.start <= quantity.start < m.end for m in clause.mentions if m.label in ("temp", "time", "size"))
    if measured:
        return 0, ""
    if any(word in eaters for word in after):
        return 3 + (fed or made) + ("serving" in " ".join(after) or "portion" in " ".join(after)), "serving"
    if fed:
        return 3, "serving"
    if made and quantity.low <= _HALVES and before.endswith((" cut in", " cut into", " cuts in", " cuts into")):
        return 0, ""  # "they're cut in two"
    named = any(singular(word) == dish for word in after[:3]) and clause.intent == "states"
    if not made:
        pieces = [word for word in after[:2] if word in _PIECES]
        if pieces and clause.intent == "states" and "of" not in after[:3] and quantity.low > _HALVES:
            return 1, singular(pieces[0])
        return (1, dish) if named and quantity.low > 1 else (0, "")
    if quantity.low == quantity.high == 1 and not quantity.unit:
        return 0, ""
    idle = wordlist("fillers") | {"sometimes", "always", "perhaps", "besides"}
    things = [word for word in after if word.endswith("s") and len(word) > 3 and word not in idle]
    foods = {token for food in clause.labelled("food") for token in heard.tokens[food.start : food.end]}
    if things and things[0] in foods and singular(things[0]) != dish and not set(dish.split()) & foods:
        own = food_named(things[0])
        if own and not own.dish_like:
            return 0, ""
    unit = units_by_form(after[0]) if after else None
    return (2, singular(things[0])) if things and (things[0] not in foods or not unit) else (1, "serving")


def units_by_form(word: str) -> str | None:
    """The unit that a word names; None where it names none."""
    known = by_spoken().get(word)
    return known[0].name if known else None


def summary_of(heard: Heard) -> str | None:
    """A headnote line in her words: the first clause that praises or explains the dish; None where none does."""
    praise = wordlist("praise")
    for clause in heard.clauses[: max(12, int(len(heard.clauses) * _OPENING))]:
        words = heard.tokens[clause.start : clause.end]
        if clause.intent in ("chat", "announce", "states") and set(words) & praise and len(words) >= 6:
            return heard.text(clause.start, clause.end)
    return None
