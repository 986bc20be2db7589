"""Questions about the post as a whole: its name, its yield, its promises, what came too late, and what is risky."""

import pytest

from tests.recipe.talking import asked, drafted

COOKED = "does| {action:stir in} {amount:a cup} of {food:lentils}\n"


@pytest.mark.parametrize(
    ("clause", "about"),
    [
        ("announce| today we're making {food:lentil soup}", []),
        ("chat| hello everyone", ["title"]),
        ("announce| let's get going", ["title"]),
    ],
)
def test_title(clause: str, about: list[str]) -> None:
    assert asked(drafted(f"{clause}\n{COOKED}"), "title") == about


@pytest.mark.parametrize(
    ("clause", "about"),
    [
        ("states| it serves {amount:four}", []),
        ("states| this makes {amount:two dozen} muffins", []),
        ("chat| my {amount:four} kids love it", ["servings"]),
        ("chat| lovely", ["servings"]),
    ],
)
def test_no_servings(clause: str, about: list[str]) -> None:
    assert asked(drafted(COOKED + clause), "no_servings") == about


def test_every_promise_is_asked_about() -> None:
    draft = drafted(
        """promise| i'll put the bigger batch in the post
        chat| lovely
        promise| the knife is linked below"""
    )
    assert asked(draft, "promise") == ["i'll put the bigger batch in the post", "the knife is linked below"]


def test_no_promise_no_question() -> None:
    assert asked(drafted(COOKED + "tip| stir it well"), "promise") == []


@pytest.mark.parametrize(
    ("clause", "asks"),
    [
        ("tip| oh and you should have salted the {food:water}", True),
        ("states| i forgot to say soak the {food:beans} the night before", True),
        ("does| i should have said {action:preheat} the {appliance:oven}", True),
        ("does| {action:preheat} the {appliance:oven}", False),
        ("chat| i forgot my phone upstairs", False),
    ],
)
def test_order(clause: str, asks: bool) -> None:
    found = asked(drafted(COOKED + clause), "order")
    assert len(found) == asks


def test_order_quotes_the_clause_that_came_too_late() -> None:
    draft = drafted(COOKED + "tip| oh and you should have salted the {food:water}")
    (gap,) = [gap for gap in draft.gaps if gap.kind == "order"]
    assert [evidence.text for evidence in gap.evidence] == ["oh and you should have salted the water"]
    assert gap.evidence[0].start >= draft.steps[0].end


@pytest.mark.parametrize(
    ("food", "asks"),
    [
        ("chicken thighs", True),
        ("turkey breast", True),
        ("ground beef", True),
        ("pork chops", True),
        ("salmon", True),
        ("shrimp", True),
        ("tofu", False),
        ("mushrooms", False),
        ("beef chuck", False),
    ],
)
def test_safety_asks_for_the_inside_temperature(food: str, asks: bool) -> None:
    """Of poultry, ground meat, pork and fish: USDA FSIS, Safe Minimum Internal Temperature Chart (from memory)."""
    draft = drafted(
        f"does| {{action:fry}} {{amount:a pound}} of {{food:{food}}} on {{level:medium}} {{cue:until it's brown}}"
    )
    assert asked(draft, "safety") == [food] * asks


@pytest.mark.parametrize(
    "clause",
    [
        "tip| you want {temp:165} in the thickest part",
        "states| it reads {temp:165} on the thermometer",
        "states| {temp:74 celsius} inside",
    ],
)
def test_safety_is_settled_by_a_thermometer(clause: str) -> None:
    """FSIS: 165 °F (73.9 °C) inside poultry."""
    draft = drafted(
        f"""does| {{action:bake}} {{amount:two pounds}} of {{food:chicken thighs}} at {{temp:400 fahrenheit}}
        {clause}"""
    )
    assert asked(draft, "safety") == []


def test_the_oven_s_temperature_does_not_settle_safety() -> None:
    draft = drafted(
        "does| {action:bake} {amount:two pounds} of {food:chicken thighs} at {temp:400 fahrenheit} {cue:until brown}"
    )
    assert asked(draft, "safety") == ["chicken thighs"]


def test_safety_asks_once_for_each_kind_of_meat() -> None:
    draft = drafted(
        """does| {action:fry} {amount:a pound} of {food:chicken thighs} on {level:medium} {cue:until brown}
        does| {action:fry} {amount:two} {food:chicken breasts} {cue:until brown}
        does| {action:fry} {amount:a pound} of {food:salmon} {cue:until it flakes}"""
    )
    assert len(asked(draft, "safety")) == 2


@pytest.mark.parametrize(
    ("talk", "asks"),
    [
        pytest.param(
            """does| {action:add} {amount:a pound} of dried {food:kidney beans} to the {appliance:slow cooker}
            does| {action:cook} on {level:low} for {time:eight hours}""",
            True,
            id="dried kidney beans (FDA on phytohaemagglutinin, from memory)",
        ),
        pytest.param(
            """does| {action:add} {amount:two cups} of canned {food:kidney beans} to the {appliance:slow cooker}
            does| {action:cook} on {level:low} for {time:eight hours}""",
            False,
            id="canned ones are cooked",
        ),
        pytest.param(
            "does| {action:cover} {amount:ten cloves} of {food:garlic} and keep in oil on the shelf",
            True,
            id="garlic in oil (CDC on botulism, from memory)",
        ),
        pytest.param(
            "does| {action:fry} {amount:two cloves} of {food:garlic} on {level:low} {cue:until golden}",
            False,
            id="fried garlic",
        ),
        pytest.param(
            "does| {action:drizzle} {amount:a tablespoon} of {food:honey} over\nchat| my baby gets {food:honey} too",
            True,
            id="honey for a baby (CDC on infant botulism, from memory)",
        ),
        pytest.param("does| {action:drizzle} {amount:a tablespoon} of {food:honey} over", False, id="honey"),
        pytest.param(
            "does| {action:cook} {amount:two cups} of {food:rice}\nchat| i leave it out on the counter overnight",
            True,
            id="rice left out (FSIS two-hour rule, from memory)",
        ),
        pytest.param(
            "does| {action:cook} {amount:two cups} of {food:rice}\nnot-done| never leave it out on the counter",
            False,
            id="told not to",
        ),
    ],
)
def test_risky_practice(talk: str, asks: bool) -> None:
    assert bool(asked(drafted(talk), "safety")) is asks


def test_safety_names_the_practice_as_must() -> None:
    draft = drafted(
        """does| {action:add} {amount:a pound} of dried {food:kidney beans} to the {appliance:slow cooker}
        does| {action:cook} on {level:low} for {time:eight hours}"""
    )
    assert {gap.severity for gap in draft.gaps if gap.kind == "safety"} == {"must"}
