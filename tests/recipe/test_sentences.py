"""The sentences of the method: imperative, neutral, and true to what was heard in each clause (common practice)."""

import pytest

from tests.accuracy.sentences import PERSONS, Figures, is_imperative, measure, open_talks, sentences

from .talking import drafted, heard


def text_of(talk: str) -> str:
    """The text of the one step of a talk."""
    (step,) = drafted(talk).steps
    return step.text


@pytest.mark.parametrize(
    ("clause", "written"),
    [
        ("does| the {food:broth} {action:goes in} {amount:four cups}", "Add 4 cups of broth."),
        ("does| {food:eggs} {amount:two} of them {action:crack} them in", "Crack in 2 eggs."),
        ("does| then {food:salt} {amount:a teaspoon} and {action:stir} it", "Add 1 teaspoon of salt. Stir it."),
        (
            "does| {food:garlic} {amount:six cloves} no you know what {amount:eight cloves} i {action:press} it in",
            "Press in 8 cloves of garlic.",
        ),
        (
            "does| the {food:cashews} {action:go} in a {vessel:bowl}\n+does| {amount:two cups} {prep:raw}",
            "Put the cashews in a bowl (2 cups raw).",
        ),
        (
            "does| {action:add} {amount:half a cup} of {food:oil}\ndoes| no i only do {amount:a third of a cup}",
            "Add 1/3 cup of oil.",
        ),
        (
            "does| {action:rub} them with {amount:a tablespoon} of {food:oil} {amount:one tablespoon} total",
            "Rub them with 1 tablespoon of oil.",
        ),
        (
            "does| and the rest of my {food:broth} this is {amount:one cup} {action:goes in}",
            "Add the rest of the broth (1 cup).",
        ),
    ],
)
def test_an_amount_said_after_its_food_goes_before_it(clause: str, written: str) -> None:
    assert text_of(clause) == written


@pytest.mark.parametrize(
    ("clause", "written"),
    [
        (
            "does| those {action:go on} a {vessel:cheat pan} this is my {size:eighteen by thirteen} one",
            "Put those on an 18 by 13 sheet pan.",
        ),
        ("does| {action:line} the {vessel:tin} with paper don't judge me", "Line the tin with paper."),
        ("does| so this is the {food:avocado} {action:dice} that up", "Dice the avocado."),
        (
            "does| {action:grate} your {food:cheese} this is {amount:a cup} of {food:monterey jack}",
            "Grate the cheese, 1 cup of monterey jack.",
        ),
        ("does| {action:slice} them thin i use the wavy knife but that's just for pretty", "Slice them thin."),
        (
            "does| {action:leave} those on the {vessel:pan} they get crunchier when they cool off",
            "Leave those on the pan; they get crunchier when they cool off.",
        ),
    ],
)
def test_remarks_are_left_out_and_what_a_stranger_needs_is_kept(clause: str, written: str) -> None:
    assert text_of(clause) == written


@pytest.mark.parametrize(
    ("clause", "written"),
    [
        ("does| {action:hit} the {program:so tay} button", "Hit the sauté button."),
        ("does| {action:label} it into {vessel:bowls}", "Ladle it into bowls."),
        ("does| {action:drain} them in the {vessel:calendar}", "Drain them in the colander."),
        ("does| {action:pat} it dry with a tower", "Pat it dry with a towel."),
        ("does| {action:dump} the hole thing in", "Add the whole thing."),
        ("does| {food:salt} i just do that by i", "Add salt by eye."),
        ("does| {action:bring} it {cue:to a ball}", "Bring it to a boil."),
    ],
)
def test_misheard_verbs_and_tools_are_put_right(clause: str, written: str) -> None:
    """Common English sound-alikes, each where a verb or a tool must be."""
    assert text_of(clause) == written


def test_an_everyday_word_stays_where_no_tool_must_be() -> None:
    assert text_of("does| {action:put} it on a great big {vessel:plate}") == "Put it on a great big plate."


@pytest.mark.parametrize(
    ("clause", "written"),
    [
        ("does| {action:pull} those {action:out}", "Take those out."),
        (
            "does| {action:take} the {food:chicken} {action:out} onto a {vessel:plate}",
            "Take the chicken out onto a plate.",
        ),
        ("does| {action:whip} the foil off", "Whip the foil off."),
        ("does| {action:throw} the {food:bay leaves} {action:away}", "Discard the bay leaves."),
        ("does| {food:butter} {action:goes in} let it {action:melt}", "Add butter and let it melt."),
        ("does| you've got to let it {action:cool}", "Let it cool."),
        (
            "does| that can {action:sit} there covered for {time:half an hour}",
            "Let it stand there covered for 30 minutes.",
        ),
    ],
)
def test_verb_particle_and_object(clause: str, written: str) -> None:
    assert text_of(clause) == written


@pytest.mark.parametrize(
    ("talk", "written"),
    [
        (
            "does| {action:cook} it {cue:until soft} {time:five minutes} on {level:medium}",
            "Cook it on medium for 5 minutes until soft.",
        ),
        ("does| just {action:push} it down so it's under the liquid", "Push it down so it's under the liquid."),
        (
            "does| {action:scrape} the bottom\n+does| after the {food:broth} goes in {cue:till nothing sticks}",
            "Scrape the bottom after the broth goes in until nothing sticks.",
        ),
        (
            "does| when the pin drops {action:open} the lid away from you",
            "When the pin drops, open the lid away.",
        ),
        ("does| {action:stir} it {cue:till you can really smell it}", "Stir it until fragrant."),
        (
            "does| {action:leave} it {time:five minutes} before you lift it out",
            "Leave it 5 minutes before lifting it out.",
        ),
        ("does| {action:bake} it {cue:till it's shiny like a conker}", "Bake it until it's shiny like a conker."),
    ],
)
def test_heat_time_doneness_purpose(talk: str, written: str) -> None:
    assert text_of(talk) == written


@pytest.mark.parametrize("clause", ["does| {action:spread} it don't {action:stir} it", "does| don't {action:stir} it"])
def test_a_prohibition_is_never_turned_round(clause: str) -> None:
    assert "don't stir it" in text_of(clause).lower()


def test_only_a_food_just_measured_stands_for_a_pronoun() -> None:
    """ "It" may be a mixture: the food is named only right after it was measured, where it is cut or washed."""
    assert text_of("states| {amount:two} {food:carrots}\ndoes| {action:grate} them") == "Grate the carrots."
    assert text_of("does| {action:add} {amount:two} {food:eggs}\ndoes| {action:mix} it") == "Add 2 eggs. Mix it."


def test_every_word_of_a_short_talk_is_in_order() -> None:
    """The helper of this file hears what the markup says."""
    assert heard("does| {action:stir} it").tokens == ("stir", "it")


def test_open_talks_read_as_a_method() -> None:
    """Floors a little under what `python -m tests.accuracy.sentences` prints."""
    figures = Figures()
    for stem, talk in open_talks():
        measure(talk, figures, stem)
    assert figures.faults["no imperative"] <= 0.01 * figures.sentences
    assert figures.faults["person"] <= 0.02 * figures.sentences
    assert figures.faults["aside"] <= 0.01 * figures.sentences
    for label, most in (("amount", 0.01), ("time", 0.015), ("temp", 0.0), ("level", 0.01), ("food", 0.015)):
        assert figures.lost[label] <= most * figures.told[label], label


@pytest.mark.parametrize(
    ("sentence", "good"),
    [("Stir it.", True), ("When it boils, add the rice.", True), ("The onion goes in.", False)],
)
def test_the_lint_knows_an_imperative(sentence: str, good: bool) -> None:
    assert is_imperative(sentence) is good


def test_the_lint_knows_persons_and_sentences() -> None:
    assert PERSONS.search("Stir it like I do") and not PERSONS.search("Stir it in the wok")
    assert sentences("Stir it. Add 1.5 cups of milk.") == ["Stir it.", "Add 1.5 cups of milk."]
