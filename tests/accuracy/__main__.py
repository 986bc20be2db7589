"""`python -m tests.accuracy [--oracle] [--misses] [--half open|kept-aside]`: the scorecard of both halves."""

import argparse
import sys
from collections.abc import Sequence

from stovescript.gaps import ask
from stovescript.recipe.assemble import assemble
from stovescript.recipe.draft import Draft
from stovescript.speech.listen import listen
from stovescript.talk import read_bytes
from tests.accuracy.corpus import TALKS, CorpusError, Said, captions, read_said
from tests.accuracy.oracle import heard_by_annotator
from tests.accuracy.scorecard import Card, Tally, score

FIELDS = (
    *("ingredients", "amounts", "components", "settings", "steps", "alternatives", "promises", "gaps", "title"),
    "yield",
)


def drafted(said: Said, oracle: bool = False) -> Draft:
    """The draft of an annotated talk, read back from its caption file (or heard as its annotator did)."""
    if oracle:
        heard = heard_by_annotator(said)
    else:
        suffix, text = captions(said)
        heard = listen(read_bytes(text.encode(), said.stem + suffix))
    return ask(assemble(heard), heard)


def cards(half: str, oracle: bool = False, only: str = "") -> list[Card]:
    """The cards of every talk of one half."""
    result = []
    for path in sorted((TALKS / half).glob("*.said")):
        if only not in path.stem:
            continue
        try:
            said = read_said(path)
        except CorpusError as error:
            print(error, file=sys.stderr)
            continue
        result.append(score(drafted(said, oracle), said))
    return result


def macro(half: Sequence[Card], name: str, what: str = "f1") -> float:
    """The mean over talks that have the field."""
    values = [getattr(card.fields[name], what) for card in half if name in card.fields]
    return sum(values) / len(values) if values else 1.0


def table(half: Sequence[Card]) -> str:
    """The figures of one half, macro-averaged over its talks; gaps by kind pooled."""
    lines = [f"{'field':<24}{'precision':>10}{'recall':>8}{'F1':>8}"]
    for name in FIELDS:
        p, r, f = (macro(half, name, what) for what in ("precision", "recall", "f1"))
        lines.append(f"{name:<24}{p:>10.3f}{r:>8.3f}{f:>8.3f}")
    parted = sum("components" in c.fields and not c.fields["components"].true for c in half)
    lines.append(f"{'falsely parted talks':<24}{parted:>10}")
    false = sum(c.fields["ingredients"].drafted - c.fields["ingredients"].right for c in half) / max(1, len(half))
    lines.append(f"{'false ingredients a talk':<24}{false:>10.2f}")
    for kind in sorted({name for card in half for name in card.fields if name.startswith("gap ")}):
        pooled = Tally()
        for card in half:
            if kind in card.fields:
                pooled.right += card.fields[kind].right
                pooled.drafted += card.fields[kind].drafted
                pooled.true += card.fields[kind].true
        lines.append(f"{kind:<24}{pooled.precision:>10.3f}{pooled.recall:>8.3f}{pooled.f1:>8.3f}{pooled.true:>6.0f}")
    return "\n".join(lines)


def main() -> None:
    """Print the scorecard."""
    parser = argparse.ArgumentParser(prog="python -m tests.accuracy", description=main.__doc__)
    parser.add_argument("--oracle", action="store_true", help="gold clauses and spans instead of the model's")
    parser.add_argument("--misses", action="store_true", help="say what is wrong, open half only")
    parser.add_argument("--half", choices=["open", "kept-aside"])
    parser.add_argument("--only", default="", help="part of a talk's name")
    options = parser.parse_args()
    for half in [options.half] if options.half else ["open", "kept-aside"]:
        found = cards(half, options.oracle, options.only)
        print(f"{half}: {len(found)} talks")
        if options.misses and half == "open":
            for card in found:
                scored = [name for name in FIELDS if name in card.fields]
                print(f"\n== {card.stem}  " + " ".join(f"{name} {card.fields[name].f1:.2f}" for name in scored))
                print("\n".join(f"   {miss}" for miss in card.misses))
        print(table(found) + "\n")


if __name__ == "__main__":
    main()
