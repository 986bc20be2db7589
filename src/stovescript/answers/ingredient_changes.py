"""Corrections to ingredients: names, amounts, uses, packages; one food that is really two, or two that are one."""

from dataclasses import replace

from stovescript.answers.effects import effect
from stovescript.answers.entry import Entry
from stovescript.answers.said import amount_said, size_said
from stovescript.answers.state import Gone, State, same_size
from stovescript.answers.wording import with_amount, with_food, with_name, without_food
from stovescript.recipe.amounts import is_package
from stovescript.recipe.draft import Amount, Ingredient, Package, Use


def measured(state: State, use_id: str, amount: Amount | None, package: Package | None = None) -> State:
    """The state with the amount of a use as the cook gives it, in the list and in the step's words."""
    ingredient, use = state.owner(use_id)
    if use.step:
        step = state.step(use.step)
        text = with_amount(step.text, ingredient, use.amount, amount)
        state = state.with_step(step.id, text=text)
    state = state.with_use(use_id, amount=amount)
    update: dict[str, object] = {} if same_size(use.amount, amount) else {"disagreements": []}
    if package:
        size = package.size or (ingredient.package.size if ingredient.package else None)
        update["package"] = Package(count=package.count, size=size)
    return state.with_ingredient(ingredient.id, **update)


@effect("rename", "ingredient")
def rename(state: State, entry: Entry, id_: str) -> State:
    """Another name, also in the steps that use it."""
    ingredient = state.ingredient(id_)
    name = " ".join(entry.text.split())
    state = state.with_each_step(
        lambda step: (
            step.model_copy(update={"text": with_name(step.text, ingredient.name, name)})
            if ingredient.id in step.ingredients
            else step
        )
    )
    return state.with_ingredient(id_, name=name)


@effect("amount", "use")
def amount(state: State, entry: Entry, id_: str) -> State:
    """Another amount for one use, or none."""
    if not entry.text.strip():
        return measured(state, id_, None)
    given, package = amount_said(entry.text, state.owner(id_)[0].name)
    return measured(state, id_, given, package)


@effect("goes in", "use")
def goes_in(state: State, entry: Entry, id_: str) -> State:
    """The step in which an addition goes in."""
    step = state.step(entry.where.id if entry.where else "")
    ingredient, use = state.owner(id_)
    if use.step == step.id:
        return state
    state = _unsaid(state, ingredient, use).with_use(id_, step=step.id).used_in(ingredient.id, step.id)
    return _said(state.no_longer_in(ingredient.id, use.step), id_)


@effect("add use", "ingredient")
def add_use(state: State, entry: Entry, id_: str) -> State:
    """One more addition."""
    ingredient = state.ingredient(id_)
    step = state.step(entry.where.id).id if entry.where else None
    given, package = amount_said(entry.text, ingredient.name) if entry.text.strip() else (None, None)
    use = Use(amount=None, step=step, evidence=[], id=entry.new)
    state = state.with_ingredient(id_, uses=[*ingredient.uses, use]).used_in(ingredient.id, step)
    return _said(measured(state, use.id, given, package), use.id)


@effect("drop", "use")
def drop_use(state: State, entry: Entry, id_: str) -> State:
    """One addition less; the last takes the ingredient with it."""
    ingredient, use = state.owner(id_)
    if len(ingredient.uses) == 1:
        return drop(state, entry, ingredient.id)
    state = _unsaid(state, ingredient, use)
    state = state.with_ingredient(ingredient.id, uses=[one for one in ingredient.uses if one.id != id_])
    return state.no_longer_in(ingredient.id, use.step)


@effect("size", "ingredient")
def size(state: State, entry: Entry, id_: str) -> State:
    """The size of its package."""
    ingredient = state.ingredient(id_)
    if not entry.text.strip():
        package = ingredient.package and ingredient.package.model_copy(update={"size": None})
        return state.with_ingredient(id_, package=package)
    amounts = [use.amount for use in ingredient.uses if use.amount and is_package(use.amount.unit)]
    if not amounts and ingredient.package is None:
        raise Gone(f"{ingredient.name} is not measured in packages; give the amount instead")
    count = ingredient.package.count if ingredient.package else amounts[0].high
    return state.with_ingredient(id_, package=Package(count=count, size=size_said(entry.text)))


@effect("preparation", "ingredient")
def preparation(state: State, entry: Entry, id_: str) -> State:
    """How it is prepared before it goes in."""
    words = entry.to if isinstance(entry.to, tuple) else entry.text.split(",")
    return state.with_ingredient(id_, preparation=[one.strip() for one in words if one.strip()])


@effect("optional", "ingredient")
def optional(state: State, entry: Entry, id_: str) -> State:
    """Whether it may be left out."""
    return state.with_ingredient(id_, optional=entry.to is True)


@effect("component", "ingredient")
def component(state: State, entry: Entry, id_: str) -> State:
    """The part of the dish to which it belongs: the dressing."""
    return state.with_ingredient(id_, component=entry.text.strip() or None)


@effect("add ingredient")
def add_ingredient(state: State, entry: Entry, id_: str) -> State:
    """An ingredient that was not heard."""
    step = state.step(entry.where.id).id if entry.where else None
    name = " ".join(entry.text.split())
    use = Use(amount=None, step=step, evidence=[], id=f"{entry.new}.u1")
    state = _with_new(state, _plain(entry.new, name, [use]), None).used_in(entry.new, step)
    if entry.amount:
        state = measured(state, use.id, *amount_said(entry.amount, name))
    return _said(state, use.id)


@effect("split", "ingredient")
def split(state: State, entry: Entry, id_: str) -> State:
    """A second ingredient beside one that stands for two: it goes in as often, and is not measured yet."""
    one = state.ingredient(id_)
    uses = [use.model_copy(update={"amount": None, "id": f"{entry.new}.u{n}"}) for n, use in enumerate(one.uses, 1)]
    other = _plain(entry.new, " ".join(entry.text.split()), uses)
    state = _with_new(state, other.model_copy(update={"optional": one.optional, "component": one.component}), one.id)
    for use in uses:
        state = state.used_in(entry.new, use.step)
    return state


@effect("split", "use")
def split_use(state: State, entry: Entry, id_: str) -> State:
    """One addition as an ingredient of its own."""
    one, use = state.owner(id_)
    if len(one.uses) == 1:
        raise Gone(f"{one.name} goes in only once; rename it instead")
    other = _plain(entry.new, " ".join(entry.text.split()), [use])
    state = state.with_ingredient(one.id, uses=[each for each in one.uses if each.id != id_])
    state = _with_new(state, other.model_copy(update={"component": one.component}), one.id)
    return state.used_in(entry.new, use.step).no_longer_in(one.id, use.step)


@effect("merge", "ingredient")
def merge(state: State, entry: Entry, id_: str) -> State:
    """One ingredient that was taken for two: the additions of both, in order of the talk."""
    gone = state.ingredient(id_)
    kept = state.ingredient(entry.where.id if entry.where else "")
    if gone.id == kept.id:
        return state
    changed = kept.model_copy(
        update={
            "uses": _together(kept.uses, gone.uses),
            "preparation": list(dict.fromkeys([*kept.preparation, *gone.preparation])),
            "alternatives": [*kept.alternatives, *gone.alternatives],
            "optional": kept.optional and gone.optional,
            "package": kept.package or gone.package,
            "stated_total": kept.stated_total or gone.stated_total,
            "disagreements": [*kept.disagreements, *gone.disagreements],
            "heard_as": sorted({*kept.heard_as, *gone.heard_as}),
        }
    )
    rest = [changed if one.id == kept.id else one for one in state.draft.ingredients if one.id != gone.id]
    state = state.with_draft(ingredients=rest).with_each_step(
        lambda step: step.model_copy(
            update={"ingredients": list(dict.fromkeys(kept.id if i == gone.id else i for i in step.ingredients))}
        )
    )
    return replace(state, became={**state.became, gone.id: kept.id})


@effect("drop", "ingredient")
def drop(state: State, entry: Entry, id_: str) -> State:
    """An ingredient that does not go in."""
    gone = state.ingredient(id_)
    for use in gone.uses:
        state = _unsaid(state, gone, use)
    state = state.with_draft(ingredients=[one for one in state.draft.ingredients if one.id != gone.id])
    return state.with_each_step(
        lambda step: step.model_copy(update={"ingredients": [i for i in step.ingredients if i != gone.id]})
    )


@effect("rename", "alternative")
@effect("amount", "alternative")
@effect("drop", "alternative")
def alternative(state: State, entry: Entry, id_: str) -> State:
    """Another name or amount for what could replace an ingredient, or none of it."""
    for ingredient in state.draft.ingredients:
        for other in ingredient.alternatives:
            if other.id != id_:
                continue
            rest = [each for each in ingredient.alternatives if each.id != id_]
            if entry.do == "rename":
                changed = [other.model_copy(update={"name": " ".join(entry.text.split())})]
            elif entry.do == "amount":
                given = amount_said(entry.text, other.name)[0] if entry.text.strip() else None
                changed = [other.model_copy(update={"amount": given})]
            else:
                changed = []
            order = {each.id: n for n, each in enumerate(ingredient.alternatives)}
            return state.with_ingredient(
                ingredient.id, alternatives=sorted([*rest, *changed], key=lambda each: order[each.id])
            )
    raise Gone("that alternative is no longer in the draft")


def _said(state: State, use_id: str) -> State:
    """The state with a sentence for a use that its step does not name."""
    ingredient, use = state.owner(use_id)
    if use.step is None:
        return state
    return state.with_step(use.step, text=with_food(state.step(use.step).text, ingredient, use.amount))


def _unsaid(state: State, ingredient: Ingredient, use: Use) -> State:
    """The state without the sentence that was made for a use."""
    if use.step is None:
        return state
    return state.with_step(use.step, text=without_food(state.step(use.step).text, ingredient, use.amount))


def _together(kept: list[Use], gone: list[Use]) -> list[Use]:
    """The uses of both in order of the talk; what was only set out belongs to the first that goes in."""
    used, out = [u for u in (*kept, *gone) if u.step], [u for u in (*kept, *gone) if not u.step]
    used.sort(key=lambda use: use.evidence[0].start if use.evidence else float("inf"))
    if not used:
        return out
    first = used[0]
    said = sorted([*(e for use in out for e in use.evidence), *first.evidence], key=lambda one: one.start)
    given = next((use.amount for use in out if use.amount), None)
    return [first.model_copy(update={"evidence": said, "amount": first.amount or given}), *used[1:]]


def _plain(id_: str, name: str, uses: list[Use]) -> Ingredient:
    return Ingredient(
        id=id_,
        name=name,
        component=None,
        optional=False,
        preparation=[],
        package=None,
        uses=uses,
        total=None,
        alternatives=[],
        allergens=[],
    )


def _with_new(state: State, new: Ingredient, after: str | None) -> State:
    """The state with an ingredient after another one, else where its step's others end, else at the end."""
    if any(one.id == new.id for one in state.draft.ingredients):
        raise Gone(f"{new.id} is there already; give it an id of its own")
    ingredients = list(state.draft.ingredients)
    places = [n for n, one in enumerate(ingredients, 1) if one.id == after]
    if after is None and (step := new.uses[0].step):
        order = {one.id: n for n, one in enumerate(state.draft.steps)}
        due = order.get(step, len(order))
        places = [
            n
            for n, one in enumerate(ingredients, 1)
            if any(use.step and order.get(use.step, len(order)) <= due for use in one.uses[:1])
        ]
    ingredients.insert(places[-1] if places else len(ingredients), new)
    return state.with_draft(ingredients=ingredients)
