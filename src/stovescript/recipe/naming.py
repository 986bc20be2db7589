"""Which food a mention names: by table, by the other names in the talk, and by sound where captions mis-heard."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from rapidfuzz import process

from stovescript.kitchen.collectives import collectives, stands_alone
from stovescript.kitchen.foods import Food, food_forms, food_named
from stovescript.kitchen.homophones import homophones
from stovescript.kitchen.preparations import preparation as state_of
from stovescript.kitchen.sounds import alike, sound
from stovescript.kitchen.words import wordlist
from stovescript.speech.heard import Heard, Mention
from stovescript.speech.words import singular

_IN_TALK = 67.0  # how alike a mis-heard name must be to one that the talk itself makes likely
_NEARLY = 82.0  # and where the name by itself could stand for a food ("evaporator milk")
_TALK_FIRST = 4.0  # how much a name of the talk goes before one of the table
_IN_TABLE = 82.0  # and to one that only the table knows


@dataclass(frozen=True, slots=True)
class Named:
    """A food as named: `key` is the same for every way of naming it; `said` is the name to print."""

    key: str
    said: str
    food: Food | None
    preparation: tuple[str, ...] = ()
    misheard: bool = False


@lru_cache(maxsize=4096)
def name_food(text: str) -> Named:
    """The food that a mention's words name; words that only describe its state come back as preparation."""
    words = [word.strip('.,!?;:"') for word in text.lower().split()]
    words = [word for place, word in enumerate(words) if word and words[place - 1 : place] != [word]]
    while len(words) > 1 and words[0] in wordlist("determiners") and not food_named(" ".join(words)):
        words.pop(0)
    if len(words) > 1 and words[-1] in wordlist("shapes") and not food_named(" ".join(words)):
        words.pop()  # "tortilla strips"
    said = " ".join(words)
    preparation: list[str] = []
    rest = words
    if said in homophones():
        said = homophones()[said]
        rest = said.split()
    while rest:
        phrase = " ".join(rest)
        if food := food_named(phrase) or food_named(phrase.replace("'s", "")):
            name = food.name if phrase in food.misheard else phrase
            return Named(food.name, name, food, tuple(preparation), phrase in food.misheard)
        size = 2 if len(rest) > 2 and state_of(" ".join(rest[:2])) else 1
        if len(rest) <= size or not (state := state_of(" ".join(rest[:size]), rest[size])):
            break
        if state.place == "preparation" and state.written:
            preparation.append(state.written)
        rest = rest[size:]
    head = (food_named(" ".join(words[-2:])) or food_named(words[-1])) if words else None
    return Named(" ".join(map(singular, words)), said, head, tuple(preparation))


def same_food(general: str, specific: str) -> bool:
    """True where `general` is a shorter way of saying `specific`: the beans, the white beans.

    Either its words end the longer name, or both are of one category and its words stand in it ("the
    chicken" for the chicken thighs, never for the chicken stock).
    """
    short = [singular(word) for word in general.split()]
    long = [singular(word) for word in specific.split()]
    if len(short) >= len(long) or not set(short) <= set(long):
        return False
    a, b = food_named(general), name_food(specific).food
    related = a is None or b is None or _kin(a.category) == _kin(b.category) or a.dish_like or _covers(general, b)
    if short[-1] == long[-1]:
        return related
    return bool(a and b and related and a.category in BY_CUT)


BY_CUT = frozenset({"poultry", "red meat", "ground meat", "cured meat", "game", "fish", "shellfish", "offal"})
"""Foods named by the animal for short: the chicken, for the chicken thighs."""

_FAMILIES = (
    {"vegetable", "root vegetable", "pulse", "canned vegetable", "leafy green", "chili pepper"},
    {"flour", "grain", "starch"},
    {"red meat", "ground meat", "cured meat", "poultry", "game", "offal"},
)


def _kin(category: str) -> str:
    """The category, or the first of its family: split peas are peas, pork shoulder is pork."""
    return next((min(family) for family in _FAMILIES if category in family), category)


def _covers(general: str, food: Food) -> bool:
    return food.category in collective_of(general)


@cache
def collective_of(name: str) -> frozenset[str]:
    """The food categories that a collective name ("the vegetables", "the spices") may stand for; else empty."""
    words = " ".join(map(singular, name.split()))
    return collectives().get(words) or collectives().get(name) or frozenset()


def names_in(heard: Heard) -> dict[int, Named]:
    """The food named at each food mention, by the mention's first token.

    A name that the table does not know, or knows only as an everyday word, is compared with the names that
    this talk uses, then with the table's; what sounds alike is taken for a mis-hearing of it.
    """
    mentions = [mention for clause in heard.clauses for mention in clause.labelled("food")]
    plainly = {mention.start: name_food(mention.text) for mention in mentions}
    counts = Counter(named.said for named in plainly.values())
    known = {n.said: n for n in plainly.values() if _sure(n)}
    repeated = {n.said: n for n in plainly.values() if counts[n.said] > 1 and n.said not in known}
    likely = {**repeated, **known}
    likely |= {name.split()[-1]: n for name, n in likely.items() if " " in name and not food_named(name.split()[-1])}
    repaired: dict[str, Named] = {}
    for said in counts:
        named = name_food(said)
        if fuller := _fuller(said, mentions, plainly, known):
            repaired[said] = fuller
        elif said not in known:
            others = {name: n for name, n in likely.items() if n.said != said and singular(name) != singular(said)}
            repaired[said] = _by_sound(named, others, counts, explained=_explained(named, likely))
    return {start: repaired.get(named.said, named) for start, named in plainly.items()}


def _fuller(
    said: str, mentions: Sequence[Mention], plainly: Mapping[int, Named], known: Mapping[str, Named]
) -> Named | None:
    """The talk's own food of two words that a two-word mention sounds like, of which one word alone names another."""
    texts = {m.text.lower() for m in mentions if plainly[m.start].said == said}
    whole = [text for text in texts if text != said and len(text.split()) == 2 and not food_named(text)]
    if len(texts) != 1 or not whole:
        return None
    first = whole[0].split()[0]
    others = [name for name in known if name.split()[0] == first and len(name.split()) == 2]
    likeness, best = max(((alike(whole[0], name), name) for name in others), default=(0.0, ""))
    return replace(known[best], misheard=True) if likeness >= _NEARLY else None


def _sure(named: Named) -> bool:
    return named.food is not None and named.key == named.food.name


def _explained(named: Named, known: Mapping[str, Named]) -> bool:
    """True for a name that ends in a known food ("baby turnip greens") or that shortens one of the talk's."""
    if named.food is not None and not _is_everyday(named.said.split()[-1]):
        return True
    return bool(collective_of(named.said)) or any(same_food(named.said, other) for other in known)


def _is_everyday(word: str) -> bool:
    food = food_named(word)
    return food is None or food.ambiguous


def _by_sound(named: Named, known: Mapping[str, Named], counts: Counter[str], explained: bool) -> Named:
    """The food that a name was mis-heard from: one of the talk's if alike enough, else one of the table's."""
    if len(named.said) < 3 or (explained and " " not in named.said):
        return named
    score, best = max(((alike(named.said, other), other) for other in known), default=(0.0, ""))
    in_table, form = max(
        (
            (alike(named.said, candidate), candidate)
            for key, _, _ in process.extract(sound(named.said), _form_sounds(), limit=25)
            for candidate in _forms_by_sound()[key]
        ),
        default=(0.0, ""),
    )
    in_table *= counts[named.said] <= 2
    if score >= (_NEARLY if explained else _IN_TALK) and score + _TALK_FIRST >= in_table:
        other = known[best]
        return Named(other.key, other.said, other.food, named.preparation, misheard=True)
    if not explained and (abbreviated := [other for other in known if other.startswith(named.said)]):
        other = known[abbreviated[0]]
        return Named(other.key, other.said, other.food, named.preparation)
    if in_table >= _IN_TABLE + 10 * (explained and not _strange(named.said)):
        food = food_named(form)
        said = food.name if food and form in food.misheard else form
        return Named(food.name if food else form, said, food, named.preparation, misheard=True)
    return named


def _strange(name: str) -> bool:
    """True where a word before a known head tells nothing of a food: "road oats", never "red oats"."""
    return any(
        word not in _known_words() and not state_of(word) and word not in wordlist("colors") | wordlist("determiners")
        for word in name.split()[:-1]
    )


@cache
def _known_words() -> frozenset[str]:
    return frozenset(word for form in food_forms() for word in form.split())


@cache
def _forms_by_sound() -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for form in food_forms():
        found.setdefault(sound(form), []).append(form)
    return found


@cache
def _form_sounds() -> list[str]:
    return list(_forms_by_sound())


def gather(mentions: Iterable[tuple[Named, str, bool]]) -> list[str]:
    """The key of the food that each mention stands for.

    `mentions` are (name, intent of the clause that measures it or "", is definite: "the", "my", "that"), in order.
    A general name stands for the specific one that it abbreviates, by preference one already named; but a name that is
    measured and not definite, beside a specific one of the table that is measured too, is a food of its own
    (white sugar beside brown sugar).
    """
    listed = list(mentions)
    measured = Counter(name.key for name, amount, _ in listed if amount)
    added = {name.key for name, amount, _ in listed if amount == "does"}
    fullest: dict[str, str] = {}
    for name, _, _ in listed:
        if len(name.said) > len(fullest.get(name.key, "")):
            fullest[name.key] = name.said
    specific = {
        key: [other for other in fullest if other != key and same_food(fullest[key], fullest[other])]
        for key in fullest
    }
    first = {name.key: place for place, (name, _, _) in reversed(list(enumerate(listed)))}
    before = {
        name.key
        for place, (name, amount, _) in enumerate(listed)
        if amount and specific[name.key] and not collective_of(name.said)
        if all(first[other] > place and measured[other] for other in specific[name.key])
    }
    own = before | {
        name.key
        for name, amount, definite in listed
        if amount and not definite and all(measured[other] for other in specific[name.key])
        if amount == "states" or added.issuperset(specific[name.key])
        if not collective_of(name.said) or stands_alone(name.said)
    }
    keys: list[str] = []
    last_seen: dict[str, int] = {}
    for number, (name, _, _) in enumerate(listed):
        key = name.key
        if specific[key] and key not in own:
            key = max(specific[key], key=lambda k: (k in last_seen, measured[k] > 0, last_seen.get(k, -1)))
            while specific[key] and key not in own:
                key = max(specific[key], key=lambda k: (k in last_seen, measured[k] > 0))
        last_seen[key] = number
        keys.append(key)
    return keys
