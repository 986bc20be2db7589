"""What was heard at a place of the talk, or about one food, and what became of it: the reasons behind a draft."""

from collections.abc import Iterable, Iterator, Sequence

from rapidfuzz import process

from stovescript.errors import StovescriptError
from stovescript.explanation import (
    ClauseHere,
    Explanation,
    FoodHere,
    Labelled,
    Measuring,
    Repair,
    Row,
    Taken,
    UseHere,
    Verdict,
    Vote,
)
from stovescript.kitchen import triggers
from stovescript.kitchen.homophones import homophones
from stovescript.kitchen.panel import appliance_named
from stovescript.kitchen.sounds import alike
from stovescript.kitchen.vessels import by_form as vessels_by_form
from stovescript.measure import to_text
from stovescript.pages.markdown import plain_amount, setting_text, span_text
from stovescript.recipe.alternatives import measured_asides
from stovescript.recipe.assemble import Understood, understood
from stovescript.recipe.binding import Binding
from stovescript.recipe.draft import Draft, Evidence, Ingredient
from stovescript.recipe.events import measured_foods
from stovescript.recipe.evidence import clause_heard
from stovescript.recipe.fates import Fate, amount_from, fates_of
from stovescript.recipe.naming import Named, name_food, same_food
from stovescript.recipe.verbs import action_named
from stovescript.speech.heard import Clause, Heard, Mention
from stovescript.speech.listen import OWN
from stovescript.speech.words import singular


def explain_between(heard: Heard, draft: Draft, start: float, end: float) -> Explanation:
    """What was heard from one second to another. `draft` is the numbered draft of what was heard."""
    reader = _Reader(heard, draft)
    words = heard.talk.words
    numbers = [
        number
        for number, clause in enumerate(heard.clauses)
        if words[clause.start].start <= end and words[clause.end - 1].end >= start
    ]
    return Explanation(heard.talk.file, start, end, None, (), tuple(map(reader.clause, numbers)))


def explain_food(heard: Heard, draft: Draft, food: str) -> Explanation:
    """All that was heard of one food. Raises StovescriptError where none of that name was heard."""
    reader = _Reader(heard, draft)
    keys = reader.keys_called(food)
    numbers = sorted({fate.clause for fate in reader.fates if fate.key in keys})
    clauses = tuple(reader.clause(number, keys) for number in numbers)
    verdicts = tuple(reader.verdict(key) for key in keys)
    return Explanation(heard.talk.file, clauses[0].start, clauses[-1].end, food, verdicts, clauses)


class _Reader:
    """A talk as heard and understood, its draft, and how one is told of in terms of the other."""

    def __init__(self, heard: Heard, draft: Draft) -> None:
        self.heard, self.draft = heard, draft
        self.known: Understood = understood(heard)
        self.fates = fates_of(heard, self.known)
        _, self.measures, bindings = measured_foods(heard)
        self.bound: dict[int, Binding] = {b.amount.start: b for b in [*bindings, *measured_asides(heard)]}

    def keys_called(self, food: str) -> list[str]:
        """The foods that a name means, in order of the talk: those of just that name, else those it is short for."""
        wanted = _words(food)
        ways: dict[str, set[str]] = {}
        for fate in self.fates:
            named = self.known.names[fate.mention.start]
            ways.setdefault(fate.key, {_words(fate.key)}).update({_words(named.said), _words(fate.mention.text)})
        for ingredient, item in zip(self.draft.ingredients, self.known.items, strict=True):
            ways[item.key] |= {_words(ingredient.name), ingredient.id}
        meant = name_food(food).key
        exact = [key for key in ways if key == meant or wanted in ways[key]]
        if exact or not wanted:
            return exact or self._none_called(food, ways)
        short = [key for key in ways if any(same_food(wanted, way) for way in ways[key])]
        part = [key for key in ways if any(set(wanted.split()) <= set(way.split()) for way in ways[key])]
        return short or part or self._none_called(food, ways)

    def _none_called(self, food: str, ways: dict[str, set[str]]) -> list[str]:
        names = list(dict.fromkeys(self.known.names[fate.mention.start].said for fate in self.fates))
        near = [name for name, _, _ in process.extract(food.lower(), names, limit=3)]
        others = f"; the nearest are {', '.join(near)}" if near else ""
        raise StovescriptError(f"{self.heard.talk.file}: no food called “{food}” was heard{others}.")

    def verdict(self, key: str) -> Verdict:
        """What the food is in the draft."""
        for ingredient, item in zip(self.draft.ingredients, self.known.items, strict=True):
            if item.key == key:
                came = [amount_from(item, addition) for addition in item.additions]
                came = came or ["set out, and not heard going in"]
                uses = (
                    UseHere(use.id, use.step, plain_amount(use.amount, ingredient.package) if use.amount else "", why)
                    for use, why in zip(ingredient.uses, came, strict=True)
                )
                return Verdict(ingredient.name, ingredient.id, tuple(uses), tuple(_also(ingredient)))
        fates = [fate for fate in self.fates if fate.key == key]
        offered = {aside.mention.start: aside.name.said for aside in self.known.asides}
        first = fates[0].mention.start
        name = offered.get(first) or self.known.names[first].said
        return Verdict(name, None, (), tuple(dict.fromkeys(fate.what for fate in fates)))

    def clause(self, number: int, keys: Sequence[str] | None = None) -> ClauseHere:
        """One clause; with `keys` only those foods of it."""
        heard, clause = self.heard, self.heard.clauses[number]
        said = clause_heard(heard, number)
        tokens = heard.tokens[clause.start : clause.end]
        fates = [fate for fate in self.fates if fate.clause == number and (keys is None or fate.key in keys)]
        meant = {fate.mention.start for fate in fates}
        foods = [food for food in clause.labelled("food") if keys is None or food.start in meant]
        amounts = [m for m in clause.labelled("amount") if keys is None or self._food_of(number, m) in meant]
        return ClauseHere(
            said.start,
            said.end,
            said.text,
            clause.intent,
            _overruled(clause),
            next((step.id for step in self.draft.steps if said in step.evidence), None),
            clause.new_step,
            tuple(Vote(i, round(v, 3)) for i, v in sorted(clause.votes, key=lambda vote: -vote[1])),
            tuple(_row(match, tokens) for match in triggers.matches(tokens)),
            tuple(Labelled(m.label, heard.text(m.start, m.end), self._value(m)) for m in clause.mentions),
            tuple(self._measuring(number, amount) for amount in amounts),
            tuple(_repairs(foods, heard, self.known)),
            tuple(self._food(fate, clause) for fate in fates),
            tuple(_taken(self.draft, said)),
            tuple(_questions(self.draft, said)),
        )

    def _value(self, mention: Mention) -> str:
        text = mention.text.lower()
        if mention.quantity:
            return to_text(mention.quantity)
        if mention.label == "food":
            named = self.known.names[mention.start]
            return named.said if named.food else f"{named.said}, in no table"
        if mention.label == "action":
            action = action_named(text)
            return f"{action.verb.lower()}, an action of kind {action.kind}" if action else "in no table"
        if mention.label == "appliance":
            appliance = appliance_named(text)
            return appliance.name if appliance else "in no table"
        if mention.label == "vessel":
            return vessels_by_form()[text].name if text in vessels_by_form() else "in no table"
        return ""

    def _food_of(self, number: int, amount: Mention) -> int | None:
        """The first token of the food that an amount measures, by binding or else by memory."""
        if binding := self.bound.get(amount.start):
            return binding.food.start
        recalled = (
            fate.mention.start
            for fate in self.fates
            if fate.clause == number and any(said.start == amount.start for said in fate.amounts)
        )
        return next(recalled, None)

    def _measuring(self, number: int, amount: Mention) -> Measuring:
        binding = self.bound.get(amount.start)
        quantity = binding.amount.quantity if binding else amount.quantity
        text = to_text(quantity) if quantity else amount.text
        food = self._food_of(number, amount)
        name = None if food is None else self.known.names[food].said
        if binding:
            borrowed = quantity and amount.quantity and quantity.unit != amount.quantity.unit
            reason = binding.reason + (", with the unit said beside it" if borrowed else "")
        elif name:
            reason = "no food beside it: memory"
        elif quantity and quantity.kind == "fraction":
            reason = "a part of something that is already there"
        elif self.heard.clauses[number].intent in OWN and amount.start not in {m.start for m in self.measures}:
            reason = "it says how much the dish makes, or measures no food"
        else:
            reason = "no food near enough"
        return Measuring(text, name, reason)

    def _food(self, fate: Fate, clause: Clause) -> FoodHere:
        ingredient = self.draft.ingredients[fate.item] if fate.item is not None else None
        use = ingredient.uses[fate.use].id if ingredient and fate.use is not None else None
        here = clause.start <= fate.mention.start < clause.end
        return FoodHere(
            self.heard.text(fate.mention.start, fate.mention.end),
            ingredient.name if ingredient else self.known.names[fate.mention.start].said,
            tuple(map(to_text, fate.amounts)),
            ingredient.id if ingredient else None,
            use,
            fate.what,
            None if here else round(self.heard.talk.words[fate.mention.start].start, 2),
        )


def _words(name: str) -> str:
    return " ".join(map(singular, name.lower().split()))


def _also(ingredient: Ingredient) -> Iterator[str]:
    for one, other in ingredient.disagreements:
        yield f"two amounts that disagree: {plain_amount(one)} and {plain_amount(other)}"
    for other_food in ingredient.alternatives:
        yield f"{other_food.name} could be used instead"


def _overruled(clause: Clause) -> str:
    if not clause.votes:
        return ""
    most = max(clause.votes, key=lambda vote: vote[1])[0]
    return "" if most == clause.intent else f"{most} has the most votes, but an amount of a food is told"


def _row(match: triggers.TriggerMatch, tokens: Sequence[str]) -> Row:
    row = match.trigger
    return Row(row.phrase, row.category, row.direction, row.scope, " ".join(tokens[place] for place in match.reach))


def _repairs(foods: Sequence[Mention], heard: Heard, known: Understood) -> Iterator[Repair]:
    for food in foods:
        named: Named = known.names[food.start]
        plainly = name_food(food.text)
        if food.text in homophones() or plainly.misheard:
            yield Repair(heard.text(food.start, food.end), named.said, None)
        elif named.misheard:
            yield Repair(heard.text(food.start, food.end), named.said, round(alike(food.text, named.said)))


def _told_of(said: Evidence, evidence: Iterable[Evidence]) -> bool:
    """True where the words of `said` are among the evidence."""
    return any(one.start < said.end - _TOUCH and said.start < one.end - _TOUCH for one in evidence)


_TOUCH = 0.02  # seconds by which rounding may make neighbours overlap


def _taken(draft: Draft, said: Evidence) -> Iterator[Taken]:
    for step in draft.steps:
        for setting in step.settings:
            if _told_of(said, setting.evidence):
                yield Taken("setting", setting.id, step.id, setting_text(setting))
    for time in draft.times.stated:
        if _told_of(said, time.evidence):
            yield Taken("time", "", None, f"{time.what}, {span_text(time.span)}")
    for tool in draft.equipment:
        if _told_of(said, tool.evidence):
            yield Taken("equipment", tool.id, None, f"{tool.name}, {tool.size}" if tool.size else tool.name)
    for kind, notes in (("variation", draft.variations), ("tip", draft.tips), ("promise", draft.promises)):
        for note in notes:
            if _told_of(said, note.evidence):
                yield Taken(kind, note.id, None, note.text)


def _questions(draft: Draft, said: Evidence) -> Iterator[Taken]:
    for gap in draft.gaps:
        if _told_of(said, gap.evidence):
            yield Taken(gap.severity, gap.id, gap.step, gap.question)
