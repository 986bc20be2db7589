"""Small drafts written as lists: ``draft(["2 cup flour", "3  eggs"])``, for tests of other sizes."""

from collections.abc import Sequence
from fractions import Fraction

from stovescript.recipe.draft import (
    Amount,
    Draft,
    Equipment,
    Evidence,
    Ingredient,
    Package,
    Setting,
    Source,
    Step,
    Times,
    Use,
)

HEARD = [Evidence(start=1.0, end=2.0, text="the words said")]


def amount(low: float, unit: str = "", high: float | None = None) -> Amount:
    return Amount(low=low, high=low if high is None else high, unit=unit, approximate=False, said="")


def ingredient(line: str, number: int = 1, *, optional: bool = False) -> Ingredient:
    """ "2 cup: flour", "3: eggs", "1-2 cup: oil", "2 can of 15 ounce: beans", "?: salt", "1 cup + 2 cup: milk"."""
    said, _, name = line.partition(": ")
    uses = [None if part == "?" else _amount(part) for part in said.split(" + ")]
    size = next((part.partition(" of ")[2] for part in said.split(" + ") if " of " in part), "")
    measured = [use for use in uses if use]
    same = len(measured) == len(uses) and len({use.unit for use in measured}) == 1
    total = amount(sum(u.low for u in measured), measured[0].unit, sum(u.high for u in measured)) if same else None
    return Ingredient(
        id=f"i{number}",
        name=name,
        component=None,
        optional=optional,
        preparation=[],
        package=Package(count=measured[0].high, size=_amount(size)) if size else None,
        uses=[Use(amount=use, step="s1", evidence=HEARD) for use in uses],
        total=total,
        stated_total=None,
        disagreements=[],
        alternatives=[],
        allergens=[],
        heard_as=[name],
    )


def draft(
    lines: Sequence[str],
    *,
    steps: Sequence[str] = ("Mix everything.",),
    servings: Amount | None = None,
    pans: Sequence[tuple[str, str | None]] = (),
    settings: Sequence[Setting] = (),
    until: str | None = None,
) -> Draft:
    """A draft of those ingredients, all added in every step."""
    ingredients = [ingredient(line, number) for number, line in enumerate(lines, 1)]
    return Draft(
        format="stovescript/draft",
        version=1,
        title="Test Dish",
        summary=None,
        source=Source(file="talk.vtt", sha256="0" * 64, seconds=60.0, words=100),
        servings=servings,
        ingredients=ingredients,
        steps=[
            Step(
                id=f"s{number}",
                text=text,
                start=1.0,
                end=2.0,
                ingredients=[each.id for each in ingredients],
                settings=list(settings),
                until=until,
                equipment=[],
                evidence=HEARD,
            )
            for number, text in enumerate(steps, 1)
        ],
        times=Times(prep=None, cook=None, total=None, stated=[]),
        equipment=[Equipment(name=name, size=size, evidence=HEARD) for name, size in pans],
        variations=[],
        tips=[],
        promises=[],
        set_aside=[],
        cautions=[],
        gaps=[],
    )


def setting(appliance: str, **values: object) -> Setting:
    """``setting("oven", temperature={...})``."""
    empty: dict[str, object] = dict.fromkeys(("program", "level", "temperature", "seconds", "release"))
    return Setting.model_validate({"appliance": appliance, **empty, **values, "evidence": HEARD})


def _amount(text: str) -> Amount:
    number, _, unit = text.partition(" of ")[0].partition(" ")
    low, _, high = number.partition("-")
    return amount(float(Fraction(low)), unit, float(Fraction(high or low)))
