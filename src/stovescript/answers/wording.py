"""Keeps a step's sentences true when an amount, a name, a time or a temperature in them is corrected."""

import re

from rapidfuzz import fuzz

from stovescript.measure import Quantity
from stovescript.pages.markdown import plain_amount, span_text, temperature_text
from stovescript.pages.wording import Replacement, Rewrite, reworded
from stovescript.recipe.amounts import is_vague
from stovescript.recipe.draft import TO_TASTE, Amount, Ingredient, Setting, Span, Step

_SENTENCE = re.compile(r"(?<=[.!?])\s+")
_ALIKE = 55.0  # likeness from which a sentence is the one that words of the talk became


def with_amount(text: str, ingredient: Ingredient, old: Amount | None, new: Amount | None) -> str:
    """The text with an ingredient's amount as it is now; as it is where the text does not tell the amount."""
    if old is None or new is None or (is_vague(new) and not new.said):
        return text
    return reworded(text, [Replacement(old, plain_amount(new), new.high, ingredient.name)]).text


def with_food(text: str, ingredient: Ingredient, amount: Amount | None) -> str:
    """The text with a sentence that puts the food in, where it does not name it."""
    words = re.findall(r"[\w'-]+", text.lower())
    last = ingredient.name.lower().split()[-1:]
    return text if last and last[0] in words else f"{text} {_adding(ingredient, amount)}".strip()


def without_food(text: str, ingredient: Ingredient, amount: Amount | None) -> str:
    """The text without the sentence that `with_food` gave it; as it is where it has none."""
    return text.replace(_adding(ingredient, amount), "").strip() or text


def _adding(ingredient: Ingredient, amount: Amount | None) -> str:
    if amount is None or amount.unit == TO_TASTE:
        return f"Add the {ingredient.name}."
    joint = " of " if amount.unit else " "
    return f"Add {plain_amount(amount, ingredient.package)}{joint}{ingredient.name}."


def with_name(text: str, old: str, new: str) -> str:
    """The text with a food's new name, where the old stands alone."""
    if re.search(rf"\b{re.escape(new)}\b", text, re.IGNORECASE):
        return text
    return _swapped(text, old, new)


def _swapped(text: str, old: str, new: str, count: int = 0) -> str:
    return re.sub(rf"\b{re.escape(old)}\b", lambda _: new, text, count=count, flags=re.IGNORECASE)


def with_setting(step: Step, old: Setting | None, new: Setting) -> str:
    """The step's text with a changed time, temperature, level or program in the place of the old."""
    text = step.text

    def other(quantity: Quantity) -> str | None:
        if old and old.seconds and new.seconds and quantity.kind == "duration" and _is(quantity, old.seconds):
            return span_text(new.seconds)
        if old and old.temperature and new.temperature and quantity.kind in ("temperature", "number"):
            was, heat = old.temperature, new.temperature
            if (quantity.low, quantity.high) == (was.low, was.high):
                return temperature_text(heat.low, heat.high, heat.unit)
        return None

    if old and (old.seconds != new.seconds or old.temperature != new.temperature):
        text = _once(text, old.evidence[0].text if old.evidence else "", other)
    for was, now in ((old and old.level, new.level), (old and old.program, new.program)):
        if was and now and was != now:
            text = _swapped(text, was, now, count=1)
    return text


def _once(text: str, heard: str, other: Rewrite) -> str:
    """The text with the sentence reworded that `heard` became, or else the first that has what is to be changed."""
    sentences = _SENTENCE.split(text)
    likely = closest(sentences, heard)
    for number in ([] if likely is None else [likely]) + list(range(len(sentences))):
        new = reworded(sentences[number], [], other).text
        if new != sentences[number]:
            return " ".join([*sentences[:number], new, *sentences[number + 1 :]])
    return text


def with_ending(text: str, ending: str, heard: str) -> str:
    """The text with words put to the end of the sentence that `heard` became: "Let it simmer for 10 minutes."."""
    sentences = _SENTENCE.split(text)
    number = closest(sentences, heard)
    if number is None:
        number = len(sentences) - 1
    bare = sentences[number].rstrip(" .!?")
    sentences[number] = f"{bare} {ending}." if bare else f"{ending[:1].upper()}{ending[1:]}."
    return " ".join(sentences)


def without_sentence(text: str, heard: str) -> tuple[str, str] | None:
    """The text without the sentence that `heard` became, and that sentence; None where it is not found or is all."""
    sentences = _SENTENCE.split(text)
    number = closest(sentences, heard)
    if number is None or len(sentences) < 2:
        return None
    return " ".join(sentences[:number] + sentences[number + 1 :]), sentences[number]


def closest(sentences: list[str], heard: str) -> int | None:
    """Which sentence some words of the talk became; None where none is like them."""
    scores = [fuzz.token_set_ratio(one.lower().strip(" ."), heard.lower()) for one in sentences]
    best = max(scores, default=0.0)
    return scores.index(best) if best >= _ALIKE else None


def _is(quantity: Quantity, span: Span) -> bool:
    return (quantity.low, quantity.high) == (span.low, span.high)
