"""Questions about how long: a step that cooks or waits with neither a time nor a sign that it is done."""

from collections.abc import Iterator
from functools import cache

from stovescript.gaps.registry import Question, check
from stovescript.kitchen.actions import Action, by_form
from stovescript.kitchen.cues import cues
from stovescript.kitchen.words import phrases, wordlist
from stovescript.recipe.draft import Draft
from stovescript.recipe.evidence import clause_heard
from stovescript.recipe.settings import WAITING
from stovescript.speech.heard import Clause, Heard, Mention

_AFTER = 3  # clauses of the same step in which the time or the sign is looked for
_REACH = 3  # words between "let" and what it is let do: "let that chicken rest"

_SUBJECTS = frozenset({"this", "that", "these", "those", "them", "all"})  # "let that rest", "let them all cool"


@check
def no_time(draft: Draft, heard: Heard) -> Iterator[Question]:
    """A cooking or waiting step without a time or a sign of doneness; asked once for each step."""
    for step in draft.steps:
        for number, clause in enumerate(heard.clauses):
            at = heard.talk.words[clause.start].start
            if clause.intent != "does" or not step.start - 0.01 <= at <= step.end:
                continue
            needing = _waits(heard, clause)
            if needing is None or any(_tells_when(heard, c) for c in _around(heard, number)):
                continue
            evidence = clause_heard(heard, number)
            question = f"“{evidence.text}”: for how long, or what does it look like when it is done?"
            yield Question("no_time", "must", needing.imperative.lower(), question, [evidence], step=step.id)
            break


def _waits(heard: Heard, clause: Clause) -> Action | None:
    """The verb of a clause that takes time: it is told to do ("simmer it") or let happen ("let it cool")."""
    off = bool(set(heard.tokens[clause.start : clause.end]) & wordlist("off"))
    programs = {token for mention in clause.labelled("program") for token in range(mention.start, mention.end)}
    for mention in clause.labelled("action"):
        action = _exact(mention.text)
        if action is None or not action.needs_time or action.kind in WAITING or (off and mention.start in programs):
            continue
        if not _is_past(heard.tokens[mention.start], action) and not _is_hot_water(heard, action, mention):
            return action
    return _let(heard, clause) or _untagged(heard, clause)


def _exact(text: str) -> Action | None:
    """The action of a verb as it is written in the table; a likeness in sound is too little to ask about."""
    return by_form().get(" ".join(word.strip(".,!?") for word in text.lower().split()))


def _is_past(word: str, action: Action) -> bool:
    """True for "fried plantain", "tea brewed strong", "i soaked them last night": nothing to do in this step."""
    return word.endswith("ed") and word != action.verb.split()[0]


def _is_hot_water(heard: Heard, action: Action, verb: Mention) -> bool:
    """True for "boil the water" and "the water boils", which is over when it boils."""
    return action.verb == "boil" and "water" in heard.tokens[max(0, verb.start - 2) : verb.end + 3]


def _untagged(heard: Heard, clause: Clause) -> Action | None:
    """A waiting verb that was not tagged, where an order is given: "and soak them", but no "a marinate"."""
    for token in range(clause.start, clause.end):
        action = by_form().get(word := heard.tokens[token])
        ordered = token == clause.start or heard.tokens[token - 1] in wordlist("ordering")
        if ordered and action and action.needs_time and not action.ambiguous and word == action.verb:
            return action
    return None


def _let(heard: Heard, clause: Clause) -> Action | None:
    """The waiting verb after a verb of leaving: "leave it to rest", "let that cool down", "let it go a while"."""
    for token in range(clause.start, clause.end):
        if heard.tokens[token] not in wordlist("letting"):
            continue
        for place in range(token + 1, min(clause.end, token + 2 + _REACH)):
            action = by_form().get(word := heard.tokens[place])
            told = (
                action is not None
                and word == action.verb
                and not wordlist("determiners") & {heard.tokens[place - 1]} - _SUBJECTS
            )
            if action and told and (action.kind in WAITING or action.needs_time) and word != "leave":
                return action
        text = " ".join(heard.tokens[token : clause.end])
        if (found := phrases("a_while").search(text)) and not text[found.end() :].startswith(" of "):
            return by_form()["leave"]
    return None


def _around(heard: Heard, number: int) -> list[Clause]:
    """The clause, the one before it in the same sentence, and those after it in the same step."""
    clause = heard.clauses[number]
    found = [clause, *([] if clause.new_sentence or not number else [heard.clauses[number - 1]])]
    for following in heard.clauses[number + 1 : number + 1 + _AFTER]:
        if following.new_step or (following.intent == "does" and following.labelled("food")):
            break
        if following.intent not in ("alternative", "not-done"):
            found.append(following)
    return found


def _tells_when(heard: Heard, clause: Clause) -> bool:
    words = heard.tokens[clause.start : clause.end]
    told = clause.labelled("time") or clause.labelled("cue")
    return bool(told) or bool(set(words) & _openers()) or phrases("fully").search(" ".join(words)) is not None


@cache
def _openers() -> frozenset[str]:
    """The words that open a sign of doneness: "until", "till"."""
    return frozenset(cue.phrase for cue in cues() if cue.role == "opener" and cue.sense == "until")
