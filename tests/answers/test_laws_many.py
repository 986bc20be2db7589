"""What holds for any sequence of edits."""

import tomllib
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stovescript.answers import (
    Answers,
    Entry,
    answered,
    entries_of,
    put,
    read_answers,
    ref_of,
    remove,
    save_answers,
)
from stovescript.recipe.draft import Draft
from tests.answers.kitchen import soup
from tests.pages.demo import demo_draft

WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1, max_size=25).filter(
    str.strip
)
AMOUNTS = st.sampled_from(["1 1/2 cups", "2 15-ounce cans", "a pinch", "to taste", "100 g", "3", "a glug", ""])
TIMES = st.sampled_from(["25-30 minutes", "1 hour 15 minutes", "45 seconds"])

Pick = Callable[[str], st.SearchStrategy[str]]


def edits(draft: Draft) -> st.SearchStrategy[Entry]:
    """Any correction or answer that the draft takes."""

    def one(do: str, ids: list[str], to: st.SearchStrategy[str | bool | tuple[str, ...]]) -> st.SearchStrategy[Entry]:
        return st.builds(lambda id_, text: Entry(do, ref_of(draft, id_), text), st.sampled_from(ids), to)

    foods, steps = [i.id for i in draft.ingredients], [s.id for s in draft.steps]
    uses = [use.id for i in draft.ingredients for use in i.uses]
    where = st.sampled_from(steps).map(lambda id_: ref_of(draft, id_))
    nothing = st.just("")
    choices = [
        one("rename", foods, WORDS),
        one("amount", uses, AMOUNTS),
        one("preparation", foods, st.lists(WORDS, max_size=2).map(tuple)),
        one("optional", foods, st.booleans()),
        one("component", foods, WORDS),
        one("split", [*foods, *uses], WORDS),
        one("drop", [*foods, *uses, *steps, *(t.id for t in draft.tips)], nothing),
        one("words", [*steps, *(t.id for t in draft.tips), *(p.id for p in draft.promises)], WORDS),
        one("until", steps, WORDS),
        one("time", steps, TIMES),
        one("temperature", steps, st.sampled_from(["350 F", "180 C", "gas mark 4", ""])),
        one("level", steps, st.sampled_from(["low", "medium-high", ""])),
        one("dismiss", [g.id for g in draft.gaps], nothing),
        one("answer", [g.id for g in draft.gaps], st.sampled_from(["leave out", "not needed"])),
        one("fulfil", [p.id for p in draft.promises], WORDS),
        st.builds(lambda id_, at: Entry("goes in", ref_of(draft, id_), where=at), st.sampled_from(uses), where),
        st.builds(lambda id_, at: Entry("move", ref_of(draft, id_), where=at), st.sampled_from(steps),
                  st.none() | where),
        st.builds(lambda id_, at: Entry("merge", ref_of(draft, id_), where=at), st.sampled_from(steps), where),
        st.builds(lambda id_, at: Entry("merge", ref_of(draft, id_), where=ref_of(draft, at)),
                  st.sampled_from(foods), st.sampled_from(foods)),
        st.builds(lambda id_, to, at: Entry("add use", ref_of(draft, id_), to, at), st.sampled_from(foods), AMOUNTS,
                  where),
        st.builds(lambda to, at: Entry("add ingredient", to=to, where=at, amount="1 cup"), WORDS, where),
        st.builds(lambda to, at: Entry("add step", to=to, where=at), WORDS, where),
        st.builds(lambda to: Entry("title", to=to), WORDS),
        st.builds(lambda to: Entry("cook time", to=to), TIMES),
        st.builds(lambda to: Entry("servings", to=to), st.sampled_from(["6", "24 cookies", "4 to 6 people"])),
    ]  # fmt: skip
    return st.one_of(choices)


SLOW = settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@SLOW
@given(st.lists(edits(soup()), max_size=8))
def test_edits_saved_and_read_again_give_the_same_draft(sequence: list[Entry]) -> None:
    draft, answers = soup(), Answers()
    with TemporaryDirectory() as folder:
        file = Path(folder) / "soup.answers.toml"
        for entry in sequence:
            answers = save_answers(file, put(answers, entry, draft))
        again = read_answers(file) if sequence else answers
    assert again.entries == answers.entries
    assert answered(draft, again.entries) == answered(draft, answers.entries)


@SLOW
@given(st.lists(edits(soup()), max_size=8))
def test_every_draft_with_answers_is_a_draft(sequence: list[Entry]) -> None:
    """Ids are unique, steps and ingredients refer to what is there, and the contract's types hold."""
    answers = Answers()
    for entry in sequence:
        answers = put(answers, entry, soup())
    made = answered(soup(), answers.entries).draft
    assert Draft.model_validate(made.model_dump()) == made
    steps, foods = [s.id for s in made.steps], [i.id for i in made.ingredients]
    uses = [use for i in made.ingredients for use in i.uses]
    for ids in (steps, foods, [u.id for u in uses], [g.id for g in made.gaps]):
        assert len(set(ids)) == len(ids)
    assert {use.step for use in uses} - {None} <= set(steps)
    assert {id_ for step in made.steps for id_ in step.ingredients} <= set(foods)
    assert {gap.ingredient for gap in made.gaps} - {None} <= set(foods)
    assert {gap.step for gap in made.gaps} - {None} <= set(steps)


@SLOW
@given(st.lists(edits(soup()), max_size=6))
def test_a_file_written_is_toml_and_says_the_same(sequence: list[Entry]) -> None:
    """TOML 1.0 as Python's own tomllib reads it."""
    answers = Answers()
    for entry in sequence:
        answers = put(answers, entry, soup())
    assert len(tomllib.loads(answers.text).get("entry", [])) == len(answers.entries)
    assert entries_of(answers.text) == answers.entries


@SLOW
@given(st.lists(edits(soup()), min_size=1, max_size=6), st.data())
def test_an_entry_taken_back_leaves_the_others(sequence: list[Entry], data: st.DataObject) -> None:
    answers = Answers()
    for entry in sequence:
        answers = put(answers, entry, soup())
    gone = data.draw(st.integers(0, len(answers.entries) - 1))
    rest = [entry for n, entry in enumerate(answers.entries) if n != gone]
    assert list(remove(answers, answers.entries[gone]).entries) in (rest, _first_removed(answers, gone))


def _first_removed(answers: Answers, gone: int) -> list[Entry]:
    """Of two equal entries the first is taken."""
    first = answers.entries.index(answers.entries[gone])
    return [entry for n, entry in enumerate(answers.entries) if n != first]


INDEPENDENT = [
    ("answer", "no_servings", "6"),
    ("answer", "no_size", "14.5 ounces"),
    ("answer", "temperature_unit", "yes"),
    ("answer", "conflict", "2 teaspoons"),
    ("answer", "total_mismatch", "4 cups, then 2 cups"),
    ("answer", "no_release", "natural for 10 minutes"),
    ("answer", "unused", "leave out"),
    ("answer", "unmeasured", "to taste"),
    ("answer", "promise", "https://soup.example/leftovers"),
]


@SLOW
@given(st.permutations(INDEPENDENT))
def test_the_order_of_answers_about_different_things_does_not_matter(order: list[tuple[str, str, str]]) -> None:
    """On the demo talk, all its questions of a kind by one answer."""
    draft = demo_draft()

    def made(answers: list[tuple[str, str, str]]) -> object:
        entries = [
            Entry(do, ref_of(draft, gap.id), text)
            for do, kind, text in answers
            for gap in draft.gaps
            if gap.kind == kind
        ]
        return answered(draft, entries)

    assert made(order) == made(INDEPENDENT)


@SLOW
@given(st.lists(edits(soup()), max_size=6))
def test_applying_twice_is_applying_once(sequence: list[Entry]) -> None:
    """The same entries to the same draft as heard: nothing is left over from the run before."""
    draft = soup()
    answers = Answers()
    for entry in sequence:
        answers = put(answers, entry, draft)
    first = answered(draft, answers.entries)
    assert answered(draft, answers.entries) == first and draft == soup()
