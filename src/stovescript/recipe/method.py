"""The method: groups of doing clauses become numbered steps in plain imperative sentences."""

import re
from collections.abc import Mapping, Sequence

from stovescript.kitchen.actions import Action
from stovescript.kitchen.words import wordlist
from stovescript.measure import to_text
from stovescript.recipe.events import actions_of
from stovescript.speech.heard import Clause, Heard, Mention

_CLAUSE_GAP = 45.0  # seconds without doing after which a new step starts


def step_groups(heard: Heard) -> list[list[int]]:
    """Clause numbers step by step; statements and tips between doing clauses ride along with the step."""
    groups: list[list[int]] = []
    last_doing = -1e9
    for number, clause in enumerate(heard.clauses):
        start = heard.talk.words[clause.start].start
        if clause.intent == "does":
            if not groups or clause.new_step or start - last_doing > _CLAUSE_GAP:
                groups.append([])
            groups[-1].append(number)
            last_doing = heard.talk.words[clause.end - 1].end
        elif groups and clause.intent in ("states", "tip"):
            groups[-1].append(number)
    return groups


def step_text(heard: Heard, group: Sequence[int], names: Mapping[int, str]) -> str:
    """The sentences of one step. `names` gives the food's name by the first token of its mention."""
    sentences: list[str] = []
    for number in group:
        clause = heard.clauses[number]
        if clause.intent != "does":
            continue
        sentence = _sentence(heard, clause, names)
        if not sentence:
            continue
        if sentences and sentence.startswith("Add ") and sentences[-1].startswith("Add ") and len(sentences[-1]) < 160:
            sentences[-1] = _joined(sentences[-1], sentence.removeprefix("Add "))
        else:
            sentences.append(sentence)
    return " ".join(f"{sentence[:1].upper()}{sentence[1:]}." for sentence in sentences)


def _joined(sentence: str, more: str) -> str:
    head, joint, last = sentence.rpartition(" and ")
    return f"{head}, {last} and {more}" if joint and " " not in head[-1:] else f"{sentence} and {more}"


def _sentence(heard: Heard, clause: Clause, names: Mapping[int, str]) -> str:
    verbs = actions_of(clause)
    if not verbs:
        words = _words(heard, clause.start, clause.end, clause, names)
        foods = clause.labelled("food")
        if foods:
            return f"Add {_lead(words)}"
        return " ".join(words) if clause.labelled("time") or clause.labelled("cue") else ""
    first, action = verbs[0]
    before = _words(heard, clause.start, first.start, clause, names, skip_subjects=True)
    foods_before = [food for food in clause.labelled("food") if food.end <= first.start]
    tail = _rest(heard, clause, verbs, names)
    verb = _imperative(first, action)
    if foods_before or (before and action and action.adds and not tail[:1]):
        return " ".join([verb, _lead(before), *tail]).strip()
    return " ".join([verb, *tail]).strip()


def _lead(words: Sequence[str]) -> str:
    """The words without leading fillers, joined."""
    kept = list(words)
    while kept and kept[0] in wordlist("fillers") | wordlist("subjects"):
        kept.pop(0)
    return " ".join(kept)


def _imperative(mention: Mention, action: Action | None) -> str:
    if action:
        return action.imperative
    return " ".join(mention.text.lower().split())


def _rest(
    heard: Heard, clause: Clause, verbs: Sequence[tuple[Mention, Action | None]], names: Mapping[int, str]
) -> list[str]:
    """The words after the first verb; a later verb is put in its imperative."""
    words: list[str] = []
    for (mention, _), following in zip(verbs, [*verbs[1:], None], strict=True):
        end = following[0].start if following else clause.end
        part = _words(heard, mention.end, end, clause, names)
        if following:
            while part and part[-1] in wordlist("subjects") | {"and", "then", "so", "or"}:
                part.pop()
            action = following[1]
            words += [*part, "and", _imperative(following[0], action).lower()]
        else:
            words += part
    return words


def _words(
    heard: Heard,
    start: int,
    end: int,
    clause: Clause,
    names: Mapping[int, str],
    skip_subjects: bool = False,
) -> list[str]:
    """The words [start, end) cleaned for print: amounts in figures, foods by name, no fillers."""
    fillers = wordlist("fillers") - {"and", "then"}
    replaced: dict[int, tuple[int, str]] = {}
    for mention in clause.mentions:
        if mention.label == "food" and mention.start in names:
            replaced[mention.start] = (mention.end, names[mention.start])
        elif mention.quantity and mention.label in ("amount", "time", "temp", "size"):
            replaced[mention.quantity.start] = (mention.quantity.end, to_text(mention.quantity))
    words: list[str] = []
    token = start
    while token < end:
        if token in replaced:
            stop, text = replaced[token]
            words.append(text)
            token = max(stop, token + 1)
            continue
        word = heard.tokens[token]
        if word and word not in fillers and not (skip_subjects and word in wordlist("subjects")):
            words.append({"em": "them", "'em": "them", "till": "until"}.get(word, word))
        token += 1
    return [w for a, w in zip(["", *words], words, strict=False) if a != w or not w.isalpha()]


def until_of(heard: Heard, group: Sequence[int]) -> str | None:
    """The doneness cue of a step, in her words; None where she gives none."""
    cues = [m for n in group for m in heard.clauses[n].labelled("cue") if heard.clauses[n].intent == "does"]
    texts = [re.sub(r"^(?:'?till?)\b", "until", heard.text(cue.start, cue.end).lower()) for cue in cues]
    return "; ".join(dict.fromkeys(texts)) or None
