"""The guided round of open questions in the terminal: each with the words heard around it, the most serious first."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from stovescript.answers.answers_file import Answers, AnswersChanged, put, read_answers
from stovescript.answers.apply import Outcome, answered
from stovescript.answers.beside import DraftFiles, save_round
from stovescript.answers.entry import Entry
from stovescript.answers.heard_file import HeardTalk
from stovescript.answers.reply import answer_to, example
from stovescript.answers.said import NotUnderstood
from stovescript.answers.suggest import default, suggestion
from stovescript.recipe.draft import Draft, Evidence, Gap
from stovescript.talk.clock import clock_of

AROUND = 4.0
"""Seconds of the talk that are shown before and after the words that a question is about."""
_LETTERS = "abcdefgh"
_HOW = (
    "Type an answer or the letter of one; Enter takes the one in [brackets], without one it skips.\n"
    "skip: leave it for later · back: the question before · stop: end the round · "
    "not needed: REASON · leave out"
)

Ask = Callable[[str], str | None]
"""Shows a prompt and gives the line typed; None at the end of input."""


@dataclass(slots=True)
class Round:
    """A round as it goes on: the answers kept so far, the questions skipped, and those asked, to go back to."""

    files: DraftFiles
    heard: HeardTalk
    answers: Answers
    tell: Callable[[str], None]
    skipped: set[str] = field(default_factory=set)
    asked: list[tuple[Gap, str]] = field(default_factory=list)
    given: set[str] = field(default_factory=set)

    def run(self, ask: Ask) -> None:
        """Asks until no question is left, or until she stops. Every answer is on disk before the next question."""
        draft = self.outcome().draft
        self.tell(_HOW)
        back: tuple[Gap, str] | None = None
        while True:
            queue = [gap for gap in draft.gaps if gap.id not in self.skipped]
            if back is None and not queue:
                return
            gap, before = back or (queue[0], "")
            back = None
            self.tell("\n" + "\n".join(self._shown(gap, draft, len(queue))))
            reply = self._reply(gap, draft, before, ask)
            if reply is None:
                return
            if reply == "back":
                back = self.asked.pop() if self.asked else None
                if back is None:
                    self.tell("This is the first question.")
                else:
                    self.skipped.discard(back[0].id)
                continue
            if isinstance(reply, str):
                self.skipped.add(gap.id)
                self.asked.append((gap, ""))
                continue
            draft = self._keep(reply)
            self.asked.append((gap, reply.reason or reply.text))
            self.skipped.discard(gap.id)

    def outcome(self) -> Outcome:
        """The draft with the answers kept so far."""
        return answered(self.heard.draft, self.answers.entries)

    def _keep(self, entry: Entry) -> Draft:
        """Saves one answer; where the file was changed meanwhile, to what is in it now."""
        while True:
            try:
                answers = put(self.answers, entry, self.heard.draft)
                self.answers, made = save_round(self.files, self.heard, answers)
                break
            except AnswersChanged:
                self.answers = read_answers(self.files.answers)
        self.given.add(entry.of.id if entry.of else "")
        return made.draft

    def _tried(self, entry: Entry) -> Entry:
        """The entry, when the draft can take it. Raises NotUnderstood."""
        for one in answered(self.heard.draft, put(self.answers, entry, self.heard.draft).entries).unplaced:
            if one.entry.of and entry.of and one.entry.of.id == entry.of.id:
                raise NotUnderstood(one.why)
        return entry

    def _reply(self, gap: Gap, draft: Draft, before: str, ask: Ask) -> Entry | str | None:
        """An entry, "skip" or "back"; None to stop. What can't be understood is asked again with an example."""
        offered = suggestion(gap, draft)
        standing = before or default(gap, draft)
        if len(offered) > 1:
            self.tell("   " + "   ".join(f"{letter}) {text}" for letter, text in zip(_LETTERS, offered, strict=False)))
        prompt = f"   [{standing}] > " if standing else f"   ({example(gap)}) > "
        while True:
            line = ask(prompt)
            if line is None or line.strip().lower() == "stop":
                return None
            words = line.strip()
            if words.lower() in ("skip", "back") or not (words or standing):
                return words.lower() or "skip"
            if words == "?":
                self.tell(_HOW)
                continue
            if len(offered) > 1 and words.lower() in _LETTERS[: len(offered)]:
                words = offered[_LETTERS.index(words.lower())]
            try:
                return self._tried(answer_to(gap, words or standing or "", draft))
            except NotUnderstood as reason:
                self.tell(f"   {reason}.")

    def _shown(self, gap: Gap, draft: Draft, left: int) -> Iterator[str]:
        """The question under the words that were said around it."""
        yield f"{gap.severity} · {left} left"
        for evidence in _places(gap.evidence):
            yield f"   {clock_of(evidence.start):>7}  {' / '.join(self._around(evidence))}"
        yield f"   {gap.question}"
        if gap.kind in ("unused", "order"):
            yield from (f"     {number:>2}. {_short(step.text)}" for number, step in enumerate(draft.steps, 1))

    def _around(self, evidence: Evidence) -> Iterator[str]:
        for clause in self.heard.clauses:
            if clause.end > evidence.start - AROUND and clause.start < evidence.end + AROUND:
                own = clause.start < evidence.end and clause.end > evidence.start
                yield f"“{clause.text}”" if own else clause.text


def left_text(draft: Draft) -> str:
    """How many questions are left: "2 must, 1 should"."""
    counts = [(name, sum(gap.severity == name for gap in draft.gaps)) for name in ("must", "should", "could")]
    return ", ".join(f"{count} {name}" for name, count in counts if count) or "none"


def _places(evidence: list[Evidence]) -> list[Evidence]:
    """The first place, and others that are too far from it to be shown with it; three at most."""
    places: list[Evidence] = []
    for one in evidence:
        if all(one.start > other.end + AROUND or one.end < other.start - AROUND for other in places):
            places.append(one)
    return places[:3]


def _short(text: str, most: int = 70) -> str:
    return text if len(text) <= most else text[: most - 1].rsplit(" ", 1)[0] + " …"
