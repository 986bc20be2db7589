"""What could be used instead: each alternative with the ingredient that it replaces, and what is set aside."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import Quantity
from stovescript.recipe.binding import bind
from stovescript.recipe.draft import Alternative, SetAside
from stovescript.recipe.evidence import as_amount, clause_heard
from stovescript.recipe.naming import Named, same_food
from stovescript.speech.heard import Heard, Mention
from stovescript.speech.words import singular

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


def asides_of(heard: Heard, names: Mapping[int, Named], own: Mapping[str, str]) -> list[Aside]:
    """Foods that are named and are none of the dish's own (`own`: key by every way of naming those)."""
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
        if not own_key(name := names[food.start], own)
    ]


def own_key(name: Named, own: Mapping[str, str]) -> str | None:
    """The key of the dish's own food that a name stands for; None where it stands for none.

    The same words, or fewer, name it; more or other words ("flour tortillas" beside corn tortillas) do not.
    """
    said = " ".join(map(singular, name.said.split()))
    return own.get(said) or next((own[other] for other in own if same_food(said, other)), None)


def alternatives_of(
    heard: Heard,
    names: Mapping[int, Named],
    asides: Sequence[Aside],
    own: Mapping[str, str],
    mentions: Sequence[tuple[int, str, Named]],
) -> dict[str, list[Alternative]]:
    """Alternatives by the key of the ingredient that each replaces.

    `mentions` lists (clause, key, name) of the dish's own foods. The one that is named beside it counts most,
    then one of the same kind, then the latest.
    """
    found: dict[str, list[Alternative]] = {}
    for aside in asides:
        if heard.clauses[aside.clause].intent != "alternative":
            continue
        key = _replaced(heard, names, aside, own, mentions)
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
    text = " ".join(heard.tokens[heard.clauses[aside.clause].start : _end_of_sentence(heard, aside.clause)])
    return "same amount" if any(phrase in text for phrase in wordlist("same_amount")) else None


def _end_of_sentence(heard: Heard, number: int) -> int:
    end = heard.clauses[number].end
    for clause in heard.clauses[number + 1 : number + 3]:
        if clause.new_sentence or clause.intent != "alternative":
            break
        end = clause.end
    return end


def _replaced(
    heard: Heard,
    names: Mapping[int, Named],
    aside: Aside,
    own: Mapping[str, str],
    mentions: Sequence[tuple[int, str, Named]],
) -> str | None:
    first = aside.clause
    while first and heard.clauses[first - 1].intent == "alternative" and not heard.clauses[first].new_sentence:
        first -= 1
    beside = {
        key
        for number in range(first, aside.clause + 1)
        for food in heard.clauses[number].labelled("food")
        if (key := own_key(names[food.start], own))
    }
    text = " ".join(heard.tokens[heard.clauses[first].start : heard.clauses[aside.clause].end])
    replacing = phrases("instead").search(text)
    weight = 2.2 if replacing else 1.2
    scores: dict[str, float] = {}
    for number, key, name in mentions:
        distance = first - number if number <= first else 10 + number - first
        score = max(0.0, 1.5 - 0.12 * distance) + weight * (key in beside) + _likeness(aside.name, name)
        scores[key] = max(score, scores.get(key, 0.0))
    best = max(scores, key=lambda key: scores[key], default=None)
    return best if best is not None and scores[best] >= _LEAST else None


_LEAST = 0.6  # score from which an ingredient is taken for the one replaced


def _likeness(one: Named, two: Named) -> float:
    """How alike in kind two foods are: the same head word counts most, then the same category."""
    head = singular(one.said.split()[-1]) == singular(two.said.split()[-1]) if one.said and two.said else False
    kind = bool(one.food and two.food and one.food.category == two.food.category)
    return 2.4 * head + 1.3 * kind


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
