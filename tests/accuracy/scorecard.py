"""The scorecard: one draft against one talk's gold, field by field."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from rapidfuzz import fuzz

from stovescript.recipe.draft import Amount, Draft, Gap, Ingredient, Setting
from stovescript.recipe.naming import name_food, same_food
from tests.accuracy.corpus import GoldAmount, GoldGap, GoldIngredient, GoldSetting, Said

A = TypeVar("A")
B = TypeVar("B")
STEP_SECONDS = 15.0
NEAR_SECONDS = 40.0
_UNITS = {
    "tin": "can",
    "packet": "package",
    "piece": "",
    "whole": "",
    "rib": "stalk",
    "heads": "head",
    "pack": "package",
    "spoon": "spoonful",
    "big spoon": "spoonful",
    "small spoon": "teaspoon",
    "soup spoon": "tablespoon",
    "rice bowl": "bowl",
    "little bit": "bit",
    "little": "bit",
}


@dataclass
class Tally:
    """True positives, what was drafted, what is true."""

    right: float = 0
    drafted: float = 0
    true: float = 0

    @property
    def precision(self) -> float:
        return self.right / self.drafted if self.drafted else 1.0

    @property
    def recall(self) -> float:
        return self.right / self.true if self.true else 1.0

    @property
    def f1(self) -> float:
        return 2 * self.right / (self.drafted + self.true) if self.drafted + self.true else 1.0


@dataclass
class Card:
    """The tallies of one talk, and what went wrong in words."""

    stem: str
    fields: dict[str, Tally] = field(default_factory=dict)
    misses: list[str] = field(default_factory=list)


def score(draft: Draft, said: Said) -> Card:
    """The card of one draft."""
    card = Card(said.stem)
    gold = said.gold
    true = merged(gold.ingredients)
    pairs = match(true, draft.ingredients, _same_ingredient)
    card.fields["ingredients"] = Tally(len(pairs), len(draft.ingredients), len(true))
    found = {id(g) for g, _ in pairs}
    drafted = {id(d) for _, d in pairs}
    card.misses += [f"missing ingredient: {g.name}" for g in true if id(g) not in found]
    card.misses += [
        f"false ingredient: {d.name} ({d.uses[0].evidence[0].text})" for d in draft.ingredients if id(d) not in drafted
    ]
    card.fields["amounts"] = _amounts(pairs, card.misses)
    if any(i.component for i in (*true, *draft.ingredients)):
        card.fields["components"] = _components(pairs, card.misses)
    card.fields["alternatives"] = _alternatives(pairs, draft, said, card.misses)
    card.fields["settings"] = _settings(draft, said, card.misses)
    starts = [said.at(step.id) for step in gold.steps]
    card.fields["steps"] = _timed([step.start for step in draft.steps], starts, STEP_SECONDS)
    promised = [said.at(note.at) for note in gold.promises]
    card.fields["promises"] = _timed([n.evidence[0].start for n in draft.promises], promised, STEP_SECONDS)
    card.fields["gaps"], by_kind = _gaps(draft.gaps, said, card.misses)
    card.fields.update(by_kind)
    title = bool(gold.title) == bool(draft.title) and (
        not gold.title or fuzz.token_set_ratio(gold.title.lower(), (draft.title or "").lower()) >= 75
    )
    card.fields["title"] = Tally(title, 1, 1)
    if not title:
        card.misses.append(f"title: {draft.title!r}, true {gold.title!r}")
    yields = same_amount(draft.servings, gold.servings, units=False)
    card.fields["yield"] = Tally(yields, 1, 1)
    if not yields:
        card.misses.append(f"yield: {draft.servings}, true {gold.servings}")
    return card


def merged(ingredients: Sequence[GoldIngredient]) -> list[GoldIngredient]:
    """One entry a food: some annotators list a food once for each part of the dish that it goes in."""
    found: dict[str, GoldIngredient] = {}
    for ingredient in ingredients:
        known = found.get(ingredient.name.lower())
        if known is None:
            found[ingredient.name.lower()] = ingredient
        else:
            found[ingredient.name.lower()] = known.model_copy(
                update={
                    "uses": [*known.uses, *ingredient.uses],
                    "alternatives": [*known.alternatives, *ingredient.alternatives],
                }
            )
    return list(found.values())


def match(true: Sequence[A], drafted: Sequence[B], same: Callable[[A, B], float]) -> list[tuple[A, B]]:
    """One-to-one pairs, the most alike first."""
    ranked = sorted(
        ((alike, i, j) for i, a in enumerate(true) for j, b in enumerate(drafted) if (alike := same(a, b)) > 0),
        key=lambda row: -row[0],
    )
    used_a: set[int] = set()
    used_b: set[int] = set()
    pairs = []
    for _, i, j in ranked:
        if i not in used_a and j not in used_b:
            used_a.add(i)
            used_b.add(j)
            pairs.append((i, j))
    return [(true[i], drafted[j]) for i, j in sorted(pairs)]


def same_name(a: str, b: str) -> float:
    """How sure it is that two names mean one food, 0 to 1."""
    one, two = name_food(a), name_food(b)
    if one.key == two.key or one.said == two.said:
        return 1.0
    if same_food(one.key, two.key) or same_food(two.key, one.key):
        return 0.8
    alike = fuzz.token_sort_ratio(one.said, two.said)
    return alike / 100 * 0.9 if alike >= 85 else 0.0


def _same_ingredient(gold: GoldIngredient, draft: Ingredient) -> float:
    names = [same_name(name, draft.name) for name in (gold.name, *gold.also)]
    return max(names[0], 0.95 * max(names[1:], default=0.0))


def same_amount(draft: Amount | None, gold: GoldAmount | None, units: bool = True) -> bool:
    """True where value and unit are exact (within 1 %)."""
    if draft is None or gold is None:
        return draft is None and gold is None
    unit = _UNITS.get(draft.unit, draft.unit) == _UNITS.get(gold.unit, gold.unit)
    return (unit or not units) and _close(draft.low, gold.low) and _close(draft.high, gold.high)


def _close(a: float, b: float) -> bool:
    return abs(a - b) <= 0.012 * max(abs(a), abs(b), 0.01)


def _amounts(pairs: Sequence[tuple[GoldIngredient, Ingredient]], misses: list[str]) -> Tally:
    tally = Tally()
    for gold, draft in pairs:
        size = max(len(gold.uses), len(draft.uses))
        right = sum(same_amount(mine.amount, true.amount) for mine, true in zip(draft.uses, gold.uses, strict=False))
        tally.right += right
        tally.drafted += size
        tally.true += size
        if right < size:
            mine = [(u.amount.low, u.amount.high, u.amount.unit) if u.amount else None for u in draft.uses]
            true = [(u.amount.low, u.amount.high, u.amount.unit) if u.amount else None for u in gold.uses]
            misses.append(f"amount: {gold.name}: {mine}, true {true}")
    return tally


def _components(pairs: Sequence[tuple[GoldIngredient, Ingredient]], misses: list[str]) -> Tally:
    """The part of the dish that an ingredient goes into first; one that goes in twice may be left without by gold."""
    tally = Tally()
    for gold, draft in pairs:
        shared = gold.component is None and len(gold.uses) > 1
        right = bool(draft.component and gold.component) and (
            fuzz.token_set_ratio(draft.component or "", gold.component or "") >= 80
        )
        tally.right += right
        tally.drafted += draft.component is not None and not shared
        tally.true += gold.component is not None
        if not right and not shared and (draft.component or gold.component):
            misses.append(f"component: {gold.name}: {draft.component}, true {gold.component}")
    return tally


def _alternatives(
    pairs: Sequence[tuple[GoldIngredient, Ingredient]], draft: Draft, said: Said, misses: list[str]
) -> Tally:
    tally = Tally(
        0,
        sum(len(i.alternatives) for i in draft.ingredients),
        sum(len(i.alternatives) for i in said.gold.ingredients),
    )
    for gold, mine in pairs:
        both = match(gold.alternatives, mine.alternatives, lambda a, b: same_name(a.name, b.name))
        tally.right += len(both)
        true = {a.name for a in gold.alternatives} - {a.name for a, _ in both}
        false = {b.name for b in mine.alternatives} - {b.name for _, b in both}
        if true or false:
            misses.append(f"alternatives of {gold.name}: missing {true or ''} false {false or ''}")
    return tally


_FACETS = ("program", "level", "temperature", "seconds", "release")


def _facets(setting: Setting | GoldSetting) -> set[tuple[str, object]]:
    facets: set[tuple[str, object]] = set()
    if setting.program:
        facets.add(("program", setting.program.replace("é", "e")))
    if setting.level:
        facets.add(("level", setting.level.removesuffix(" pressure").removesuffix(" speed").removesuffix(" power")))
    if setting.temperature:
        facets.add(("temperature", (setting.temperature.low, setting.temperature.high, setting.temperature.unit)))
    if setting.seconds:
        facets.add(("seconds", (setting.seconds.low, setting.seconds.high)))
    if setting.release:
        facets.add(("release", setting.release))
    return facets


def _settings(draft: Draft, said: Said, misses: list[str]) -> Tally:
    """A gold setting is right where everything it says was drafted in or beside its step.

    Of the drafted settings those are wrong that hold something no gold setting says.
    """
    gold = said.gold.settings
    order = sorted((said.at(step.id), step.id) for step in said.gold.steps)
    ends = {step: (order[i + 1][0] if i + 1 < len(order) else 1e9) for i, (_, step) in enumerate(order)}
    drafted = [(e.start, setting) for s in draft.steps for setting in s.settings for e in setting.evidence]
    right = 0
    for one in gold:
        start, end = said.at(one.step) - NEAR_SECONDS / 2, ends[one.step] + NEAR_SECONDS / 2
        near: set[tuple[str, object]] = set()
        for at, setting in drafted:
            if start <= at <= end:
                near |= _facets(setting)
        if _facets(one) <= near:
            right += 1
        else:
            misses.append(f"setting {one.step} {one.appliance}: lacks {_facets(one) - near}")
    everything = set().union(*(_facets(one) for one in gold)) if gold else set()
    everything |= {("seconds", (t.span.low, t.span.high)) for t in said.gold.times}
    mine = [setting for step in draft.steps for setting in step.settings]
    false = [setting for setting in mine if not _facets(setting) <= everything]
    misses += [f"false setting: {_facets(s) - everything} ({s.evidence[0].text})" for s in false]
    return Tally(right, right + len(false), len(gold))


def _timed(drafted: Sequence[float], true: Sequence[float], seconds: float) -> Tally:
    pairs = match(list(true), list(drafted), lambda a, b: max(0.0, seconds + 0.01 - abs(a - b)))
    return Tally(len(pairs), len(drafted), len(true))


def _gaps(drafted: Sequence[Gap], said: Said, misses: list[str]) -> tuple[Tally, dict[str, Tally]]:
    by_name = {i.name: i for i in said.gold.ingredients}

    def same(gold: GoldGap, gap: Gap) -> float:
        if gold.kind != gap.kind:
            return 0.0
        names = [gold.about, *(by_name[gold.about].also if gold.about in by_name else [])]
        alike = max(max(same_name(name, gap.about), fuzz.token_set_ratio(name, gap.about) / 100) for name in names)
        near = bool(gold.at) and any(abs(e.start - said.at(gold.at or "")) <= NEAR_SECONDS for e in gap.evidence)
        single = gold.kind in ("no_servings", "title", "no_release", "temperature_unit")
        return alike if alike >= 0.8 else 0.7 if near or single else 0.0

    pairs = match(said.gold.gaps, list(drafted), same)
    right = {id(g) for g, _ in pairs} | {id(d) for _, d in pairs}
    misses += [f"missing gap: {g.kind} {g.about}" for g in said.gold.gaps if id(g) not in right]
    misses += [f"false gap: {d.kind} {d.about}" for d in drafted if id(d) not in right]
    by_kind: dict[str, Tally] = {}
    for kind in sorted({g.kind for g in said.gold.gaps} | {d.kind for d in drafted}):
        by_kind[f"gap {kind}"] = Tally(
            sum(g.kind == kind for g, _ in pairs),
            sum(d.kind == kind for d in drafted),
            sum(g.kind == kind for g in said.gold.gaps),
        )
    return Tally(len(pairs), len(drafted), len(said.gold.gaps)), by_kind
