"""Which amount belongs to which food: by syntax first, nearness second, memory last."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from stovescript.kitchen.words import wordlist
from stovescript.recipe.amounts import rank
from stovescript.speech.heard import Heard, Mention

_FARTHEST = 14  # tokens between an amount and its food
_UNBOUND = 9.0  # what leaving an amount without a food costs
_SENTENCE = 2.5  # what crossing back over a sentence boundary costs
_CLAUSE = 0.3  # and over a clause boundary
_FORWARD = 5.0  # what crossing forward over a clause boundary costs
_FORWARD_SENTENCE = 12.0  # and over a sentence boundary
_SECOND = 2.0  # what a second amount for one mention costs ("two onions, about three cups")
_SECOND_COUNT = 5.0  # and where neither is a measure
_UNMEASURED = 1.2  # what passing over a food costs
_OTHERS = 7.0  # what taking an amount costs that is said to be of something else ("a cup of that stuff over the meat")
_REASON = 6.0  # and what binding across a reason costs ("a cup because of the sugar underneath")


@dataclass(frozen=True, slots=True)
class Binding:
    """One amount and the food mention it measures, with the reason that `explain` prints."""

    amount: Mention
    food: Mention
    reason: str


def bind(heard: Heard, amounts: Sequence[Mention], foods: Sequence[Mention]) -> list[Binding]:
    """The cheapest pairing that keeps the order of speech; no amount and no pairing crosses another.

    A food may take two amounts (a count and a measure). Amounts with no food near stay unbound.
    """
    starts_sentence = [False] * (len(heard.tokens) + 1)
    starts_clause = [False] * (len(heard.tokens) + 1)
    for clause in heard.clauses:
        starts_clause[clause.start] = True
        starts_sentence[clause.start] = clause.new_sentence
    state = {
        token
        for clause in heard.clauses
        for mention in clause.mentions
        if mention.label in ("prep", "size", "amount")
        for token in range(mention.start, mention.end)
    }

    def corrected(one: Mention, other: Mention) -> bool:
        between = heard.tokens[one.end : other.start]
        return len(between) <= 8 and corrects(between)

    cost = _costs(heard, state, starts_sentence, starts_clause)
    bindings: list[Binding] = []
    first = 0
    for group in _groups(amounts):
        low = group[0].start - _FARTHEST - 6
        high = group[-1].end + _FARTHEST + 6
        while first < len(foods) and foods[first].end < low:
            first += 1
        near = [food for food in foods[first:] if food.start < high]
        bindings += _align(group, near, cost, corrected)
    return bindings


def corrects(between: Sequence[str]) -> bool:
    """True for words between two amounts that make the second one correct the first: "no", "make it"."""
    return bool(set(between) & wordlist("correcting")) or _ANEW.search(" ".join(between)) is not None


_ANEW = re.compile(r"\b(?:make (?:it|that)|call it|let's (?:say|do|make it|call it)|we'll say|i'll say|better say)\b")


def _groups(amounts: Sequence[Mention]) -> list[list[Mention]]:
    """Runs of amounts near enough to compete for the same foods."""
    groups: list[list[Mention]] = []
    for amount in amounts:
        if groups and amount.start - groups[-1][-1].end <= 2 * _FARTHEST:
            groups[-1].append(amount)
        else:
            groups.append([amount])
    return groups


def _costs(
    heard: Heard, state: set[int], starts_sentence: list[bool], starts_clause: list[bool]
) -> Callable[[Mention, Mention], float | None]:
    """The price of pairing an amount with a food; None where they are too far apart."""
    joining, linking, parting = (wordlist(name) for name in ("joining", "linking", "parting"))
    reasons = {"because", *wordlist("because")}
    foods = {
        token
        for clause in heard.clauses
        for mention in clause.labelled("food")
        for token in range(mention.start, mention.end)
    }

    def owned(amount: Mention) -> bool:
        """True for an amount said to be of something that is no food named: "three tablespoons of that marinade"."""
        token = amount.end
        if heard.tokens[token : token + 1] != ("of",):
            return False
        token += 1
        while token < len(heard.tokens) and (token in state or heard.tokens[token] in joining):
            token += 1
        return token < len(heard.tokens) and token not in foods and heard.tokens[token] not in _NO_OWNERS

    def cost(amount: Mention, food: Mention) -> float | None:
        forward = food.start >= amount.end
        a, b = (amount.end, food.start) if forward else (food.end, amount.start)
        if b < a or b - a > _FARTHEST:
            return None
        price = 0.0 if forward else 1.5
        easy = joining if forward else linking
        for token in range(a, b):
            word = heard.tokens[token]
            price += 0.1 if token in state or word in easy else (3.0 if forward else 1.5) if word in parting else 0.7
            price += _REASON * (forward and word in reasons)
        for token in range(a, b + 1):
            if starts_sentence[token]:
                price += _FORWARD_SENTENCE if forward else _SENTENCE
            elif starts_clause[token]:
                price += _FORWARD if forward else _CLAUSE
        if amount.quantity and amount.quantity.kind == "count" and not forward:
            price += 1.0
        unit = amount.quantity.unit if amount.quantity else ""
        if owned(amount) and (forward or not set(heard.tokens[a:b]) & _EQUATING):
            price += _OTHERS
        elif forward and a < b and heard.tokens[a] == "of":
            price -= 1.0
        return price + _affinity(unit, food.text)

    return cost


_EQUATING = frozenset({"that's", "it's", "is", "are", "which", "they're", "makes", "gives", "about"})
"""Words between a food and an amount of what it comes to: "one cauliflower that's six cups of florets"."""

_NO_OWNERS = frozenset({"it", "them", "em", "'em", "which", "and", "so", "each", "everything", "you"})
"""Words after "of" that stand for the food itself."""


def _affinity(unit: str, food: str) -> float:
    """Less than 0 where the unit is the food's own (a clove of garlic), more where it can't be."""
    owners = {"clove": "garlic", "rasher": "bacon", "stalk": "celery", "rib": "celery"}
    if unit in owners:
        return -1.0 if owners[unit] in food.lower() else 1.0
    return 0.0


def _measures(amount: Mention) -> bool:
    return amount.quantity is not None and rank(amount.quantity) == 3


def _align(
    amounts: list[Mention],
    foods: list[Mention],
    cost: Callable[[Mention, Mention], float | None],
    corrected: Callable[[Mention, Mention], bool],
) -> list[Binding]:
    """Least-cost monotone matching of amounts to foods."""
    infinite = float("inf")
    columns = len(foods)
    # best[i][j]: price of placing the first i amounts with the last used food before j; back holds the choice
    best = [[infinite] * (columns + 1) for _ in range(len(amounts) + 1)]
    back: list[list[tuple[int, int | None]]] = [[(0, None)] * (columns + 1) for _ in range(len(amounts) + 1)]
    best[0] = [_UNMEASURED * j for j in range(columns + 1)]
    for i, amount in enumerate(amounts, 1):
        for j in range(columns + 1):
            price = best[i - 1][j] + _UNBOUND
            best[i][j], back[i][j] = price, (j, None)
            if j and best[i][j - 1] + _UNMEASURED < best[i][j]:
                best[i][j], back[i][j] = best[i][j - 1] + _UNMEASURED, back[i][j - 1]
            if not j or (pair := cost(amount, foods[j - 1])) is None:
                continue
            if best[i - 1][j - 1] + pair < best[i][j]:
                best[i][j], back[i][j] = best[i - 1][j - 1] + pair, (j - 1, j - 1)
            before = back[i - 1][j]
            both = _measures(amounts[i - 2]) or _measures(amount) if i > 1 else False
            extra = _SECOND if both else _SECOND_COUNT
            if i > 1 and corrected(amounts[i - 2], amount):
                extra = 0.0
            second = best[i - 1][j] + pair + extra
            if i > 1 and before[1] == j - 1 and amount.start > foods[j - 1].start and second < best[i][j]:
                best[i][j], back[i][j] = second, (j, j - 1)
    bindings: list[Binding] = []
    j = columns
    for i in range(len(amounts), 0, -1):
        j_before, food = back[i][j]
        if food is not None:
            amount = amounts[i - 1]
            forward = foods[food].start >= amount.end
            near = (foods[food].start - amount.end if forward else amount.start - foods[food].end) <= 3
            reason = ("said before the food" if forward else "said after the food") + ("" if near else ", near")
            bindings.append(Binding(amount, foods[food], reason))
        j = j_before
    return bindings[::-1]
