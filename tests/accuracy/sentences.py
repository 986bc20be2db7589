"""`python -m tests.accuracy.sentences [--misses] [--only NAME]`: how the steps' sentences read, over the open talks.

Each talk is heard as its annotator heard it, so that the figures are of the sentences alone: the share that begins
with an imperative verb of the actions table, with first or second person words, with an aside left over; and the
share of what each doing clause tells (amounts, times, heat, foods, vessels) that its step's text leaves out.
"""

import argparse
import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache

from stovescript.kitchen.actions import actions
from stovescript.kitchen.words import wordlist
from stovescript.recipe.method import step_groups, step_text
from stovescript.recipe.naming import names_in
from stovescript.recipe.passing import is_denied
from stovescript.recipe.sentences.pieces import quantity_text, tool_name
from stovescript.speech.heard import Clause, Heard, Mention
from stovescript.speech.words import singular
from tests.accuracy.corpus import TALKS, read_said
from tests.accuracy.oracle import heard_by_annotator

PERSONS = re.compile(r"\b(?:i|i'm|i've|i'll|i'd|me|my|mine|myself|we|we're|we've|us|our|you|you're|you'll|you've|your|"
                     r"yours|yourself|y'all|gonna|wanna)\b", re.IGNORECASE)  # fmt: skip
UNDER = ["until", "when", "once", "while", "if", "so", "where", "before", "after", "as"]
ASIDES = re.compile(
    "".join(f"(?<!{word} )" for word in UNDER)
    + r"\b(?:this is|these are|that's|here's|there's the|look at|you know|i mean|i guess|hang on|let me|by the way|"
    r"because|cos|it's a|it's the|they're the|come on|trust me|don't worry|believe me|okay|um|uh|oh|lovely|delicious|"
    r"beautiful)\b",
    re.IGNORECASE,
)
OPENING = re.compile(r"^(?:when|while|once|after|before|if|as|meanwhile|whilst|off|in|on|every)\b.*?, ", re.IGNORECASE)
TOLD = ("amount", "time", "temp", "level", "food", "vessel", "program", "cue")


@dataclass(slots=True)
class Figures:
    """Counts over many steps, and an example line for each fault."""

    sentences: int = 0
    steps: int = 0
    faults: Counter[str] = field(default_factory=Counter)
    told: Counter[str] = field(default_factory=Counter)
    lost: Counter[str] = field(default_factory=Counter)
    lines: list[str] = field(default_factory=list)


def sentences(text: str) -> list[str]:
    """The sentences of a step."""
    return [one for one in re.split(r"(?<=[.!?])\s+(?=[A-Z])", text) if one]


@cache
def imperatives() -> frozenset[str]:
    """The first words of the table's imperatives, and everyday verbs that a method may use as they are."""
    known = {action.imperative.split()[0].lower() for action in actions()}
    spoken = {form.split()[0] for action in actions() for form in action.forms[:1]}
    return frozenset(known | spoken | {verb.split()[0] for verb in wordlist("plain_verbs")} | {"don't"})


def is_imperative(sentence: str) -> bool:
    """True where a sentence's first word, after a clause of time, is a verb in its imperative."""
    words = re.findall(r"[\w'-]+", OPENING.sub("", sentence).lower())
    return bool(words) and words[0] in imperatives()


def lost_in(heard: Heard, clause: Clause, names: Mapping[int, str], text: str) -> Iterator[tuple[Mention, bool]]:
    """What a doing clause tells, each with whether the text leaves it out."""
    low = f" {text.lower()} "
    for mention in clause.mentions:
        if mention.label not in TOLD or (mention.label == "food" and is_denied(heard, mention)):
            continue
        if mention.label == "amount" and (_corrected(heard, clause, mention) or mention.quantity is None):
            continue
        yield mention, not _is_in(heard, mention, names, low)


def _corrected(heard: Heard, clause: Clause, amount: Mention) -> bool:
    later = [other for other in clause.labelled("amount") if other.start >= amount.end]
    return bool(later) and bool(set(heard.tokens[amount.end : later[0].start]) & wordlist("correcting"))


def _is_in(heard: Heard, mention: Mention, names: Mapping[int, str], low: str) -> bool:
    said = " ".join(heard.tokens[mention.start : mention.end])
    if mention.label == "food":
        last = names.get(mention.start, said).lower().split()[-1]
        return singular(last) in low or last in low
    if mention.label == "vessel":
        return singular(tool_name(said).split()[-1]) in low
    if mention.label in ("amount", "time", "temp") and mention.quantity:
        words = quantity_text(mention.quantity, said).lower()
        number = re.search(r"\d[\d/. ]*(?: to \d[\d/. ]*)?", words)
        whole = number[0].strip() if number else ""
        return (
            re.search(rf"(?<![\d/])(?<!\d )\b{re.escape(whole)}(?![/\d])", low) is not None
            if whole
            else words.split()[-1] in low
        )
    if mention.label == "program":
        return True
    words = [word for word in re.findall(r"[a-z']+", said) if len(word) > 3 and word not in wordlist("print_dropped")]
    return not words or sum(word[:4] in low for word in words) >= len(words) / 2


def measure(
    heard: Heard,
    figures: Figures,
    stem: str,
    write: Callable[[Heard, Sequence[int], Mapping[int, str]], str] = step_text,
) -> None:
    """Adds the figures of one talk."""
    names = {start: named.said for start, named in names_in(heard).items()}
    for number, group in enumerate(step_groups(heard), 1):
        text = write(heard, group, names)
        figures.steps += 1
        for sentence in sentences(text):
            figures.sentences += 1
            for fault, bad in (
                ("no imperative", not is_imperative(sentence)),
                ("person", PERSONS.search(sentence) is not None),
                ("aside", ASIDES.search(sentence) is not None),
            ):
                if bad:
                    figures.faults[fault] += 1
                    figures.lines.append(f"{stem} s{number} {fault}: {sentence}")
        for clause in (heard.clauses[n] for n in group):
            if clause.intent != "does":
                continue
            for mention, lost in lost_in(heard, clause, names, text):
                figures.told[mention.label] += 1
                if lost:
                    figures.lost[mention.label] += 1
                    said = heard.text(clause.start, clause.end)
                    figures.lines.append(
                        f"{stem} s{number} lost {mention.label} {mention.text!r}: {said}\n      > {text}"
                    )


def report(figures: Figures) -> str:
    """The figures as a table."""
    lines = [f"{figures.steps} steps, {figures.sentences} sentences"]
    share = max(1, figures.sentences)
    lines.append(f"begin with an imperative    {1 - figures.faults['no imperative'] / share:7.1%}")
    lines.append(f"first or second person      {figures.faults['person'] / share:7.1%}")
    lines.append(f"left-over asides            {figures.faults['aside'] / share:7.1%}")
    lines += [
        f"{label + ' left out':<28}{figures.lost[label] / max(1, figures.told[label]):7.1%}  of {figures.told[label]}"
        for label in TOLD
    ]
    return "\n".join(lines)


def open_talks(only: str = "") -> Iterator[tuple[str, Heard]]:
    """Every open talk by name, heard as its annotator heard it."""
    for path in sorted((TALKS / "open").glob("*.said")):
        if only in path.stem:
            yield path.stem, heard_by_annotator(read_said(path))


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(prog="python -m tests.accuracy.sentences", description=main.__doc__)
    parser.add_argument("--misses", action="store_true", help="print each fault with its sentence")
    parser.add_argument("--only", default="", help="part of a talk's name")
    options = parser.parse_args()
    figures = Figures()
    for stem, heard in open_talks(options.only):
        measure(heard, figures, stem)
    if options.misses:
        print("\n".join(figures.lines) + "\n")
    print(report(figures))


if __name__ == "__main__":
    main()
