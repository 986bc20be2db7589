"""Everything that happens to a food in the talk, in order: set out, prepared, added, referred to."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from stovescript.kitchen.actions import Action, by_form
from stovescript.kitchen.foods import food_categories, food_named
from stovescript.kitchen.sounds import alike
from stovescript.kitchen.words import phrases, wordlist
from stovescript.measure import Quantity
from stovescript.recipe.amounts import agree, dimension, rank, restated, summed
from stovescript.recipe.binding import Binding, bind, corrects
from stovescript.recipe.naming import Named, collective_of, gather, same_food
from stovescript.recipe.unsaid_units import with_units
from stovescript.speech.heard import Clause, Heard, Mention
from stovescript.speech.words import singular

PREPARING = frozenset({"cut", "wash", "drain", "divide", "cool"})
COOKED = frozenset({"cook", "dry-heat", "wet-heat", "fry", "bake", "blend", "melt", "coat", "season", "marinate"})
REFERRING = frozenset(
    {
        "taste", "check", "serve", "store", "turn", "remove", "transfer", "rest", "release", "open", "close",
        "cover", "reduce", "rise",
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Event:
    """One mention of a food and what it does to the world.

    `kind`: "add" joins the dish, "prepare" changes its state, "have" sets it out, "refer" only names it.
    """

    kind: str
    clause: int
    mention: Mention
    name: Named
    key: str
    amounts: tuple[Quantity, ...]
    reason: str
    more: bool = False
    rest: bool = False
    whole: bool = False
    fraction: float | None = None
    size: Quantity | None = None
    corrects: bool = False
    step: int = 0
    by_pronoun: bool = False
    stated: bool = False
    part_of: bool = False
    shares: tuple[Quantity, ...] = ()
    another: bool = False
    last_of: bool = False


def actions_of(clause: Clause) -> list[tuple[Mention, Action | None]]:
    """The action mentions of a clause with their table rows; None where the verb is in no table."""
    return [(mention, action_named(mention.text)) for mention in clause.labelled("action")]


@cache
def action_named(text: str) -> Action | None:
    """The action of a verb phrase as said; words between verb and particle are passed over."""
    words = [word.strip(".,!?") for word in text.lower().split()]
    forms = by_form()
    for size in range(len(words), 0, -1):
        for start in range(len(words) - size + 1):
            if found := forms.get(" ".join(words[start : start + size])):
                return found
    if len(words) > 2 and (found := forms.get(f"{words[0]} {words[-1]}")):
        return found
    likeness, form = max((alike(words[0], form), form) for form in _plain_verbs()) if words else (0.0, "")
    return forms[form] if likeness >= _VERB_BY_SOUND else None


_VERB_BY_SOUND = 74.0  # how alike a mis-heard verb must be to one of the table ("dies" the avocado)


@cache
def _plain_verbs() -> tuple[str, ...]:
    """The one-word cooking verbs that are no everyday words, and those of cutting and mixing all the same."""
    return tuple(
        form
        for form, action in by_form().items()
        if " " not in form and len(form) > 3 and (not action.ambiguous or action.kind in ("cut", "combine"))
    )


def events_of(heard: Heard, names: Mapping[int, Named]) -> list[Event]:
    """The events of the talk's own dish, in order: clauses that do or state, and what pronouns stand for.

    `names` gives the food named at each food mention's first token.
    """
    own = _own(heard)
    foods, amounts, bindings = measured_foods(heard)
    bound: dict[int, list[Binding]] = {}
    for binding in bindings:
        bound.setdefault(binding.food.start, []).append(binding)
    measuring = {binding.amount.start for binding in bindings}
    loose = {m.start: m.quantity for m in amounts if m.start not in measuring and m.quantity}
    keys = dict(
        zip(
            (food.start for food in foods),
            gather((names[f.start], _measured_in(heard, f, bound), _definite(heard, f)) for f in foods),
            strict=True,
        )
    )
    events: list[Event] = []
    previous_adds = False
    for number in own:
        clause = heard.clauses[number]
        verbs = actions_of(clause)
        for food in clause.labelled("food"):
            if is_denied(heard, food) or is_kind_of(heard, clause, food) or _is_content(heard, clause, food):
                continue
            mine = bound.get(food.start, [])
            said = tuple(b.amount.quantity for b in mine if b.amount.quantity)
            measured = _joined(heard, said)
            kind = _kind(clause, food, verbs, previous_adds, measured=bool(measured))
            event = Event(
                kind,
                number,
                food,
                names[food.start],
                keys[food.start],
                measured or _one_of(heard, food),
                "; ".join(b.reason for b in mine),
                shares=shares_of(said) if len(said) > 2 else (),
            )
            if event.kind == "add" and not measured and (
                _destination(heard, clause, event, events)
                or _washes(heard, clause, event)
                or _taken_out(heard, clause, event)
            ):
                event = replace(event, kind="refer")
            if _portion(heard, food) and any(other.key == event.key for other in events):
                event = replace(event, kind="refer", amounts=())
            event = _flagged(event, heard, clause)
            if events and _identifies(heard, event, events[-1]):
                events, event = _identified(events, event)
            events.append(event)
        if not clause.labelled("food") and (recalled := _recalled(heard, number, events, loose, names)):
            events.append(recalled)
            continue
        if clause.intent == "does":
            if verbs:
                previous_adds = any(a is None or a.kind not in PREPARING for _, a in verbs)
            if not clause.labelled("food"):
                events += _by_pronoun(heard, number, events, loose)
    return _narrated(heard, _with_articles(heard, _singled(events)))


def _own(heard: Heard) -> list[int]:
    return [number for number, clause in enumerate(heard.clauses) if clause.intent in ("does", "states")]


def measured_foods(heard: Heard) -> tuple[list[Mention], list[Mention], list[Binding]]:
    """The foods of the clauses that do or state, the amounts there that can measure one, and which measures which."""
    own = _own(heard)
    foods = [
        m
        for n in own
        for m in heard.clauses[n].labelled("food")
        if not is_denied(heard, m) and not is_kind_of(heard, heard.clauses[n], m)
    ]
    amounts = [
        m
        for n in own
        for m in heard.clauses[n].labelled("amount")
        if m.quantity and m.quantity.kind in ("amount", "package", "count", "number", "dimension")
        if not set(heard.tokens[max(heard.clauses[n].start, m.start - 3) : m.start]) & wordlist("yield_verbs")
    ]
    amounts = with_units(heard, amounts, foods)
    return foods, amounts, bind(heard, amounts, foods)


_RUN_BEFORE, _RUN_AFTER = 4, 4  # clauses: an amount told between two additions of one step is one too


def _narrated(heard: Heard, events: list[Event]) -> list[Event]:
    """The events with amounts that are only stated, in the middle of adding, taken for additions.

    "Stir in the cumin, honey one tablespoon, garlic three cloves grated, and a squeeze of lemon goes in".
    """
    added: set[str] = set()
    result = []
    for event in events:
        told = event.kind == "have" and event.amounts and not (event.whole or event.corrects or event.key in added)
        if told and event.reason != "memory" and (_amid_adding(event, events) or _tells_no_setting_out(heard, event)):
            event = replace(event, kind="add", stated=True)
        if event.kind == "add":
            added.add(event.key)
        result.append(event)
    return result


def _tells_no_setting_out(heard: Heard, event: Event) -> bool:
    """True where the cooking is under way and nothing says that the food is only shown: "a teaspoon of pepper"."""
    clause = heard.clauses[event.clause]
    return event.step > 0 and not phrases("setting_out").search(" ".join(heard.tokens[clause.start : clause.end]))


def _amid_adding(event: Event, events: Sequence[Event]) -> bool:
    others = [
        other.clause - event.clause
        for other in events
        if other.kind == "add" and other.key != event.key and other.step == event.step and not other.by_pronoun
    ]
    return any(-_RUN_BEFORE <= place <= 0 for place in others) and any(0 < place <= _RUN_AFTER for place in others)


def _measured_in(heard: Heard, food: Mention, bound: Mapping[int, Sequence[Binding]]) -> str:
    """The intent of the clause that gives a food an amount that a stranger can measure (not "a whole mess of"), or ""."""
    if not any(one.amount.quantity and rank(one.amount.quantity) for one in bound.get(food.start, ())):
        return ""
    return max((clause for clause in heard.clauses if clause.start <= food.start), key=lambda clause: clause.start).intent


def _identifies(heard: Heard, event: Event, before: Event) -> bool:
    """True for "these are the little navy beans", which says of the food just named what it is."""
    start = max(heard.clauses[event.clause].start, event.mention.start - 5)
    words = " ".join(heard.tokens[start : event.mention.start])
    one, two = event.name.food, before.name.food
    related = one is None or two is None or one.category == two.category
    told = before.kind == "have" or two is None
    same = bool(event.amounts and before.amounts) and agree(event.amounts[0], before.amounts[0])
    near = event.clause - before.clause <= 1 + same and event.key != before.key
    near = near and (told or same) and (same or not event.amounts)
    said = phrases("identity").search(words) is not None or _apposed(heard, event, before)
    return (near and related and said) or _said_fuller(event, before)


def _said_fuller(event: Event, before: Event) -> bool:
    """True for "the rice three cups i got three cups basmati": the fuller name with the same amount again."""
    a, b = event.amounts[:1], before.amounts[:1]
    same = bool(a and b) and agree(a[0], b[0]) and a[0].unit == b[0].unit != ""
    return same and event.clause == before.clause and event.key != before.key and _general(before.name, event.name)


def _general(one: Named, other: Named) -> bool:
    categories = collective_of(one.said)
    return same_food(one.said, other.key) or bool(other.food and other.food.category in categories)


def _identified(events: list[Event], event: Event) -> tuple[list[Event], Event]:
    """The events with the two names of one food made one: the name that a table knows, else the first."""
    before = events[-1]
    if before.name.food is not None and not _general(before.name, event.name):
        return events, replace(event, key=before.key, kind="refer", name=before.name, amounts=())
    renamed = [replace(e, key=event.key, name=event.name) if e.key == before.key else e for e in events]
    return renamed, replace(event, kind="refer", amounts=())


def _apposed(heard: Heard, event: Event, before: Event) -> bool:
    """True for "potatoes three pounds the russets": only the amount and an article stand between."""
    amounts = {token for amount in before.amounts for token in range(amount.start, amount.end)}
    between = range(before.mention.end, event.mention.start)
    words = [heard.tokens[token] for token in between if token not in amounts]
    return bool(amounts & set(between)) and words == ["the"] and event.name.food is not None


def _one_of(heard: Heard, food: Mention) -> tuple[Quantity, ...]:
    """The count of "one of the onions", which the grammar leaves alone for it may be no count."""
    before = heard.tokens[max(0, food.start - 3) : food.start]
    if len(before) == 3 and before[0] == "one" and before[1] == "of":
        start = food.start - 3
        return (Quantity("count", start, start + 1, 1.0, 1.0, "", False, "one"),)
    return ()


def _with_articles(heard: Heard, events: list[Event]) -> list[Event]:
    """The events, "an onion" with its count where nothing else says how much of that food there is."""
    measured = {event.key for event in events if event.amounts or event.fraction}
    result = []
    for event in events:
        if event.key not in measured and event.kind in ("add", "have", "prepare") and not event.by_pronoun:
            if one := _an(heard, event.mention):
                event = replace(event, amounts=one)
                measured.add(event.key)
        result.append(event)
    return result


def _an(heard: Heard, food: Mention) -> tuple[Quantity, ...]:
    """The count of "an onion" and "a big bay leaf": one whole thing of a kind that is counted."""
    known, last = food_named(food.text), heard.tokens[food.end - 1]
    counted = known is not None and (food_categories()[known.category] or known.each or last == "leaf")
    if known is None or not counted or known.category == "fresh herb" and last != "leaf" or singular(last) != last:
        return ()
    start = food.start
    while start > food.start - 3 and start and heard.tokens[start - 1] in _DESCRIBING:
        start -= 1
    if start == 0 or heard.tokens[start - 1] not in ("a", "an") or known.dish_like or known.usual_unit in _AMOUNTS:
        return ()
    return (Quantity("count", start - 1, start, 1.0, 1.0, "", False, heard.tokens[start - 1]),)


_DESCRIBING = frozenset({"big", "large", "small", "medium", "little", "whole", "nice", "good", "fresh", "ripe", "single"})
_AMOUNTS = frozenset({"cup", "tablespoon", "teaspoon", "ounce", "gram", "pound", "can", "package"})


def is_denied(heard: Heard, food: Mention) -> bool:
    """True for "plain, not vanilla", a food named right after a word that says no, and for "like a custard"."""
    before = heard.tokens[max(0, food.start - 2) : food.start]
    denied = bool(before) and (
        before[-1] in wordlist("negating") or (before[-1] in ("the", "any") and before[0] == "not")
    )
    return denied or is_likened(heard, food)


def is_kind_of(heard: Heard, clause: Clause, food: Mention) -> bool:
    """True for "tortillas are the little corn ones" and "juice from actual oranges", which tell of a food named before."""
    earlier = [other for other in clause.labelled("food") if other.end <= food.start]
    if not earlier:
        return False
    counts = any(amount.start == food.end and amount.end > food.end + 1 for amount in clause.labelled("amount"))
    pointed = bool(set(heard.tokens[max(earlier[-1].end, food.start - 3) : food.start]) & _POINTING)
    described = pointed and not counts and heard.tokens[food.end : food.end + 1] in _KINDS
    before = heard.tokens[earlier[-1].end : food.start]
    return described or (before[:1] == ("from",) and len(before) <= 3 and "can" not in before)


def _is_content(heard: Heard, clause: Clause, food: Mention) -> bool:
    """True for "it's got cardamom and fenugreek in it", which tells what something bought is made of."""
    words = " ".join(heard.tokens[clause.start : clause.end])
    before = " ".join(heard.tokens[clause.start : food.start])
    return clause.intent == "states" and _HOLDING.search(before) is not None and _IN_IT.search(words) is not None


_HOLDING = re.compile(r"\b(?:it's got|it has|has got|they've got|they have|comes with)\b")
_IN_IT = re.compile(r"\bin (?:it|them|there)(?: (?:already|too|as well))?$")

_POINTING = frozenset({"the", "a", "an", "this", "that", "these", "those", "just"})
_KINDS = (("one",), ("ones",), ("kind",), ("type",))


def is_likened(heard: Heard, food: Mention) -> bool:
    """True for "like a custard", a food that only says how something looks."""
    start = max(clause.start for clause in heard.clauses if clause.start <= food.start)
    return _LIKENED.search(" ".join(heard.tokens[max(start, food.start - 5) : food.start])) is not None


_LIKENED = re.compile(r"(?:^|(?<!would)(?<!you)(?<!'d)(?<!they)(?<!we)(?<!\bi) )like an?(?: \w+)?$")
"""Before a food that only says how something looks: "thick like a loose porridge"; not "i like a carrot in it"."""


def _definite(heard: Heard, food: Mention) -> bool:
    """True where the words of the food's own phrase point back: "half of the", "your last two tablespoons of"."""
    start = max(clause.start for clause in heard.clauses if clause.start <= food.start)
    near = [place for place in range(max(start, food.start - 6), food.start + 1)]
    opened = max((place for place in near[:-1] if heard.tokens[place] in _OPENING), default=start - 1)
    return any(heard.tokens[place] in wordlist("definite") for place in near if place >= opened)


_OPENING = frozenset({"a", "an", "and", "some", "with", "plus"})
"""Words at which a phrase that names a food starts anew."""


def _destination(heard: Heard, clause: Clause, event: Event, events: Sequence[Event]) -> bool:
    """True for "the onion goes into that same oil" and "over the peaches": where something goes that is in already."""
    before = list(heard.tokens[max(clause.start, event.mention.start - 4) : event.mention.start])
    while before and before[-1] in wordlist("determiners") | {"same", "the", "hot", "melted"}:
        before.pop()
    into = bool(before) and before[-1] in _INTO
    others = any(food.start != event.mention.start for food in clause.labelled("food"))
    known = any(other.key == event.key and other.kind == "add" for other in events)
    return into and known and (others or "same" in heard.tokens[clause.start : event.mention.start])


def _washes(heard: Heard, clause: Clause, event: Event) -> bool:
    """True for "drop them in boiling water" and "under cold water": water that no dish is made of."""
    food = event.name.food
    if food is None or food.category != "water":
        return False
    before = heard.tokens[max(clause.start, event.mention.start - 3) : event.mention.start]
    after = heard.tokens[event.mention.end : event.mention.end + 1]
    salted = {"salt", "salted"} & set(heard.tokens[clause.start : clause.end])
    return not salted and (bool(set(before) & _BATH) or after in _GONE_WATER)


def _taken_out(heard: Heard, clause: Clause, event: Event) -> bool:
    """True for "pour out the grease" and "fish the bay leaf out", which take a food away."""
    before = " ".join(heard.tokens[max(clause.start, event.mention.start - 5) : event.mention.start])
    around = f"{before} _ {' '.join(heard.tokens[event.mention.end : min(clause.end, event.mention.end + 1)])}"
    return _OUT.search(around) is not None


_OUT = re.compile(
    r"\b(?:pour|drain|tip|fish|take|lift|scoop|pick|strain|throw|dump|spoon|skim|pull)(?:s|ed|ing)?"
    r"(?: (?:out|off|away)(?: (?!in|into)\w+){0,3} _| (?:the|that|this|those|these|my|your|it)(?: \w+){0,2} _ (?:out|off|away)\b)"
)

_BATH = frozenset({"in", "under", "into", "from", "through"})
_GONE_WATER = (("off",), ("out",), ("away",), ("already",), ("is",), ("run",), ("runs",), ("comes",), ("come",))

_INTO = frozenset({"in", "into", "over", "on", "onto", "across", "around", "onto", "among"})
"""Words after which a food is where something goes."""


def _portion(heard: Heard, food: Mention) -> bool:
    """True for "two sausages each", which tells how to share out what is cooked."""
    return bool(set(heard.tokens[food.end : food.end + 2]) & {"each", "apiece"})


def _kind(
    clause: Clause, food: Mention, verbs: Sequence[tuple[Mention, Action | None]], previous_adds: bool, measured: bool
) -> str:
    if clause.intent == "states":
        told_in = measured and any(a and a.adds and not a.ambiguous for _, a in verbs)
        return "add" if told_in else "have"
    if not verbs:
        return "add" if previous_adds or clause.labelled("amount") else "prepare"
    before = [verb for verb in verbs if verb[0].start < food.start]
    _, action = before[-1] if before else verbs[0]
    if action is None or action.adds:
        return "add"
    if action.kind in PREPARING:
        later = [a for _, a in verbs if a and a.adds]
        return "add" if later else "prepare"
    taken_out = action.verb.split()[-1] in ("out", "off", "away", "aside")
    return "refer" if action.kind in REFERRING and (taken_out or not measured) else "add"


def _flagged(event: Event, heard: Heard, clause: Clause) -> Event:
    """The event with what the words around it say: more, the rest, half of it, altogether."""
    start = max(clause.start, event.mention.start - 6)
    before = heard.tokens[start : event.mention.start]
    near = before[-3:]
    words = " ".join(heard.tokens[clause.start : clause.end])
    whole = phrases("whole").search(words) is not None
    fraction = None
    for mention in clause.mentions:
        quantity = mention.quantity
        if not quantity or quantity.kind != "fraction":
            continue
        follows = quantity.start >= event.mention.end and not any(
            event.mention.end <= food.start < quantity.start for food in clause.labelled("food")
        )
        beside = 0 <= quantity.start - event.mention.end <= 1
        if -1 <= event.mention.start - quantity.end <= 3 or (follows and (event.amounts or beside)):
            fraction = quantity.low
    sizes = [
        m.quantity
        for m in clause.labelled("size")
        if m.quantity and dimension(m.quantity.unit) in ("mass", "volume") and abs(m.start - event.mention.end) <= 10
    ]
    rest = any(word in wordlist("rest") for word in before) or bool(
        re.search(
            r"\bother(?: half| part| bit| third| cup| one| two)?\b(?: of)?(?: the| them| those| that| your| my)*$",
            " ".join(before),
        )
    )
    return replace(
        event,
        kind="add" if rest and event.kind == "refer" else event.kind,
        more=any(word in wordlist("more") for word in near),
        another="another" in near,
        rest=rest,
        last_of="last" in near and "of" in near and not event.amounts,
        corrects=bool(set(heard.tokens[clause.start : clause.start + 4]) & wordlist("correcting")),
        step=sum(other.new_step for other in heard.clauses[: event.clause + 1]),
        size=sizes[0] if sizes else _size_after(heard, event.clause),
        whole=whole and clause.intent == "states" and event.mention.start == _last_measured(clause, event),
        part_of=re.search(r"\bof (?:the|those|these|that|my|your|our)(?: \w+)?$", " ".join(before)) is not None,
        fraction=fraction,
    )


def _last_measured(clause: Clause, event: Event) -> int:
    """The last mention of the event's food in the clause, which a total that is said there is of."""
    name = event.mention.text
    return max((food.start for food in clause.labelled("food") if food.text == name), default=event.mention.start)


_RECALLED_WITHIN = 3  # clauses in which a bare amount can still mean the food named last


def _recalled(
    heard: Heard, number: int, events: Sequence[Event], loose: Mapping[int, Quantity], names: Mapping[int, Named]
) -> Event | None:
    """A statement that gives only an amount, of the food named last: "no sorry, this one is two pounds".

    That food may be named by an announcement: "next is the chorizo", "i have half a pound".
    """
    clause = heard.clauses[number]
    amounts = [m for m in clause.labelled("amount") if m.start in loose and loose[m.start].unit]
    if len(amounts) == 2 and restated(loose[amounts[0].start], loose[amounts[1].start]):
        amounts = amounts[:1]
    before = next((event for event in reversed(events) if not event.by_pronoun), None)
    turned = _turned_to(heard, number, before.clause if before else -1, events, names)
    before = turned or before
    if clause.intent != "states" or len(amounts) != 1 or before is None or number - before.clause > _RECALLED_WITHIN:
        return None
    words = [word for word in heard.tokens[clause.start : amounts[0].start] if word not in wordlist("openers")]
    if words and not set(words) & wordlist("recalling"):
        return None
    between = set(heard.tokens[heard.clauses[before.clause].end : amounts[0].start])
    return replace(
        before,
        kind="have",
        clause=number,
        amounts=(loose[amounts[0].start],),
        reason="memory",
        corrects=bool(between & wordlist("correcting")),
        more=False,
        rest=False,
        whole=False,
        fraction=None,
    )


def _turned_to(
    heard: Heard, number: int, after: int, events: Sequence[Event], names: Mapping[int, Named]
) -> Event | None:
    """The one food that an announcement just before names, later than the clause `after`."""
    for place in range(number - 1, max(after, number - 1 - _RECALLED_WITHIN), -1):
        clause = heard.clauses[place]
        foods = clause.labelled("food")
        if clause.intent == "announce" and len(foods) == 1 and clause.end - clause.start <= _TURN:
            name = names[foods[0].start]
            known = [e for e in events if e.name.key == name.key or same_food(name.said, e.name.said)]
            key = known[-1].key if known else name.key
            return Event("have", place, foods[0], name, key, (), "memory")
        if foods or clause.intent in ("alternative", "not-done"):
            return None
    return None


_TURN = 8  # words of an announcement that only turns to a food


def _size_after(heard: Heard, number: int) -> Quantity | None:
    """The package size that the next clause gives without naming a food: "that's a fourteen ounce can"."""
    for clause in heard.clauses[number + 1 : number + 2]:
        if clause.intent == "states" and not clause.labelled("food"):
            for mention in clause.labelled("size"):
                if mention.quantity and dimension(mention.quantity.unit) in ("mass", "volume"):
                    return mention.quantity
    return None


def _joined(heard: Heard, amounts: tuple[Quantity, ...]) -> tuple[Quantity, ...]:
    """What several amounts of one mention come to: "a cup plus a tablespoon more", "six grams, about two teaspoons".

    A whole that is then shared out ("three, two for the pot and one for the top") counts, its shares don't; of a mass
    and a volume the mass counts, as cooks weigh what they want exact (common practice). Any others stay apart.
    """
    if len(amounts) > 2 and shares_of(amounts):
        return amounts[:1]
    if len(amounts) != 2:
        return amounts
    first, second = amounts
    between = heard.tokens[first.end : second.start]
    after = set(heard.tokens[second.end : second.end + 2])
    total = summed([first, second]) if "plus" in between or ("and" in between and "more" in after) else None
    if total:
        return (total,)
    if heard.tokens[second.end : second.end + 1] == ("for",) and first.unit == second.unit and first.low > second.low:
        return (first,)  # "three, two for the pot …"
    masses = [amount for amount in amounts if dimension(amount.unit) == "mass"]
    if corrects(between) or len(masses) != 1 or dimension((second if masses[0] is first else first).unit) != "volume":
        return amounts
    return tuple(masses)


def shares_of(amounts: Sequence[Quantity]) -> tuple[Quantity, ...]:
    """The shares into which the first amount is told to go: three, of which two and one; empty where they don't add up."""
    whole, *parts = amounts
    shares = [replace(part, unit=part.unit or whole.unit, kind=whole.kind) for part in parts]
    total = summed(shares) if shares else None
    return tuple(shares) if total and len(shares) > 1 and agree(total, whole) else ()


def _by_pronoun(heard: Heard, number: int, events: Sequence[Event], loose: Mapping[int, Quantity]) -> list[Event]:
    """Additions by "those go in" or "everything goes in": the foods set out and not yet in.

    "everything" takes all that waits; "it" and "those" take what was named in the clauses just before, with the
    amount said beside the pronoun (`loose`: amounts without a food, by first token).
    """
    clause = heard.clauses[number]
    verbs = actions_of(clause)
    words = heard.tokens[clause.start : clause.end]
    text = " ".join(words)
    everything = phrases("everything").search(text)
    adds = any(action is None or action.adds for _, action in verbs)
    cooks = any(action and action.kind in COOKED for _, action in verbs)
    if not (adds or cooks) or (not everything and not set(words) & wordlist("pronoun")):
        return []
    moved = adds and clause.labelled("appliance") and not everything
    added = {event.key for event in events if event.kind == "add"}
    waiting = [event for event in events if event.key not in added and event.kind in ("have", "prepare")]
    if not everything or not adds:
        reach = 1 if moved else 2 if not adds else 3
        waiting = [event for event in waiting if number - event.clause <= reach]
        if waiting and not set(words) & {"those", "these", "them", "they", "both"}:
            waiting = waiting[-1:]
    latest = {event.key: event for event in waiting}
    said = tuple(loose[m.start] for m in clause.labelled("amount") if m.start in loose)
    return [
        replace(
            event,
            kind="add",
            clause=number,
            amounts=said if len(latest) == 1 else (),
            reason="pronoun",
            by_pronoun=True,
        )
        for event in latest.values()
    ]


def _singled(events: list[Event]) -> list[Event]:
    """The events with collective names ("the vegetables") resolved to the members that are named as well.

    A collective that goes in takes along the members that wait; one that is measured is a food of its own.
    """
    known = {event.key: event for event in events}
    kept: list[Event] = []
    for event in events:
        categories = collective_of(event.name.said)
        measured = any(e.amounts for e in events if e.key == event.key)
        if not categories or event.key != event.name.key or measured:
            kept.append(event)
            continue
        members = {
            key: other
            for key, other in known.items()
            if key != event.key and other.name.food and other.name.food.category in categories
        }
        if not members:
            if event.kind != "refer":
                kept.append(event)
        elif len(members) == 1:
            (other,) = members.values()
            kept.append(replace(event, key=other.key, name=other.name))
        elif event.kind == "add":
            added = {e.key for e in kept if e.kind == "add"}
            waiting = {e.key: e for e in kept if e.key in members and e.key not in added}
            kept += [replace(event, key=e.key, name=e.name, by_pronoun=True) for e in waiting.values()]
    return kept
