"""The question of doneness: meat, bread or cake that is cooked by the clock, with no sign told."""

from collections.abc import Iterator

from stovescript.gaps.registry import Question, check
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.words import phrases
from stovescript.measure import UnitError, convert
from stovescript.recipe.draft import Amount, Draft, Ingredient, Setting, Step
from stovescript.recipe.settings import COOKING, WAITING, is_internal
from stovescript.recipe.verbs import actions_of
from stovescript.speech.heard import Clause, Heard

_MEATS = frozenset({"poultry", "red meat", "ground meat", "game", "fish", "shellfish", "offal"})
_BY_THE_CLOCK = frozenset(
    {"oven", "air fryer", "grill", "smoker", "toaster oven", "pizza oven", "broiler", "deep fryer", "microwave"}
    | {"slow cooker", "sous vide circulator"}
)
"""Appliances that cook by the clock; in a pan or pot the cook looks and stirs, in a pressure cooker nobody can."""
_SHORTEST = 60.0  # seconds
_MUCH_FLOUR = 100.0  # grams from which flour makes dough or batter and does not only thicken: common practice


@check
def no_doneness(draft: Draft, heard: Heard) -> Iterator[Question]:
    """Meat, bread or cake cooked by the clock alone: asked of the last time that each appliance cooks it."""
    last: dict[str, tuple[int, Setting]] = {}
    for place, step in enumerate(draft.steps):
        for setting in step.settings:
            if setting.appliance in _BY_THE_CLOCK and _cooks(heard, setting):
                last[setting.appliance] = place, setting
    for place, setting in last.values():
        step = draft.steps[place]
        foods = _needing([one for one in draft.ingredients if one.id in step.ingredients], draft.ingredients)
        told = _told(heard, draft.steps, place)
        if not foods or step.until or any(_is_sign(heard, clause) for clause in told):
            continue
        evidence = setting.evidence[0]
        question = f"“{evidence.text}”: how does a reader tell that it is done, apart from the clock?"
        yield Question("no_doneness", "could", " and ".join(foods[:2]), question, [evidence], step=step.id)


def _cooks(heard: Heard, setting: Setting) -> bool:
    """True where the appliance runs for a time that does more than heat it up, keep warm or rest."""
    if setting.seconds is None or setting.seconds.low < _SHORTEST or setting.level == "warm":
        return False
    kinds: set[str] = set()
    for clause in heard.clauses:
        if any(abs(heard.talk.words[clause.start].start - said.start) < 0.01 for said in setting.evidence):
            kinds |= {action.kind for _, action in actions_of(clause) if action}
    idle = WAITING | {"preheat", "release"} | (frozenset() if setting.appliance == "microwave" else {"heat"})
    return not kinds & idle or bool(kinds & (COOKING - {"preheat", "release", "heat"}))


def _needing(used: list[Ingredient], every: list[Ingredient]) -> list[str]:
    """The meat of the step, else of the dish where the step names no food; else the flour of a dough or batter."""
    among = used or every
    meat = [one.name for one in among if (food := food_named(one.name)) and food.category in _MEATS]
    if meat or used:
        return meat
    return [one.name for one in every if (food := food_named(one.name)) and food.category == "flour" and _is_much(one)]


def _is_much(flour: Ingredient) -> bool:
    return flour.total is not None and _grams(flour.total) >= _MUCH_FLOUR


def _grams(amount: Amount) -> float:
    """The weight of flour; a cup of it weighs about 120 grams (common practice)."""
    try:
        return convert(amount.high, amount.unit, "gram")
    except UnitError:
        pass
    try:
        return convert(amount.high, amount.unit, "cup") * 120
    except UnitError:
        return 0.0


def _told(heard: Heard, steps: list[Step], place: int) -> list[Clause]:
    """What is said of this cooking: in its step, and in the next where nothing goes in and no other heat is set."""
    after = steps[place + 1 :]
    if after and not after[0].ingredients and not after[0].settings:
        after = after[1:]
    end = after[0].start if after else heard.talk.seconds
    return [
        clause
        for clause in heard.clauses
        if clause.intent not in ("alternative", "not-done", "promise")
        and steps[place].start - 0.01 <= heard.talk.words[clause.start].start < end - 0.01
    ]


def _is_sign(heard: Heard, clause: Clause) -> bool:
    if clause.labelled("cue") or any(is_internal(heard, clause, mention) for mention in clause.labelled("temp")):
        return True
    words = " ".join(heard.tokens[clause.start : clause.end])
    return clause.intent != "chat" and phrases("signs").search(words) is not None
