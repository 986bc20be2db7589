"""The method: groups of doing clauses become numbered steps in plain imperative sentences."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from stovescript.kitchen.words import wordlist
from stovescript.recipe.sentences import Sentence, sentences_of
from stovescript.recipe.verbs import PREPARING, actions_of
from stovescript.speech.heard import Clause, Heard
from stovescript.speech.words import singular

_CLAUSE_GAP = 45.0  # seconds without doing after which a new step starts


def step_groups(heard: Heard) -> list[list[int]]:
    """Clause numbers step by step; statements and tips between doing clauses ride along with the step."""
    groups: list[list[int]] = []
    heated: list[int] = []  # "the oven's on already, two hundred", told before anything is done
    last_doing = -1e9
    for number, clause in enumerate(heard.clauses):
        start = heard.talk.words[clause.start].start
        if clause.intent == "does":
            if not groups or clause.new_step or start - last_doing > _CLAUSE_GAP:
                groups.append(heated)
                heated = []
            groups[-1].append(number)
            last_doing = heard.talk.words[clause.end - 1].end
        elif groups and clause.intent in ("states", "tip"):
            groups[-1].append(number)
        elif clause.intent == "states" and clause.labelled("temp") and clause.labelled("appliance"):
            heated.append(number)
    return groups


def step_text(heard: Heard, group: Sequence[int], names: Mapping[int, str]) -> str:
    """The sentences of one step. `names` gives the food's name by the first token of its mention."""
    sentences: list[Sentence] = []
    opening = ""
    for number in group:
        clause = _whole(heard, number)
        if clause.intent != "does" or clause.start >= clause.end:
            continue
        for sentence in sentences_of(heard, clause, names, _handled(heard, number, names)):
            if sentence.follows and _opens(clause, sentence.text):
                opening = sentence.text
            elif opening and not sentence.follows:
                _append(sentences, Sentence(f"{opening}, {sentence.text[:1].lower()}{sentence.text[1:]}"))
                opening = ""
            elif sentence.text and sentence.text.lower() not in _NEEDING_WHAT:
                _append(sentences, sentence)
    if opening:
        _append(sentences, Sentence(opening, follows=True))
    if not sentences:
        doing = [clause for number in group if (clause := heard.clauses[number]).intent == "does"]
        sentences = [Sentence(heard.text(clause.start, clause.end).strip(" .,;")) for clause in doing]
    return " ".join(f"{sentence.text[:1].upper()}{sentence.text[1:]}." for sentence in sentences)


_NEEDING_WHAT = frozenset(
    {"add", "put", "pour", "place", "set", "make", "get", "take", "give", "throw", "fall", "use"}
)
"""Verbs that tell nothing where what they are done with was not heard."""


def _opens(clause: Clause, text: str) -> bool:
    """True for a clause of time that begins a spoken sentence: it goes before what is told next."""
    return clause.new_sentence and text.split()[0].lower() in ("when", "once", "while", "if", "as")


def _append(sentences: list[Sentence], sentence: Sentence) -> None:
    """Adds a sentence to those before it, in one with the last where it leans on it or adds as it does."""
    last = sentences[-1] if sentences else None
    if sentence.corrects and last:
        sentences[-1] = _corrected(last, sentence.text)
    elif sentence.follows and last:
        more = sentence.text[:1].lower() + sentence.text[1:]
        sentences[-1] = Sentence(f"{last.text} {more}" if more not in last.text else last.text)
    elif sentence.follows:
        sentences.append(Sentence(_begun(sentence.text)))
    elif sentence.adds and last and last.adds and len(last.text) < _LONGEST:
        sentences[-1] = _both(last, sentence)
    else:
        sentences.append(sentence)


def _whole(heard: Heard, number: int) -> Clause:
    """A clause with the word that opens it, where that was heard as a clause of its own, or as the end of one."""
    clause = heard.clauses[number]
    before = heard.clauses[number - 1] if number else None
    if before and before.intent == "does" and before.end == clause.start and _ends_open(heard, before):
        clause = replace(clause, start=clause.start - 1)
    return replace(clause, end=clause.end - 1) if _ends_open(heard, heard.clauses[number]) else clause


def _ends_open(heard: Heard, clause: Clause) -> bool:
    """True for a clause that ends with the word that opens the next: "after", alone, or "... until"."""
    last = heard.tokens[clause.end - 1]
    return last in wordlist("goes_before") if clause.end - clause.start == 1 else last in ("until", "till", "when")


_NUMBER = r"\d+(?: \d/\d+|/\d+)?(?: to \d+(?: \d/\d+|/\d+)?)?"


def _corrected(sentence: Sentence, amount: str) -> Sentence:
    """A sentence with its last amount of the same unit corrected; the amount in brackets where there is none."""
    unit = singular(amount.split()[-1])
    found = list(re.finditer(rf"(?:about )?{_NUMBER} {re.escape(unit)}(?:e?s)?\b", sentence.text))
    if amount in sentence.text:
        return sentence
    if not found:
        return Sentence(f"{sentence.text} ({amount})")
    text = f"{sentence.text[: found[-1].start()]}{amount}{sentence.text[found[-1].end() :]}"
    return Sentence(text, adds=text.removeprefix("Add ") if sentence.adds else "")


_LONGEST = 160  # letters of one sentence of additions


def _begun(text: str) -> str:
    """A time or sign with which a step begins, as a sentence: what goes on is the cooking."""
    return f"Cook {text[:1].lower()}{text[1:]}"


def _both(one: Sentence, other: Sentence) -> Sentence:
    """Two additions in one sentence: "Add the oats, the milk and 1 pinch of salt"."""
    items = [*one.adds.split(_AND), other.adds]
    joint = ", and " if any(" and " in item for item in items) else " and "
    return Sentence(f"Add {', '.join(items[:-1])}{joint}{items[-1]}", adds=_AND.join(items))


_AND = "\x1f"


def _handled(heard: Heard, number: int, names: Mapping[int, str]) -> str:
    """The one food that the statement right before a clause measures, which its "it" must mean; "" where unsure."""
    clause = heard.clauses[number]
    if not number or clause.labelled("food"):
        return ""
    before: Clause = heard.clauses[number - 1]
    foods = {names.get(food.start, "") for food in before.labelled("food")}
    prepares = any(action and action.kind in PREPARING for _, action in actions_of(clause)[:1])
    sure = before.intent == "states" and len(foods) == 1 and before.labelled("amount") and prepares
    return next(iter(foods)) if sure else ""


def until_of(heard: Heard, group: Sequence[int]) -> str | None:
    """The doneness cue of a step, in her words; None where she gives none."""
    cues = [m for n in group for m in heard.clauses[n].labelled("cue") if heard.clauses[n].intent == "does"]
    texts = [re.sub(r"^(?:'?till?)\b", "until", heard.text(cue.start, cue.end).lower()) for cue in cues]
    return "; ".join(dict.fromkeys(texts)) or None
