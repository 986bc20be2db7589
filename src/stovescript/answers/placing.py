"""Finds what an entry is about in a draft: by its id while that still fits, else by its name and its evidence."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from rapidfuzz import fuzz

from stovescript.answers.entry import Entry
from stovescript.answers.parts import ARISEN, FOLLOWS, Ref, numbered, refs_of
from stovescript.answers.remembered import remembered
from stovescript.recipe.draft import Draft, Evidence
from stovescript.speech.words import singular

_ALIKE = 0.6  # share of the words kept beside an id that evidence must still have
_SAME_TEXT = 0.85  # likeness of a step's or note's own words where no evidence was kept
_NAME = 0.6  # likeness of spelling from which a name is another hearing of the same
_SHORT = 12  # letters from which words found inside longer ones count
_CLOSE = 20.0  # seconds
_NAMED = frozenset({"ingredient", "use", "alternative", "equipment", "gap"})


class Places:
    """The parts of a draft as heard, as entries refer to them."""

    def __init__(self, heard: Draft, entries: Iterable[Entry]) -> None:
        self._refs, self._texts = _index(numbered(heard))
        self._added = {entry.new for entry in entries if entry.new}
        self._found: dict[Ref, str | None] = {}

    def id_of(self, ref: Ref) -> str | None:
        """The id that the part has now; None where the draft as heard has no such part any more.

        The id of something that an entry adds, or that no part as heard has, is given back as it is.
        """
        if ref not in self._found:
            self._found[ref] = self._find(ref)
        return self._found[ref]

    def known(self, entry: Entry) -> bool:
        """True where the part is found, or the entry is about the whole draft."""
        return entry.of is None or self.id_of(entry.of) is not None

    def brought_up(self, entry: Entry) -> Entry:
        """The entry with the ids that its parts have now; one whose part is not found stays as it is."""
        of, where = (ref and self._now(ref) for ref in (entry.of, entry.where))
        return entry if (of, where) == (entry.of, entry.where) else replace(entry, of=of, where=where)

    def _now(self, ref: Ref) -> Ref:
        id_ = self.id_of(ref)
        return ref if id_ is None or id_ == ref.id else replace(ref, id=id_)

    def _find(self, ref: Ref) -> str | None:
        if ref.id.split(".")[0] in self._added:
            return ref.id
        if ref.kind == "gap" and ref.id.endswith(FOLLOWS):
            first = self._find(replace(ref, id=ref.id.removesuffix(FOLLOWS)))
            return first and f"{first}{FOLLOWS}"
        if ref.kind == "gap" and ref.id.rsplit("-", 1)[-1].startswith(ARISEN):
            return ref.id
        same = self._refs.get(ref.id)
        if same is not None and same.kind == ref.kind and (_just(ref, same) or not (ref.about or ref.heard)):
            return ref.id
        if same is None and not ref.heard and ref.kind not in ("gap", "ingredient"):
            return ref.id
        best, found = 0.0, None
        for candidate in self._refs.values():
            if candidate.kind == ref.kind and (score := self._score(ref, candidate)) > best:
                best, found = score, candidate.id
        if found is None and same is None:
            return ref.id
        return found

    def _score(self, ref: Ref, candidate: Ref) -> float:
        """How surely a part is the one meant; 0 where it is not."""
        if ref.kind == "gap" and ref.id.rsplit("-", 1)[0] != candidate.id.rsplit("-", 1)[0]:
            return 0.0
        words = max((_alike(ref.heard, text) for text in self._texts.get(candidate.id, ())), default=0.0)
        nearness = (
            0.2 if ref.at is not None and candidate.at is not None and abs(ref.at - candidate.at) < _CLOSE else 0
        )
        score = words + nearness + (0.3 if ref.id == candidate.id else 0.0)
        if ref.kind in _NAMED:
            name = _named_alike(ref.about, candidate.about)
            several = ref.kind == "use" and ref.id != candidate.id
            if not name or (several and words < _ALIKE):
                return 0.0
            return score + 2 * name if words >= _ALIKE or name == 1.0 or not ref.heard else 0.0
        if ref.heard and words < _ALIKE:
            return 0.0
        if not ref.heard and _alike(ref.about, candidate.about) < _SAME_TEXT:
            return 0.0
        first = 0.2 if _alike(ref.heard, candidate.heard) >= _ALIKE else 0.0
        return score + first


def _just(ref: Ref, candidate: Ref) -> bool:
    """True where the part still has the name and the words, so that nothing has to be looked for."""
    named = ref.kind not in _NAMED or ref.about.lower() == candidate.about.lower()
    return named and ref.heard == candidate.heard and bool(ref.heard or ref.about)


def _alike(kept: str, text: str) -> float:
    """The share in which kept words are in a text that may go on."""
    a, b = kept.lower(), text.lower()
    if not a or not b:
        return 0.0
    whole = fuzz.ratio(a, b)
    return (max(whole, fuzz.partial_ratio(a, b)) if min(len(a), len(b)) >= _SHORT else whole) / 100


def _named_alike(a: str, b: str) -> float:
    """1 for the same name, less for one that shares its last word or its sound, 0 for another."""
    one, two = ([singular(word) for word in name.lower().split()] for name in (a, b))
    if one == two or not one:
        return 1.0
    if one and two and (one[-1] == two[-1] or set(one) <= set(two) or set(two) <= set(one)):
        return 0.8
    likeness = fuzz.ratio(" ".join(one), " ".join(two)) / 100
    return likeness * 0.7 if likeness >= _NAME else 0.0


def _texts(draft: Draft) -> dict[str, list[str]]:
    """Id → everything that was said of the part."""
    found: dict[str, Sequence[Evidence]] = {gap.id: gap.evidence for gap in draft.gaps}
    for ingredient in draft.ingredients:
        found[ingredient.id] = [evidence for use in ingredient.uses for evidence in use.evidence]
        found |= {use.id: use.evidence for use in ingredient.uses}
        found |= {other.id: other.evidence for other in ingredient.alternatives}
    for step in draft.steps:
        found[step.id] = step.evidence
        found |= {setting.id: setting.evidence for setting in step.settings}
    found |= {note.id: note.evidence for note in (*draft.tips, *draft.variations, *draft.promises)}
    found |= {item.id: item.evidence for item in draft.equipment}
    return {id_: [one.text for one in evidence] for id_, evidence in found.items()}


@remembered
def _index(heard: Draft) -> tuple[dict[str, Ref], dict[str, list[str]]]:
    """Every part by its id, and the words that tell of each."""
    return refs_of(heard), _texts(heard)
