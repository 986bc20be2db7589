"""Foods that are named in passing: denied, likened, described, or only where something goes or what is thrown out."""

import re
from collections.abc import Sequence

from stovescript.kitchen.words import wordlist
from stovescript.recipe.event import Event
from stovescript.speech.heard import Clause, Heard, Mention


def is_denied(heard: Heard, food: Mention) -> bool:
    """True for "plain, not vanilla", a food named right after a word that says no, and for "like a custard"."""
    before = heard.tokens[max(0, food.start - 2) : food.start]
    denied = bool(before) and (
        before[-1] in wordlist("negating") or (before[-1] in ("the", "any") and before[0] == "not")
    )
    lead = " ".join(heard.tokens[max(0, food.start - 6) : food.start])
    follows = " ".join(heard.tokens[food.end : food.end + 4])
    return denied or bool(_NOT_PUT.search(lead) or _SAVED.match(follows)) or is_likened(heard, food)


_NOT_PUT = re.compile(
    r"\b(?:no need (?:to \w+|for)|(?:don't|do not|doesn't|never|won't|not gonna) (?:put|add|use|need))"
    r"(?: in)?(?: any| the| more| extra)*$"
)
"""Before a food that does not go in: "no need to put water in this"."""
_SAVED = re.compile(r"(?:(?:i'm|we're|i am) (?:saving|keeping)|(?:is|are) for (?:later|another|tomorrow))\b")
"""After a food that is for something else: "the beans i'm saving for a dip"."""


def is_kind_of(heard: Heard, clause: Clause, food: Mention) -> bool:
    """True for "tortillas are the little corn ones" and "juice from actual oranges": it tells of the food before."""
    earlier = [other for other in clause.labelled("food") if other.end <= food.start]
    if not earlier:
        return False
    counts = any(amount.start == food.end and amount.end > food.end + 1 for amount in clause.labelled("amount"))
    pointed = bool(set(heard.tokens[max(earlier[-1].end, food.start - 3) : food.start]) & _POINTING)
    described = pointed and not counts and heard.tokens[food.end : food.end + 1] in _KINDS
    before = heard.tokens[earlier[-1].end : food.start]
    return described or (before[:1] == ("from",) and len(before) <= 3 and "can" not in before)


def is_content(heard: Heard, clause: Clause, food: Mention) -> bool:
    """True for "it's got cardamom and fenugreek in it", which tells what something bought is made of."""
    words = " ".join(heard.tokens[clause.start : clause.end])
    before = " ".join(heard.tokens[clause.start : food.start])
    if clause.intent == "states" and _THAT_IS.match(words) and _after_a_mix(heard, clause):
        return True
    return clause.intent == "states" and _HOLDING.search(before) is not None and _IN_IT.search(words) is not None


def _after_a_mix(heard: Heard, clause: Clause) -> bool:
    """True right after a food that is a mixture: "mixed dried fruit. That's sultanas and raisins"."""
    before = [mention for one in heard.clauses if one.end <= clause.start for mention in one.labelled("food")]
    near = bool(before) and clause.start - before[-1].end <= _NEXT
    return near and bool(_MIXED & set(before[-1].text.lower().split()))


_NEXT = 12  # tokens from a mixture to what it is made of
_MIXED = frozenset({"mixed", "mix", "blend", "medley", "assorted", "trinity"})
_THAT_IS = re.compile(r"(?:so )?(?:that's|thats|it's|which is|that is)\b")
_HOLDING = re.compile(r"\b(?:it's got|it has|has got|they've got|they have|comes with)\b")

_IN_IT = re.compile(r"\bin (?:it|them|there)(?: (?:already|too|as well))?$")

_POINTING = frozenset({"the", "a", "an", "this", "that", "these", "those", "just"})

_KINDS = (("one",), ("ones",), ("kind",), ("type",))


def is_likened(heard: Heard, food: Mention) -> bool:
    """True for "like a custard", a food that only says how something looks."""
    start = max(clause.start for clause in heard.clauses if clause.start <= food.start)
    return _LIKENED.search(" ".join(heard.tokens[max(start, food.start - 5) : food.start])) is not None


_LIKENED = re.compile(r"(?:^|(?<!would)(?<!you)(?<!'d)(?<!they)(?<!we)(?<!\bi) )like an?(?: \w+)?$")
"""Before a food that only says how something looks: "thick like a loose porridge"; not "i like a carrot in it"."""


def is_destination(heard: Heard, clause: Clause, event: Event, events: Sequence[Event]) -> bool:
    """True for "the onion goes into that same oil" and "over the peaches": where something goes that is in already."""
    before = list(heard.tokens[max(clause.start, event.mention.start - 4) : event.mention.start])
    while before and before[-1] in wordlist("determiners") | {"same", "the", "hot", "melted"}:
        before.pop()
    into = bool(before) and before[-1] in _INTO
    others = any(food.start != event.mention.start for food in clause.labelled("food"))
    known = any(other.key == event.key and other.kind == "add" for other in events)
    return into and known and (others or "same" in heard.tokens[clause.start : event.mention.start])


def is_washing_water(heard: Heard, clause: Clause, event: Event) -> bool:
    """True for "drop them in boiling water" and "under cold water": water that no dish is made of."""
    food = event.name.food
    after = heard.tokens[event.mention.end : event.mention.end + 1]
    if food is not None and food.category in ("oil", "fat", "butter") and after in _RISING:
        return True  # "until the oil comes out the sides"
    if food is None or food.category != "water":
        return False
    before = heard.tokens[max(clause.start, event.mention.start - 3) : event.mention.start]
    salted = {"salt", "salted"} & set(heard.tokens[clause.start : clause.end])
    return not salted and (bool(set(before) & _BATH) or after in _GONE_WATER)


def is_taken_out(heard: Heard, clause: Clause, event: Event) -> bool:
    """True for "pour out the grease" and "fish the bay leaf out", which take a food away."""
    before = " ".join(heard.tokens[max(clause.start, event.mention.start - 5) : event.mention.start])
    around = f"{before} _ {' '.join(heard.tokens[event.mention.end : min(clause.end, event.mention.end + 1)])}"
    return _OUT.search(around) is not None


_OUT = re.compile(
    r"\b(?:pour|drain|tip|fish|take|lift|scoop|pick|strain|throw|dump|spoon|skim|pull)(?:s|ed|ing)?"
    r"(?: (?:out|off|away)(?: (?!in|into)\w+){0,3} _"
    r"| (?:the|that|this|those|these|my|your|it)(?: \w+){0,2} _ (?:out|off|away)\b)"
)

_BATH = frozenset({"in", "under", "into", "from", "through"})

_GONE_WATER = (("off",), ("out",), ("away",), ("already",), ("is",), ("run",), ("runs",), ("comes",), ("come",))

_RISING = (("comes",), ("come",), ("separates",), ("separate",), ("rises",), ("floats",), ("starts",), ("releases",))

_INTO = frozenset({"in", "into", "over", "on", "onto", "across", "around", "among"})
"""Words after which a food is where something goes."""


def is_portion(heard: Heard, food: Mention) -> bool:
    """True for "two sausages each", which tells how to share out what is cooked."""
    return bool(set(heard.tokens[food.end : food.end + 2]) & {"each", "apiece"})
