"""Reads an answer as a person writes it: an amount, a temperature, a length of time, a yield, a size."""

import re

from stovescript.kitchen.panel import release_in
from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import Quantity, find_quantities
from stovescript.recipe.amounts import is_package, is_vague
from stovescript.recipe.draft import TO_TASTE, Amount, Package, Span, Temperature
from stovescript.recipe.evidence import as_amount
from stovescript.speech.words import singular

AMOUNT_EXAMPLE = 'write it like "1 1/2 cups", "2 15-ounce cans" or "to taste"'
_FAHRENHEIT_FROM = 250.0  # degrees without a scale from which an oven's are Fahrenheit: common practice
_NUMBER = re.compile(r"\d|[½⅓⅔¼¾⅛⅜⅝⅞]")


class NotUnderstood(ValueError):
    """What could not be understood, with an example of how to write it."""


def amount_said(text: str, name: str = "") -> tuple[Amount, Package | None]:
    """The amount, and the packages where it counts them. `name` is the food, which may follow its amount.

    Raises NotUnderstood.
    """
    tokens = _tokens(text)
    found = find_quantities(tokens)
    if len(found) == 1 and found[0].kind in ("amount", "package", "count", "number"):
        quantity = found[0]
        between = [*tokens[: quantity.start], *tokens[quantity.end :]]
        if all(_says_nothing_more(token, name) for token in between):
            amount = as_amount(quantity).model_copy(update={"said": _amount_words(quantity, text)})
            return amount, _package(quantity)
    if not found and not _NUMBER.search(text) and (_leaves_it(text) or not text.strip()):
        words = " ".join(text.split())
        return Amount(low=1, high=1, unit=TO_TASTE, approximate=True, said=words), None
    raise NotUnderstood(f'"{text}" is no amount; {AMOUNT_EXAMPLE}')


def amounts_said(text: str, name: str = "") -> list[Amount]:
    """Several amounts, one for each time: "4 cups, then 2 cups". Raises NotUnderstood."""
    return [amount_said(part, name)[0] for part in re.split(r",?\s+(?:and )?then\s+|;\s*", text.strip())]


def size_said(text: str) -> Amount:
    """The size of one package: "14.5 ounces", "a 28-ounce can". Raises NotUnderstood."""
    found = find_quantities(_tokens(text))
    if len(found) == 1:
        if found[0].size is not None:
            return as_amount(found[0].size)
        if found[0].kind == "amount" and found[0].unit and not is_package(found[0].unit):
            return as_amount(found[0]).model_copy(update={"said": " ".join(text.split())})
    raise NotUnderstood(f'"{text}" is no size; write it like "14.5 ounces" or "400 grams"')


def temperature_said(text: str, scale: str = "") -> Temperature:
    """A temperature; without a scale it has `scale`, or the one that fits an oven. Raises NotUnderstood."""
    found = find_quantities(_tokens(text))
    if len(found) == 1 and found[0].kind in ("temperature", "number", "count"):
        quantity = found[0]
        likely = "F" if quantity.low >= _FAHRENHEIT_FROM else "C"
        return Temperature.model_validate(
            {
                "low": quantity.low,
                "high": quantity.high,
                "unit": quantity.unit or scale or likely,
                "unit_said": bool(quantity.unit),
            }
        )
    raise NotUnderstood(f'"{text}" is no temperature; write it like "350 F", "180 C" or "gas mark 4"')


def time_said(text: str) -> Span:
    """A length of time in seconds. Raises NotUnderstood."""
    found = [quantity for quantity in find_quantities(_tokens(text)) if quantity.kind == "duration"]
    if len(found) == 1:
        return Span(low=found[0].low, high=found[0].high)
    raise NotUnderstood(f'"{text}" is no length of time; write it like "25-30 minutes" or "1 hour 15 minutes"')


def servings_said(text: str) -> Amount:
    """A yield: "6", "serves 4 to 6", "24 cookies", "2 loaves". Raises NotUnderstood."""
    tokens = _tokens(text)
    found = find_quantities(tokens)
    if len(found) == 1 and found[0].kind in ("count", "number", "amount", "package") and found[0].low > 0:
        quantity = found[0]
        after = [token.strip(".,") for token in tokens[quantity.end :]]
        things = [word for word in after if word.isalpha() and word not in wordlist("fillers")]
        eaters = wordlist("eaters") & set(_tokens(text))
        made = quantity.unit or (singular(things[-1]) if things else "serving")
        about = quantity.approximate and not is_vague(quantity)
        update = {"unit": "serving" if eaters else made, "approximate": about, "said": " ".join(text.split())}
        return as_amount(quantity).model_copy(update=update)
    raise NotUnderstood(f'"{text}" is no yield; write it like "6 servings" or "24 cookies"')


def release_said(text: str) -> str:
    """How pressure is let out: "quick", "natural", "timed natural". Raises NotUnderstood."""
    words = text.lower().strip(" .")
    by_itself, at_once = phrases("released_by_itself").search(words), phrases("released_at_once").search(words)
    minutes = any(quantity.kind == "duration" for quantity in find_quantities(_tokens(text)))
    if (by_itself and (minutes or at_once)) or (minutes and not at_once):
        return "timed natural"
    if by_itself or at_once:
        return "natural" if by_itself else "quick"
    if found := release_in(words):
        return found
    raise NotUnderstood(f'"{text}" is no pressure release; write "quick", "natural" or "natural for 10 minutes"')


def yes(text: str) -> bool | None:
    """True for yes, False for no, None for anything else."""
    words = " ".join(_tokens(text)).strip(" .,!")
    return True if words in wordlist("yes") else False if words in wordlist("no") else None


def means(text: str, words: str) -> bool:
    """True where the whole text is one of a word list: "leave it out" of `leave_out`."""
    return " ".join(_tokens(text)).strip(" .!") in wordlist(words)


def _tokens(text: str) -> list[str]:
    return text.lower().replace("–", "-").split()


def _says_nothing_more(token: str, name: str) -> bool:
    word = token.strip(".,()")
    known = {singular(part) for part in name.lower().split()} | wordlist("beside_amount")
    return not word or singular(word) in known


def _leaves_it(text: str) -> bool:
    return (
        phrases("to_taste").search(text.lower()) is not None or phrases("unmeasured").search(text.lower()) is not None
    )


def _amount_words(quantity: Quantity, text: str) -> str:
    return " ".join(text.split()[quantity.start : quantity.end])


def _package(quantity: Quantity) -> Package | None:
    if quantity.size is None and not is_package(quantity.unit):
        return None
    return Package(count=quantity.low, size=as_amount(quantity.size) if quantity.size else None)
