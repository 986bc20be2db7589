"""Names that the captions show wrong, as edits of their words: only where what is meant sounds like what is shown."""

from collections.abc import Iterable, Iterator, Sequence

from stovescript.kitchen.foods import food_named
from stovescript.kitchen.homophones import homophones
from stovescript.kitchen.sounds import alike
from stovescript.pages.caption_lines import CaptionLines, Edit
from stovescript.recipe.draft import Draft, Ingredient, Mishearing
from stovescript.speech.words import plain, singular

_SOUNDS_ALIKE = 67.0
"""How alike the words shown and meant must be. Captions mend what was heard; they translate and complete nothing."""
_NEAR_SECONDS = 1.5
"""A line may be shown a little before or after its words are said: common practice."""
_EDGES = ".,!?;:\"'()[]…"


def name_edits(lines: CaptionLines, draft: Draft) -> list[Edit]:
    """The edits that put the names of foods right, none overlapping."""
    words = [plain(word) for word in lines.stream]
    edits: list[Edit] = []
    taken: set[int] = set()
    for wrong in [*draft.mishearings, *_homophones(draft.ingredients)]:
        heard = [plain(word) for word in wrong.heard.split()]
        place = _place(lines, words, heard, wrong, taken)
        if place is None:
            continue
        found = _difference(heard, _spelling(wrong.meant).split())
        if found is None:
            continue
        first, last, meant = found
        edit = _edit(lines, place + first, place + last, meant)
        if lines.allows(edit):
            edits.append(edit)
            taken.update(range(place, place + len(heard)))
    return edits


def _homophones(ingredients: Iterable[Ingredient]) -> Iterator[Mishearing]:
    """ "flower" where flour goes in: ordinary words that the draft reads as a food's name, once in the words heard."""
    for ingredient in ingredients:
        for heard in ingredient.heard_as:
            meant = homophones().get(heard)
            food = food_named(meant) if meant else None
            if not meant or not food or food != food_named(ingredient.name):
                continue
            for evidence in (one for use in ingredient.uses for one in use.evidence):
                said = f" {' '.join(map(plain, evidence.text.split()))} "
                if said.count(f" {heard} ") == 1 and f" {meant} " not in said:
                    yield Mishearing(heard=heard, meant=meant, start=evidence.start, end=evidence.end)


def _spelling(meant: str) -> str:
    """The food's name where what is meant is itself a spelling that captions make of it."""
    food = food_named(meant)
    wrong = {each.replace("'", "") for each in food.misheard} if food else set()
    return food.name if food and meant.lower().replace("'", "") in wrong else meant


def _place(
    lines: CaptionLines, words: Sequence[str], heard: Sequence[str], wrong: Mishearing, taken: set[int]
) -> int | None:
    """Where the words heard stand in the stream, nearest to their time; None where they are not shown then."""
    places = []
    for place in range(len(words) - len(heard) + 1):
        if words[place] != heard[0] or words[place : place + len(heard)] != heard or place in taken:
            continue
        if -1 in lines.line_of[place : place + len(heard)]:
            continue
        first, last = lines.lines[lines.line_of[place]], lines.lines[lines.line_of[place + len(heard) - 1]]
        if first.start - _NEAR_SECONDS <= wrong.end and wrong.start <= last.gone + _NEAR_SECONDS:
            places.append(place)
    middle = (wrong.start + wrong.end) / 2
    return min(places, key=lambda place: abs(lines.seconds_at(place) - middle), default=None)


def _difference(heard: Sequence[str], meant: Sequence[str]) -> tuple[int, int, tuple[str, ...]] | None:
    """Which of the words heard are wrong, and the words for them: of "soldier", taken for pork shoulder, "shoulder".

    None where nothing is wrong (whole wheat, taken for whole wheat flour), where what is meant sounds otherwise, and
    where the words themselves name a food.
    """
    first, last = 0, len(heard)
    while last - first > 1 and _is_food(heard[first]) and _likelier(heard[first + 1 :], heard[first:], meant):
        first += 1  # "a teaspoon of salt bread flower": the salt is no part of the flour
    start, end = 0, len(meant)
    while start < end and first < last and singular(heard[first]) == singular(plain(meant[start])):
        first, start = first + 1, start + 1
    while start < end and first < last and singular(heard[last - 1]) == singular(plain(meant[end - 1])):
        last, end = last - 1, end - 1
    shown = " ".join(heard[first:last])
    if not shown or start == end or _is_food(shown):
        return None
    best = max(_parts(meant[start:end]), key=lambda part: alike(shown, part))
    if homophones().get(shown) != best and alike(shown, best) < _SOUNDS_ALIKE:
        return None
    return first, last, tuple(best.split())


def _parts(words: Sequence[str]) -> list[str]:
    """Every run of the words."""
    size = len(words)
    return [" ".join(words[a:b]) for a in range(size) for b in range(a + 1, size + 1)]


def _likelier(some: Sequence[str], more: Sequence[str], meant: Sequence[str]) -> bool:
    """True where fewer of the words heard sound at least as much like what is meant, and none of it is lost."""
    whole = " ".join(meant)
    if more[0] in map(plain, meant):
        return False
    return alike(" ".join(some), whole) >= alike(" ".join(more), whole)


def _is_food(words: str) -> bool:
    """True for words that name a food as they stand; not for a spelling that captions make of one."""
    food = food_named(words)
    return food is not None and words not in homophones() and words not in food.misheard


def _edit(lines: CaptionLines, start: int, end: int, meant: Sequence[str]) -> Edit:
    """The words meant, with the capital and the punctuation of the words that they replace."""
    before, after = lines.stream[start], lines.stream[end - 1]
    opening = before[: len(before) - len(before.lstrip(_EDGES))]
    closing = after[len(after.rstrip(_EDGES)) :]
    words = list(meant)
    if before.lstrip(_EDGES)[:1].isupper():
        words[0] = words[0][:1].upper() + words[0][1:]
    words[0] = opening + words[0]
    words[-1] += closing
    return Edit(start, end, tuple(words))
