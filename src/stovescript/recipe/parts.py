"""The parts of a dish: which ingredients go into the dough, which into the filling.

A part begins where the cook turns to it ("now the glaze", "while that's rising you make your filling", "rice next")
and lasts until another begins or the food is served. A dish has parts only where two of them hold two foods each.
"""

from collections import Counter
from collections.abc import Mapping, Sequence

from stovescript.kitchen.foods import food_named
from stovescript.kitchen.made_parts import made_parts
from stovescript.kitchen.words import phrases, wordlist
from stovescript.recipe.draft import Ingredient
from stovescript.recipe.events import actions_of
from stovescript.recipe.world import Item
from stovescript.speech.heard import Clause, Heard
from stovescript.speech.words import singular

_LONGEST_FORM = 3
_FEWEST = 2  # ingredients that make a part, and parts that make a dish of parts
_REACH = 5  # words after a verb of making within which the part is named


def with_parts(
    heard: Heard, items: Sequence[Item], ingredients: Sequence[Ingredient], title: str | None
) -> list[Ingredient]:
    """The ingredients, each with the part of the dish that it goes into first; unchanged where the dish is one."""
    turns = _turns(heard, title)
    named = [_part_of(heard, item, turns) for item in items]
    sizes = Counter(part for part in named if part)
    kept = {part for part, size in sizes.items() if size >= _FEWEST}
    if len(kept) < _FEWEST:
        return list(ingredients)
    return [
        one.model_copy(update={"component": part if part in kept else None})
        for one, part in zip(ingredients, named, strict=True)
    ]


def _part_of(heard: Heard, item: Item, turns: Mapping[int, str | None]) -> str | None:
    """The part in which a food's first addition falls, or the one that it was set out for: "sugar for the glaze"."""
    if not item.additions:
        return None
    first = item.additions[0].clause
    if len(item.additions) == 1:
        for event in item.set_out_events:
            if part := _set_out_for(heard, heard.clauses[event.clause]):
                return part
    last = max((number for number in turns if number <= first), default=None)
    return turns[last] if last is not None else None


def _set_out_for(heard: Heard, clause: Clause) -> str | None:
    for token in range(clause.start, clause.end - 1):
        if heard.tokens[token] == "for" and heard.tokens[token + 1] in ("the", "my", "our", "your"):
            return _part_at(heard, token + 2, clause.end, frozenset())
    return None


def _turns(heard: Heard, title: str | None) -> dict[int, str | None]:
    """Clause number → the part that begins there; None where the food is put together."""
    names = _announced(heard)
    turns: dict[int, str | None] = {}
    started: int | None = None
    for number, clause in enumerate(heard.clauses):
        if started is None and clause.intent == "does":
            started = number
        if started is None and clause.intent != "announce":
            continue
        part = _turned_to(heard, clause, names, started is not None)
        if part:
            turns[number] = part
        elif clause.new_step and _serves(heard, clause):
            turns[number] = None
    first = min(turns, default=len(heard.clauses))
    if started is not None and started < first and (main := _unnamed(heard, started, first, title)):
        turns[started] = main
    return turns


def _unnamed(heard: Heard, start: int, end: int, title: str | None) -> str | None:
    """What is made before the first part is named: a dough or batter that is spoken of, else the dish itself."""
    said = [token for clause in heard.clauses[start:end] for token in heard.tokens[clause.start : clause.end]]
    for token in said:
        if token in wordlist("first_parts"):
            return made_parts()[(token,)].part
    return _main_dish(title)


def _announced(heard: Heard) -> frozenset[str]:
    """The foods named before the cooking starts, where she says what there will be: "then the beans, then the fish"."""
    found: set[str] = set()
    for clause in heard.clauses:
        if clause.intent == "does":
            break
        if clause.intent == "announce":
            found |= {singular(heard.tokens[mention.end - 1]) for mention in clause.labelled("food")}
    return frozenset(found)


def _main_dish(title: str | None) -> str | None:
    """The dish that something else goes with: "lentil stew" of "lentil stew with cabbage"; no "tray" or "bowls"."""
    words = (title or "").lower().split()
    known = made_parts().get(tuple(words[-1:]))
    if not (known and known.main):
        end = next((place for place, word in enumerate(words) if word in ("with", "and")), len(words))
        words = words[:end]
    return " ".join(words) if words and words[-1] not in wordlist("served_as") else None


def _turned_to(heard: Heard, clause: Clause, names: frozenset[str], begun: bool) -> str | None:
    """The part that a clause turns to; None where it only names one, sums up or serves."""
    tokens = heard.tokens[clause.start : clause.end]
    if clause.intent not in ("announce", "does", "states") or phrases("summing_up").search(" ".join(tokens)):
        return None
    if clause.intent != "announce" and not clause.new_step:
        return None
    place = clause.start
    while place < clause.end and heard.tokens[place] in wordlist("part_leads"):
        place += 1
    led = place > clause.start
    loose = range(place, min(clause.end, place + (2 if clause.intent == "announce" and begun else 1)))
    for token in loose:
        part = _part_at(heard, token, clause.end, names)
        if part and (begun or _first(heard, clause)) and (led or clause.intent != "states"):
            if clause.intent == "announce" or not _goes(heard, token, clause.end):
                return part
    if clause.intent == "announce" or "make" in tokens:
        return _made(heard, clause, names, begun)
    return None


def _first(heard: Heard, clause: Clause) -> bool:
    return "first" in heard.tokens[clause.start : clause.end]


def _goes(heard: Heard, token: int, end: int) -> bool:
    """True for "the rice goes in", "the sauce is ready": what is made already is put somewhere."""
    after = heard.tokens[token + 1 : min(end, token + 3)]
    return bool(set(after) & wordlist("part_placed"))


def _made(heard: Heard, clause: Clause, names: frozenset[str], begun: bool) -> str | None:
    """The part after a verb of making: "we'll make our biscuit dough", "let's do the sauce", "we begin from filling"."""
    for token in range(clause.start, clause.end):
        if heard.tokens[token] not in wordlist("part_making"):
            continue
        for place in range(token + 1, min(clause.end, token + 1 + _REACH)):
            part = _part_at(heard, place, clause.end, names)
            if part and (begun or _first(heard, clause) or heard.tokens[token] in ("start", "begin")):
                return part
    return None


def _part_at(heard: Heard, token: int, end: int, names: frozenset[str]) -> str | None:
    """The part named at a token, as she calls it: one of the table, or a food that was announced."""
    for size in range(_LONGEST_FORM, 0, -1):
        form = heard.tokens[token : token + size]
        part = made_parts().get(tuple(form))
        if part and token + size <= end and not _means_else(heard, token):
            said = " ".join(form)
            return part.part if said in part.misheard else said
    if token < end and singular(heard.tokens[token]) in names and not _means_else(heard, token):
        return heard.tokens[token]
    return None


def _means_else(heard: Heard, token: int) -> bool:
    """True where the word is a verb ("rub it in") or belongs to a food's name ("golden syrup", "rice paper")."""
    for clause in heard.clauses:
        if clause.start <= token < clause.end:
            for mention in clause.mentions:
                if not mention.start <= token < mention.end:
                    continue
                food = food_named(mention.text) if mention.label == "food" else None
                if mention.label == "action" or (food and " " in mention.text and not food.dish_like):
                    return True
    return False


def _serves(heard: Heard, clause: Clause) -> bool:
    serving = any(action is not None and action.kind == "serve" for _, action in actions_of(clause))
    return serving or phrases("putting_together").search(" ".join(heard.tokens[clause.start : clause.end])) is not None
