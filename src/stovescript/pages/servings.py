"""How many a draft serves or makes, and what that says about a factor."""

from stovescript.errors import StovescriptError
from stovescript.recipe.draft import Amount, Draft


def yield_text(servings: Amount) -> str:
    """ "4 servings", "12 to 14 cookies"."""
    number = f"{servings.low:g}" if servings.low == servings.high else f"{servings.low:g} to {servings.high:g}"
    what = servings.unit or "serving"
    return f"{number} {what}{'' if servings.high == 1 or what.endswith('s') else 's'}"


def middle(servings: Amount) -> float:
    """The number to reckon with: the middle of a range."""
    return (servings.low + servings.high) / 2


def factor_to(draft: Draft, number: float) -> float:
    """By how much the draft must grow to serve (or make) `number`.

    Raises StovescriptError where the draft doesn't say its yield.
    """
    if draft.servings is None or middle(draft.servings) <= 0:
        raise StovescriptError("the draft doesn't say how many it serves; answer that first, or give --times instead.")
    return number / middle(draft.servings)
