"""A draft as rows for the archive's tables, column → value; the talk's own column is added when they are kept."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from stovescript.pages.markdown import plain_amount
from stovescript.recipe.draft import Draft, Evidence, Ingredient, Setting

Cell = str | int | float | None
Row = Mapping[str, Cell]


@dataclass(frozen=True, slots=True)
class Rows:
    """What one draft adds to each table."""

    talk: Row
    ingredients: tuple[Row, ...]
    settings: tuple[Row, ...]
    gaps: tuple[Row, ...]


def rows_of(draft: Draft) -> Rows:
    """The rows of a draft."""
    return Rows(
        {
            "title": draft.title,
            "summary": draft.summary,
            "length": draft.source.seconds,
            "words": draft.source.words,
            "ingredients": len(draft.ingredients),
            "steps": len(draft.steps),
            **{name: sum(gap.severity == name for gap in draft.gaps) for name in ("must", "should", "could")},
            "promises": sum(gap.kind == "promise" for gap in draft.gaps),
        },
        tuple(map(_ingredient, draft.ingredients)),
        tuple(_setting(number, each) for number, step in enumerate(draft.steps, 1) for each in step.settings),
        tuple(
            {
                "id": gap.id,
                "kind": gap.kind,
                "severity": gap.severity,
                "about": gap.about,
                "question": gap.question,
                "heard_at": _first(gap.evidence),
            }
            for gap in draft.gaps
        ),
    )


def _ingredient(ingredient: Ingredient) -> Row:
    only = ingredient.uses[0].amount if len(ingredient.uses) == 1 else None
    amount = ingredient.total or only
    return {
        "id": ingredient.id,
        "name": ingredient.name,
        "component": ingredient.component,
        "optional": int(ingredient.optional),
        "amount": plain_amount(amount, ingredient.package) if amount else None,
        "low": amount.low if amount else None,
        "high": amount.high if amount else None,
        "unit": amount.unit if amount else None,
        "preparation": ", ".join(ingredient.preparation) or None,
        "uses": len(ingredient.uses),
        "allergens": ", ".join(ingredient.allergens) or None,
        "heard_at": _first(evidence for use in ingredient.uses for evidence in use.evidence),
    }


def _setting(step: int, setting: Setting) -> Row:
    temperature, span = setting.temperature, setting.seconds
    return {
        "step": step,
        "appliance": setting.appliance,
        "program": setting.program,
        "level": setting.level,
        "temperature_low": temperature.low if temperature else None,
        "temperature_high": temperature.high if temperature else None,
        "scale": temperature.unit if temperature else None,
        "scale_said": int(temperature.unit_said) if temperature else None,
        "seconds_low": span.low if span else None,
        "seconds_high": span.high if span else None,
        "release": setting.release,
        "heard_at": _first(setting.evidence),
    }


def _first(evidence: Iterable[Evidence]) -> float | None:
    return min((each.start for each in evidence), default=None)
