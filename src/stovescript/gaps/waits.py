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
from stovescript.speech.heard import Clause, Heard

_AFTER = 3  # clauses of the same step in which the time or the sign is looked for
_REACH = 3  # words between "let" and what it is let do: "let that chicken rest"


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
    if set(heard.tokens[clause.start : clause.end]) & wordlist("off"):
        return None
    for mention in clause.labelled("action"):
        action = _exact(mention.text)
        told = action is not None and action.needs_time and action.kind not in WAITING
        if action and told and not _is_state(heard, clause, action, mention.start, mention.end):
            return action
    return _let(heard, clause) or next((a for t in heard.tokens[clause.start : clause.end] if (a := _plain(t))), None)


def _exact(text: str) -> Action | None:
    """The action of a verb as it is written in the table; a likeness in sound is too little to ask about."""
    return by_form().get(" ".join(word.strip(".,!?") for word in text.lower().split()))


def _plain(token: str) -> Action | None:
    """The verb that a word is in its base form, tagged or not ("marinate"): no participle ("frozen", "baking")."""
    action = by_form().get(token)
    return action if action and action.needs_time and not action.ambiguous and token == action.verb else None


def _is_state(heard: Heard, clause: Clause, action: Action, start: int, end: int) -> bool:
    """True for "fried plantain" and for "i soaked them last night": what is no instruction of this step."""
    past = heard.tokens[end - 1].endswith("ed") and heard.tokens[start] != action.verb.split()[0]
    before = heard.tokens[start - 1 : start] if start > clause.start else ()
    return past and (any(food.start == end for food in clause.labelled("food")) or bool(set(before) & {"i", "i've"}))


def _let(heard: Heard, clause: Clause) -> Action | None:
    """The waiting verb after a verb of leaving: "leave it to rest", "let that cool down", "let it go a while"."""
    leaving = wordlist("letting")
    for token in range(clause.start, clause.end):
        if heard.tokens[token] not in leaving:
            continue
        following = heard.tokens[token + 1 : min(clause.end, token + 2 + _REACH)]
        for word in following:
            action = by_form().get(word)
            if action and (action.kind in WAITING or action.needs_time) and action.verb != "leave":
                return action
        if phrases("a_while").search(" ".join(heard.tokens[token : clause.end])):
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
