"""What an answer to a question does to the draft: one function for each kind of question."""

from collections.abc import Callable
from dataclasses import replace

from stovescript.answers.effects import effect
from stovescript.answers.entry import Entry
from stovescript.answers.heat_answers import no_release, no_temperature, no_time, safety, temperature_unit
from stovescript.answers.ingredient_changes import alternative, drop, drop_use, goes_in, measured
from stovescript.answers.ingredient_changes import size as package_size
from stovescript.answers.open_gaps import follow_up, open_gap
from stovescript.answers.order_answers import order, placed_at
from stovescript.answers.parts import Ref
from stovescript.answers.post_changes import changed_note
from stovescript.answers.post_changes import drop as drop_note
from stovescript.answers.post_changes import servings as set_servings
from stovescript.answers.post_changes import title as set_title
from stovescript.answers.said import amount_said, amounts_said, means, yes
from stovescript.answers.state import Gone, State, same_size
from stovescript.answers.totals import total_of
from stovescript.answers.wording import with_ending
from stovescript.pages.markdown import plain_amount
from stovescript.recipe.amounts import is_vague
from stovescript.recipe.draft import Alternative, Gap, Ingredient, Use

Answer = Callable[[State, Entry, Gap], State]


@effect("dismiss", "gap")
def dismiss(state: State, entry: Entry, id_: str) -> State:
    """A question that the post does not need an answer to."""
    return _closed(state, open_gap(state, id_))


@effect("answer", "gap")
def answer(state: State, entry: Entry, id_: str) -> State:
    """A question answered: the question goes, and the draft says what was missing."""
    gap = open_gap(state, id_)
    state = _closed(state, gap)
    if means(entry.text, "not_needed"):
        return state
    if means(entry.text, "leave_out"):
        return _left_out(state, entry, gap)
    return _BY_KIND[gap.kind](state, entry, gap)


def _closed(state: State, gap: Gap) -> State:
    return replace(state, closed=state.closed | {gap.id})


def _left_out(state: State, entry: Entry, gap: Gap) -> State:
    if gap.kind == "promise":
        return drop_note(state, entry, _promise(state, gap))
    if gap.kind == "alternative_unmeasured":
        return alternative(state, replace(entry, do="drop"), _alternative(state, gap).id)
    if gap.ingredient is None:
        return state
    if gap.kind in ("unmeasured", "vague"):
        return drop_use(state, entry, _use(state, gap).id)
    return drop(state, entry, gap.ingredient)


def _amount(state: State, entry: Entry, gap: Gap) -> State:
    """A use that was never measured, or vaguely; agreement keeps a vague one as it was said."""
    if gap.ingredient is None or yes(entry.text):
        return state
    given, package = amount_said(entry.text, gap.about)
    return measured(state, _use(state, gap).id, given, package)


def _unused(state: State, entry: Entry, gap: Gap) -> State:
    use = state.ingredient(gap.ingredient or "").uses[0]
    step, _ = placed_at(state, entry)
    return goes_in(state, replace(entry, where=Ref("step", step.id)), use.id)


def _conflict(state: State, entry: Entry, gap: Gap) -> State:
    """Which of two amounts is right: it is that of the use that was given either of them."""
    ingredient = state.ingredient(gap.ingredient or "")
    given, package = amount_said(entry.text, gap.about)
    said = [amount for pair in ingredient.disagreements for amount in pair]
    uses = [use for use in ingredient.uses if any(same_size(use.amount, amount) for amount in said)]
    state = measured(state, (uses or ingredient.uses)[0].id, given, package)
    return state.with_ingredient(ingredient.id, disagreements=[])


def _total(state: State, entry: Entry, gap: Gap) -> State:
    """The amounts one by one, or the sum; a sum that the uses don't make raises the question of each."""
    ingredient = state.ingredient(gap.ingredient or "")
    given = amounts_said(entry.text, gap.about)
    if len(given) > 1:
        if len(given) != len(ingredient.uses):
            raise Gone(f"{ingredient.name} goes in {len(ingredient.uses)} times; give an amount for each")
        for use, amount in zip(ingredient.uses, given, strict=True):
            state = measured(state, use.id, amount)
        return state.with_ingredient(ingredient.id, stated_total=None, disagreements=[])
    state = state.with_ingredient(ingredient.id, stated_total=given[0])
    now = total_of(ingredient)
    if now is None or same_size(now, given[0]):
        return state
    each = ", then ".join(plain_amount(use.amount) for use in ingredient.uses if use.amount)
    question = f"{plain_amount(given[0])} of {ingredient.name} in all, but {each} go in. How much each time?"
    return follow_up(state, gap, question)


def _size(state: State, entry: Entry, gap: Gap) -> State:
    if gap.ingredient:
        return package_size(state, entry, gap.ingredient)
    changed = [
        one.model_copy(update={"size": " ".join(entry.text.split())}) if one.name == gap.about else one
        for one in state.draft.equipment
    ]
    return state.with_draft(equipment=changed)


def _doneness(state: State, entry: Entry, gap: Gap) -> State:
    step = state.step(gap.step or "")
    sign = entry.text.strip().rstrip(".")
    sign = sign if sign.startswith(("until", "till", "when", "once")) else f"until {sign}"
    heard = gap.evidence[0].text if gap.evidence else ""
    return state.with_step(step.id, until=sign, text=with_ending(step.text, sign, heard))


def _keep(state: State, entry: Entry, gap: Gap) -> State:
    """The text or link that keeps a promise."""
    return changed_note(state, _promise(state, gap), fulfilled_by=entry.text.strip())


def _instead(state: State, entry: Entry, gap: Gap) -> State:
    other = _alternative(state, gap)
    if not means(entry.text, "same_as"):
        return alternative(state, replace(entry, do="amount"), other.id)
    ingredient = state.ingredient(gap.ingredient or "")
    alternatives = [
        each.model_copy(update={"note": "the same amount"}) if each.id == other.id else each
        for each in ingredient.alternatives
    ]
    return state.with_ingredient(ingredient.id, alternatives=alternatives)


_BY_KIND: dict[str, Answer] = {
    "unmeasured": _amount,
    "vague": _amount,
    "unused": _unused,
    "conflict": _conflict,
    "total_mismatch": _total,
    "no_size": _size,
    "no_temperature": no_temperature,
    "no_time": no_time,
    "temperature_unit": temperature_unit,
    "no_release": no_release,
    "no_doneness": _doneness,
    "no_servings": lambda state, entry, gap: set_servings(state, entry, ""),
    "title": lambda state, entry, gap: set_title(state, entry, ""),
    "promise": _keep,
    "safety": safety,
    "order": order,
    "alternative_unmeasured": _instead,
}


def _use(state: State, gap: Gap) -> Use:
    """The addition that a question is about: the one with its evidence, else one of its step that fits."""
    ingredient: Ingredient = state.ingredient(gap.ingredient or "")
    step = state.now(gap.step) if gap.step else None
    open_ones = [
        use
        for use in ingredient.uses
        if use.step == step
        and (use.amount is None if gap.kind == "unmeasured" else use.amount and is_vague(use.amount))
    ]
    by_words = [use for use in ingredient.uses if gap.evidence and use.evidence == gap.evidence]
    both = [use for use in by_words if use in open_ones]
    found = [*both, *by_words, *open_ones]
    if not found:
        raise Gone(f"that use of {ingredient.name} is no longer in the draft")
    return found[0]


def _promise(state: State, gap: Gap) -> str:
    for note in state.draft.promises:
        if note.evidence == gap.evidence or note.text == gap.about:
            return note.id
    raise Gone("that promise is no longer in the draft")


def _alternative(state: State, gap: Gap) -> Alternative:
    for other in state.ingredient(gap.ingredient or "").alternatives:
        if other.evidence == gap.evidence or other.name == gap.about:
            return other
    raise Gone("that alternative is no longer in the draft")
