"""The draft as readable Markdown: what was heard, in a post's order, then what is still to be asked."""

import re
from collections.abc import Iterable
from functools import lru_cache

from stovescript.measure import Quantity, to_text
from stovescript.pages.rounding import measures_text
from stovescript.recipe.amounts import dimension, is_vague
from stovescript.recipe.draft import (
    TO_TASTE,
    Amount,
    Draft,
    Evidence,
    Gap,
    Ingredient,
    Note,
    Package,
    Setting,
    Span,
    Step,
)

SEVERITIES = (("must", "Must be answered"), ("should", "Should be answered"), ("could", "Could be answered"))


def draft_page(draft: Draft) -> str:
    """The Markdown page of a draft."""
    parts = [f"# {safe(draft.title or 'Untitled dish')}", ""]
    if draft.summary:
        parts += [f"> {safe(draft.summary)}", ""]
    parts += [*_facts(draft), ""]
    parts += _ingredients(draft)
    parts += _method(draft)
    parts += _section("Equipment", (_equipment_line(e.name, e.size) for e in draft.equipment))
    parts += _section("Alternatives", _alternatives(draft))
    parts += _section("Other ways to make it", (_note(n.text, n.evidence) for n in draft.variations))
    parts += _section("Tips", (_note(n.text, n.evidence) for n in draft.tips))
    parts += _section("Promised to viewers", map(_promise, draft.promises))
    parts += _section(
        "Named, but not in this dish", (f"{safe(s.name)} ({s.why}) {_mark(s.evidence)}" for s in draft.set_aside)
    )
    cautions = [f"{safe(c.text)} *({safe(c.source)})*" for c in draft.cautions]
    parts += _section("Cautions", [*cautions, *_allergens(draft)] if cautions else [])
    parts += _questions(draft.gaps)
    return "\n".join(parts).rstrip() + "\n"


def amount_text(amount: Amount, package: Package | None = None) -> str:
    """An amount in kitchen style: "1 1/2 cups", "2 15-ounce cans", "about 1/2 cup"."""
    return safe(plain_amount(amount, package))


def plain_amount(amount: Amount, package: Package | None = None) -> str:
    """The same as plain text, with nothing escaped."""
    size = package.size if package else None
    if size is None or dimension(amount.unit) != "package":
        return _measured(amount)
    return _hyphened(to_text(_quantity(amount, "package", _quantity(size, "amount"))))


def _hyphened(text: str) -> str:
    """A size in brackets as an adjective: "1 (14 1/2 ounces) can" is "1 (14 1/2-ounce) can"."""
    return re.sub(r"\(([\d /]+) ([a-z ]+?)s?\)", r"(\1-\2)", text)


def _measured(amount: Amount) -> str:
    """A vague amount in the cook's own words ("a good glug"), any other in figures or as a sum of measures."""
    if is_vague(amount) and amount.said:
        return amount.said
    if amount.low == amount.high and (text := measures_text(amount.low, amount.unit)):
        return f"about {text}" if amount.approximate else text
    return to_text(amount.low, amount.high, amount.unit, approximate=amount.approximate)


def _quantity(amount: Amount, kind: str, size: Quantity | None = None) -> Quantity:
    return Quantity(kind, 0, 0, amount.low, amount.high, amount.unit, amount.approximate, amount.said, size)


def bulleted(heading: str, texts: Iterable[str]) -> list[str]:
    """The lines of a section of plain texts; none where there are no texts."""
    return _section(heading, map(safe, texts))


def clock(seconds: float) -> str:
    """Seconds as m:ss or h:mm:ss."""
    whole = int(seconds)
    hours, minutes = divmod(whole // 60, 60)
    return f"{hours}:{minutes:02}:{whole % 60:02}" if hours else f"{minutes}:{whole % 60:02}"


def span_text(span: Span) -> str:
    """A length of time in words: "25 to 30 minutes", "1 hour 30 minutes"."""
    if span.low == span.high:
        return _duration(span.low)
    low, high = _duration(span.low), _duration(span.high)
    one, two = low.split(), high.split()
    if len(one) == len(two) == 2 and one[1].rstrip("s") == two[1].rstrip("s"):
        return f"{one[0]} to {high}"
    return f"{low} to {high}"


def _duration(seconds: float) -> str:
    whole = round(seconds)
    parts = (
        (whole // 86400, "day"),
        (whole // 3600 % 24, "hour"),
        (whole // 60 % 60, "minute"),
        (whole % 60, "second"),
    )
    return " ".join(f"{n} {name}{'s' if n != 1 else ''}" for n, name in parts if n) or "0 minutes"


def _facts(draft: Draft) -> list[str]:
    unit = "" if draft.servings is None or draft.servings.unit == "serving" else f" {safe(draft.servings.unit)}"
    if draft.servings:
        numbers = to_text(draft.servings.low, draft.servings.high, "", approximate=draft.servings.approximate)
        made = (
            f"Makes {numbers}{unit}{'s' if unit and draft.servings.high != 1 else ''}" if unit else f"Serves {numbers}"
        )
    else:
        made = "Yield: *not said*"
    lines = [f"- {made}"]
    for name, span in (
        ("Preparation", draft.times.prep),
        ("Cooking", draft.times.cook),
        ("In all", draft.times.total),
    ):
        lines.append(f"- {name}: {span_text(span) if span else '*not said*'}")
    for stated in draft.times.stated:
        lines.append(f"  - {safe(stated.what)}: {span_text(stated.span)} {_mark(stated.evidence)}")
    return lines


def _ingredients(draft: Draft) -> list[str]:
    lines = ["## Ingredients", ""]
    by_part: dict[str | None, list[Ingredient]] = {}
    for ingredient in draft.ingredients:
        by_part.setdefault(ingredient.component, []).append(ingredient)
    for part, ingredients in by_part.items():
        if part:
            lines += [f"### For the {safe(part)}", ""]
        lines += [_ingredient_line(ingredient) for ingredient in ingredients]
        lines.append("")
    return lines


def _ingredient_line(ingredient: Ingredient) -> str:
    uses = [amount_text(u.amount, ingredient.package) if u.amount else "*amount not said*" for u in ingredient.uses]
    amount = amount_text(ingredient.total, ingredient.package) if ingredient.total else uses[0]
    divided = len(uses) > 1
    left_to_reader = not divided and ingredient.total is not None and ingredient.total.unit == TO_TASTE
    text = f"- {safe(ingredient.name)}" if left_to_reader else f"- {amount} {safe(ingredient.name)}"
    states = [*ingredient.preparation, *(["divided"] if divided and "divided" not in ingredient.preparation else [])]
    if left_to_reader and ingredient.total:
        states.append(ingredient.total.said)
    if states:
        text += f", {safe(', '.join(states))}"
    if divided:
        text += f" ({', then '.join(uses)})"
    if ingredient.optional:
        text += " (optional)"
    return f"{text} {_mark(e for use in ingredient.uses for e in use.evidence)}".rstrip()


def _method(draft: Draft) -> list[str]:
    lines = ["## Method", ""]
    for number, step in enumerate(draft.steps, 1):
        lines.append(f"{number}. {safe(step.text)} `{clock(step.start)}`")
        if settings := _settings(step):
            lines.append(f"   - {settings}")
    return [*lines, ""]


def _settings(step: Step) -> str:
    return "; ".join(safe(setting_text(setting)) for setting in step.settings)


def setting_text(setting: Setting) -> str:
    """All that a setting says, as plain text: "oven, 400 °F, 25 minutes"."""
    temperature = setting.temperature
    words = [
        setting.appliance or "",
        setting.program or "",
        setting.level or "",
        "" if temperature is None else temperature_text(temperature.low, temperature.high, temperature.unit),
        "(scale not said)" if temperature and not temperature.unit_said else "",
        span_text(setting.seconds) if setting.seconds else "",
        f"{setting.release} release" if setting.release else "",
    ]
    return ", ".join(filter(None, words))


def temperature_text(low: float, high: float, unit: str) -> str:
    """A temperature in print: "350 to 375 °F", "gas mark 6"."""
    numbers = f"{low:g}" if low == high else f"{low:g} to {high:g}"
    return f"gas mark {numbers}" if unit == "gas mark" else f"{numbers} °{unit}"


def _equipment_line(name: str, size: str | None) -> str:
    return f"{safe(name)} ({safe(size)})" if size else safe(name)


def _alternatives(draft: Draft) -> Iterable[str]:
    for ingredient in draft.ingredients:
        for other in ingredient.alternatives:
            amount = amount_text(other.amount) if other.amount else safe(other.note or "amount not said")
            yield f"{safe(ingredient.name)}: {safe(other.name)} ({amount}) {_mark(other.evidence)}"


def _allergens(draft: Draft) -> Iterable[str]:
    """Each allergen, as the US law names it, with the ingredients that hold it."""
    for allergen in sorted({one for ingredient in draft.ingredients for one in ingredient.allergens}):
        holding = (safe(i.name) for i in draft.ingredients if allergen in i.allergens)
        yield f"Allergen, {safe(allergen)}: {', '.join(holding)}"


def _questions(gaps: list[Gap]) -> list[str]:
    lines = ["## Questions for the cook", ""]
    if not gaps:
        return [*lines, "None: everything was said."]
    for severity, heading in SEVERITIES:
        mine = [gap for gap in gaps if gap.severity == severity]
        if mine:
            lines += [f"### {heading}", ""]
            lines += [f"- {safe(gap.question)} {_mark(gap.evidence)} `{gap.id}`" for gap in mine]
            lines.append("")
    return lines


def _section(heading: str, items: Iterable[str]) -> list[str]:
    lines = [f"- {item}" for item in items]
    return [f"## {heading}", "", *lines, ""] if lines else []


def _note(text: str, evidence: list[Evidence]) -> str:
    return f"“{safe(text)}” {_mark(evidence)}"


def _promise(note: Note) -> str:
    kept = f": {safe(note.fulfilled_by)}" if note.fulfilled_by else ""
    return _note(note.text, note.evidence) + kept


def _mark(evidence: Iterable[Evidence]) -> str:
    """The time marks of some evidence, each once."""
    return " ".join(dict.fromkeys(f"`{clock(e.start)}`" for e in evidence))


@lru_cache(maxsize=8192)  # a draft is written again with each change, most of its words the same
def safe(text: str) -> str:
    """Text that stays text in Markdown: no tags, links, emphasis, headings, lists or references of its own."""
    text = re.sub(r"([\\`*_\[\]<>|&~])", r"\\\1", " ".join(text.split()))
    text = re.sub(r"^(\d*)([#+=-](?=\D)|[.)](?= |$))", r"\1\\\2", text)  # would open a heading, list or rule here
    return re.sub(r"(?<=http|ttps)(?=://)|(?<=www)(?=\.)", r"\\", text)  # would become a link by itself
