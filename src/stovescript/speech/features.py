"""What the tables and the amount grammar know of each word, as the speech model's second input."""

from collections.abc import Mapping, Sequence
from functools import cache

from stovescript.kitchen import actions, appliances, foods, preparations, triggers, vessels
from stovescript.measure import find_quantities
from stovescript.speech.words import plain

FEATURES = (
    "food", "food on", "everyday food", "action", "action on", "vessel", "appliance", "setting", "state",
    "amount", "amount on", "count", "number", "temperature", "duration", "dimension", "fraction",
    "after stop", "after comma", "capital",
    "says alternative", "says not_used", "says other_dish", "says chat", "says announce", "says recap", "says taste",
    "says promise", "says optional", "says tip", "says yield",
)  # fmt: skip
_LONGEST = 4  # words


def features(words: Sequence[str]) -> list[list[int]]:
    """For each word (as captioned, with case and punctuation) the numbers of the features that it has."""
    tokens = [plain(word) for word in words]
    found: list[list[int]] = [[] for _ in words]
    _match(tokens, _forms(), found)
    for quantity in find_quantities(list(words)):
        kind = "amount" if quantity.kind == "package" else quantity.kind
        for place in range(quantity.start, quantity.end):
            name = "amount on" if kind == "amount" and place > quantity.start else kind
            found[place].append(FEATURES.index(name))
    for match in triggers.matches(tokens):
        name = f"says {match.trigger.category}"
        if name in FEATURES:
            for place in range(match.start, match.end):
                found[place].append(FEATURES.index(name))
    for place in range(1, len(words)):
        if words[place - 1][-1:] in ".?!":
            found[place].append(FEATURES.index("after stop"))
        elif words[place - 1][-1:] in ",;:":
            found[place].append(FEATURES.index("after comma"))
        if words[place][:1].isupper() and words[place] != "I":
            found[place].append(FEATURES.index("capital"))
    return found


def _match(tokens: Sequence[str], forms: Mapping[str, tuple[str, ...]], found: list[list[int]]) -> None:
    for start in range(len(tokens)):
        seen: set[str] = set()
        for size in range(min(_LONGEST, len(tokens) - start), 0, -1):
            for name in forms.get(" ".join(tokens[start : start + size]), ()):
                if name in seen:
                    continue
                seen.add(name)
                found[start].append(FEATURES.index(name))
                if name in ("food", "action"):
                    for place in range(start + 1, start + size):
                        found[place].append(FEATURES.index(f"{name} on"))


@cache
def _forms() -> Mapping[str, tuple[str, ...]]:
    """Feature names by spoken form."""
    everyday = foods.ambiguous_food_forms()
    named: dict[str, set[str]] = {}
    for form in foods.food_forms():
        named.setdefault(form, set()).add("everyday food" if form in everyday else "food")
    for name, forms in (
        ("action", actions.by_form()),
        ("vessel", vessels.by_form()),
        ("appliance", {**appliances.by_form(), **appliances.by_unsure_form()}),
        ("setting", {form: None for setting in appliances.settings() for form in setting.forms}),
        ("state", preparations.by_phrase()),
    ):
        for form in forms:
            named.setdefault(form, set()).add(name)
    return {form: tuple(sorted(names)) for form, names in named.items()}
