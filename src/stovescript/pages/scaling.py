"""Another size or unit system of a draft: by a factor, to a number of servings, to a pan, in metric or by weight."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from stovescript.errors import StovescriptError
from stovescript.measure import Quantity, convert
from stovescript.measure.text import number_text
from stovescript.pages.markdown import plain_amount
from stovescript.pages.pans import Pan, pan_factor, pan_of, pan_wanted, read_pan, sized_pans
from stovescript.pages.resized import SAME, Change, Kind, Resized
from stovescript.pages.servings import factor_to, middle, yield_text
from stovescript.pages.unit_systems import (
    SYSTEMS,
    System,
    length_text,
    temperature_words,
    told_pan,
    told_setting,
    told_temperature,
)
from stovescript.pages.unscaled import fill_notes, joined, what_to_mind
from stovescript.pages.wording import Replacement, reworded
from stovescript.recipe.draft import Amount, Draft, Equipment, Step, Temperature

LARGEST = 100.0
"""The most that a draft is scaled up, and its inverse the most that it is scaled down."""


@dataclass(frozen=True, slots=True)
class Variant:
    """A draft in another size or system, and what is to be told about it."""

    draft: Draft
    factor: float
    changes: tuple[Change, ...]

    def told(self, kind: Kind) -> tuple[str, ...]:
        """The texts of one kind, in order."""
        return tuple(change.text for change in self.changes if change.kind == kind)


def by_factor(draft: Draft, factor: float, system: System | None = None) -> Variant:
    """The draft times `factor`. Raises StovescriptError where the factor is none or changes nothing."""
    _check(factor)
    if abs(factor - 1) < SAME and system is None:
        raise StovescriptError("1 times as much changes nothing; give another number, or --units.")
    return _variant(draft, factor, system, [f"Everything is made {_times(factor)}."])


def by_servings(draft: Draft, number: float, system: System | None = None) -> Variant:
    """The draft for `number` servings, or of whatever it makes.

    Raises StovescriptError where the draft doesn't say its yield, or already has that one.
    """
    if not (math.isfinite(number) and number > 0):
        raise StovescriptError("the number of servings must be more than 0.")
    factor = factor_to(draft, number)
    _check(factor)
    before = draft.servings
    assert before is not None  # factor_to asks for it
    if abs(factor - 1) < SAME and system is None:
        raise StovescriptError(f"the draft already makes {yield_text(before)}; give another number, or --units.")
    after = before.model_copy(update={"low": number, "high": number, "said": ""})
    how = f"From {yield_text(before)} to {yield_text(after)}: {_times(factor)}."
    if before.low != before.high:
        how += f" The middle, {number_text(middle(before))}, was taken for {yield_text(before)}."
    made = _variant(draft, factor, system, [how])
    return replace(made, draft=made.draft.model_copy(update={"servings": after}))


def by_pan(draft: Draft, pan: str, system: System | None = None) -> Variant:
    """The draft for another pan, filled as deep as before, or as full where only the volumes compare.

    Raises StovescriptError where either pan is not known.
    """
    new = pan_wanted(pan)
    vessel, old = pan_of(draft)
    factor, by = pan_factor(old, new)
    _check(factor)
    if abs(factor - 1) < SAME and system is None:
        raise StovescriptError(f"the draft's pan ({old.text}) is as large; give another size, or --units.")
    how = [f"The draft's pan is {_pan_words(old)}; the one asked for is {_pan_words(new)}: {_times(factor)} by {by}."]
    if by == "area":
        how.append("Filled as deep as before, so that it bakes as before.")
    else:
        how.append("Filled as high as before; it is deeper or shallower now, so watch the time.")
    others = [f"{e.name} ({p.size})" for e, p in sized_pans(draft) if e is not vessel]
    if others:
        how.append(f"Reckoned from the {vessel.name}; the draft also has {joined(others)}.")
    if beside := _beside_oven(draft):
        how.append(f"Everything is changed alike; what never goes into that pan ({joined(beside)}) need not be.")
    if not (old.unit_said and new.unit_said):
        how.append("Sides without a unit were taken for inches up to 19, for centimeters above.")
    swapped = [
        e.model_copy(update={"size": new.size, "name": e.name if new.count == 1 else f"{e.name} ({new.count})"})
        if e is vessel
        else e
        for e in draft.equipment
    ]
    moved = draft.model_copy(update={"equipment": swapped})
    return _variant(moved, factor, system, how, (old, new))


def in_units(draft: Draft, system: System) -> Variant:
    """The same size told in another system of units."""
    return _variant(draft, 1.0, system, [])


def _beside_oven(draft: Draft) -> list[str]:
    """The appliances beside an oven that the draft cooks in."""
    used = {s.appliance: "" for step in draft.steps for s in step.settings if s.appliance}
    return [f"from the {name}" for name in used if "oven" not in name and name != "broiler"]


def wanted(
    draft: Draft,
    *,
    times: str | None = None,
    servings: str | None = None,
    pan: str | None = None,
    units: str | None = None,
) -> Variant:
    """The variant that the cook asks for in words, as on the command line.

    Raises StovescriptError where nothing, too much, or something unreadable is asked.
    """
    asked = [
        f"--{name}" for name, value in (("times", times), ("servings", servings), ("pan", pan)) if value is not None
    ]
    if len(asked) > 1:
        raise StovescriptError(f"{joined(asked)} can't go together; give one of them.")
    system = next((each for each in SYSTEMS if each == units), None)
    if units is not None and system is None:
        raise StovescriptError(f'"{units}" is no system of units; give {", ".join(SYSTEMS[:-1])} or {SYSTEMS[-1]}.')
    if times is not None:
        return by_factor(draft, _number(times, "--times"), system)
    if servings is not None:
        return by_servings(draft, _number(servings, "--servings"), system)
    if pan is not None:
        return by_pan(draft, pan, system)
    if system is None:
        raise StovescriptError("nothing to do: give --times, --servings, --pan or --units.")
    return in_units(draft, system)


def _number(text: str, option: str) -> float:
    """ "2", "1.5", "1/2", "1 1/2" or "1,5"."""
    try:
        value = float(sum(Fraction(part) for part in text.strip().replace(",", ".").split()))
    except (ValueError, ZeroDivisionError, OverflowError):
        value = math.nan
    if not math.isfinite(value) or not text.strip():
        raise StovescriptError(f'{option}: "{text}" is no number; write it as 2, 1.5 or 1/2.')
    if value <= 0:
        raise StovescriptError(f"{option}: {text} is not above 0; write it as 2, 1.5 or 1/2.")
    return value


def _check(factor: float) -> None:
    if not math.isfinite(factor) or factor <= 0:
        raise StovescriptError("the factor must be a number above 0, such as 2, 1.5 or 1/2.")
    if not 1 / LARGEST <= factor <= LARGEST:
        raise StovescriptError(
            f"{factor:.4g} times as much is no kitchen batch; stay between 1/{LARGEST:g} and {LARGEST:g}."
        )


def _times(factor: float) -> str:
    return f"{number_text(factor)} {'times ' if factor >= 1 else ''}as much"


def _pan_words(pan: Pan) -> str:
    area = f"{pan.area:.0f} square inches, " if pan.area else ""
    return f"{pan.text} ({area}about {pan.cups:.0f} cups to the brim)"


def _variant(
    draft: Draft, factor: float, system: System | None, how: list[str], pans: tuple[Pan, Pan] | None = None
) -> Variant:
    resized = [Resized.of(ingredient, factor, system) for ingredient in draft.ingredients]
    changes = [Change("size", text) for text in how]
    steps, left = _steps(draft, resized, factor, system, pans)
    made = draft.model_copy(
        update={
            "servings": _yield(draft.servings, factor),
            "ingredients": [each.after for each in resized],
            "steps": steps,
            "equipment": [_equipment(each, system) for each in draft.equipment],
        }
    )
    changes += [change for each in resized for change in each.changes]
    changes += _system_words(resized, system)
    changes.sort(key=lambda change: _ORDER.index(change.kind))
    if abs(factor - 1) >= SAME:
        changes += [Change("fill", text) for text in fill_notes(made)]
        changes += [Change("mind", text) for text in what_to_mind(made, factor)]
    changes += [Change("text", text) for text in left]
    return Variant(made, factor, tuple(changes))


_METRIC = (
    "In milliliters, grams and °C. A tablespoon is 15 ml and a teaspoon 5 ml, within 1.5 % of the US spoons; an "
    "Australian tablespoon is 20 ml. With --units weight dry goods are weighed."
)
_ORDER: tuple[Kind, ...] = ("size", "units", "whole", "rounding", "fill", "mind", "text")


def _yield(servings: Amount | None, factor: float) -> Amount | None:
    """The yield times the factor: whole where it can be, else about."""
    if servings is None or abs(factor - 1) < SAME:
        return servings
    low, high = servings.low * factor, servings.high * factor
    near = [max(round(value * 2) / 2, 0.5) if value < 2 else float(round(value)) for value in (low, high)]
    about = any(abs(whole / exact - 1) > 0.01 for whole, exact in zip(near, (low, high), strict=True))
    return servings.model_copy(
        update={"low": near[0], "high": near[1], "approximate": servings.approximate or about, "said": ""}
    )


def _system_words(resized: Iterable[Resized], system: System | None) -> Iterator[Change]:
    """What the new system rests on, and what stayed as it was."""
    if system is None:
        return
    amounts = [(each.after.name, one) for each in resized for one in each.amounts]
    if system == "metric":
        yield Change("units", _METRIC)
    elif system == "us":
        yield Change("units", "In US cups, spoons, ounces and pounds, and °F.")
    else:
        based = dict.fromkeys(f"{name} (weighed by {one.basis})" for name, one in amounts if one.basis)
        yield Change("units", "By weight, from USDA SR28 household weights of level measures.")
        if based:
            yield Change("units", f"Weights rest on: {'; '.join(based)}.")
    stayed: dict[str, list[str]] = {}
    for name, one in amounts:
        if one.why:
            stayed.setdefault(one.why, []).append(name)
    for why, names in stayed.items():
        yield Change("units", f"Stayed as said: {joined(dict.fromkeys(names))} ({why}).")


def _equipment(each: Equipment, system: System | None) -> Equipment:
    pan = read_pan(each.size) if system and each.size else None
    if pan is None or system is None or not pan.sides or told_pan(pan, system) is pan:
        return each
    return each.model_copy(update={"size": told_pan(pan, system).size})


def _steps(
    draft: Draft,
    resized: list[Resized],
    factor: float,
    system: System | None,
    pans: tuple[Pan, Pan] | None,
) -> tuple[list[Step], list[str]]:
    """The steps with new amounts in their sentences, and what had to be left as it was said."""
    steps, left = [], []
    all_swaps = _swaps(resized)
    for number, step in enumerate(draft.steps, 1):
        swaps = _replacements(step, all_swaps)
        settings = [told_setting(s, system) for s in step.settings] if system else step.settings

        def other(quantity: Quantity, step: Step = step) -> str | None:
            return _other_words(quantity, step, factor, system, pans)

        text = reworded(step.text, swaps, other)
        until = reworded(step.until, swaps, other) if step.until else None
        said = [*text.left, *(until.left if until else [])]
        if said:
            quoted = joined(f"“{words}”" for words in dict.fromkeys(said))
            left.append(f"Step {number} still says {quoted}: no ingredient line has that amount; check it.")
        steps.append(
            step.model_copy(
                update={"text": text.text, "until": until.text if until else step.until, "settings": settings}
            )
        )
    if abs(factor - 1) >= SAME and any((draft.tips, draft.variations, draft.promises, draft.gaps)):
        left.append(
            "Tips, other ways to make it, promises and questions are quoted as they were: for the size before."
        )
    return steps, left


@dataclass(frozen=True, slots=True)
class _Swap:
    """One amount to be told anew: of which ingredient, and in which step it goes in (None: a total)."""

    ingredient: str
    step: str | None
    words: Replacement


def _swaps(resized: list[Resized]) -> list[_Swap]:
    """Every amount that the method may speak of; written once for all the steps."""
    found = []
    for each in resized:
        before, package = each.before, each.after.package
        uses = [use for use in before.uses if use.amount]
        for use, one in zip(uses, each.amounts, strict=False):  # after the uses comes a total of several
            words = Replacement(one.before, plain_amount(one.after, package), one.after.high, before.name)
            found.append(_Swap(before.id, use.step, words))
        if before.total and each.after.total and len(before.uses) > 1:
            text = plain_amount(each.after.total, package)
            found.append(_Swap(before.id, None, Replacement(before.total, text, each.after.total.high, before.name)))
    return found


def _replacements(step: Step, swaps: list[_Swap]) -> list[Replacement]:
    """What a step can speak of: its own additions, its ingredients' others, and last those of all other steps."""
    own = [swap.words for swap in swaps if swap.step == step.id]
    near = [swap.words for swap in swaps if swap.step != step.id and swap.ingredient in step.ingredients]
    far = [
        replace(swap.words, elsewhere=True)
        for swap in swaps
        if swap.step != step.id and swap.ingredient not in step.ingredients
    ]
    return [*own, *near, *far]


def _other_words(
    quantity: Quantity, step: Step, factor: float, system: System | None, pans: tuple[Pan, Pan] | None
) -> str | None:
    """The words for a temperature, a length or the pan in a step's sentence; None to leave them."""
    if pans and len(quantity.sides) > 1 and sorted(quantity.sides) == sorted(_as_said(pans[0], quantity)):
        return pans[1].size
    if system is None:
        return None
    if quantity.kind == "dimension":
        return length_text(quantity, system)
    if quantity.kind != "temperature" or system == "weight":
        return None
    for setting in step.settings:
        own = setting.temperature
        if own and (own.low, own.high) == (quantity.low, quantity.high) and quantity.unit in ("", own.unit):
            new = told_setting(setting, system).temperature
            return temperature_words(new) if new and new != own else None
    if quantity.unit not in ("F", "C", "gas mark"):
        return None
    said = Temperature.model_validate(
        {"low": quantity.low, "high": quantity.high, "unit": quantity.unit, "unit_said": True}
    )
    new = told_temperature(said, system, dial=quantity.unit == "gas mark")
    return temperature_words(new) if new != said else None


def _as_said(pan: Pan, quantity: Quantity) -> tuple[float, ...]:
    """The pan's sides in the unit of the quantity."""
    unit = quantity.unit or ("centimeter" if pan.metric else "inch")
    return tuple(round(convert(side, "inch", unit), 6) for side in pan.sides)
