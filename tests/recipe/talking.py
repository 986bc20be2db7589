"""Short talks for tests: the `.said` clause markup, heard as its author meant it, and drafted.

One clause a line, ``intent @s1| words with {food:spans} marked``, as in the annotated talks: a leading ``+`` goes
on with the sentence of the line before, ``@s1`` starts a step, ``~ 40`` is a silence of 40 seconds. Every word takes
0.4 seconds.
"""

from stovescript.gaps import ask
from stovescript.measure import find_quantities
from stovescript.recipe.assemble import assemble
from stovescript.recipe.draft import Amount, Draft, Ingredient, Setting
from stovescript.speech.heard import Clause, Heard
from stovescript.speech.listen import mentions_in
from stovescript.speech.words import plain
from stovescript.talk import Talk, Word
from stovescript.training.corpus import STEP, marked_lines

SECONDS_A_WORD = 0.4


def heard(text: str) -> Heard:
    """What a perfect language core would hear. Raises ValueError for a line that breaks the markup."""
    words: list[Word] = []
    spans: list[tuple[str, int, int]] = []
    cuts: list[tuple[int, int, str, bool, bool]] = []
    clock = 0.0
    for line in marked_lines(text, "talk"):
        clock += line.pause
        first = len(words)
        for label, piece in line.pieces:
            if label:
                spans.append((label, len(words), len(words) + len(piece)))
            for word in piece:
                words.append(Word(word, clock, clock + SECONDS_A_WORD))
                clock += SECONDS_A_WORD
        if line.pieces:
            new_step = STEP.fullmatch(line.mark or "") is not None
            cuts.append((first, len(words), line.intent, line.new_sentence, new_step))
    tokens = tuple(plain(word.text) for word in words)
    quantities = tuple(find_quantities([word.text for word in words]))
    clauses = tuple(
        Clause(start, end, intent, new_sentence, new_step, mentions_in(start, end, spans, quantities, tokens))
        for start, end, intent, new_sentence, new_step in cuts
    )
    return Heard(Talk("talk.said", "0" * 64, clock, tuple(words), ()), tokens, clauses, quantities)


def drafted(text: str) -> Draft:
    """The draft of a short talk, with its questions."""
    talk = heard(text)
    return ask(assemble(talk), talk)


def ingredient(draft: Draft, name: str) -> Ingredient:
    """The one ingredient of that name; fails where there is none."""
    (found,) = [one for one in draft.ingredients if one.name == name]
    return found


def measured(draft: Draft) -> dict[str, list[str]]:
    """Every ingredient with the amount of each use, in order: ``{"oil": ["1 tablespoon", "?"]}``."""
    return {one.name: [amount_text(use.amount) for use in one.uses] for one in draft.ingredients}


def amount_text(amount: Amount | None) -> str:
    """An amount to compare at a glance: "2-3 cup", "about 0.5 teaspoon", "4" for whole items, "?" for none."""
    if amount is None:
        return "?"
    low, high = f"{amount.low:g}", f"{amount.high:g}"
    about = "about " if amount.approximate else ""
    return f"{about}{low if low == high else f'{low}-{high}'} {amount.unit}".strip()


def steps_of(draft: Draft, name: str) -> list[str | None]:
    """The step of each use of an ingredient."""
    return [use.step for use in ingredient(draft, name).uses]


def settings_of(draft: Draft) -> list[Setting]:
    """Every setting of the method, in order."""
    return [setting for step in draft.steps for setting in step.settings]


def asked(draft: Draft, kind: str) -> list[str]:
    """What the questions of one kind are about."""
    return [gap.about for gap in draft.gaps if gap.kind == kind]
