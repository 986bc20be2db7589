"""One food under many names: mis-hearings, other words for it, shorter words; and foods that only look alike."""

import pytest

from stovescript.recipe.naming import names_in, same_food

from .talking import drafted, heard, ingredient, measured


@pytest.mark.parametrize(
    ("captioned", "meant"),
    [
        ("tumeric", "turmeric"),
        ("peprika", "paprika"),
        ("leaks", "leeks"),
        ("carats", "carrots"),
        ("bred crumbs", "breadcrumbs"),
        ("ta heeny", "tahini"),
        ("sue mac", "sumac"),
        ("beats", "beets"),
    ],
)
def test_a_mishearing_is_mended_by_sound(captioned: str, meant: str) -> None:
    """Automatic captions write what sounds alike (common practice); what was captioned stays on record."""
    draft = drafted(f"does| {{action:add}} {{amount:a cup}} of {{food:{captioned}}}")
    assert measured(draft) == {meant: ["1 cup"]}
    assert ingredient(draft, meant).heard_as == [captioned]


@pytest.mark.parametrize(
    ("plainly", "captioned"), [("garam masala", "garden masala"), ("quinoa", "keen wah"), ("paneer", "pan ear")]
)
def test_a_mishearing_of_a_food_that_this_talk_names(plainly: str, captioned: str) -> None:
    draft = drafted(
        f"""states| here's {{amount:two cups}} of {{food:{plainly}}}
        does| {{action:stir in}} the {{food:{captioned}}}"""
    )
    assert measured(draft) == {plainly: ["2 cup"]}
    assert ingredient(draft, plainly).heard_as == sorted([plainly, captioned])


@pytest.mark.parametrize(
    "name",
    [
        "flour", "thyme", "sour cherries", "cashew cream", "lentil soup", "pork belly", "purple yam", "quail eggs",
        "carrot tops", "lime leaves", "wizzlewort",
    ],
)  # fmt: skip
def test_a_plain_name_is_left_alone(name: str) -> None:
    """Also one that no table knows."""
    talk = heard(f"does| {{action:add}} {{amount:a cup}} of {{food:{name}}}")
    assert [found.said for found in names_in(talk).values()] == [name]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("garbanzo beans", "chickpeas"),
        ("cilantro", "coriander leaves"),
        ("scallions", "green onions"),
        ("zucchini", "courgettes"),
        ("shrimp", "prawns"),
        ("heavy cream", "double cream"),
    ],
)
def test_two_words_for_one_food(one: str, other: str) -> None:
    """American and British names (common practice)."""
    draft = drafted(
        f"""states| i've got {{amount:two cups}} of {{food:{one}}}
        does| {{action:stir in}} the {{food:{other}}}"""
    )
    assert list(measured(draft).values()) == [["2 cup"]]
    assert draft.ingredients[0].heard_as == sorted([one, other])


@pytest.mark.parametrize(
    ("specific", "general"),
    [
        ("white beans", "beans"),
        ("all purpose flour", "flour"),
        ("chicken thighs", "chicken"),
        ("red potatoes", "potatoes"),
        ("sharp cheddar", "cheese"),
        ("ground beef", "meat"),
    ],
)
def test_the_general_name_stands_for_the_specific_one(specific: str, general: str) -> None:
    draft = drafted(
        f"""states| here's {{amount:a pound}} of {{food:{specific}}}
        does| {{action:tip in}} the {{food:{general}}}"""
    )
    assert measured(draft) == {specific: ["1 pound"]}


def test_the_vegetables_are_all_those_that_wait() -> None:
    draft = drafted(
        """states| {amount:two} {food:carrots} and {amount:one} {food:onion}
        does| {action:throw in} the {food:vegetables}"""
    )
    assert measured(draft) == {"carrots": ["2"], "onion": ["1"]}


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("brown sugar", "sugar"),
        ("smoked paprika", "paprika"),
        ("coconut water", "water"),
        ("chicken stock", "chicken thighs"),
        ("olive oil", "sesame oil"),
        ("red onions", "yellow onions"),
    ],
)
def test_two_foods_that_share_a_word(one: str, other: str) -> None:
    draft = drafted(
        f"does| {{action:add}} {{amount:one cup}} of {{food:{one}}} and {{amount:two cups}} of {{food:{other}}}"
    )
    assert measured(draft) == {one: ["1 cup"], other: ["2 cup"]}


def test_white_sugar_stays_beside_brown_sugar_when_both_are_named_again() -> None:
    draft = drafted(
        """does| {action:add} {amount:one cup} of {food:brown sugar} and {amount:half a cup} of {food:sugar}
        does| {action:cream} the {food:brown sugar} and the {food:sugar} with {amount:a stick} of {food:butter}"""
    )
    assert measured(draft) == {"brown sugar": ["1 cup"], "sugar": ["0.5 cup"], "butter": ["1 stick"]}


@pytest.mark.parametrize(
    ("short", "long", "same"),
    [
        ("beans", "white beans", True),
        ("chicken", "chicken thighs", True),
        ("chicken", "chicken stock", False),
        ("coconut", "coconut milk", False),
        ("white beans", "beans", False),
    ],
)
def test_shorter_way_of_saying(short: str, long: str, same: bool) -> None:
    assert same_food(short, long) is same


@pytest.mark.parametrize(
    ("said", "name", "preparation"),
    [
        ("toasted walnuts", "walnuts", ["toasted"]),
        ("minced garlic", "garlic", ["minced"]),
        ("the smoked paprika", "smoked paprika", []),
    ],
)
def test_state_words_are_preparation_unless_they_make_another_food(
    said: str, name: str, preparation: list[str]
) -> None:
    draft = drafted(f"does| {{action:add}} {{amount:a teaspoon}} of {{food:{said}}}")
    assert ingredient(draft, name).preparation == preparation


def test_allergens_go_by_the_food_not_by_the_word() -> None:
    """FALCPA (2004) and the FASTER Act (2021) name nine allergens; coconut milk holds no milk."""
    draft = drafted(
        """does| {action:add} {amount:a cup} of {food:milk} {amount:a cup} of {food:coconut milk}
        +does| and {amount:two tablespoons} of {food:tahini}"""
    )
    assert ingredient(draft, "milk").allergens == ["milk"]
    assert "milk" not in ingredient(draft, "coconut milk").allergens
    assert ingredient(draft, "tahini").allergens == ["sesame"]
