"""The unit that follows a number: "two big handfuls", "five or so minutes", "a couple of cloves"."""

from . import following
from .numbers import Number
from .vocabulary import UnitPhrase
from .words import Words

SIZED = frozenset({"volume", "mass"})


def unit_after(words: Words, i: int, number: Number | None) -> tuple[UnitPhrase, int, bool] | None:
    """The unit said at atom i or after modifiers: the way it is said, its end, whether a modifier is loose.

    ``number`` is the number before it; None after "a" or where none is said.
    """
    j = i
    if number is not None and number.kind == "few" and words.atoms[j].text == "of":
        j += 1
    for phrase, end in unit_phrases(words, j):
        if len(phrase.words) > 1 and following.unit_can_stand(words, phrase, j, end, number):
            return phrase, end, False  # "one small spoon", where small is no modifier
    about = words.phrase("approx_after", j)
    j, loose = modifiers(words, about or j)
    if not about:
        about = words.phrase("approx_after", j) if j > i else 0
        j = about or j
    for phrase, end in unit_phrases(words, j):
        if following.unit_can_stand(words, phrase, j, end, number):
            return phrase, end, loose or bool(about)
    return None


def measure_at(words: Words, i: int) -> tuple[UnitPhrase, int] | None:
    """A unit of volume or weight right at atom i, and its end."""
    for phrase, end in unit_phrases(words, i):
        if phrase.unit.dimension in SIZED:
            return phrase, end
    return None


def unit_phrases(words: Words, i: int) -> list[tuple[UnitPhrase, int]]:
    """Every unit that the words at atom i can say, the longest first, each with its end."""
    found = []
    for phrase in words.atoms[i].units:
        end = i + len(phrase.words)
        if len(phrase.words) == 1 or tuple(atom.text for atom in words.atoms[i:end]) == phrase.words:
            found.append((phrase, end))
    return found


def modifiers(words: Words, i: int) -> tuple[int, bool]:
    """Past words such as "heaped", "really big" at atom i; whether one of them makes the amount loose."""
    loose = False
    while True:
        exact, vague = words.phrase("modifier_exact", i), words.phrase("modifier_loose", i)
        if not exact and not vague:
            return i, loose
        loose |= vague > exact
        i = max(exact, vague)
