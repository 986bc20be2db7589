"""A few words for what a stretch of the method is about: "Brown the lamb", "Pressure cook the chicken breast"."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from stovescript.kitchen.actions import Action, by_form
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.vessels import by_form as vessels_by_form
from stovescript.pages.voice import sentence_case
from stovescript.recipe.draft import Draft, Ingredient, Step
from stovescript.speech.words import plain, singular

_TELLING = (
    ("pressure", "bake", "dry-heat", "fry", "wet-heat", "cook", "marinate", "rise"),
    ("shape", "blend", "reduce", "melt", "coat", "cut", "cool", "season", "drain", "store", "serve", "preheat"),
    ("combine", "add", "wash", "rest", "grease", "divide"),
    ("line", "cover", "open", "release", "heat", "transfer", "remove", "close", "turn", "check", "taste"),
)
"""Kinds of action, from those that name a stretch of cooking best to those that hardly do."""
_COOKING = frozenset(_TELLING[0])
_ALONE = _COOKING | {"serve", "preheat"}
"""Kinds that tell something without a food: "Simmer", "Serve"."""
_MAIN = frozenset(
    {
        *("poultry", "red meat", "game", "offal", "ground meat", "cured meat", "fish", "shellfish", "mollusc"),
        *("vegetable", "allium", "root vegetable", "leafy green", "mushroom", "soy product", "egg"),
        *("pulse", "rice", "grain", "pasta and noodles", "bread", "wrapper"),
    }
)
"""Categories of foods that a stretch of cooking is about."""
_MINOR = frozenset({"oil", "salt", "water", "spice", "dried herb", "spice blend", "extract", "leavener", "fat"})
"""Categories of foods that it is rarely about."""
_SENTENCE = re.compile(r"(?<=[.!?])\s+")
_LONGEST_FORM = 6
_MOST_FOOD_WORDS = 3
_UNTIL = frozenset({"until", "till", "when", "while", "before", "after", "because", "so"})
"""Words after which a sentence says no more what is done."""

_WITHOUT_FOOD = frozenset({"Let", "Leave", "Bring", "In", "On", "Preheat"})
"""First words of verbs that take no food after them here."""
_CARRIES = frozenset({"put", "go", "get", "do", "come", "make", "have", "give", "set", "let", "keep", "hit", "take"})
"""Verbs that say little by themselves."""
_COOKS_SECONDS = 300
"""So long in an appliance is cooking, not warming up."""
_AT = {"stovetop": "On", "grill": "On", "griddle": "On"}


@dataclass(frozen=True, slots=True)
class _Phrase:
    """One thing done: the words for it, how telling its kind is (0 best), and the foods it is done to."""

    verb: str
    rank: int
    alone: bool
    foods: tuple[Ingredient, ...]

    @property
    def order(self) -> int:
        """The lower, the better it names a chapter."""
        return 2 * self.rank + (min(map(_weight, self.foods)) if self.foods else 1)

    @property
    def title(self) -> str | None:
        """The title; None where it would say nothing."""
        words = self.verb.split()
        if not self.foods or len(words) > 2 or words[0] in _WITHOUT_FOOD:
            return self.verb if self.alone else None
        return f"{self.verb} the {_names(self.foods)}"


def chapter_title(draft: Draft, steps: Sequence[Step], avoid: Iterable[str] = ()) -> str | None:
    """What the steps are about, in a few words, or None; not one of `avoid` where there is another title."""
    titles = [phrase.title for phrase in sorted(_phrases(draft, steps), key=lambda each: each.order) if phrase.title]
    used = set(avoid)
    fresh = next((title for title in titles if title not in used), None)
    if fresh or titles:
        return fresh or f"{titles[0]}, continued"
    foods = [each for each in draft.ingredients if each.id in main_foods(draft, steps)]
    return sentence_case(_names(foods)) if foods else None


def main_foods(draft: Draft, steps: Sequence[Step]) -> frozenset[str]:
    """The ids of the ingredients that a stretch of steps is about."""
    used = {each for step in steps for each in step.ingredients}
    return frozenset(each.id for each in draft.ingredients if each.id in used and _weight(each) < 2)


def _weight(ingredient: Ingredient) -> int:
    """0 for a food that a stretch of cooking is about, 2 for one that it is rarely about."""
    food = food_named(ingredient.name)
    return 1 if food is None else 0 if food.category in _MAIN else 2 if food.category in _MINOR else 1


def _short(name: str) -> str:
    """A food's name, its last words where it is long."""
    return " ".join(name.split()[-_MOST_FOOD_WORDS:])


def _names(foods: Iterable[Ingredient]) -> str:
    """At most two of the foods, of those that count most."""
    foods = list(foods)
    best = min(map(_weight, foods))
    names = dict.fromkeys(_short(each.name) for each in foods if _weight(each) == best)
    return " and ".join(list(names)[:2])


def _phrases(draft: Draft, steps: Sequence[Step]) -> list[_Phrase]:
    """What is done in the steps.

    Where heat is put to "it", that is the main food of the step, or the only one of all the steps; a program such as
    "sauté" is for the main food that is named next.
    """
    by_name = _called(draft.ingredients)
    told = [
        (step, words, _named(words[: _stop(words)], by_name))
        for step in steps
        for sentence in _SENTENCE.split(step.text)
        if (words := [plain(word) for word in sentence.split()])
    ]
    whole = _main(food for _, _, foods in told for food in foods)
    found: list[_Phrase] = []
    for at, (step, words, foods) in enumerate(told):
        if (action := _action(words)) is None:
            continue
        here = _main(food for other, _, named in told[: at + 1] if other is step for food in named)
        it = here if 0 < len(here) <= 2 else whole if len(whole) == 1 else ()
        works_on = action.kind in _COOKING or (action.kind in _TELLING[1] and len(here) == 1)
        named = foods or (it if works_on else ())
        vague = action.kind == "cook" and not named
        rank = next((n for n, kinds in enumerate(_TELLING) if action.kind in kinds), len(_TELLING))
        found.append(_Phrase(_verb(action, step), 2 if vague else rank, action.kind in _ALONE, named))
    for step in steps:
        own = _main(food for other, _, foods in told if other is step for food in foods)
        later = [_main(foods) for other, _, foods in told if other.start >= step.start]
        found += _by_settings(step, own, whole if len(whole) == 1 else next(filter(None, later), ()))
    return found


def _main(foods: Iterable[Ingredient]) -> tuple[Ingredient, ...]:
    return tuple({each.id: each for each in foods if _weight(each) == 0}.values())


def _by_settings(step: Step, own: tuple[Ingredient, ...], food: tuple[Ingredient, ...]) -> Iterator[_Phrase]:
    """What the settings of a step tell: its program, or where it cooks, unless foods of its `own` tell more."""
    for setting in step.settings:
        program = by_form().get(setting.program or "")
        if program and program.kind in _COOKING:
            yield _Phrase(program.imperative, 0, True, food)
        elif setting.appliance and setting.seconds and setting.seconds.low >= _COOKS_SECONDS and not own:
            rank = 0 if setting.seconds.low >= 2 * _COOKS_SECONDS else 1
            yield _Phrase(f"{_AT.get(setting.appliance, 'In')} the {setting.appliance}", rank, True, ())


def _verb(action: Action, step: Step) -> str:
    """The action as a title begins with it: "Put" and its like are "Add" where they add, an oven is preheated."""
    if action.kind == "preheat" and (oven := next((s.appliance for s in step.settings if s.appliance), None)):
        return f"Preheat the {oven}"
    if action.kind == "serve" and action.verb in ("ladle", "dish up", "dish out", "plate", "plate up", "serve up"):
        return "Serve"
    if action.kind == "add" and (" " in action.imperative or action.verb.split()[0] in _CARRIES):
        return "Add"
    return action.imperative


def _action(words: Sequence[str]) -> Action | None:
    """What a sentence of the method tells to do: an action of heat if it has one, else the one it begins with."""
    stop = _stop(words)
    first: Action | None = None
    at = 0
    while at < stop:
        if vessel := _longest(words[at:stop], vessels_by_form(), least=2):
            at += vessel
            continue
        length = _longest(words[at:stop], by_form())
        action = by_form()[" ".join(words[at : at + length])] if length else None
        if action and action.kind != "add" and action.verb in _CARRIES:
            action = None
        if action and action.kind in _COOKING and (at == 0 or not action.ambiguous):
            return action
        first = first or (action if at < 2 else None)
        at += max(length, 1)
    return None if first and first.kind == "rest" and first.ambiguous else first


def _stop(words: Sequence[str]) -> int:
    """Where a sentence says no more what is done; the clause that it may begin with ("when it boils, ...") counts."""
    return next((at for at, word in enumerate(words) if at and word in _UNTIL), len(words))


def _longest(words: Sequence[str], forms: Mapping[str, object], least: int = 1) -> int:
    """How many words at the start are one of the forms, the longest; 0 where none is."""
    lengths = range(min(_LONGEST_FORM, len(words)), least - 1, -1)
    return next((n for n in lengths if " ".join(words[:n]) in forms), 0)


def _called(foods: Iterable[Ingredient]) -> dict[tuple[str, ...], Ingredient]:
    """Every way in which the foods were called, in singular words; a food's last word too, where no other has it."""
    by_name: dict[tuple[str, ...], Ingredient] = {}
    for each in foods:
        for name in (each.name, *each.heard_as, *each.name.split()[-1:]):
            if form := tuple(singular(plain(word)) for word in name.split()):
                by_name.setdefault(form, each)
    return by_name


def _named(words: Sequence[str], by_name: Mapping[tuple[str, ...], Ingredient]) -> tuple[Ingredient, ...]:
    """The foods that a sentence names, in its order; the longest name at each place."""
    said = [singular(word) for word in words]
    found: dict[str, Ingredient] = {}
    at = 0
    while at < len(said):
        lengths = range(min(_LONGEST_FORM, len(said) - at), 0, -1)
        form = next((tuple(said[at : at + n]) for n in lengths if tuple(said[at : at + n]) in by_name), ())
        if form:
            found.setdefault(by_name[form].id, by_name[form])
        at += max(len(form), 1)
    return tuple(found.values())
