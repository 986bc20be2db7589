"""A draft written by hand that has everything a draft can have, so that pages are tested without a talk."""

from stovescript.recipe.draft import Amount, Draft, Evidence


def amount(low: float, unit: str = "", high: float | None = None, approximate: bool = False) -> Amount:
    """``amount(1.5, "cup")``: one and a half cups."""
    return Amount(low=low, high=low if high is None else high, unit=unit, approximate=approximate, said="")


def heard(start: float) -> list[Evidence]:
    return [Evidence(start=start, end=start + 2, text="the words said")]


def full_draft() -> Draft:
    """Roasted carrots and chickpeas with a dressing: no list is empty and no value null."""
    return Draft.model_validate(
        {
            "format": "stovescript/draft",
            "version": 1,
            "title": "Roasted Carrots and Chickpeas",
            "summary": "it's the one my neighbors ask for",
            "source": {"file": "carrots.vtt", "sha256": "0" * 64, "seconds": 4000.0, "words": 900},
            "servings": amount(4, "serving", 6),
            "ingredients": [
                {
                    "id": "i1",
                    "name": "chickpeas",
                    "component": "tray",
                    "optional": False,
                    "preparation": ["drained", "rinsed"],
                    "package": {"count": 2, "size": amount(15, "ounce")},
                    "uses": [{"amount": amount(2, "can"), "step": "s1", "evidence": heard(61)}],
                    "total": amount(2, "can"),
                    "stated_total": amount(2, "can"),
                    "disagreements": [[amount(2, "can"), amount(3, "can")]],
                    "alternatives": [
                        {
                            "name": "white beans",
                            "amount": amount(2, "can"),
                            "note": "same amount",
                            "evidence": heard(65),
                        }
                    ],
                    "allergens": ["none known"],
                    "heard_as": ["chickpeas", "chick peas"],
                },
                {
                    "id": "i2",
                    "name": "yogurt",
                    "component": "dressing",
                    "optional": True,
                    "preparation": ["plain"],
                    "package": {"count": 1, "size": amount(32, "ounce")},
                    "uses": [
                        {"amount": amount(1, "cup"), "step": "s2", "evidence": heard(120)},
                        {"amount": amount(0.5, "cup", approximate=True), "step": "s2", "evidence": heard(3725)},
                    ],
                    "total": amount(1.5, "cup"),
                    "stated_total": amount(1.5, "cup"),
                    "disagreements": [[amount(1, "cup"), amount(2, "cup")]],
                    "alternatives": [
                        {
                            "name": "sour cream",
                            "amount": amount(0.75, "cup"),
                            "note": "thinner",
                            "evidence": heard(130),
                        }
                    ],
                    "allergens": ["milk"],
                    "heard_as": ["yogurt"],
                },
            ],
            "steps": [
                {
                    "id": "s1",
                    "text": "Roast the chickpeas until they are crisp.",
                    "start": 61.0,
                    "end": 95.0,
                    "ingredients": ["i1"],
                    "settings": [
                        {
                            "appliance": "oven",
                            "program": "convection bake",
                            "level": "high",
                            "temperature": {"low": 400, "high": 425, "unit": "F", "unit_said": False},
                            "seconds": {"low": 1500, "high": 1800},
                            "release": "natural",
                            "evidence": heard(61),
                        }
                    ],
                    "until": "until crisp",
                    "equipment": ["sheet pan"],
                    "evidence": heard(61),
                },
                {
                    "id": "s2",
                    "text": "Stir the yogurt smooth.",
                    "start": 120.0,
                    "end": 140.0,
                    "ingredients": ["i2"],
                    "settings": [],
                    "until": "until smooth",
                    "equipment": ["bowl"],
                    "evidence": heard(120),
                },
            ],
            "times": {
                "prep": {"low": 600, "high": 600},
                "cook": {"low": 1500, "high": 1800},
                "total": {"low": 5400, "high": 5400},
                "stated": [{"what": "roasting", "span": {"low": 1500, "high": 1800}, "evidence": heard(61)}],
            },
            "equipment": [{"name": "sheet pan", "size": "13 by 18 inches", "evidence": heard(58)}],
            "variations": [{"text": "use the air fryer", "evidence": heard(200)}],
            "tips": [{"text": "dry them well", "evidence": heard(210)}],
            "promises": [{"text": "the spice mix is in the post", "evidence": heard(220)}],
            "set_aside": [{"name": "feta", "why": "not used", "evidence": heard(230)}],
            "cautions": [{"text": "Check every label for allergens.", "source": "common practice"}],
            "gaps": [
                _gap("no_servings", "must", "Does it serve four or six?"),
                _gap("temperature_unit", "should", "Is 400 degrees Fahrenheit?"),
                _gap("no_size", "could", "How big is the bowl?"),
            ],
        }
    )


def _gap(kind: str, severity: str, question: str) -> dict[str, object]:
    return {
        "id": f"{kind}-0a1b2c",
        "kind": kind,
        "severity": severity,
        "about": "the post",
        "question": question,
        "ingredient": "i1",
        "step": "s1",
        "evidence": heard(75),
    }
