"""An explanation as plain text, line by line, each with the style it has on a terminal."""

from collections.abc import Iterator

from stovescript.explanation import ClauseHere, Explanation, FoodHere, Verdict
from stovescript.speech.words import singular
from stovescript.talk.clock import clock_of

_NO_INTENT = ("filler", "refer")  # categories of trigger rows that say nothing of how a clause is meant
_FEWEST = 0.05  # share of the votes from which an intent is shown
_STYLES = {"food": "green", "not taken": "yellow", "question": "red", "phrase": "dim", "heard": "dim"}

Line = tuple[str, str]
"""A style of a terminal ("bold", "" for none) and a line of text."""


def explanation_lines(told: Explanation) -> Iterator[Line]:
    """The lines of the page."""
    if told.about is None:
        yield "bold", f"{told.file}, {clock_of(told.start)} to {clock_of(told.end)}"
    else:
        yield "bold", f"“{told.about}” in {told.file}: heard in {_times(len(told.clauses), 'clause')}"
    for verdict in told.verdicts:
        yield "", ""
        yield from _verdict(verdict)
    if not told.clauses:
        yield "", "Nothing was said there."
    for clause in told.clauses:
        yield "", ""
        yield from _clause(clause, whole=told.about is None)


def _times(count: int, what: str) -> str:
    return f"1 {what}" if count == 1 else f"{count} {what}s"


def _verdict(verdict: Verdict) -> Iterator[Line]:
    if verdict.ingredient is None:
        yield "bold", f"{verdict.name} is not an ingredient: {'; '.join(verdict.why)}"
        return
    yield "bold", f"{verdict.name} is ingredient {verdict.ingredient}, with {_times(len(verdict.uses), 'use')}"
    for use in verdict.uses:
        step = f"in step {use.step}" if use.step else "in no step"
        amount = f"{use.amount} ({use.amount_from})" if use.amount else use.amount_from
        yield "green", _row("use", f"{use.id} {step}: {amount}")
    for why in verdict.why:
        yield "", _row("also", why)


def _clause(clause: ClauseHere, whole: bool) -> Iterator[Line]:
    yield "bold cyan", f"{clock_of(clause.start)}  “{clause.text}”"
    for label, text in _rows(clause, whole):
        yield _STYLES.get(label, ""), _row(label, text)


def _row(label: str, text: str) -> str:
    return f"    {label:<10} {text}"


def _rows(clause: ClauseHere, whole: bool) -> Iterator[tuple[str, str]]:
    yield "taken for", _intent(clause)
    for row in clause.rows if whole else ():
        if row.category in _NO_INTENT:
            continue
        reach = "itself" if row.scope == 0 else "its clause" if row.scope is None else _times(row.scope, "word")
        acts = f": “{row.acts_on}”" if row.acts_on and row.scope != 0 else ""
        yield "phrase", f"“{row.phrase}” says {row.category}, {row.direction}, on {reach}{acts}"
    for span in clause.spans if whole else ():
        same = span.value in ("", span.said.lower())
        yield "heard", f"{span.label} “{span.said}”" + ("" if same else f" = {span.value}")
    for repair in clause.repairs:
        how = "a known mis-hearing" if repair.likeness is None else f"{repair.likeness} of 100 alike"
        yield "mis-heard", f"“{repair.heard}” is {repair.meant} ({how})"
    for amount in clause.amounts:
        yield (
            "amount",
            f"{amount.amount} of {amount.food}: {amount.reason}"
            if amount.food
            else (f"{amount.amount} of no food: {amount.reason}"),
        )
    for food in clause.foods:
        yield ("food" if food.use else "not taken"), _food(food)
    for taken in clause.taken if whole else ():
        place = " ".join(filter(None, (taken.id, f"in step {taken.step}" if taken.step else "")))
        yield taken.kind, f"{place}: {taken.text}" if place else taken.text
    for gap in clause.questions:
        yield "question", f"{gap.kind}: {gap.text} [{gap.id}]"


def _intent(clause: ClauseHere) -> str:
    shown = [vote for vote in clause.votes if vote.share >= _FEWEST]
    votes = ", ".join(f"{vote.intent} {vote.share:.2f}" for vote in shown)
    parts = [clause.intent + (f" (votes: {votes})" if votes else "")]
    if clause.overruled:
        parts.append(clause.overruled)
    if clause.step:
        parts.append(f"{'begins' if clause.new_step else 'in'} step {clause.step}")
    return "; ".join(parts)


def _food(food: FoodHere) -> str:
    amounts = f", {' and '.join(food.amounts)}" if food.amounts else ""
    meant = "" if food.named_at is None else f" (meant here; named at {clock_of(food.named_at)})"
    place = f" → {food.use or food.ingredient}" if food.ingredient else ""
    said = f" (said as “{food.said}”)" if not meant and singular(food.said.lower()) != singular(food.name) else ""
    return f"{food.name}{said}{meant}{place}{amounts}: {food.what}"
