"""Answers about heat and time: temperatures, lengths, how pressure is let out, what is safe inside."""

from stovescript.answers.entry import Entry
from stovescript.answers.open_gaps import follow_up
from stovescript.answers.said import NotUnderstood, release_said, temperature_said, time_said, yes
from stovescript.answers.state import Gone, State, new_setting, next_id
from stovescript.answers.step_changes import set_to
from stovescript.answers.understood import scale_named
from stovescript.answers.wording import with_ending
from stovescript.kitchen.foods import food_named
from stovescript.kitchen.panel import appliance_named, level_named
from stovescript.kitchen.safety import safe_minimum
from stovescript.kitchen.words import phrases
from stovescript.measure import convert, find_quantities
from stovescript.pages.markdown import span_text, temperature_text
from stovescript.recipe.draft import Gap, Note, Setting, Span, Step, Temperature

_RELEASES = {
    "quick": "Let the pressure out at once.",
    "natural": "Let the pressure fall by itself.",
    "timed natural": "Let the pressure fall by itself{time}, then let out the rest.",
}


def no_temperature(state: State, entry: Entry, gap: Gap) -> State:
    """Degrees or a level for the appliance that was asked about; an appliance named with them is taken too."""
    step = state.step(gap.step or "")
    mine = next((one for one in step.settings if one.appliance == gap.about), None)
    id_ = mine.id if mine else step.id
    named = appliance_named(entry.text)
    if _numbers(entry.text):
        value, what = (entry.text.split(",")[-1] if named else entry.text), "temperature"
    else:
        value, what = level_named(entry.text) or entry.text, "level"
    state = set_to(state, id_, what, value)
    if named and mine is None:
        state = set_to(state, step.id, "appliance", named.name)
    return state


def no_time(state: State, entry: Entry, gap: Gap) -> State:
    """A length of time, a sign that it is done, or both: "25-30 minutes, until golden"."""
    step = state.step(gap.step or "")
    heard = gap.evidence[0].text if gap.evidence else ""
    span, sign = _span_and_sign(entry.text)
    if span is not None:
        state = _timed(state, step, span, heard)
        state = state.with_step(step.id, text=with_ending(step.text, f"for {span_text(span)}", heard))
    if sign:
        text = with_ending(state.step(step.id).text, sign, heard)
        state = state.with_step(step.id, until="; ".join(filter(None, (step.until, sign))), text=text)
    return state


def _span_and_sign(text: str) -> tuple[Span | None, str]:
    words = text.strip().rstrip(".").split()
    times = [one for one in find_quantities([word.lower() for word in words]) if one.kind == "duration"]
    sign = phrases("signs").search(text.lower())
    if times and not sign:
        return time_said(text), ""
    if sign:
        before, after = text[: sign.start()].strip(" ,;"), text[sign.start() :].strip().rstrip(".")
        return (time_said(before) if times and before else None), after
    return None, f"until {' '.join(words)}"


def _timed(state: State, step: Step, span: Span, heard: str) -> State:
    """The state with a length of time on the setting that was asked about, else on one of its own."""
    bare = [one for one in step.settings if one.seconds is None and one.release is None]
    asked = [one for one in bare if any(evidence.text == heard for evidence in one.evidence)]
    if bare:
        return state.with_setting((asked or bare)[0].id, seconds=span)
    appliance = step.settings[-1].appliance if step.settings else None
    made = new_setting(next_id(step.id, "g", [one.id for one in step.settings]), appliance=appliance, seconds=span)
    return state.with_step(step.id, settings=[*step.settings, made])


def temperature_unit(state: State, entry: Entry, gap: Gap) -> State:
    """The scale of every temperature of that appliance that was said without one."""
    for step in state.draft.steps:
        for setting in step.settings:
            heat = setting.temperature
            if heat is None or heat.unit_said or (setting.appliance or "oven") != gap.about:
                continue
            state = state.with_setting(setting.id, temperature=_on_scale(heat, entry.text))
    return state


def _on_scale(heat: Temperature, text: str) -> Temperature:
    agreed = yes(text)
    if agreed is not None:
        other = {"F": "C", "C": "F"}.get(heat.unit, heat.unit)
        return heat.model_copy(update={"unit": heat.unit if agreed else other, "unit_said": True})
    if scale := scale_named(text):
        return heat.model_copy(update={"unit": scale, "unit_said": True})
    return temperature_said(text)


def no_release(state: State, entry: Entry, gap: Gap) -> State:
    """How the pressure is let out, as a setting after the one under pressure, and as a sentence of its step."""
    step = state.step(gap.step or "")
    under = next((one for one in step.settings if one.appliance and "pressure" in one.appliance), None)
    times = [one for one in find_quantities(entry.text.lower().split()) if one.kind == "duration"]
    span = Span(low=times[0].low, high=times[0].high) if times else None
    release = release_said(entry.text)
    made = new_setting(
        next_id(step.id, "g", [one.id for one in step.settings]),
        appliance=under.appliance if under else gap.about,
        release=release,
        seconds=span,
    )
    sentence = _RELEASES.get(release, f"Release the pressure: {release}.")
    text = f"{step.text} {sentence.format(time=f' for {span_text(span)}' if span else ' for some minutes')}"
    return state.with_step(step.id, settings=[*step.settings, made], text=text)


def safety(state: State, entry: Entry, gap: Gap) -> State:
    """A safe temperature inside, in the step that cooks it; one below official guidance is asked again."""
    try:
        heat = temperature_said(entry.text, "F")
    except NotUnderstood:
        heat = None
    if gap.ingredient is None or heat is None:
        return state if yes(entry.text) is not None else _as_tip(state, entry, gap)
    ingredient = state.ingredient(gap.ingredient)
    food = food_named(ingredient.name)
    least = safe_minimum(food.name, food.category) if food else None
    if least and least.fahrenheit and convert(heat.low, heat.unit, "F") < least.fahrenheit - 1:
        question = (
            f"{temperature_text(heat.low, heat.high, heat.unit)} inside is below the {least.fahrenheit:g} °F that "
            f"official guidance gives for {least.what}. What should the post say?"
        )
        return follow_up(state, gap, question, severity="must")
    step = _cooking(state, gap.ingredient)
    inside = f"{temperature_text(heat.low, heat.high, heat.unit)} inside"
    until = "; ".join(filter(None, (step.until, f"until it reaches {inside}")))
    return state.with_step(step.id, text=f"{step.text} The {ingredient.name} must reach {inside}.", until=until)


def _cooking(state: State, ingredient_id: str) -> Step:
    """The step in which an ingredient is cooked: the first with a setting, from the one it goes into. Raises Gone."""
    used = {use.step for use in state.ingredient(ingredient_id).uses if use.step}
    places = [n for n, step in enumerate(state.draft.steps) if step.id in used]
    if not places:
        raise Gone("it goes into no step")
    later = state.draft.steps[places[0] :]
    return next((step for step in later if any(_cooks(one) for one in step.settings)), later[0])


def _cooks(setting: Setting) -> bool:
    return setting.release is None and bool(setting.seconds or setting.temperature or setting.level)


def _as_tip(state: State, entry: Entry, gap: Gap) -> State:
    note = Note(text=" ".join(entry.text.split()), evidence=gap.evidence, id=f"{gap.id}.t1")
    return state.with_draft(tips=[*state.draft.tips, note])


def _numbers(text: str) -> bool:
    return any(letter.isdigit() for letter in text) or bool(find_quantities(text.lower().split()))
