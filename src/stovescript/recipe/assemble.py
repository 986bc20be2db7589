"""From what was heard to a draft: foods and uses, steps and settings, times, notes; gaps are asked later."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from stovescript.kitchen.foods import ambiguous_food_forms, food_named
from stovescript.kitchen.panel import appliance_named
from stovescript.kitchen.safety import Scene, cautions, due
from stovescript.kitchen.sounds import alike
from stovescript.kitchen.vessels import by_form as vessels_by_form
from stovescript.kitchen.words import phrases, wordlist
from stovescript.recipe.alternatives import Aside, alternatives_of, asides_of, set_aside_of
from stovescript.recipe.amounts import is_package, summed, unit_size
from stovescript.recipe.draft import (
    Alternative,
    Amount,
    Caution,
    Draft,
    Equipment,
    Evidence,
    Ingredient,
    Mishearing,
    Note,
    Package,
    Source,
    Step,
    Use,
)
from stovescript.recipe.event import Event
from stovescript.recipe.events import events_of
from stovescript.recipe.evidence import as_amount, clause_heard, heard_at
from stovescript.recipe.headline import servings_of, summary_of, title_of
from stovescript.recipe.method import step_groups, step_text, until_of
from stovescript.recipe.naming import Named, names_in
from stovescript.recipe.parts import with_parts
from stovescript.recipe.practices import practised
from stovescript.recipe.settings import settings_by_step
from stovescript.recipe.times import times_of
from stovescript.recipe.verbs import actions_of
from stovescript.recipe.world import Item, is_poured, items_of
from stovescript.speech.heard import Heard
from stovescript.speech.words import singular


class Understood(NamedTuple):
    """What became of every food that was named, before it is put into words: what a draft and `explain` rest on.

    `names` is by first token of a mention, `left_out` has the foods that are no ingredients with the reason, `own` is
    the key of the dish's own foods by every way of naming them, `alternatives` by the key of what they replace.
    """

    names: Mapping[int, Named]
    events: list[Event]
    items: list[Item]
    left_out: list[tuple[Item, str]]
    own: Mapping[str, str]
    asides: list[Aside]
    alternatives: dict[str, list[Alternative]]


def understood(heard: Heard) -> Understood:
    """The foods of a talk: which are ingredients, which are not, and what else could be used."""
    names = names_in(heard)
    events = events_of(heard, names)
    items = items_of(events)
    floured = any(_is_flour(item) for item in items)
    judged = [(item, _left_out(heard, item, floured)) for item in items]
    own = {" ".join(map(singular, event.name.said.split())): event.key for event in events}
    asides = asides_of(heard, names, own)
    mentions = [(event.clause, event.key, event.name) for event in events]
    return Understood(
        names,
        events,
        [item for item, reason in judged if not reason],
        [(item, reason) for item, reason in judged if reason],
        own,
        asides,
        alternatives_of(heard, names, asides, own, mentions),
    )


def assemble(heard: Heard, title: str | None = None) -> Draft:
    """The draft of a talk, without its gaps. `title` overrides the dish's name as heard."""
    names, events, items, _, _, asides, alternatives = understood(heard)
    groups = step_groups(heard)
    step_of = {number: f"s{index}" for index, group in enumerate(groups, 1) for number in group}
    settings = settings_by_step(heard, groups)
    ingredients = [
        _ingredient(heard, item, f"i{index}", step_of, alternatives.get(item.key, []))
        for index, item in enumerate(items, 1)
    ]
    steps = _steps(heard, names, groups, settings, events, items, ingredients)
    talk = heard.talk
    name = " ".join(title.split()) if title and title.strip() else title_of(heard)
    ingredients = with_parts(heard, items, ingredients, name)
    servings = servings_of(heard, name)
    return Draft(
        format="stovescript/draft",
        version=1,
        title=name,
        summary=summary_of(heard),
        source=Source(file=talk.file, sha256=talk.sha256, seconds=round(talk.seconds, 2), words=len(talk.words)),
        servings=servings[0] if servings else None,
        ingredients=ingredients,
        steps=steps,
        times=times_of(heard, [setting for group in settings for setting in group]),
        equipment=_equipment(heard),
        variations=_variations(heard),
        tips=_notes(heard, "tip"),
        promises=_notes(heard, "promise"),
        set_aside=set_aside_of(heard, asides),
        cautions=_cautions(heard, ingredients, steps),
        gaps=[],
        mishearings=_mishearings(heard, names),
    )


def _mishearings(heard: Heard, names: Mapping[int, Named]) -> list[Mishearing]:
    """The foods whose names the captions show wrong, where they were said."""
    found = []
    for clause in heard.clauses:
        for mention in clause.labelled("food"):
            if (named := names[mention.start]).misheard:
                said = heard_at(heard, mention.start, mention.end)
                found.append(Mishearing(heard=said.text, meant=named.said, start=said.start, end=said.end))
    return found


def _cautions(heard: Heard, ingredients: Sequence[Ingredient], steps: Sequence[Step]) -> list[Caution]:
    """The cautions that this dish calls for: by its foods, its appliances and what is done."""
    own = [clause for clause in heard.clauses if clause.intent in ("does", "states", "alternative", "tip")]
    named = [food for ingredient in ingredients if (food := food_named(ingredient.name))]
    settings = [setting for step in steps for setting in step.settings]
    scene = Scene(
        foods=frozenset(name for food in named for name in (food.name, food.category)),
        allergens=frozenset(allergen for food in named for allergen in food.allergens_us),
        appliances=frozenset(setting.appliance for setting in settings if setting.appliance),
        programs=frozenset(setting.program for setting in settings if setting.program),
        kinds=frozenset(a.kind for clause in own for _, a in actions_of(clause) if a),
        text=" ".join(" ".join(heard.tokens[clause.start : clause.end]) for clause in own),
    )
    told = {caution for practice, _ in practised(heard, ingredients) for caution in practice.cautions}
    called_for = {caution.id for caution in due(scene)} | told
    return [Caution(text=one.text, source=one.source) for one in cautions() if one.id in called_for]


def _is_flour(item: Item) -> bool:
    """True for flour that goes in measured: bread of which no amount is told is then what is made of it."""
    food = item.name.food
    return food is not None and food.category == "flour" and any(event.amounts for event in item.events)


def _left_out(heard: Heard, item: Item, floured: bool) -> str:
    """Why a food is no ingredient: it is made here ("the sauce"), only talked about, or a stray word; else "".

    A made thing counts where a package of it is used or where it goes in measured; a word that no table knows
    counts where it is measured or named again.
    """
    food, name = item.name.food, item.name
    measured = [event for event in item.events if event.amounts]
    if food and food.dish_like and food.name == item.key:
        bought = any(is_package(amount.unit) or event.kind == "add" for event in measured for amount in event.amounts)
        return "" if bought and not any(event.rest or event.fraction for event in item.events) else MADE_HERE
    if measured:
        return ""
    if floured and food and food.category == "bread":
        return MADE_HERE
    once = len(item.events) == 1
    if food is None and once:
        return UNKNOWN_WORD
    everyday = name.said in ambiguous_food_forms()
    if " " in name.said:  # "half and half", also a way of mixing
        once = sum(not event.by_pronoun for event in item.events) == 1
    if (
        everyday
        and once
        and not (is_poured(food) and item.events[0].kind == "add")
        and not (item.events[0].kind == "add" and _is_object(heard, item.events[0]))
    ):
        return EVERYDAY_WORD
    if item.additions:
        return ""
    setting_out = wordlist("setting_out")
    set_out = any(
        set(heard.tokens[heard.clauses[event.clause].start : event.mention.start]) & setting_out
        for event in item.events
    )
    return "" if set_out else ONLY_TALKED_OF


MADE_HERE = "made here"
UNKNOWN_WORD = "a word that no table knows, named once"
EVERYDAY_WORD = "an everyday word, named once and not added"
ONLY_TALKED_OF = "only talked of"


def _in_order(evidence: list[Evidence]) -> list[Evidence]:
    return sorted(evidence, key=lambda one: one.start)


def _is_object(heard: Heard, event: Event) -> bool:
    """True where an adding verb stands right before the food: "stir in the rice"."""
    clause = heard.clauses[event.clause]
    return any(
        action is not None and action.adds and 0 <= event.mention.start - mention.end <= 2
        for mention, action in actions_of(clause)
    )


def _ingredient(
    heard: Heard, item: Item, id_: str, step_of: Mapping[int, str], alternatives: list[Alternative]
) -> Ingredient:
    name = item.name
    uses = [
        Use(
            amount=as_amount(addition.amount) if addition.amount else None,
            step=step_of.get(addition.clause),
            evidence=[clause_heard(heard, n) for n in dict.fromkeys(e.clause for e in addition.events)],
        )
        for addition in item.additions
    ]
    if item.set_out_events and uses:
        out = [clause_heard(heard, n) for n in dict.fromkeys(e.clause for e in item.set_out_events)]
        uses[0] = uses[0].model_copy(update={"evidence": _in_order([*out, *uses[0].evidence])})
    elif not uses:
        uses = [
            Use(
                amount=as_amount(item.set_out) if item.set_out else None,
                step=None,
                evidence=[clause_heard(heard, n) for n in dict.fromkeys(e.clause for e in item.set_out_events)],
            )
        ]
    food = name.food
    return Ingredient(
        id=id_,
        name=name.said,
        component=None,
        optional=_optional(heard, item.events),
        preparation=_preparation(heard, item.events),
        package=_package(item),
        uses=uses,
        total=_total(item, uses),
        stated_total=as_amount(item.total_said) if item.total_said else None,
        disagreements=[(as_amount(a), as_amount(b)) for a, b in item.conflicts],
        alternatives=alternatives,
        allergens=list(food.allergens_us) if food else [],
        heard_as=sorted({event.mention.text.lower() for event in item.events}),
    )


def _total(item: Item, uses: Sequence[Use]) -> Amount | None:
    amounts = [addition.amount for addition in item.additions]
    measured = [amount for amount in amounts if amount]
    if not item.additions:
        return uses[0].amount
    if len(measured) < len(amounts) or not measured:
        return None
    total = summed(sorted(measured, key=unit_size, reverse=True))
    return as_amount(total) if total else None


def _package(item: Item) -> Package | None:
    amounts = [a.amount for a in item.additions if a.amount] or ([item.set_out] if item.set_out else [])
    packed = [amount for amount in amounts if is_package(amount.unit)]
    if not packed:
        return None
    size = item.package_size or packed[0].size
    return Package(count=packed[0].high, size=as_amount(size) if size else None)


def _optional(heard: Heard, events: Sequence[Event]) -> bool:
    for event in events:
        if event.kind != "add":
            continue
        clause = heard.clauses[event.clause]
        text = f" {' '.join(heard.tokens[clause.start : clause.end])} "
        if any(f" {phrase} " in text for phrase in wordlist("optional")):
            return True
    return False


def _preparation(heard: Heard, events: Sequence[Event]) -> list[str]:
    """States said next to a mention of the food, and those that its own words carry."""
    found: list[str] = []
    for event in events:
        found += event.name.preparation
        clause = heard.clauses[event.clause]
        foods = clause.labelled("food")
        for prep in clause.labelled("prep"):
            nearest = min(foods, key=lambda f: _distance(f.start, f.end, prep.start, prep.end), default=None)
            if nearest is not None and nearest.start == event.mention.start:
                found.append(heard.text(prep.start, prep.end).lower())
    idle = wordlist("determiners") | wordlist("joining") | {"with", "and", "with the", "still"}
    return [state for state in dict.fromkeys(found) if not set(state.split()) <= idle]


def _distance(a: int, b: int, c: int, d: int) -> int:
    return c - b if c >= b else a - d + 1


def _steps(
    heard: Heard,
    named: Mapping[int, Named],
    groups: Sequence[Sequence[int]],
    settings: Sequence[Sequence[object]],
    events: Sequence[Event],
    items: Sequence[Item],
    ingredients: Sequence[Ingredient],
) -> list[Step]:
    id_of = {item.key: ingredient.id for item, ingredient in zip(items, ingredients, strict=True)}
    names = {start: name.said for start, name in named.items()}
    steps: list[Step] = []
    for index, group in enumerate(groups):
        doing = [number for number in group if heard.clauses[number].intent == "does"]
        used = [id_of[e.key] for e in events if e.clause in doing and e.key in id_of]
        first, last = heard.clauses[doing[0]], heard.clauses[doing[-1]]
        evidence = heard_at(heard, first.start, last.end)
        steps.append(
            Step.model_validate(
                {
                    "id": f"s{index + 1}",
                    "text": step_text(heard, group, names),
                    "start": evidence.start,
                    "end": evidence.end,
                    "ingredients": list(dict.fromkeys(used)),
                    "settings": settings[index],
                    "until": until_of(heard, group),
                    "equipment": _vessels_in(heard, doing),
                    "evidence": [clause_heard(heard, number) for number in doing],
                }
            )
        )
    return steps


def _vessels_in(heard: Heard, numbers: Sequence[int]) -> list[str]:
    return list(
        dict.fromkeys(
            _vessel_name(m.text)
            for n in numbers
            for m in heard.clauses[n].mentions
            if m.label in ("vessel", "appliance")
        )
    )


_VESSEL_BY_SOUND = 80.0  # how alike a mis-heard vessel must be to one of the table


def _vessel_name(text: str) -> str:
    said = text.lower().strip(".,")
    if vessel := vessels_by_form().get(said):
        return vessel.name
    if " " in said and not appliance_named(said):  # "cheat pan": one word alone is too little to tell by sound
        likeness, form = max((alike(said, form), form) for form in vessels_by_form())
        if likeness >= _VESSEL_BY_SOUND:
            return vessels_by_form()[form].name
    return said


def _equipment(heard: Heard) -> list[Equipment]:
    found: dict[str, Equipment] = {}
    for number, clause in enumerate(heard.clauses):
        if clause.intent not in ("does", "states", "announce"):
            continue
        for mention in clause.mentions:
            if mention.label not in ("vessel", "appliance") or heard.tokens[mention.end : mention.end + 1] == ("of",):
                continue  # "the tin of tomatoes" is no tin to bake in
            name = _vessel_name(mention.text)
            sizes = [
                s
                for s in clause.labelled("size")
                if -1 <= mention.start - s.end <= 4 or 0 <= s.start - mention.end <= 4
            ]
            between = [v.start for v in clause.labelled("vessel") if v.start < mention.start]
            sizes = [s for s in sizes if s.quantity and not any(s.end <= place for place in between)]
            size = sizes[0].text if sizes else None
            known = found.get(name)
            if known is None or (size and not known.size):
                evidence = [*(known.evidence if known else []), clause_heard(heard, number)]
                found[name] = Equipment(name=name, size=size, evidence=evidence)
    return [item for name, item in found.items() if item.size or not any(o.endswith(f" {name}") for o in found)]


_TRAILING = 5  # words: a clause no longer than this ends the promise before it ("so check the description")


def _notes(heard: Heard, intent: str) -> list[Note]:
    """Runs of clauses of one intent, a sentence each, in her words."""
    notes: list[tuple[int, int]] = []
    for number, clause in enumerate(heard.clauses):
        if clause.intent != intent:
            continue
        short = intent == "promise" and clause.end - clause.start <= _TRAILING
        if notes and notes[-1][1] == number - 1 and (short or not clause.new_sentence):
            notes[-1] = (notes[-1][0], number)
        else:
            notes.append((number, number))
    if intent == "promise":
        notes = _promised(heard, notes)
    result = []
    for first, last in notes:
        evidence = heard_at(heard, heard.clauses[first].start, heard.clauses[last].end)
        result.append(Note(text=evidence.text, evidence=[evidence]))
    return result


def _promised(heard: Heard, notes: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """The runs of clauses that promise something: in so many words, or going on with one that does.

    A run that only names what the next one promises ("the sambol, my husband's favourite") is one with it.
    """
    kept: list[tuple[int, int]] = []
    before: tuple[int, int] | None = None
    for first, last in notes:
        start, end = heard.clauses[first].start, heard.clauses[last].end
        told = phrases("promising").search(" ".join(heard.tokens[start:end])) is not None
        near = bool(kept) and first - kept[-1][1] <= _NEXT_PROMISE
        if told and before and before[1] == first - 1:
            first = before[0]
        before = None
        if told or (near and heard.tokens[start] in ("and", "also")):
            kept.append((first, last))
        else:
            before = first, last
    return kept


_NEXT_PROMISE = 3  # clauses within which "and how to freeze it" goes on with a promise


def _variations(heard: Heard) -> list[Note]:
    """Alternatives to the whole way of cooking: another appliance, a bigger batch, without something."""
    marks = wordlist("bigger_batch")
    result = []
    for note in _notes(heard, "alternative"):
        start, end = note.evidence[0].start, note.evidence[0].end
        clauses = [
            c for c in heard.clauses if start <= heard.talk.words[c.start].start < end and c.intent == "alternative"
        ]
        whole = any(m.label in ("appliance", "vessel", "program", "time", "temp") for c in clauses for m in c.mentions)
        if whole or any(mark in note.text.lower() for mark in marks) or not any(c.labelled("food") for c in clauses):
            result.append(note)
    return result
