"""Risky practices told as a step, a tip or a story: the caution comes, and the question where she does it herself.

The guidance, from memory: FSIS on the danger zone (two hours), CDC on infant botulism and on garlic in oil, FDA on
raw flour and on kidney beans, the USDA Complete Guide to Home Canning.
"""

import pytest

from stovescript.kitchen.practices import practices
from stovescript.kitchen.safety import cautions
from tests.recipe.talking import asked, drafted

RICE = "does| {action:cook} {amount:two cups} of {food:rice}\n"
GARLIC = "does| {action:fry} {amount:two} {food:garlic cloves} in {amount:a spoon} of {food:oil}\n"
HONEY = "does| {action:drizzle} {amount:a tablespoon} of {food:honey} over\n"
BATTER = "does| {action:mix} {amount:two} {food:eggs} with {amount:two cups} of {food:flour}\n"
BEANS = "does| {action:put} {amount:a pound} of {food:kidney beans} in the {appliance:slow cooker} on {level:low}\n"


def called_for(talk: str) -> set[str]:
    """The ids of a talk's cautions."""
    texts = {caution.text: caution.id for caution in cautions()}
    return {texts[caution.text] for caution in drafted(talk).cautions}


def test_every_practice_names_cautions_of_the_table() -> None:
    known = {caution.id for caution in cautions()}
    assert all(practice.cautions and set(practice.cautions) <= known for practice in practices().values())
    assert all(practice.about for practice in practices().values() if practice.question)


@pytest.mark.parametrize("intent", ["chat", "tip", "states", "alternative"])
@pytest.mark.parametrize(
    ("talk", "said", "about", "caution"),
    [
        pytest.param(RICE, "i just leave the pot on the stove overnight", "food left warm", "danger-zone", id="rice"),
        pytest.param(RICE, "it stays on keep warm all day", "food left warm", "danger-zone", id="keep warm"),
        pytest.param(
            GARLIC,
            "the jar sits by the stove with the garlic in it for weeks",
            "garlic in oil",
            "garlic-oil",
            id="oil",
        ),
        pytest.param(
            HONEY, "my grandbaby she's nine months old and loves it", "honey for a baby", "honey-infants", id="honey"
        ),
        pytest.param(BATTER, "and you lick the spoon", "raw egg or raw flour", "raw-flour", id="batter"),
    ],
)
def test_what_she_does_is_asked_about(intent: str, talk: str, said: str, about: str, caution: str) -> None:
    assert asked(drafted(f"{talk}{intent}| {said}"), "safety") == [about]
    assert caution in called_for(f"{talk}{intent}| {said}")


@pytest.mark.parametrize(
    ("talk", "said", "caution"),
    [
        pytest.param(RICE, "please do not leave it on warm all day", "danger-zone", id="rice"),
        pytest.param(HONEY, "and don't give that honey to a baby under one", "honey-infants", id="honey"),
        pytest.param(BATTER, "i'm not eating this batter because of the raw egg", "eggs-raw", id="batter"),
        pytest.param(
            BEANS,
            "do not put dry kidney beans in a slow cooker they'll make you sick",
            "kidney-beans-slow",
            id="beans",
        ),
    ],
)
def test_what_she_warns_of_is_a_caution_and_no_question(talk: str, said: str, caution: str) -> None:
    assert asked(drafted(f"{talk}tip| {said}"), "safety") == []
    assert caution in called_for(f"{talk}tip| {said}")


@pytest.mark.parametrize(
    "said",
    [
        pytest.param("i leave the beans to soak on the counter overnight", id="soaking"),
        pytest.param("the dough can stay in the bowl on the counter overnight", id="dough"),
        pytest.param("leave it in the fridge overnight", id="in the fridge"),
        pytest.param("let it sit on the counter for ten minutes", id="minutes"),
        pytest.param("stay with me and we'll keep it simple all day", id="no food stands"),
    ],
)
def test_what_may_stand_raises_nothing(said: str) -> None:
    assert asked(drafted(f"{RICE}tip| {said}"), "safety") == []


@pytest.mark.parametrize(
    ("said", "caution"),
    [
        pytest.param(
            "the cooker is the old one and you wait for three whistles of the cooker", "pressure-fill", id="w"
        ),
        pytest.param("it's even better tomorrow", "leftovers", id="leftovers"),
        pytest.param("if you've got an allergy read the bag", "allergen-free-claim", id="allergy"),
        pytest.param("blend it while it's still hot", "hot-blender", id="hot in the blender"),
        pytest.param("use the same board you had the raw chicken on", "cross-contamination", id="one board"),
    ],
)
def test_cautions_by_what_is_said(said: str, caution: str) -> None:
    talk = f"does| {{action:cook}} {{amount:a pound}} of {{food:chicken thighs}}\ntip| {said}"
    assert caution in called_for(talk)
    assert caution not in called_for("does| {action:cook} {amount:a pound} of {food:chicken thighs}")


@pytest.mark.parametrize(
    ("talk", "caution"),
    [
        ("does| {action:add} {amount:two cups} of {food:cassava flour}", "cassava"),
        (
            "does| {action:roast} {amount:a pound} of {food:potatoes}\ntip| smaller and it goes to baby food",
            "infant-food",
        ),
        ("does| {action:add} {amount:a spoon} of {food:apricot jam}\ntip| keep it in the fridge", "jam"),
        ("does| {action:roast} {amount:an} {food:onion}\nchat| that's the dog again", "pets"),
    ],
)
def test_a_word_in_passing_calls_for_no_caution(talk: str, caution: str) -> None:
    assert caution not in called_for(talk)
