"""What stands beside the method: promises, tips, variations, and the cautions that official guidance asks for."""

import pytest

from stovescript.recipe.draft import Draft

from .talking import drafted

COOKED = "does| {action:pour in} {amount:two cups} of {food:milk}\n"


def cautions(draft: Draft) -> str:
    return " ".join(caution.text for caution in draft.cautions)


@pytest.mark.parametrize(("intent", "kept"), [("promise", "promises"), ("tip", "tips")], ids=["promises", "tips"])
def test_notes_are_kept_in_her_words(intent: str, kept: str) -> None:
    draft = drafted(COOKED + f"{intent}| don't worry about the {{vessel:pan}} i'll write more about it")
    (note,) = getattr(draft, kept)
    assert note.text == "don't worry about the pan i'll write more about it"
    assert [evidence.text for evidence in note.evidence] == [note.text]


def test_a_sentence_over_two_clauses_is_one_note() -> None:
    draft = drafted(
        """tip| don't open the {vessel:lid} early
        +tip| or the steam gets out
        tip| dry the {food:tofu} well"""
    )
    assert [note.text for note in draft.tips] == [
        "don't open the lid early or the steam gets out",
        "dry the tofu well",
    ]


def test_what_is_said_between_parts_two_notes() -> None:
    draft = drafted("promise| i'll link the {vessel:pan} below\nchat| lovely day\n+promise| and the knife")
    assert [note.text for note in draft.promises] == ["i'll link the pan below", "and the knife"]


@pytest.mark.parametrize(
    ("clause", "text"),
    [
        ("in a {appliance:slow cooker} it's {time:six hours}", "in a slow cooker it's six hours"),
        ("for a crowd just double it", "for a crowd just double it"),
        ("you can make it vegan with {food:oat milk}", "you can make it vegan with oat milk"),
        ("if you're gluten free leave out the {food:flour}", "if you're gluten free leave out the flour"),
    ],
)
def test_variations_change_the_whole_dish(clause: str, text: str) -> None:
    assert [note.text for note in drafted(f"{COOKED}alternative| {clause}").variations] == [text]


def test_one_food_for_another_is_an_alternative_and_no_variation() -> None:
    draft = drafted(COOKED + "alternative| instead of {food:milk} use {amount:a cup} of {food:cream}")
    assert draft.variations == []
    assert [one.name for one in draft.ingredients[0].alternatives] == ["cream"]


@pytest.mark.parametrize(
    ("talk", "words"),
    [
        pytest.param(
            "does| {action:roast} {amount:two pounds} of {food:chicken thighs}", "165 °F (73.9 °C)", id="poultry"
        ),
        pytest.param(
            "does| {action:fry} {amount:a pound} of {food:ground beef}", "160 °F (71.1 °C)", id="ground meat"
        ),
        pytest.param("does| {action:sear} {amount:two} {food:pork chops}", "145 °F (62.8 °C)", id="whole cuts"),
        pytest.param("does| {action:bake} {amount:a pound} of {food:salmon}", "145 °F (62.8 °C)", id="fish"),
    ],
)
def test_safe_minimum_temperatures(talk: str, words: str) -> None:
    """USDA FSIS, Safe Minimum Internal Temperature Chart, from memory: poultry 165 °F, ground meat 160, others 145."""
    draft = drafted(talk)
    assert words in cautions(draft)
    assert all(caution.source for caution in draft.cautions)
    assert any("FSIS" in caution.source for caution in draft.cautions)


@pytest.mark.parametrize(
    ("talk", "word"),
    [
        pytest.param(
            "does| {action:set} the {appliance:pressure cooker} to {program:pressure cook} for {time:ten minutes}",
            "valve",
            id="pressure cooker (common practice)",
        ),
        pytest.param(
            """does| {action:add} {amount:a pound} of dried {food:kidney beans} to the {appliance:slow cooker}
            does| {action:cook} on {level:low} for {time:eight hours}""",
            "boiled",
            id="dried kidney beans (FDA on phytohaemagglutinin, from memory)",
        ),
        pytest.param(
            "does| {action:drizzle} {amount:a tablespoon} of {food:honey} over",
            "12 months",
            id="honey (CDC on infant botulism, from memory)",
        ),
        pytest.param("does| {action:whisk} {amount:two} {food:eggs}", "allergens", id="allergens (FALCPA)"),
    ],
)
def test_other_cautions(talk: str, word: str) -> None:
    assert word in cautions(drafted(talk))


@pytest.mark.parametrize(
    "clause",
    [
        "chat| my brother had {food:chicken} last night",
        "not-done| no {food:chicken} in mine",
    ],
)
def test_no_caution_for_what_does_not_go_in(clause: str) -> None:
    draft = drafted(f"does| {{action:chop}} {{amount:two}} {{food:carrots}}\n{clause}")
    assert draft.cautions == []
