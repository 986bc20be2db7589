"""What the post says, in the order in which a stranger cooks from it, as plain text for every form."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from stovescript.kitchen.foods import food_named
from stovescript.kitchen.words import phrases
from stovescript.pages.caption_amounts import in_digits
from stovescript.pages.cautioned import Placed, placed_cautions
from stovescript.pages.forms import Publication
from stovescript.pages.ingredient_lines import Component, components, measured
from stovescript.pages.method_lines import MethodStep, method, step_at
from stovescript.pages.servings import yield_text
from stovescript.pages.time_account import TimeAccount, time_account
from stovescript.pages.voice import as_meant, cleaned, sentence_case
from stovescript.recipe.draft import Draft, Equipment, Gap, Note
from stovescript.talk.clock import clock_of

_SAME_BREATH = 1.5
"""Seconds between two notes that are told as one."""


@dataclass(frozen=True, slots=True)
class Said:
    """One statement; `at` are the seconds at which it was heard, `step` the number of the step it was said in."""

    text: str
    at: tuple[float, ...] = ()
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Question:
    """One open question; `severity` must, should or could."""

    text: str
    severity: str
    at: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Post:
    """The whole post. An empty text or tuple is left out of the page."""

    title: str
    headnote: str
    makes: str
    time: TimeAccount | None
    allergens: str
    cautions: tuple[str, ...]
    components: tuple[Component, ...]
    equipment: tuple[Said, ...]
    method: tuple[MethodStep, ...]
    substitutions: tuple[Said, ...]
    other_ways: tuple[Said, ...]
    tips: tuple[Said, ...]
    keeping: tuple[Said, ...]
    promised: tuple[Said, ...]
    questions: tuple[Question, ...]

    def amounts(self) -> dict[str, str]:
        """Every text that changes with the size or the units, by its place in the page."""
        return _places(self.makes, self.components, self.equipment, self.method, self.substitutions)

    @property
    def must_answer(self) -> tuple[Question, ...]:
        """The questions that make the page a draft."""
        return tuple(question for question in self.questions if question.severity == "must")

    @property
    def draft_mark(self) -> str:
        """What the page says on top while it is a draft; "" where it may be published."""
        if not self.must_answer:
            return ""
        many = len(self.must_answer)
        return f"Draft, not to be published: {many} {'question is' if many == 1 else 'questions are'} still open."


def post_of(publication: Publication) -> Post:
    """The post of a publication."""
    draft = publication.draft
    keeping, tips = _parted(draft)
    tips = _joined(tips)
    placed = placed_cautions(draft, " ".join(note.text for note in keeping))
    return Post(
        title=sentence_case(draft.title or "Untitled dish"),
        headnote=cleaned(draft.summary or ""),
        makes=_makes(draft),
        time=time_account(draft),
        allergens=_allergens(draft),
        cautions=placed.before,
        components=components(draft),
        equipment=_equipment(draft.equipment),
        method=method(draft, placed.by_step),
        substitutions=_substitutions(draft),
        other_ways=tuple(_said(draft, note) for note in draft.variations),
        tips=tuple(_tip(draft, note) for note in tips),
        keeping=_keeping(draft, keeping, placed),
        promised=_promised(draft),
        questions=tuple(_question(gap) for gap in draft.gaps),
    )


def amounts_of(draft: Draft) -> dict[str, str]:
    """The same places as `Post.amounts` of a draft in another size or system."""
    return _places(
        _makes(draft), components(draft), _equipment(draft.equipment), method(draft, {}), _substitutions(draft)
    )


def _places(
    makes: str,
    parts: Iterable[Component],
    equipment: Iterable[Said],
    steps: Iterable[MethodStep],
    substitutions: Iterable[Said],
) -> dict[str, str]:
    places = {"makes": makes}
    for line in (line for part in parts for line in part.lines):
        places |= {f"{line.id}-amount": line.amount, f"{line.id}-food": line.food, f"{line.id}-divided": line.divided}
    for step in steps:
        places |= {f"{step.id}-text": step.text, f"{step.id}-heat": step.heat}
    places |= {f"equipment-{number}": said.text for number, said in enumerate(equipment, 1)}
    places |= {f"instead-{number}": said.text for number, said in enumerate(substitutions, 1)}
    return places


def _makes(draft: Draft) -> str:
    """ "Serves 4", "Makes 12 to 14 cookies"; "" where it isn't known."""
    if draft.servings is None:
        return ""
    text = yield_text(draft.servings)
    about = "about " if draft.servings.approximate else ""
    if draft.servings.unit in ("", "serving"):
        return f"Serves {about}{text.rpartition(' ')[0]}"
    return f"Makes {about}{text}"


def _allergens(draft: Draft) -> str:
    """The line that names the allergens of the foods that go in, and those that a substitution would bring."""
    own = _listed(draft, optional=False)
    maybe = [each for each in _listed(draft, optional=True) if each not in own]
    others = (food_named(other.name) for ingredient in draft.ingredients for other in ingredient.alternatives)
    swapped = dict.fromkeys(a for food in others if food for a in food.allergens_us)
    parts = [f"Contains {_and(own)}" if own else "No major allergen is known in the ingredients"]
    if maybe:
        parts.append(f"with the optional ingredients also {_and(maybe)}")
    if brought := [each for each in swapped if each not in {*own, *maybe}]:
        parts.append(f"with a substitution perhaps {_and(brought)}")
    return "; ".join(parts) + ". Read the label of everything you buy."


def _listed(draft: Draft, *, optional: bool) -> list[str]:
    every = (a for each in draft.ingredients if each.optional == optional for a in each.allergens)
    return list(dict.fromkeys(every))


def _equipment(equipment: list[Equipment]) -> tuple[Said, ...]:
    """Each thing once: a plain "pan" goes where there is a "sheet pan"."""
    names = [each.name.lower() for each in equipment]
    found: dict[str, Said] = {}
    for each in equipment:
        longer = any(name.endswith(f" {each.name.lower()}") for name in names)
        if not longer or each.size:
            text = ", ".join(filter(None, (sentence_case(each.name), in_digits(each.size or ""))))
            found.setdefault(text, Said(text, tuple(e.start for e in each.evidence)))
    return tuple(found.values())


def _substitutions(draft: Draft) -> tuple[Said, ...]:
    found = []
    for ingredient in draft.ingredients:
        for other in ingredient.alternatives:
            amount = measured(other.amount, ingredient.package) if other.amount else ""
            note = "" if other.amount and other.note == "same amount" else (other.note or "")
            text = f"Instead of {ingredient.name}: {' '.join(filter(None, (amount, other.name)))}"
            at = tuple(e.start for e in other.evidence)
            found.append(Said(f"{text}{', ' if note else ''}{note}.", at))
    return tuple(found)


def _parted(draft: Draft) -> tuple[list[Note], list[Note]]:
    """The tips that are about making ahead and storing, and the others."""
    storing = [note for note in draft.tips if phrases("storing").search(note.text.lower())]
    return storing, [note for note in draft.tips if note not in storing]


def _joined(notes: list[Note]) -> list[Note]:
    """Notes said in one breath as one: "there shouldn't be any pink" and "if there is, it goes back"."""
    if not notes:
        return []
    made = [notes[0]]
    for before, note in pairwise(notes):
        near = before.evidence and note.evidence and note.evidence[0].start - before.evidence[-1].end < _SAME_BREATH
        if near and note.evidence[0].start >= before.evidence[-1].end:
            text = f"{cleaned(made[-1].text)} {cleaned(note.text)}"
            made[-1] = made[-1].model_copy(update={"text": text, "evidence": [*made[-1].evidence, *note.evidence]})
        else:
            made.append(note)
    return made


def _said(draft: Draft, note: Note) -> Said:
    at = tuple(e.start for e in note.evidence)
    text = cleaned(as_meant(note.text, note.evidence, draft.mishearings))
    return Said(text, at)


def _tip(draft: Draft, note: Note) -> Said:
    """A tip with the step it was told at, for "it" means little without."""
    said = _said(draft, note)
    return replace(said, step=step_at(draft, said.at[0]) if said.at else None)


def _keeping(draft: Draft, notes: list[Note], placed: Placed) -> tuple[Said, ...]:
    told = [_said(draft, note) for note in notes]
    known = {second for note in told for second in note.at}
    for each in draft.times.stated:
        words = " ".join(e.text for e in each.evidence)
        if each.what == "keeping" and phrases("storing").search(words.lower()) and each.evidence[0].start not in known:
            told.append(Said(cleaned(words), tuple(e.start for e in each.evidence)))
    cautions = [Said(f"Caution: {text}") for text in placed.keeping]
    return (*told, *cautions)


def _promised(draft: Draft) -> tuple[Said, ...]:
    """What viewers were promised and she has since answered; what is still open is asked, not printed."""
    return tuple(
        Said(note.fulfilled_by.strip(), tuple(e.start for e in note.evidence))
        for note in draft.promises
        if note.fulfilled_by and note.fulfilled_by.strip()
    )


def _question(gap: Gap) -> Question:
    return Question(gap.question, gap.severity, tuple(e.start for e in gap.evidence[:1]))


def heard(at: tuple[float, ...]) -> str:
    """ "heard at 1:02, 3:15"; "" where nothing was."""
    return "heard at " + ", ".join(dict.fromkeys(map(clock_of, at))) if at else ""


def _and(items: list[str]) -> str:
    *most, last = items
    return f"{', '.join(most)} and {last}" if most else last
