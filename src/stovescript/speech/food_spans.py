"""Which stretches of words name a food: the model's tags, put right by what the tables know."""

from collections.abc import Sequence
from functools import cache

from stovescript.kitchen.foods import Food, ambiguous_food_forms, food_forms, food_named
from stovescript.kitchen.homophones import homophones
from stovescript.kitchen.preparations import preparation
from stovescript.kitchen.sounds import alike, sound
from stovescript.kitchen.words import wordlist
from stovescript.speech.labels import TAGS
from stovescript.speech.model import Scores

Spans = list[tuple[str, int, int]]

_LONGEST_FOOD = 4  # words
_TABLE_FOOD = 0.3  # probability of a food tag from which a food of the table is one
_SOUNDED = 4  # letters from which a word may be a mis-heard one
_JOINED = 80.0  # how alike two stretches together must be to a food of the table to be one name


def food_spans(spans: Spans, tokens: Sequence[str], tags: Scores) -> Spans:
    """The labelled stretches with those of foods put right; other labels stay as they are, all in order."""
    return parted(without_strays(joined(with_table_foods(spans, tokens, tags), tokens), tokens), tokens)


def with_table_foods(spans: Spans, tokens: Sequence[str], tags: Scores) -> Spans:
    """The spans with foods widened to the name that the table knows, and with foods of the table that were missed."""
    forms, everyday = food_forms(), ambiguous_food_forms()
    owner = {token: number for number, (_, a, b) in enumerate(spans) for token in range(a, b)}
    foods: dict[int, tuple[int, int]] = {n: (a, b) for n, (label, a, b) in enumerate(spans) if label == "food"}
    missed: Spans = []
    chance = tags[:, [TAGS.index("B-food"), TAGS.index("I-food")]].sum(axis=1)
    taken: set[int] = set()
    for size in range(_LONGEST_FOOD, 0, -1):
        for start in range(len(tokens) - size + 1):
            place = range(start, start + size)
            form = " ".join(tokens[start : start + size])
            if form not in forms or taken & set(place):
                continue
            owners = {owner.get(token) for token in place}
            named = [number for number in owners if number is not None]
            if not named:
                if form not in everyday and chance[start : start + size].max() >= _TABLE_FOOD:
                    missed.append(("food", start, start + size))
                    taken |= set(place)
            elif len(named) == 1 and named[0] in foods:
                a, b = foods[named[0]]
                if start <= a and b <= start + size and size > b - a:
                    foods[named[0]] = (start, start + size)
                taken |= set(place)
    kept = [("food", *foods[n]) if n in foods else span for n, span in enumerate(spans)]
    return sorted([*kept, *missed], key=lambda span: span[1])


def joined(spans: Spans, tokens: Sequence[str]) -> Spans:
    """Two stretches side by side as one food, where the first is no food alone: "poetry" "seasoning"."""
    result: Spans = []
    for label, start, end in spans:
        before = result[-1] if result else ("", 0, 0)
        if label == before[0] == "food" and before[2] == start and _one_name(tokens, before[1], start, end):
            result[-1] = ("food", before[1], end)
        else:
            result.append((label, start, end))
    return result


def _one_name(tokens: Sequence[str], first: int, second: int, end: int) -> bool:
    alone = " ".join(tokens[first:second])
    if alone in food_forms() and alone not in ambiguous_food_forms():
        return False
    name = " ".join(tokens[first:end])
    return name in food_forms() or any(alike(name, form) >= _JOINED for form in _ending_in(tokens[end - 1]))


@cache
def _ending_in(word: str) -> tuple[str, ...]:
    """The foods of several words whose last word is this one, or sounds the same."""
    key = sound(word)
    return tuple(form for form in food_forms() if " " in form and sound(form.split()[-1]) == key)


def parted(spans: Spans, tokens: Sequence[str]) -> Spans:
    """The spans with two foods run together taken apart ("green pepper cheese"), and "salt and pepper" made whole."""
    result: Spans = []
    taken = {token for _, start, end in spans for token in range(start, end)}
    alone = {" ".join(tokens[start:end]) for label, start, end in spans if label == "food"}
    for label, start, end in spans:
        if label != "food":
            result.append((label, start, end))
            continue
        seam = _seam(tokens, start, end, alone)
        result += [("food", start, seam), ("food", seam, end)] if seam else [("food", start, end)]
        pair = tuple(tokens[start : end + 2]) == ("salt", "and", "pepper")
        if pair and not taken & {end, end + 1}:
            result.append(("food", end + 1, end + 2))
    return result


def _seam(tokens: Sequence[str], start: int, end: int, alone: set[str]) -> int | None:
    """Where one food ends and another starts, in a stretch of words that together name none.

    Either the two make no third food by their kinds, or the talk names each of them `alone`, too.
    """
    name = " ".join(tokens[start:end])
    if food_named(name) or name in homophones():
        return None
    for seam in range(start + 1, end):
        names = [" ".join(tokens[a:b]) for a, b in ((start, seam), (seam, end))]
        first, second = map(food_named, names)
        if not first or not second or _describes(tokens[start]):
            continue
        if _strangers(first, second) or (alone.issuperset(names) and not second.dish_like):
            return seam
    return None


def _strangers(first: Food, second: Food) -> bool:
    """True for two foods that together name no third one: a vegetable and a cheese, but not a lemon and a juice."""
    whole = {"vegetable", "root vegetable", "allium", "leafy green", "fruit", "citrus", "cheese", "fresh herb", "egg"}
    apart = first.category in whole and second.category in whole and first.category != second.category
    return apart and not first.ambiguous and not second.ambiguous and not second.dish_like


def without_strays(spans: Spans, tokens: Sequence[str]) -> Spans:
    """The spans without words that belong to no food: trailing talk ("orange alright"), sizes, colours, sounds."""
    result: Spans = []
    for label, start, end in spans:
        if label != "food":
            result.append((label, start, end))
        elif kept := _food_within(tokens, start, end):
            result.append(("food", *kept))
    return result


def _food_within(tokens: Sequence[str], start: int, end: int) -> tuple[int, int] | None:
    """The part of a food stretch that names it; None where no word of it can."""
    name = " ".join(tokens[start:end])
    if food_named(name) or name in homophones():
        return start, end
    if all(_describes(token) for token in tokens[start:end]):
        return None
    for last in range(end - 1, start, -1):
        if food_named(" ".join(tokens[start:last])) and not any(_of_a_food(t) for t in tokens[last:end]):
            return start, last
    return start, end


def _describes(token: str) -> bool:
    """True for a word that tells a food's state, size or colour, or that is no part of any name."""
    if token in wordlist("hesitations") or token in wordlist("contractions") or token in wordlist("determiners"):
        return True
    return token not in food_forms() and (token in wordlist("colors") or preparation(token) is not None)


@cache
def _food_words() -> frozenset[str]:
    return frozenset(word for form in (*food_forms(), *homophones()) for word in form.split())


def _of_a_food(token: str) -> bool:
    known = _food_words()
    if token in known or len(token) < _SOUNDED:
        return token in known
    return any(alike(token, word) >= _JOINED for word in known if word[0] == token[0])
