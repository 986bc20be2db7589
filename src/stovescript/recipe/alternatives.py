"""What could be used instead: each alternative with the ingredient that it replaces, and what is set aside."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from stovescript.kitchen.substitutions import known_substitute, one_family
from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import Quantity
from stovescript.recipe.binding import Binding, bind
from stovescript.recipe.draft import Alternative, SetAside
from stovescript.recipe.evidence import as_amount, clause_heard
from stovescript.recipe.naming import BY_CUT, Named, collective_of, name_food, same_food
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
    own: bool = False  # an ingredient too, here instead of another one


def asides_of(heard: Heard, names: Mapping[int, Named], own: Mapping[str, str]) -> list[Aside]:
    """Foods that are named and are none of the dish's own (`own`: key by every way of naming those)."""
    measured = {b.food.start: b.amount.quantity for b in measured_asides(heard)}
    found = []
    for number in _beside(heard):
        for food in heard.clauses[number].labelled("food"):
            key = own_key(name := names[food.start], own)
            if key and heard.clauses[number].intent == "alternative" and _other_form(food.text, own, key):
                name, key = replace(name, key=food.text.lower(), said=food.text.lower()), None
            if not key or _stands_in(heard, number, food, names, own, key):
                found.append(Aside(number, food, name, measured.get(food.start), own=key is not None))
    return found


def _other_form(said: str, own: Mapping[str, str], key: str) -> bool:
    """True for "fresh tomatoes" offered where crushed ones are used: the ingredient in another form."""
    forms = set(said.lower().split()) & wordlist("forms")
    return bool(forms) and not any(forms & set(other.split()) for other, known in own.items() if known == key)


def _beside(heard: Heard) -> list[int]:
    return [n for n, clause in enumerate(heard.clauses) if clause.intent in _WHY]


def measured_asides(heard: Heard) -> list[Binding]:
    """Which amount measures which food in the clauses that are not about this dish as cooked."""
    numbers = _beside(heard)
    foods = [m for n in numbers for m in heard.clauses[n].labelled("food")]
    amounts = [
        m for n in numbers for m in heard.clauses[n].labelled("amount") if m.quantity and m.quantity.kind != "fraction"
    ]
    return bind(heard, amounts, foods)


def _stands_in(
    heard: Heard, number: int, food: Mention, names: Mapping[int, Named], own: Mapping[str, str], key: str
) -> bool:
    """True for an ingredient named instead of another one: "olive oil in place of the butter"."""
    if heard.clauses[number].intent != "alternative" or _INSTEAD_OF.search(_words_before(heard, food)):
        return False
    return any(other != key for other in _said_replaced(heard, number, food, names, own))


def _said_replaced(
    heard: Heard, number: int, food: Mention, names: Mapping[int, Named], own: Mapping[str, str]
) -> list[str]:
    """The keys of what the words themselves say that a food replaces: "X instead of the Y", "no Y? use X"."""
    clauses = heard.clauses[max(0, number - 1) : number + 2]
    others = [m for clause in clauses if clause.intent in _TOLD for m in clause.labelled("food") if m is not food]
    after = [m for m in others if m.start >= food.end and _follows_as_replaced(heard, food, m)]
    before = [m for m in others if m.end <= food.start and _missing(heard, m, food)]
    named = after[:1] or before[-1:]
    return [key for m in named for key in _own_keys(names[m.start], own)]


_TOLD = ("alternative", "tip", "does", "states")


def _follows_as_replaced(heard: Heard, food: Mention, other: Mention) -> bool:
    between = " ".join(heard.tokens[food.end : other.start])
    before = heard.tokens[max(0, food.start - 6) : food.start]
    return _IN_PLACE.search(between) is not None or (
        _FOR_THE.fullmatch(between) is not None and bool(set(before) & _TAKING)
    )


def _of_one_offer(heard: Heard, first: Mention, second: Mention) -> bool:
    """True for two foods offered together or by choice: "milk and a tablespoon of vinegar", "trout or char"."""
    between = heard.tokens[first.end : second.start]
    joined = bool({"and", "or", "plus", "with"} & set(between))
    return joined and not set(between) & _TAKING and _IN_PLACE.search(" ".join(between)) is None


_FOR_THE = re.compile(r"for (?:the|your|my|that|this)")
_TAKING = frozenset({"do", "use", "take", "swap", "sub", "substitute", "have"})


def _missing(heard: Heard, other: Mention, food: Mention) -> bool:
    """True for "if you don't have Y use X", "skip the Y and use X": Y is gone when X is taken."""
    between = heard.tokens[other.end : food.start]
    gone = _GONE.search(_words_before(heard, other)) is not None
    return gone and len(between) <= _GONE_WITHIN


_GONE_WITHIN = 10  # tokens from what is missing to what is taken instead
_GONE = re.compile(
    r"\b(?:no|don't have|haven't got|ain't got|have no|got no|out of|can't get|can't find|can't do|don't do"
    r"|don't eat|don't like|be doing with|be bothered with|hate|skip|swap|replace|without|instead of|in place of"
    r"|rather than|there is not|there isn't|there's no)"
    r"(?: any| the| your| my| that| some| of| fresh| out)*$"
)


def _own_keys(name: Named, own: Mapping[str, str]) -> list[str]:
    """The keys of the dish's own foods that a name stands for; a general name ("the cheese") for those of its kind."""
    if key := own_key(name, own):
        return [key]
    kinds = collective_of(name.said)
    of_kind = [key for said, key in own.items() if (food := name_food(said).food) and food.category in kinds]
    return list(dict.fromkeys(of_kind))[-1:]


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
    last: tuple[int, str] | None = None
    for aside in asides:
        gone = _GONE.search(_words_before(heard, aside.mention)) is not None
        if heard.clauses[aside.clause].intent != "alternative" or gone:
            continue
        if aside.name.food is None and _beside_food(heard, aside):
            continue
        key = _replaced(heard, names, aside, own, mentions)
        opens = heard.tokens[heard.clauses[aside.clause].start]
        if last and opens in ("and", "with", "plus") and last[0] == aside.clause - 1 and aside.amount:
            key = last[1]  # "use plain flour, and four teaspoons of baking powder with it"
        last = (aside.clause, key) if key else last
        if (
            key is None
            or key == own_key(aside.name, own)
            or any(a.name == aside.name.said for a in found.get(key, []))
        ):
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


def _beside_food(heard: Heard, aside: Aside) -> bool:
    """True for a word that no table knows right beside a food: "shop bought" pilau masala."""
    foods = heard.clauses[aside.clause].labelled("food")
    return any(food.start == aside.mention.end or food.end == aside.mention.start for food in foods)


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
    if said := _said_replaced(heard, aside.clause, aside.mention, names, own):
        return said[0]
    taken = {
        key
        for number in range(first, aside.clause + 1)
        for food in heard.clauses[number].labelled("food")
        if food.start < aside.mention.start and not own_key(names[food.start], own)
        for key in _said_replaced(heard, number, food, names, own)
        if not _of_one_offer(heard, food, aside.mention)
    }
    beside = {
        key
        for number in range(first, aside.clause + 1)
        for food in heard.clauses[number].labelled("food")
        if (key := own_key(names[food.start], own)) and key not in taken
        if not _WITH.search(_words_before(heard, food))
    }
    text = " ".join(heard.tokens[heard.clauses[first].start : heard.clauses[aside.clause].end])
    replacing = phrases("instead").search(text)
    weight = 2.2 if replacing else 1.2
    meatless = aside.name.food is not None and aside.name.food.category not in BY_CUT and _MEATLESS_TALK.search(text)
    scores: dict[str, float] = {}
    for number, key, name in mentions:
        distance = first - number if number <= first else 10 + number - first
        score = max(0.0, 1.5 - 0.12 * distance) + weight * (key in beside) + _likeness(aside.name, name)
        score += _MEATLESS * bool(meatless and name.food and name.food.category in BY_CUT)
        score -= _TAKEN * (key in taken)
        scores[key] = max(score, scores.get(key, 0.0))
    best = max(scores, key=lambda key: scores[key], default=None)
    return best if best is not None and scores[best] >= _LEAST else None


_MEATLESS = 1.6  # what it counts that she cooks for those who eat no meat, and the ingredient is meat
_WITH = re.compile(r"\b(?:with|beside|alongside|after|before)(?: the| your| my)?$")
"""Before an ingredient that something goes in beside: "a jalapeno could go in with the onion"."""
_TAKEN = 2.0  # and that something else was just said to replace the ingredient
_MEATLESS_TALK = re.compile(r"\b(?:vegetarians?|veggies?|vegans?|veg|meatless|meat free|plant based|don't eat meat)\b")
_INSTEAD_OF = re.compile(
    r"\b(?:in ?stead of|in (?:the )?place of|for|swap|replace|out of|no|without|skip|don't have|rather than)"
    r"(?: any| the| your| my| that| some| of| fresh)*$"
)
"""Before the ingredient that is replaced: "shrimp in place of the chicken"."""
_IN_PLACE = re.compile(
    r"\b(?:in ?stead of|in (?:the )?place of|rather than)(?: any| the| your| my| that| some| of| fresh)*$"
)
"""The surest of these, after which an ingredient stands in for another one."""


def _words_before(heard: Heard, food: Mention) -> str:
    return " ".join(heard.tokens[max(0, food.start - 6) : food.start])


_LEAST = 1.2  # score from which an ingredient is taken for the one replaced


def _likeness(one: Named, two: Named) -> float:
    """How alike in kind two foods are: the same head word counts most, then the same category."""
    head = singular(one.said.split()[-1]) == singular(two.said.split()[-1]) if one.said and two.said else False
    kind = bool(one.food and two.food and one.food.category == two.food.category)
    known = bool(one.food and two.food and known_substitute(one.food.name, two.food.name))
    family = bool(one.food and two.food and one_family(one.food.category, two.food.category))
    return 2.4 * head + 1.6 * known + (1.3 if kind else _FAMILY * family)


_FAMILY = 0.7  # what it counts that two foods often stand in for one another


def set_aside_of(heard: Heard, asides: Sequence[Aside]) -> list[SetAside]:
    """Foods named and not used, each once, with why."""
    named: dict[str, list[Aside]] = {}
    for aside in asides:
        if aside.own:
            continue
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
