"""A small soup as heard, whose questions and ids are known, and short ways to correct it."""

from typing import Any

from stovescript.answers import Entry, Outcome, answered, numbered, ref_of
from stovescript.answers.open_gaps import _SILENCE
from stovescript.gaps import ask
from stovescript.recipe.draft import Draft, Gap, Ingredient

_EMPTY_SETTING = dict.fromkeys(("appliance", "program", "level", "temperature", "seconds", "release"))


def said(start: float, text: str) -> dict[str, Any]:
    return {"start": start, "end": start + 4, "text": text}


def amount(low: float, unit: str, words: str = "") -> dict[str, Any]:
    return {"low": low, "high": low, "unit": unit, "approximate": False, "said": words or f"{low:g} {unit}"}


def food(id_: str, name: str, *uses: tuple[Any, str | None, dict[str, Any]], **more: Any) -> dict[str, Any]:
    return {
        "id": id_,
        "name": name,
        "component": None,
        "optional": False,
        "preparation": [],
        "package": None,
        "total": uses[0][0] if len(uses) == 1 else None,
        "alternatives": [],
        "allergens": [],
        "uses": [{"amount": measure, "step": step, "evidence": [words]} for measure, step, words in uses],
    } | more


def step(id_: str, text: str, start: float, foods: list[str], *settings: dict[str, Any]) -> dict[str, Any]:
    words = said(start, text.lower().rstrip("."))
    return {
        "id": id_,
        "text": text,
        "start": start,
        "end": start + 4,
        "ingredients": foods,
        "settings": [_EMPTY_SETTING | {"evidence": [words]} | one for one in settings],
        "until": None,
        "equipment": [],
        "evidence": [words],
    }


def soup(**more: Any) -> Draft:
    """Carrot soup: the salt is not measured, the stock does not add up, the can has no size, the yield is not said."""
    data = {
        "format": "stovescript/draft",
        "version": 1,
        "title": "carrot soup",
        "summary": None,
        "source": {"file": "soup.vtt", "sha256": "0" * 64, "seconds": 300.0, "words": 400},
        "servings": None,
        "ingredients": [
            food("i1", "butter", (amount(2, "tablespoon"), "s1", said(10, "two tablespoons of butter in the pot")),
                 allergens=["milk"]),
            food("i2", "carrots", (amount(1, "pound"), "s2", said(20, "a pound of carrots goes in"))),
            food("i3", "vegetable stock",
                 (amount(4, "cup"), "s3", said(40, "pour in four cups of stock")),
                 (amount(1, "cup"), "s5", said(80, "and one more cup of stock at the end")),
                 total=amount(5, "cup"), stated_total=amount(6, "cup", "six cups")),
            food("i4", "coconut milk", (amount(1, "can", "a can"), "s4", said(60, "open a can of coconut milk")),
                 package={"count": 1, "size": None}),
            food("i5", "salt", (None, "s3", said(44, "salt it well"))),
            food("i6", "bay leaf", (amount(1, ""), None, said(5, "and here is a bay leaf"))),
        ],
        "steps": [
            step("s1", "Melt 2 tablespoons of butter.", 10, ["i1"], {"appliance": "stovetop", "level": "medium"}),
            step("s2", "Add the carrots.", 20, ["i2"]),
            step("s3", "Pour in 4 cups of vegetable stock. Salt it.", 40, ["i3", "i5"]),
            step("s4", "Stir in 1 can of coconut milk.", 60, ["i4"]),
            step("s5", "Simmer for 20 minutes.", 80, ["i3"],
                 {"appliance": "stovetop", "level": "low", "seconds": {"low": 1200, "high": 1200}}),
        ],
        "times": {
            "prep": None,
            "cook": {"low": 1200, "high": 1200},
            "total": {"low": 1200, "high": 1200},
            "stated": [{"what": "simmering", "span": {"low": 1200, "high": 1200},
                        "evidence": [said(80, "simmer for 20 minutes")]}],
        },
        "equipment": [],
        "variations": [],
        "tips": [{"text": "don't rush the carrots", "evidence": [said(25, "don't rush the carrots")]}],
        "promises": [{"text": "how to freeze it is in the post", "evidence": [said(90, "how to freeze it")]}],
        "set_aside": [],
        "cautions": [],
        "gaps": [],
    } | more  # fmt: skip
    return numbered(ask(Draft.model_validate(data), _SILENCE))


def gap(draft: Draft, kind: str, about: str = "") -> Gap:
    """The question of a kind, about something."""
    return next(one for one in draft.gaps if one.kind == kind and about in one.about)


def kinds(draft: Draft) -> list[str]:
    return sorted(one.kind for one in draft.gaps)


def named(draft: Draft, name: str) -> Ingredient:
    return next(one for one in draft.ingredients if one.name == name)


def corrected(draft: Draft, *entries: Entry) -> Draft:
    """The draft with the entries, every one of which finds its place."""
    outcome = applied(draft, *entries)
    assert outcome.unplaced == ()
    return outcome.draft


def applied(draft: Draft, *entries: Entry) -> Outcome:
    return answered(draft, entries)


def does(draft: Draft, do: str, id_: str = "", to: Any = "", where: str = "", **more: Any) -> Entry:
    """A correction of the part of that id."""
    return Entry(do, ref_of(draft, id_) if id_ else None, to, ref_of(draft, where) if where else None, **more)
