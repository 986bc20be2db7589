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
    if not sentences:
        doing = [clause for number in group if (clause := heard.clauses[number]).intent == "does"]
        sentences = [
            " ".join(_lead(_words(heard, c.start, c.end, c, names))) or heard.text(c.start, c.end) for c in doing
        ]
    return " ".join(f"{sentence[:1].upper()}{sentence[1:]}." for sentence in map(_tidy, sentences) if sentence)


def _tidy(sentence: str) -> str:
    """The sentence without stuttered or dangling words."""
    sentence = re.sub(r"\bof the (?:of )?(?:the|my|that|those) ", "of the ", sentence)
    sentence = re.sub(r"\b(\w+ \w+) \1\b", r"\1", sentence)
    sentence = re.sub(r"\b(\d+) of (?=\w+s\b)", r"\1 ", sentence)
    words = sentence.split()
    while words and words[-1].lower() in wordlist("dangling"):
        words.pop()
    return " ".join(words)


def _joined(sentence: str, more: str) -> str:
    head, joint, last = sentence.rpartition(" and ")
    return f"{head}, {last} and {more}" if joint and " " not in head[-1:] else f"{sentence} and {more}"


def _sentence(heard: Heard, clause: Clause, names: Mapping[int, str]) -> str:
    """One clause as an imperative sentence; "" where it says nothing to do."""
    verbs = actions_of(clause)
    if not verbs:
        words = _words(heard, clause.start, _end(heard, clause, clause.start), clause, names)
        if clause.labelled("food"):
            return f"Add {' '.join(_lead(words))}"
        return " ".join(words) if clause.labelled("time") or clause.labelled("cue") else ""
    first, action = verbs[0]
    subject = _lead(_words(heard, clause.start, first.start, clause, names, skip_subjects=True))
    named_before = any(food.end <= first.start for food in clause.labelled("food"))
    tail = _rest(heard, clause, verbs, names)
    if action and action.verb.split()[0] == "go":
        return _placed(action, subject, tail, named_before)
    if named_before and subject:
        tail = [*subject, *(tail[1:] if tail[:1] and tail[0] in wordlist("pronoun") else tail)]
    verb = _imperative(first, action)
    if verb == "Add":
        tail = _without_in(tail)
    if verb.endswith(" to the pan"):
        return " ".join(["Return", *(tail or ["everything"]), "to the pan"])
    return " ".join([verb, *tail]).strip()


def _placed(action: Action, subject: list[str], tail: list[str], named: bool) -> str:
    """ "The strips go in the oven" is "Put the strips in the oven"; "the onion goes in" is "Add the onion"."""
    what = subject if named or subject else ["everything"]
    what = ["all", *what] if what[0] == "of" else what
    words = action.verb.split()
    way = next((word for word in words if word in ("in", "on", "into", "onto", "over")), "")
    if not way and len(tail) > 1 and tail[0] in ("in", "on", "into", "onto", "over") and tail[1] in _PLACES:
        return " ".join(["Put", *what, *tail])
    if way and tail and tail[0] in ("the", "a", "an", "my", "your", "that", "this"):
        return " ".join(["Put", *what, way, *tail])
    if action.imperative.endswith(" to the pan"):
        return " ".join(["Return", *what, "to the pan", *_without_in(tail)])
    return " ".join(["Add", *what, *_without_in(tail)])


def _without_in(words: list[str]) -> list[str]:
    """The words without an idle "in", "in there" or "there" at either end."""
    kept = list(words)
    while kept and kept[0] in ("in", "there", "now", "next", "too") and (len(kept) == 1 or kept[1] not in _PLACES):
        kept.pop(0)
    while kept and kept[-1] in ("in", "there", "too", "now", "with"):
        kept.pop()
    return kept


_PLACES = frozenset({"the", "a", "an", "my", "your"})


def _lead(words: Sequence[str]) -> list[str]:
    """The words without leading fillers."""
    kept = list(words)
    while kept and kept[0] in wordlist("fillers") | wordlist("subjects"):
        kept.pop(0)
    return kept


def _imperative(mention: Mention, action: Action | None) -> str:
    if action:
        return action.imperative
    return " ".join(mention.text.lower().split())


def _end(heard: Heard, clause: Clause, after: int) -> int:
    """Where the clause's useful words end: before a remark that holds no amount, time, cue or food."""
    for token in range(max(after, clause.start) + 3, clause.end):
        pair = " ".join(heard.tokens[token : token + 2])
        if heard.tokens[token] not in wordlist("remarks") and pair not in wordlist("remarks"):
            continue
        if not any(mention.end > token for mention in clause.mentions):
            return token
    return clause.end


def _rest(
    heard: Heard, clause: Clause, verbs: Sequence[tuple[Mention, Action | None]], names: Mapping[int, str]
) -> list[str]:
    """The words after the first verb; a later verb is put in its imperative, unless the first only carries it."""
    words: list[str] = []
    last = _end(heard, clause, verbs[-1][0].end)
    for (mention, action), following in zip(verbs, [*verbs[1:], None], strict=True):
        if following is None:
            words += _words(heard, mention.end, last, clause, names)
            break
        part = _words(heard, mention.end, following[0].start, clause, names)
        light = action is not None and action.verb.split()[0] in wordlist("light_verbs")
        if light and len(part) <= 4 and "and" not in part:
            words += [*part, following[0].text.lower()]
            continue
        while part and part[-1] in wordlist("subjects") | {"and", "then", "so", "or"}:
            part.pop()
        words += [*part, "and", _imperative(*following).lower()]
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
        elif mention.quantity and mention.label in ("amount", "time", "temp"):
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
