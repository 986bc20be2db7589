"""The method: what is done, step by step, as plain imperative sentences a stranger can cook from."""

import pytest

from .talking import drafted, heard

FILLERS = {"um", "uh", "gonna", "wanna", "like", "basically", "okay"}


def text_of(clause: str) -> str:
    (step,) = drafted(clause).steps
    return step.text


@pytest.mark.parametrize(
    ("clause", "written"),
    [
        ("does| so you're gonna {action:add} {amount:two cups} of {food:flour}", "Add 2 cups of flour."),
        ("does| i'm just gonna {action:chuck in} {amount:a teaspoon} of {food:cumin}", "Add 1 teaspoon of cumin."),
        ("does| the {food:butter} {action:goes in}", "Add the butter."),
        ("does| {amount:two} {food:eggs} {action:go in}", "Add 2 eggs."),
        ("does| um so you {action:stir} it", "Stir it."),
        ("does| then we're gonna {action:simmer} it for {time:ten minutes}", "Simmer it for 10 minutes."),
        ("does| {action:bake} for {time:25 to 30 minutes}", "Bake for 25 to 30 minutes."),
        ("does| {action:let} it {action:rest} for {time:half an hour}", "Let it rest for 30 minutes."),
        (
            "does| {action:whisk} {amount:a cup and a half} of {food:oats} with {amount:half a cup} of {food:milk}",
            "Whisk 1 1/2 cups of oats with 1/2 cup of milk.",
        ),
        (
            "does| {action:heat} the {appliance:oven} to {temp:four hundred fahrenheit}",
            "Heat the oven to 400 °F.",
        ),
        ("does| {action:set} the {appliance:oven} to {temp:gas mark four}", "Set the oven to gas mark 4."),
    ],
)
def test_spoken_to_written(clause: str, written: str) -> None:
    """The verb leads, in the imperative, with amounts in figures (common practice)."""
    assert text_of(clause) == written


@pytest.mark.parametrize(
    "clause",
    [
        "does| um so like you wanna {action:chop} the {food:onions} okay",
        "does| basically we're gonna {action:fry} the {food:onions} {cue:till they're golden}",
        "does| okay so now um {action:fold in} the {food:blueberries}",
    ],
)
def test_no_fillers_in_print(clause: str) -> None:
    words = text_of(clause).lower().rstrip(".").split()
    assert not FILLERS & set(words)
    assert words[0] in {"chop", "fry", "fold"}


def test_till_is_written_until() -> None:
    (step,) = drafted("does| {action:fry} {amount:two} {food:onions} {cue:till they're golden}").steps
    assert step.text == "Fry 2 onions until they're golden."
    assert step.until == "until they're golden"


def test_a_misheard_food_is_printed_by_its_name() -> None:
    assert text_of("does| {action:stir in} {amount:a teaspoon} of {food:tumeric}") == "Stir in 1 teaspoon of turmeric."


def test_additions_in_a_row_are_one_sentence() -> None:
    text = text_of(
        """does| {action:add} {amount:a cup} of {food:oats}
        does| {action:add} {amount:a cup} of {food:milk}
        does| {action:add} {amount:a pinch} of {food:salt}"""
    )
    assert text.count("Add") == 1 and text.count(".") == 1
    assert text.index("oats") < text.index("milk") < text.index("salt")


TALK = """
announce| today we're making {food:lentil soup}
does @s1| so you {action:add} {amount:a cup} of {food:lentils} to the {vessel:pot}
does| and {action:pour in} {amount:four cups} of {food:stock}
states| it's a big pot
announce| what we're gonna do next is the {food:dressing}
chat| my neighbor has a dog
does @s2| {action:whisk} {amount:a spoonful} of {food:tahini} with {amount:a tablespoon} of {food:lemon juice}
tip| don't let it split
not-done| no {food:bacon}
alternative| or {action:blend} it in the {appliance:blender}
promise| i'll {action:write} it down in the post
"""


def test_only_what_is_done_becomes_a_step() -> None:
    """Announcements, chat, tips, alternatives and promises are none."""
    draft = drafted(TALK)
    assert [step.id for step in draft.steps] == ["s1", "s2"]
    words = " ".join(step.text for step in draft.steps).lower()
    for absent in ("lentil soup", "dressing", "dog", "split", "bacon", "blend", "post"):
        assert absent not in words


def test_a_step_spans_what_is_done_in_it() -> None:
    draft = drafted(TALK)
    first, second = draft.steps
    assert (first.start, first.end) == (first.evidence[0].start, first.evidence[-1].end)
    assert [evidence.text for evidence in first.evidence] == [
        "so you add a cup of lentils to the pot",
        "and pour in four cups of stock",
    ]
    assert first.end <= second.start


def test_a_step_knows_its_ingredients_and_vessels() -> None:
    first, second = drafted(TALK).steps
    assert (first.ingredients, first.equipment) == (["i1", "i2"], ["pot"])
    assert (second.ingredients, second.equipment) == (["i3", "i4"], [])


def test_a_long_silence_starts_a_step() -> None:
    """A cut in the film, or long chopping, parts what is done before from what is done after."""
    talk = """does| {{action:add}} {{amount:a cup}} of {{food:lentils}}
        ~ {seconds}
        does| {{action:pour in}} {{amount:four cups}} of {{food:stock}}"""
    assert len(drafted(talk.format(seconds=5)).steps) == 1
    assert len(drafted(talk.format(seconds=90)).steps) == 2


def test_a_talk_without_doing_has_no_steps() -> None:
    assert drafted("chat| hello everyone\nannounce| today it's {food:lentil soup}").steps == []


@pytest.mark.parametrize(
    ("clause", "until"),
    [
        ("does| {action:bake} it {cue:until a skewer comes out clean}", "until a skewer comes out clean"),
        ("does| {action:cook} it {cue:till it's thick}", "until it's thick"),
        ("does| {action:cook} it for {time:ten minutes}", None),
        ("tip| you want to cook it {cue:until it's thick}\ndoes| {action:cook} it for {time:ten minutes}", None),
    ],
)
def test_until(clause: str, until: str | None) -> None:
    assert drafted(clause).steps[0].until == until


def test_two_cues_of_one_step_are_both_kept() -> None:
    (step,) = drafted("does| {action:fry} it {cue:until brown}\ndoes| {action:stew} it {cue:until tender}").steps
    assert step.until == "until brown; until tender"


@pytest.mark.parametrize(
    ("clause", "equipment"),
    [
        (
            "does| {action:pour} it into a {size:nine by thirteen} {vessel:baking dish}",
            {"baking dish": "nine by thirteen"},
        ),
        (
            "states| my {vessel:baking dish} is {size:nine by thirteen}\n"
            "does| {action:grease} the {vessel:baking dish}",
            {"baking dish": "nine by thirteen"},
        ),
        ("does| {action:stir} it in the {vessel:bowl} with a {vessel:whisk}", {"bowl": None, "whisk": None}),
        ("chat| my grandmother had a {vessel:wok}\ndoes| {action:stir} it in a {vessel:bowl}", {"bowl": None}),
        ("does| {action:put} it in the {appliance:air fryer}", {"air fryer": None}),
    ],
)
def test_equipment(clause: str, equipment: dict[str, str | None]) -> None:
    assert {one.name: one.size for one in drafted(clause).equipment} == equipment


def test_the_words_of_the_markup_are_the_words_of_the_talk() -> None:
    """The helper itself: labels leave no trace in the words, and time runs 0.4 seconds a word."""
    talk = heard("does @s1| {action:add} {amount:two cups} of {food:flour}\n~ 10\n+chat| lovely")
    assert [word.text for word in talk.talk.words] == ["add", "two", "cups", "of", "flour", "lovely"]
    assert [round(word.start, 1) for word in talk.talk.words] == [0.0, 0.4, 0.8, 1.2, 1.6, 12.0]
    assert [(clause.intent, clause.new_sentence, clause.new_step) for clause in talk.clauses] == [
        ("does", True, True),
        ("chat", False, False),
    ]
    with pytest.raises(ValueError, match="not a clause line"):
        heard("sings| la la")
    with pytest.raises(ValueError, match="unknown span"):
        heard("does| {colour:green}")
