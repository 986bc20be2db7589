"""What the post says first: the dish's name, its yield, and her own words about it."""

import re

from stovescript.kitchen.words import wordlist
from stovescript.recipe.draft import Amount
from stovescript.speech.heard import Clause, Heard
from stovescript.speech.words import singular

_OPENING = 0.35  # the share of a talk in which the dish is named
_LONGEST_TITLE = 9  # words


def title_of(heard: Heard) -> str | None:
    """The dish as she names it ("today we're making chickpea flatbreads"); None where she never does."""
    last = max(12, int(len(heard.clauses) * _OPENING))
    candidates = [c for c in heard.clauses[:last] if c.intent in ("announce", "chat", "states")]
    for only in ("opener", "food"):
        for clause in candidates:
            named = _after_opener(heard, clause) if only == "opener" else _leading_food(heard, clause)
            if named:
                return named
    closing = [c for c in heard.clauses[-max(8, len(heard.clauses) // 6) :] if c.intent in ("announce", "chat")]
    return next((named for clause in closing if (named := _after_opener(heard, clause))), None)


def _after_opener(heard: Heard, clause: Clause) -> str | None:
    tokens = heard.tokens[clause.start : clause.end]
    text = " ".join(tokens)
    openers = "|".join(sorted(map(re.escape, wordlist("title_openers")), key=len, reverse=True))
    found = None
    for found in re.finditer(rf"\b(?:{openers})\b", text):  # noqa: B007  the last opener counts
        pass
    if not found:
        return None
    start = clause.start + len(text[: found.end()].split())
    if clause.intent != "announce" and not any(food.start >= start for food in clause.labelled("food")):
        return None
    return _trimmed(heard, start, clause.end)


def _leading_food(heard: Heard, clause: Clause) -> str | None:
    foods = clause.labelled("food")
    if clause.intent != "announce" or not foods or foods[0].start - clause.start > 3:
        return None
    return _trimmed(heard, foods[0].start, clause.end)


def _trimmed(heard: Heard, start: int, end: int) -> str | None:
    drop = wordlist("title_edges")
    tokens = list(heard.tokens[start:end])
    for number, token in enumerate(tokens):
        if number and token in wordlist("title_stops"):
            tokens = tokens[:number]
            break
    while tokens and tokens[0] in drop:
        tokens.pop(0)
    while tokens and tokens[-1] in drop:
        tokens.pop()
    return " ".join(tokens[:_LONGEST_TITLE]) or None


def servings_of(heard: Heard) -> tuple[Amount, int] | None:
    """How many the dish serves or makes, and the clause that says it."""
    triggers = "|".join(sorted(map(re.escape, wordlist("yield")), key=len, reverse=True))
    pattern = re.compile(rf"\b(?:{triggers})\b")
    for number, clause in enumerate(heard.clauses):
        if clause.intent not in ("states", "chat", "announce", "does", "tip"):
            continue
        text = " ".join(heard.tokens[clause.start : clause.end])
        if not (found := pattern.search(text)):
            continue
        start = clause.start + len(text[: found.end()].split())
        for quantity in heard.quantities:
            if start <= quantity.start < min(start + 6, clause.end) and quantity.kind in ("count", "number"):
                return Amount(
                    low=quantity.low,
                    high=quantity.high,
                    unit=_counted(heard, quantity.end, clause.end),
                    approximate=quantity.approximate or "about" in heard.tokens[start : quantity.start],
                    said=heard.text(clause.start, clause.end),
                ), number
    return None


def _counted(heard: Heard, start: int, end: int) -> str:
    """What is counted: servings unless a thing is named ("twelve little cookies")."""
    for token in heard.tokens[start : min(end, start + 4)]:
        if token in wordlist("eaters"):
            return "serving"
        if token in wordlist("title_edges") | wordlist("title_stops") or not token.isalpha():
            break
        if token.endswith("s") and len(token) > 3:
            return singular(token)
    return "serving"


def summary_of(heard: Heard) -> str | None:
    """A headnote line in her words: the first clause that praises or explains the dish; None where none does."""
    praise = wordlist("praise")
    for clause in heard.clauses[: max(12, int(len(heard.clauses) * _OPENING))]:
        words = heard.tokens[clause.start : clause.end]
        if clause.intent in ("chat", "announce", "states") and set(words) & praise and len(words) >= 6:
            return heard.text(clause.start, clause.end)
    return None
