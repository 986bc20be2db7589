"""What an explanation says: clauses as heard and what became of what they name; plain data, times in seconds."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Vote:
    """An intent and the share of the model's votes that it has in a clause."""

    intent: str
    share: float


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the trigger table whose phrase stands in the clause, and the words there that it acts on.

    `scope` counts words; None reaches to the end of the clause.
    """

    phrase: str
    category: str
    direction: str
    scope: int | None
    acts_on: str


@dataclass(frozen=True, slots=True)
class Labelled:
    """A stretch of words with its label, and what it is taken for ("" where that is the words themselves)."""

    label: str
    said: str
    value: str


@dataclass(frozen=True, slots=True)
class Measuring:
    """An amount and the food that it measures (None: no food), with the reason."""

    amount: str
    food: str | None
    reason: str


@dataclass(frozen=True, slots=True)
class Repair:
    """A mis-heard name, what it is taken for, and how alike they are, 0 to 100 (None: a row of a table says so)."""

    heard: str
    meant: str
    likeness: int | None


@dataclass(frozen=True, slots=True)
class FoodHere:
    """One naming of a food and what became of it; `named_at` is where a pronoun's food was named, in seconds.

    `ingredient` and `use` are ids of the draft, None where it is no ingredient or nothing was taken from here.
    """

    said: str
    name: str
    amounts: tuple[str, ...]
    ingredient: str | None
    use: str | None
    what: str
    named_at: float | None = None


@dataclass(frozen=True, slots=True)
class Taken:
    """A part of the draft that rests on this clause: a setting, a note, a stated time, equipment, or a question."""

    kind: str
    id: str
    step: str | None
    text: str


@dataclass(frozen=True, slots=True)
class ClauseHere:
    """One clause as heard; times in seconds. `overruled` says why the intent is not the one with most votes."""

    start: float
    end: float
    text: str
    intent: str
    overruled: str
    step: str | None
    new_step: bool
    votes: tuple[Vote, ...]
    rows: tuple[Row, ...]
    spans: tuple[Labelled, ...]
    amounts: tuple[Measuring, ...]
    repairs: tuple[Repair, ...]
    foods: tuple[FoodHere, ...]
    taken: tuple[Taken, ...]
    questions: tuple[Taken, ...]


@dataclass(frozen=True, slots=True)
class UseHere:
    """One use of an ingredient, its amount in words ("" where none was heard), and where the amount comes from."""

    id: str
    step: str | None
    amount: str
    amount_from: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one food is in the draft: an ingredient with its uses, or why it is none."""

    name: str
    ingredient: str | None
    uses: tuple[UseHere, ...]
    why: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Explanation:
    """The clauses between two seconds, or those that tell of one food (`about`) with what it is in the draft."""

    file: str
    start: float
    end: float
    about: str | None
    verdicts: tuple[Verdict, ...]
    clauses: tuple[ClauseHere, ...]
