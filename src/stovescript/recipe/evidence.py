"""Evidence: the words that say something, with the seconds at which they were said."""

from stovescript.measure import Quantity
from stovescript.recipe.draft import Amount, Evidence
from stovescript.speech.heard import Heard


def heard_at(heard: Heard, start: int, end: int) -> Evidence:
    """The words [start, end) of the talk as evidence."""
    words = heard.talk.words[start:end]
    return Evidence(start=round(words[0].start, 2), end=round(words[-1].end, 2), text=heard.text(start, end))


def clause_heard(heard: Heard, number: int) -> Evidence:
    """The whole clause with that number as evidence."""
    clause = heard.clauses[number]
    return heard_at(heard, clause.start, clause.end)


def as_amount(quantity: Quantity) -> Amount:
    """The contract's amount for a quantity heard."""
    return Amount(
        low=round(quantity.low, 6),
        high=round(quantity.high, 6),
        unit=quantity.unit,
        approximate=quantity.approximate,
        said=quantity.said,
    )
