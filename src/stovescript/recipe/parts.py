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
from stovescript.recipe.verbs import actions_of
from stovescript.recipe.world import Item
from stovescript.speech.heard import Clause, Heard
from stovescript.speech.words import singular

_LONGEST_FORM = 3
_FEWEST = 2  # ingredients that make a part, and parts that make a dish of parts
_COVERED = 0.6  # share of the ingredients that the parts must take; else too little was understood of them
_SHORT = 6  # words of an announcement that says little else: "while they're standing custard"
_HEADING = 2  # words of such a one that name the part
_LASTS = 1  # steps that a part takes after its first; what goes in later belongs to the whole
_NAME = 4  # words of a dish's name; what is longer is a sentence
_REACH = 5  # words after a verb of making within which the part is named


def with_parts(
    heard: Heard, items: Sequence[Item], ingredients: Sequence[Ingredient], title: str | None
) -> list[Ingredient]:
    """The ingredients, each with the part of the dish that it goes into first; unchanged where the dish is one."""
    turns = _turns(heard, title)
    named = [_part_of(heard, item, turns) for item in items]
    sizes = Counter(part for part in named if part)
    kept = {part for part, size in sizes.items() if size >= _FEWEST}
    made = kept - {_main_dish(title)}
    covered = sum(sizes[part] for part in kept) >= _COVERED * len(named)
    if len(kept) < _FEWEST or not covered or made <= wordlist("finishing_parts"):
        return list(ingredients)  # a stew and its gravy, a soup and its toppings are one dish
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
    if last is None or (last != min(turns) and _steps_between(heard, last, first) > _LASTS):
        return None
    return turns[last]


def _steps_between(heard: Heard, start: int, end: int) -> int:
    return sum(clause.new_step for clause in heard.clauses[start + 1 : end + 1])


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
    said = Counter(token for clause in heard.clauses[start:end] for token in heard.tokens[clause.start : clause.end])
    for form in sorted(wordlist("first_parts")):
        if said[form] >= _FEWEST:
            return made_parts()[(form,)].part
    return _main_dish(title)


def _announced(heard: Heard) -> frozenset[str]:
    """The foods that the plan before the cooking names: "then the beans, then the fish"."""
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
    if not words or words[-1] in wordlist("served_as"):
        return None
    known = made_parts().get((words[-1],))
    if not (known and known.main):
        end = next((place for place, word in enumerate(words) if word in ("with", "and")), len(words))
        words = words[:end]
    known = made_parts().get(tuple(words[-1:]))
    return " ".join(words) if 0 < len(words) <= _NAME and (known or food_named(words[-1])) else None


def _turned_to(heard: Heard, clause: Clause, names: frozenset[str], begun: bool) -> str | None:
    """The part that a clause turns to; None where it only names one, sums up or serves."""
    text = " ".join(heard.tokens[clause.start : clause.end])
    if not begun:
        return _first_named(heard, clause, names)
    if clause.intent in ("alternative", "not-done", "promise", "tip") or phrases("summing_up").search(text):
        return None
    announced = clause.intent == "announce" or _is_heading(heard, clause)
    if not announced and not clause.new_step:
        return _made(heard, clause, names) if phrases("part_begun").search(text) else None
    place = clause.start
    while place < clause.end and heard.tokens[place] in wordlist("part_leads"):
        place += 1
    if place > clause.start or announced:
        short = announced and clause.end - clause.start <= _SHORT
        reach = clause.end if short else min(clause.end, place + 1 + announced)
        for token in range(place, reach):
            part = _part_at(heard, token, clause.end, names)
            if part and (announced or not _goes(heard, token, clause.end)):
                return part
    return _made(heard, clause, names) if announced or phrases("part_begun").search(text) else None


def _is_heading(heard: Heard, clause: Clause) -> bool:
    """True for a few words that only turn: "okay now the sauce", "rice time", "on to the filling"."""
    tokens = heard.tokens[clause.start : clause.end]
    return len(tokens) <= _SHORT and sum(token not in wordlist("part_leads") for token in tokens) <= _HEADING


def _first_named(heard: Heard, clause: Clause, names: frozenset[str]) -> str | None:
    """The part that the plan puts first: "marinade first", "first the dough", "we begin from filling"."""
    for token in range(clause.start, clause.end):
        word = heard.tokens[token]
        if word == "first" and token > clause.start and (part := _part_at(heard, token - 1, token, names)):
            return part
        if word in ("first", "begin", "start"):
            for place in range(token + 1, min(clause.end, token + 4)):
                if part := _part_at(heard, place, clause.end, names):
                    return part
    return None


def _goes(heard: Heard, token: int, end: int) -> bool:
    """True for "the rice goes in", "the sauce is ready": what is made already is put somewhere."""
    after = heard.tokens[token + 1 : min(end, token + 3)]
    return bool(set(after) & wordlist("part_placed"))


def _made(heard: Heard, clause: Clause, names: frozenset[str]) -> str | None:
    """The part after a verb of making: "we'll make our biscuit dough", "let's do the sauce"."""
    for token in range(clause.start, clause.end):
        if heard.tokens[token] in wordlist("part_making"):
            for place in range(token + 1, min(clause.end, token + 1 + _REACH)):
                if part := _part_at(heard, place, clause.end, names):
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
