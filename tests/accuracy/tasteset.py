"""`python -m tests.accuracy.tasteset`: foods, quantities and units of written ingredient lists by others.

TASTEset (arXiv 2204.07775, MIT licence) is text of another kind than talks: nothing here was trained or tuned on it.
An entity counts if its first and its last letter are those of the annotators; beside that, if the two touch.
The paper's own taggers, trained on these lists, reach a mean F1 of 0.95 at best (0.78 to 0.98 by type).
"""

import csv
import json
import re
import sys
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

from stovescript.kitchen.units import by_spoken
from stovescript.measure import find_quantities, number_at
from stovescript.speech import model
from stovescript.speech.food_spans import food_spans
from stovescript.speech.listen import spans_of
from stovescript.speech.words import plain
from tests.accuracy.scorecard import Tally

LISTS = Path(__file__).parents[3] / "shared" / "data" / "tasteset" / "TASTEset.csv"
TYPES = ("FOOD", "QUANTITY", "UNIT")
_WORD = re.compile(r"[^\s,;()]+")

Entity = tuple[str, int, int]  # type, first letter, letter after the last


def found_in(text: str) -> list[Entity]:
    """The foods, numbers and units of one list, by their letters."""
    places = [(word.start(), word.end()) for word in _WORD.finditer(text)]
    words = [text[start:end] for start, end in places]
    lines = [text.count("\n", 0, start) for start, _ in places]
    tags = model.read(words).tag
    tokens = [plain(word) for word in words]
    foods = [span for span in food_spans(spans_of(tags), tokens, tags) if span[0] == "food"]
    foods = [(label, a, b) for label, a, b in foods if lines[a] == lines[b - 1]]
    entities: list[Entity] = [("FOOD", places[a][0], places[b - 1][1]) for _, a, b in foods]
    first = 0
    for line in sorted(set(lines)):
        end = first + lines.count(line)
        for quantity in find_quantities(words[first:end]):
            numbers = list(range(first + quantity.start, first + quantity.end))
            entities += _runs("QUANTITY", [n for n in numbers if _is_number(tokens, n)], places)
            entities += _runs("UNIT", [n for n in numbers if tokens[n] in by_spoken()], places)
        first = end
    return entities


def _is_number(tokens: list[str], place: int) -> bool:
    return number_at(tokens, place) is not None or tokens[place][:1].isdigit()


def _runs(kind: str, numbers: list[int], places: list[tuple[int, int]]) -> Iterator[Entity]:
    """Words side by side as one entity each."""
    run: list[int] = []
    for number in numbers:
        if run and number != run[-1] + 1:
            yield kind, places[run[0]][0], places[run[-1]][1]
            run = []
        run.append(number)
    if run:
        yield kind, places[run[0]][0], places[run[-1]][1]


def main() -> None:
    """Print the figures."""
    if not LISTS.exists():
        sys.exit("skipped: outside data not present")
    exact: dict[str, Tally] = defaultdict(Tally)
    touching: dict[str, Tally] = defaultdict(Tally)
    with LISTS.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        spans = json.loads(row["ingredients_entities"])
        true = {(s["type"], s["start"], s["end"]) for s in spans if s["type"] in TYPES}
        drafted = set(found_in(row["ingredients"]))
        for kind in TYPES:
            wanted = {one for one in true if one[0] == kind}
            mine = {one for one in drafted if one[0] == kind}
            for tally, right in (
                (exact[kind], len(wanted & mine)),
                (touching[kind], sum(any(a < d and c < b for _, c, d in mine) for _, a, b in wanted)),
            ):
                tally.right += right
                tally.drafted += len(mine)
                tally.true += len(wanted)
    print(f"{len(rows)} lists{'precision':>20}{'recall':>8}{'F1':>8}{'F1, touching':>14}")
    for kind in TYPES:
        one = exact[kind]
        print(f"{kind:<12}{one.precision:>17.3f}{one.recall:>8.3f}{one.f1:>8.3f}{touching[kind].f1:>14.3f}")
    print("the paper's best tagger, trained on these lists: mean F1 0.95")


if __name__ == "__main__":
    main()
