"""What was heard: the talk cut into clauses, each with its intent and the things it mentions."""

from dataclasses import dataclass, field

from stovescript.measure import Quantity
from stovescript.talk import Talk


@dataclass(frozen=True, slots=True)
class Mention:
    """A labelled stretch of words, tokens [start, end) of the talk."""

    label: str
    start: int
    end: int
    text: str
    quantity: Quantity | None = None  # for amount, size, temp and time


@dataclass(frozen=True, slots=True)
class Clause:
    """One action or statement, tokens [start, end) of the talk."""

    start: int
    end: int
    intent: str
    new_sentence: bool
    new_step: bool
    mentions: tuple[Mention, ...] = ()
    votes: tuple[tuple[str, float], ...] = field(default=(), compare=False)  # intent and its probability

    def labelled(self, label: str) -> list[Mention]:
        """The mentions of this clause with that label, in order."""
        return [mention for mention in self.mentions if mention.label == label]


@dataclass(frozen=True, slots=True)
class Heard:
    """A talk with its clauses. `tokens` are the talk's words in lower case without edge punctuation."""

    talk: Talk
    tokens: tuple[str, ...]
    clauses: tuple[Clause, ...]
    quantities: tuple[Quantity, ...]

    def text(self, start: int, end: int) -> str:
        """The words [start, end) as they stand in the captions."""
        return " ".join(word.text for word in self.talk.words[start:end])
