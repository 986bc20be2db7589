"""Names that the captions show wrong, as edits of their words: only where what is meant sounds like what is shown."""

from collections.abc import Iterable, Iterator, Sequence

from stovescript.kitchen.foods import food_named
from stovescript.kitchen.homophones import homophones
from stovescript.kitchen.sounds import alike
from stovescript.pages.caption_lines import CaptionLines, Edit
from stovescript.recipe.draft import Draft, Ingredient, Mishearing
from stovescript.speech.words import plain

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
    return food.name if food and meant.lower() in food.misheard else meant


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

    None where nothing is wrong (whole wheat, taken for whole wheat flour) or where what is meant sounds otherwise.
    """
    first = 0
    while first < min(len(heard), len(meant)) and heard[first] == plain(meant[first]):
        first += 1
    same = 0
    while same < min(len(heard), len(meant)) - first and heard[-1 - same] == plain(meant[-1 - same]):
        same += 1
    wrong, right = heard[first : len(heard) - same], meant[first : len(meant) - same]
    parts = [right[a:b] for a in range(len(right)) for b in range(a + 1, len(right) + 1)]
    if not wrong or not parts:
        return None
    shown = " ".join(wrong)
    best = max(parts, key=lambda part: alike(shown, plain(" ".join(part))))
    known = homophones().get(shown) == " ".join(best)
    if not known and alike(shown, plain(" ".join(best))) < _SOUNDS_ALIKE:
        return None
    return first, len(heard) - same, tuple(best)


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
