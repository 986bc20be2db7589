"""What could be used instead: each alternative with the ingredient that it replaces, and what is set aside."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stovescript.kitchen.words import wordlist
from stovescript.measure import Quantity
from stovescript.recipe.binding import bind
from stovescript.recipe.draft import Alternative, SetAside
from stovescript.recipe.evidence import as_amount, clause_heard
from stovescript.recipe.naming import Named, name_food, same_food
from stovescript.speech.heard import Heard, Mention

_WHY = {
    "not-done": "not used",
    "alternative": "alternative",
    "announce": "chat",
    "chat": "chat",
    "promise": "another dish",
    "tip": "chat",
}


@dataclass(frozen=True, slots=True)
class Aside:
    """A food named in a clause that is not about this dish as cooked."""

    clause: int
    mention: Mention
    name: Named
    amount: Quantity | None


def asides_of(heard: Heard, names: Mapping[int, Named], keys: Mapping[str, str]) -> list[Aside]:
    """Foods that are named and are none of the dish's own (`keys`: every name key of those)."""
    numbers = [n for n, clause in enumerate(heard.clauses) if clause.intent in _WHY]
    foods = [m for n in numbers for m in heard.clauses[n].labelled("food")]
    amounts = [
        m for n in numbers for m in heard.clauses[n].labelled("amount") if m.quantity and m.quantity.kind != "fraction"
    ]
    measured = {b.food.start: b.amount.quantity for b in bind(heard, amounts, foods)}
    return [
        Aside(number, food, name, measured.get(food.start))
        for number in numbers
        for food in heard.clauses[number].labelled("food")
        if not is_own(name := names[food.start], keys)
    ]


def is_own(name: Named, keys: Mapping[str, str]) -> bool:
    """True where a name stands for one of the dish's own foods."""
    return name.key in keys or any(same_food(name.said, key) for key in keys)


def alternatives_of(
    heard: Heard,
    names: Mapping[int, Named],
    asides: Sequence[Aside],
    keys: Mapping[str, str],
    latest: Sequence[tuple[int, str]],
) -> dict[str, list[Alternative]]:
    """Alternatives by the key of the ingredient that each replaces.

    It is the one named in the same clause, else a food of the same category, else the one named last before;
    `latest` lists (clause, key) of the dish's own mentions in order.
    """
    found: dict[str, list[Alternative]] = {}
    for aside in asides:
        if heard.clauses[aside.clause].intent != "alternative":
            continue
        key = _replaced(heard, names, aside, keys, latest)
        if key is None or any(a.name == aside.name.said for a in found.get(key, [])):
            continue
        found.setdefault(key, []).append(
            Alternative(
                name=aside.name.said,
                amount=as_amount(aside.amount) if aside.amount else None,
                note=_note(heard, aside),
                evidence=[clause_heard(heard, aside.clause)],
            )
        )
    return found


def _note(heard: Heard, aside: Aside) -> str | None:
    text = " ".join(heard.tokens[heard.clauses[aside.clause].start : heard.clauses[aside.clause].end])
    return "same amount" if any(phrase in text for phrase in wordlist("same_amount")) else None


def _replaced(
    heard: Heard,
    names: Mapping[int, Named],
    aside: Aside,
    keys: Mapping[str, str],
    latest: Sequence[tuple[int, str]],
) -> str | None:
    numbers = [aside.clause]
    if not heard.clauses[aside.clause].new_sentence or (
        aside.clause and heard.clauses[aside.clause - 1].intent == "alternative"
    ):
        numbers.append(aside.clause - 1)
    for number in numbers:
        for food in heard.clauses[number].labelled("food"):
            name = names[food.start]
            own = keys.get(name.key) or next((keys[k] for k in keys if same_food(name.said, k)), None)
            if own:
                return own
    before = [key for clause, key in latest if clause <= aside.clause][::-1][:6]
    if aside.name.food:
        for key in before:
            food = name_food(key).food
            if food and food.category == aside.name.food.category:
                return key
    return before[0] if before else None


def set_aside_of(heard: Heard, asides: Sequence[Aside]) -> list[SetAside]:
    """Foods named and not used, each once, with why."""
    named: dict[str, list[Aside]] = {}
    for aside in asides:
        named.setdefault(aside.name.key, []).append(aside)
    result: list[SetAside] = []
    for several in named.values():
        intents = [heard.clauses[aside.clause].intent for aside in several]
        first = next((i for i in ("not-done", "alternative") if i in intents), intents[0])
        result.append(
            SetAside.model_validate(
                {
                    "name": several[0].name.said,
                    "why": _WHY[first],
                    "evidence": [clause_heard(heard, aside.clause) for aside in several],
                }
            )
        )
    return result
