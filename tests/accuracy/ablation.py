"""`python -m tests.accuracy.ablation [--held-out FILE ...]`: is a clause's intent better told by rows, model, or both?

Clauses are cut as their annotators cut them, so that only the intent is measured. The rows of the trigger table vote
with all that stand in a clause, the model with the mean of its words; both together are the model's votes plus the
rows' times a weight, which is chosen on the open half.
"""

import argparse
import pickle
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from stovescript.kitchen import triggers
from stovescript.kitchen.actions import by_form as actions_by_form
from stovescript.kitchen.foods import ambiguous_food_forms, food_forms
from stovescript.speech import model
from stovescript.speech.labels import INTENTS
from stovescript.speech.words import plain
from tests.accuracy.corpus import TALKS, CorpusError, read_said

Shares = NDArray[np.float64]

SAYS = {
    "alternative": "alternative",
    "announce": "announce",
    "chat": "chat",
    "not_used": "not-done",
    "optional": "alternative",
    "other_dish": "chat",
    "promise": "promise",
    "recap": "announce",
    "taste": "chat",
    "tip": "tip",
    "yield": "states",
}
"""The intent that a row's category speaks for; the other categories speak for none."""
WEIGHTS = (0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1.0)
_LONGEST_FORM = 3  # words


@dataclass(frozen=True)
class Told:
    """One clause: its gold intent, the model's votes, the rows' votes (all 0 where no row says any), its words."""

    intent: str
    by_model: Shares
    by_rows: Shares
    tokens: tuple[str, ...]


def clauses(half: str, held_out: Mapping[str, model.Scores]) -> Iterator[Told]:
    """The clauses of one half; with `held_out` only those of talks that it has a reading of."""
    for path in sorted((TALKS / half).glob("*.said")):
        try:
            said = read_said(path)
        except CorpusError as error:
            print(error, file=sys.stderr)
            continue
        votes = held_out.get(path.stem) if held_out else model.read(list(said.words)).intent
        if votes is None or len(votes) != len(said.words):
            continue
        for clause in said.clauses:
            tokens = tuple(plain(word) for word in said.words[clause.start : clause.end])
            yield Told(clause.intent, votes[clause.start : clause.end].mean(axis=0), row_votes(tokens), tokens)


def row_votes(tokens: Sequence[str]) -> Shares:
    """The share of each intent among the trigger rows in a clause."""
    votes = np.zeros(len(INTENTS))
    for match in triggers.matches(tokens):
        if intent := SAYS.get(match.trigger.category):
            votes[INTENTS.index(intent)] += 1
    return votes / max(1.0, votes.sum())


def without_rows(tokens: Sequence[str]) -> str:
    """What a clause is where no row says anything: a verb of the table does, a food states, the rest is chat."""
    forms = {
        " ".join(tokens[start : start + size])
        for size in range(1, _LONGEST_FORM + 1)
        for start in range(len(tokens) - size + 1)
    }
    if forms & set(actions_by_form()):
        return "does"
    return "states" if forms & (set(food_forms()) - ambiguous_food_forms()) else "chat"


def by_rows(told: Told) -> str:
    """The intent by rules alone."""
    return INTENTS[int(told.by_rows.argmax())] if told.by_rows.any() else without_rows(told.tokens)


def by_both(told: Told, weight: float) -> str:
    """The intent by the model's votes and the rows' times the weight; by the model alone where it is 0."""
    return INTENTS[int((told.by_model + weight * told.by_rows).argmax())]


def accuracy(half: Sequence[Told], guesses: Sequence[str]) -> float:
    """The share of clauses whose intent is right."""
    return sum(told.intent == guess for told, guess in zip(half, guesses, strict=True)) / len(half)


def main() -> None:
    """Print the share of clauses with the right intent, by rows, by model and by both."""
    parser = argparse.ArgumentParser(prog="python -m tests.accuracy.ablation", description=main.__doc__)
    parser.add_argument(
        "--held-out",
        type=Path,
        nargs="+",
        default=[],
        metavar="FILE",
        help="pickles of your own, {talk: [boundary, step, intent, tag]}, by models that did not train on the talk; "
        "without them the shipped model reads the open half, on which it was trained",
    )
    options = parser.parse_args()
    held_out = {
        stem: reading[2] for file in options.held_out for stem, reading in pickle.loads(file.read_bytes()).items()
    }
    opened, kept = list(clauses("open", held_out)), list(clauses("kept-aside", {}))
    found = {weight: accuracy(opened, [by_both(told, weight) for told in opened]) for weight in WEIGHTS}
    best = max(found, key=lambda weight: found[weight])
    seen = "read by models that did not train on them" if held_out else "TRAINED ON, says little"
    print(f"open half: {len(opened)} clauses, {seen}; kept aside: {len(kept)} clauses")
    print(f"{'':<28}{'open':>8}{'kept aside':>12}")
    for name, weight in (("model", 0.0), (f"both, rows weigh {best:g}", best)):
        one, two = (accuracy(half, [by_both(told, weight) for told in half]) for half in (opened, kept))
        print(f"{name:<28}{one:>8.4f}{two:>12.4f}")
    one, two = (accuracy(half, list(map(by_rows, half))) for half in (opened, kept))
    print(f"{'rows':<28}{one:>8.4f}{two:>12.4f}")
    print("open by weight: " + ", ".join(f"{weight:g} {found[weight]:.4f}" for weight in WEIGHTS))


if __name__ == "__main__":
    main()
