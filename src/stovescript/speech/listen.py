"""From a talk to what was heard: clauses with intents, and mentions with their values."""

from dataclasses import replace
from functools import cache

from stovescript.kitchen.foods import food_named
from stovescript.kitchen.homophones import homophones
from stovescript.kitchen.sounds import alike
from stovescript.kitchen.units import by_spoken
from stovescript.kitchen.words import misheard_numbers, phrases, wordlist
from stovescript.measure import Quantity, find_quantities, number_at
from stovescript.speech import model
from stovescript.speech.food_spans import food_spans
from stovescript.speech.heard import Clause, Heard, Mention
from stovescript.speech.labels import BOUNDARIES, INTENTS, TAGS
from stovescript.speech.words import plain, singular
from stovescript.talk import Talk

_SILENCE = 3.0  # seconds between two words that end a sentence
OWN = ("does", "states")
_OWN = 0.25  # probability of these two from which a clause that measures a food is one of them
_BESIDE = 3  # tokens between an amount and the food it measures
_STEP = 0.65  # probability from which a step starts
_STEP_BOUNDARY = 0.5  # probability of its boundary from which a step may start there
_BOUNDARY = 0.25  # probability from which a boundary counts


def listen(talk: Talk) -> Heard:
    """The talk cut into clauses with intents and mentions."""
    tokens = tuple(plain(word.text) for word in talk.words)
    quantities = tuple(find_quantities([word.text for word in talk.words]))
    reading = model.read([word.text for word in talk.words])
    starts = _starts(talk, reading)
    spans = food_spans(spans_of(reading.tag), tokens, reading.tag)
    clauses = []
    for (start, new_sentence), (end, _) in zip(starts, [*starts[1:], (len(tokens), True)], strict=True):
        votes = reading.intent[start:end].mean(axis=0)
        mentions = mentions_in(start, end, spans, quantities, tokens)
        intent = _intent(votes, mentions)
        if intent == "alternative" and _is_optional(tokens[start:end], mentions):
            intent = "does"
        clauses.append(
            Clause(
                start,
                end,
                intent,
                new_sentence,
                intent == "does" and _starts_step(reading, start, new_sentence),
                mentions,
                tuple((name, float(vote)) for name, vote in zip(INTENTS, votes, strict=True)),
            )
        )
    return Heard(talk, tokens, tuple(clauses), quantities)


def _starts_step(reading: model.Reading, start: int, sentence: bool) -> bool:
    """True where a method step starts: a step needs a surer clause start than a clause does."""
    sure = sentence or start == 0 or 1 - reading.boundary[start, 0] > _STEP_BOUNDARY
    return bool(sure and reading.step[start, 1] > _STEP)


def _intent(votes: model.Scores, mentions: tuple[Mention, ...]) -> str:
    """The likeliest intent; a clause that measures a food is of this dish where that is likely enough."""
    best = INTENTS[int(votes.argmax())]
    if best in OWN or not any(
        a.label == "amount" and b.label == "food" and abs(b.start - a.end) <= _BESIDE
        for a in mentions
        for b in mentions
    ):
        return best
    own = {intent: float(votes[INTENTS.index(intent)]) for intent in OWN}
    return max(own, key=lambda intent: own[intent]) if sum(own.values()) >= _OWN else best


def _is_optional(tokens: tuple[str, ...], mentions: tuple[Mention, ...]) -> bool:
    """True for an addition that is only left open ("parsley for garnish if you've got it"), not one for another."""
    foods = [mention for mention in mentions if mention.label == "food"]
    open_ = bool({"optional", "garnish", "garnishing"} & set(tokens))
    return open_ and len(foods) == 1 and phrases("instead").search(" ".join(tokens)) is None


def _starts(talk: Talk, reading: model.Reading) -> list[tuple[int, bool]]:
    """Where clauses start, and whether a sentence does too: the model's word, a long silence, a full stop."""
    starts = [(0, True)]
    sentence = BOUNDARIES.index("sentence")
    for token in range(1, len(talk.words)):
        silent = talk.words[token].start - talk.words[token - 1].end > _SILENCE
        stopped = talk.words[token - 1].text[-1:] in ".?!" and reading.boundary[token, 0] < 0.8
        chance = 1 - reading.boundary[token, 0]
        if silent or stopped or chance > _BOUNDARY:
            starts.append((token, silent or stopped or reading.boundary[token].argmax() == sentence))
    return starts


def spans_of(tags: model.Scores) -> list[tuple[str, int, int]]:
    """Labelled stretches (label, start, end) from the tag probabilities."""
    spans: list[tuple[str, int, int]] = []
    open_label, open_start = "", 0
    for token, best in enumerate([*tags.argmax(axis=1).tolist(), 0]):
        tag = TAGS[best]
        if open_label and tag != f"I-{open_label}":
            spans.append((open_label, open_start, token))
            open_label = ""
        if tag != "O" and not open_label:
            open_label, open_start = tag[2:], token
    return spans


_KINDS = {
    "amount": ("amount", "package", "count", "number", "dimension", "fraction"),
    "size": ("dimension", "amount", "count", "number"),
    "temp": ("temperature", "number", "count"),
    "time": ("duration",),
}
_LABEL = {
    "amount": "amount",
    "package": "amount",
    "temperature": "temp",
    "duration": "time",
    "dimension": "size",
}


def mentions_in(
    start: int,
    end: int,
    spans: list[tuple[str, int, int]],
    quantities: tuple[Quantity, ...],
    tokens: tuple[str, ...],
) -> tuple[Mention, ...]:
    """The mentions that begin in tokens [start, end).

    A quantity of the amount grammar takes the label of the tagged stretch that it overlaps, where its kind
    allows it, else its own; counts and bare numbers that no tag vouches for are dropped, as are tagged amounts
    in which the grammar finds no value.
    """
    found: list[Mention] = []
    taken: set[int] = set()
    for quantity in quantities:
        if not start <= quantity.start < end:
            continue
        label = _LABEL.get(quantity.kind, "")
        for tagged, a, b in spans:
            if a < quantity.end and quantity.start < b:
                taken.add(a)
                if quantity.kind in _KINDS.get(tagged, ()):
                    label = tagged
        if not label and (quantity.kind == "fraction" or _counts_a_food(quantity, spans)):
            label = "amount"
        if label == "amount":
            quantity = _with_unit(quantity, spans, tokens)
        if label:
            text = " ".join(tokens[quantity.start : quantity.end])
            found.append(Mention(label, quantity.start, quantity.end, text, quantity))
    for tagged, a, b in spans:
        if not start <= a < end or (tagged in _KINDS and a in taken):
            continue
        if tagged in ("amount", "time"):
            found += _unparsed(tagged, a, b, tokens)
        elif tagged != "temp":
            found.append(Mention(tagged, a, b, " ".join(tokens[a:b]), None))
    found.sort(key=lambda mention: mention.start)
    return tuple(_spiced(found, tokens))


_SPICES = frozenset({"spice", "spice blend", "dried herb"})
_NEAR_SPICE = 4  # tokens


def _is_spice(name: str) -> bool:
    """True for a spice, or a name that no table knows and that does not sound like garlic."""
    food = food_named(homophones().get(name, name))
    return food.category in _SPICES if food else alike(name, "garlic") < _LIKE_GARLIC


_LIKE_GARLIC = 50.0


def _spiced(mentions: list[Mention], tokens: tuple[str, ...]) -> list[Mention]:
    """The mentions, with "five cloves" among spices taken for the spice, not for a part of a garlic head."""
    foods = [mention for mention in mentions if mention.label == "food"]
    result: list[Mention] = []
    for mention in mentions:
        quantity = mention.quantity
        if mention.label != "amount" or not quantity or quantity.unit != "clove" or mention.end - mention.start < 2:
            result.append(mention)
            continue
        near = [f for f in foods if f.start - mention.end <= _NEAR_SPICE and mention.start - f.end <= _NEAR_SPICE]
        if near and all(_is_spice(food.text) for food in near):
            count = replace(quantity, kind="count", unit="", end=mention.end - 1)
            text = " ".join(tokens[mention.start : mention.end - 1])
            result.append(Mention("amount", mention.start, mention.end - 1, text, count))
            result.append(Mention("food", mention.end - 1, mention.end, tokens[mention.end - 1], None))
        else:
            result.append(mention)
    return result


def _unparsed(tagged: str, start: int, end: int, tokens: tuple[str, ...]) -> list[Mention]:
    """A tagged amount in which the grammar found no number: a mis-heard one ("for cloves"), or a vague measure."""
    words = list(tokens[start:end])
    text = " ".join(words)
    if _names_no_amount(words, tokens[end : end + 3]):
        return []
    numbers = misheard_numbers()
    mended = [numbers.get(word, word) for word in words]
    kind = "duration" if tagged == "time" else "amount"
    for attempt in (mended, ["a", *mended]):
        for quantity in find_quantities(attempt):
            if quantity.kind == kind or (quantity.kind in ("count", "number") and tagged == "amount"):
                moved = replace(quantity, start=start, end=end, said=text)
                return [Mention(tagged, start, end, text, moved)]
    if tagged == "amount" and (counted := number_at(words, 0)) and set(words[counted[1] :]) <= wordlist("no_measure"):
        of_one = tokens[end : end + 2] in (("of", "a"), ("of", "one"))
        kind = "count" if counted[0] >= 1 or of_one else "fraction"
        count = Quantity(kind, start, end, counted[0], counted[0], "", False, text)
        return [Mention(tagged, start, end, text, count)]
    if "both" in words and tagged == "amount":
        unit = words[-1] if words[-1] in by_spoken() else ""
        pair = Quantity("amount", start, end, 2.0, 2.0, by_spoken()[unit][0].name if unit else "", False, text)
        return [Mention(tagged, start, end, text, pair)]
    if "".join(words[-2:]) in by_spoken():
        words = [*words[:-2], "".join(words[-2:])]
    measure = next((word for word in reversed(words) if word.isalpha() and word not in wordlist("no_measure")), None)
    if tagged == "time" or measure is None:
        return []
    vague = Quantity("amount", start, end, 1.0, 1.0, _known_unit(measure), True, text)
    return [Mention(tagged, start, end, text, vague)]


def _names_no_amount(words: list[str], after: tuple[str, ...]) -> bool:
    """True for "one at a time", "half and half", and "stalks and all": parts and ways, not amounts."""
    one_by_one = after[:2] in (("at", "a"), ("at", "the")) and after[2:] == ("time",)
    halves = words[0] == "half" and words[-1] in ("half", "and") and len(words) > 1
    whole_plant = len(words) == 1 and singular(words[0]) != words[0] and after[:2] == ("and", "all")
    return one_by_one or halves or whole_plant


def _known_unit(word: str) -> str:
    """The unit that a word after a number names, by sound where captions mis-heard it ("three clothes" of garlic)."""
    known = by_spoken()
    if word in known:
        return known[word][0].name
    likeness, form = max((alike(word, form), form) for form in _counting_forms())
    return known[form][0].name if likeness >= 72 else singular(word)


@cache
def _counting_forms() -> tuple[str, ...]:
    dimensions = ("volume", "mass", "count", "package")
    return tuple(
        f for f, found in by_spoken().items() if found[0].dimension in dimensions and len(f) > 2 and " " not in f
    )


def _counts_a_food(quantity: Quantity, spans: list[tuple[str, int, int]]) -> bool:
    """True for a count right before a tagged food: "one small onion"."""
    return quantity.kind == "count" and any(
        tagged == "food" and 0 <= start - quantity.end <= 2 for tagged, start, _ in spans
    )


def _with_unit(quantity: Quantity, spans: list[tuple[str, int, int]], tokens: tuple[str, ...]) -> Quantity:
    """A bare number with the word after it as its unit, where the tagged stretch holds both ("three ladles")."""
    if quantity.kind not in ("count", "number"):
        return quantity
    for tagged, a, b in spans:
        if tagged == "amount" and a <= quantity.start and quantity.end < b:
            word = tokens[b - 1]
            joined = "".join(tokens[quantity.end : b])
            if joined in by_spoken():
                return replace(quantity, kind="amount", unit=by_spoken()[joined][0].name, end=b)
            if word.isalpha() and word not in ("of", "or", "so", "them", "those", "these", "about"):
                return replace(quantity, kind="amount", unit=_known_unit(word), end=b)
    return quantity
