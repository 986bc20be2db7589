"""Questions about ingredients: how much, how big a can, which of two amounts, and was it used at all."""

import pytest

from tests.recipe.talking import asked, drafted


@pytest.mark.parametrize(
    ("talk", "about"),
    [
        pytest.param("does| {action:stir in} the {food:lentils}", ["lentils"], id="never measured"),
        pytest.param(
            """does| {action:add} the {food:lentils}
            states| {amount:two cups} of {food:lentils}""",
            [],
            id="measured afterwards",
        ),
        pytest.param(
            """states| i've got {amount:two cups} of {food:lentils}
            does| {action:add} the {food:lentils}""",
            [],
            id="measured before",
        ),
        pytest.param("does| {action:stir in} {amount:a splash} of {food:vinegar}", [], id="vague is another question"),
        pytest.param("does| {action:scatter} {food:parsley} for garnish", [], id="for garnish"),
        pytest.param(
            """does| {action:stir in} the {food:salt} to taste
            does| {action:stir} the {food:salt} through""",
            [],
            id="to taste",
        ),
        pytest.param("chat| i love {food:lentils}", ["ingredients"], id="only talked about: no ingredient at all"),
        pytest.param("states| i've got some {food:lentils} here", [], id="not in yet"),
    ],
)
def test_unmeasured(talk: str, about: list[str]) -> None:
    assert asked(drafted(talk), "unmeasured") == about


def test_unmeasured_asks_for_each_use() -> None:
    draft = drafted(
        """does @s1| {action:add} {amount:a cup} of {food:milk}
        does @s2| {action:pour in} more {food:milk}"""
    )
    (gap,) = [gap for gap in draft.gaps if gap.kind == "unmeasured"]
    assert (gap.about, gap.ingredient, gap.step) == ("milk", "i1", "s2")
    assert "second time" in gap.question


@pytest.mark.parametrize(
    ("food", "severity"), [("chicken thighs", "must"), ("lentils", "must"), ("black pepper", "should")]
)
def test_what_is_seasoned_by_taste_is_less_serious(food: str, severity: str) -> None:
    """Salt and pepper are customarily left to the reader (common practice)."""
    draft = drafted(f"does| {{action:stir in}} the {{food:{food}}}")
    assert [gap.severity for gap in draft.gaps if gap.kind == "unmeasured"] == [severity]


def test_an_optional_food_is_less_serious() -> None:
    draft = drafted("does| {action:stir in} some {food:walnuts} if you like")
    assert [gap.severity for gap in draft.gaps if gap.kind == "unmeasured"] == ["should"]


@pytest.mark.parametrize(
    ("amount", "about"),
    [
        ("a glug", ["olive oil"]),
        ("a splash", ["olive oil"]),
        ("a good glug", ["olive oil"]),
        ("two tablespoons", []),
        ("about two tablespoons", []),
        ("a pinch", []),
    ],
)
def test_vague(amount: str, about: list[str]) -> None:
    """A pinch is customary enough to cook by (common practice); a glug is not."""
    assert asked(drafted(f"does| {{action:add}} {{amount:{amount}}} of {{food:olive oil}}"), "vague") == about


def test_vague_is_settled_by_a_measure() -> None:
    draft = drafted(
        """does| {action:throw in} {amount:a handful} of {food:spinach}
        states| that's about {amount:two cups} of {food:spinach}"""
    )
    assert asked(draft, "vague") == []


def test_vague_repeats_her_words() -> None:
    (gap,) = [g for g in drafted("does| {action:add} {amount:a glug} of {food:olive oil}").gaps if g.kind == "vague"]
    assert "glug" in gap.question and "olive oil" in gap.question


@pytest.mark.parametrize(
    ("clause", "about"),
    [
        pytest.param("chat| lovely", ["walnuts"], id="never goes in"),
        pytest.param("does| the {food:walnuts} {action:go in}", [], id="goes in"),
        pytest.param("does| everything {action:goes in}", [], id="goes in with everything"),
        pytest.param("does| those {action:go in}", [], id="goes in by a pronoun"),
        pytest.param("does| {action:chop} the {food:nuts}", [], id="only chopped, by its general name"),
    ],
)
def test_unused(clause: str, about: list[str]) -> None:
    assert asked(drafted(f"states| i've got {{amount:a cup}} of {{food:walnuts}} here\n{clause}"), "unused") == about


@pytest.mark.parametrize(
    ("clause", "about"),
    [
        pytest.param("states| that's {amount:three cups} of {food:rice}", ["rice"], id="another amount"),
        pytest.param("states| that's {amount:two cups} of {food:rice}", [], id="the same again"),
        pytest.param("states| that's {amount:one pint} of {food:rice}", [], id="the same in another unit"),
        pytest.param("does| {action:add} {amount:one} more {amount:cup} of {food:rice}", [], id="one more"),
        pytest.param("announce| so we've got {amount:two cups} of {food:rice} in there", [], id="a recap"),
        pytest.param(
            "announce| so we've got {amount:three cups} of {food:rice} in there", ["rice"], id="a recap that disagrees"
        ),
    ],
)
def test_conflict(clause: str, about: list[str]) -> None:
    """A US pint is two cups: NIST Handbook 44, Appendix C (from memory)."""
    assert asked(drafted(f"does| {{action:add}} {{amount:two cups}} of {{food:rice}}\n{clause}"), "conflict") == about


def test_conflict_names_both_amounts() -> None:
    draft = drafted(
        """does| {action:add} {amount:a teaspoon} of {food:salt}
        states| that's {amount:a tablespoon} of {food:salt}"""
    )
    (gap,) = [gap for gap in draft.gaps if gap.kind == "conflict"]
    assert "a teaspoon" in gap.question and "a tablespoon" in gap.question
    assert gap.severity == "must"


def test_a_correction_is_no_conflict() -> None:
    draft = drafted("does| {action:add} {amount:two cups} of {food:rice} no sorry {amount:three cups} of {food:rice}")
    assert asked(draft, "conflict") == []


def test_more_than_was_set_out_is_a_conflict() -> None:
    draft = drafted(
        """states| i've got {amount:two cups} of {food:stock}
        does| {action:add} {amount:three cups} of {food:stock}"""
    )
    assert asked(draft, "conflict") == ["stock"]


@pytest.mark.parametrize(
    ("total", "about"),
    [("three cups", []), ("four cups", ["stock"]), ("twenty four fluid ounces", []), ("a pint", ["stock"])],
)
def test_total_mismatch(total: str, about: list[str]) -> None:
    """Eight US fluid ounces are a cup: NIST Handbook 44, Appendix C (from memory)."""
    draft = drafted(
        f"""does @s1| {{action:add}} {{amount:two cups}} of {{food:stock}}
        ~ 60
        does @s2| {{action:add}} {{amount:one cup}} of {{food:stock}}
        states| so that's {{amount:{total}}} of {{food:stock}} in total"""
    )
    assert asked(draft, "total_mismatch") == about


def test_less_used_than_was_set_out_is_a_total_mismatch() -> None:
    draft = drafted(
        """states| i've got {amount:four cups} of {food:stock}
        does @s1| {action:add} {amount:one cup} of the {food:stock}
        ~ 60
        does @s2| {action:add} {amount:two cups} of {food:stock}"""
    )
    assert asked(draft, "total_mismatch") == ["stock"]


@pytest.mark.parametrize(
    ("amount", "about"),
    [
        ("a can", ["coconut milk"]),
        ("two tins", ["coconut milk"]),
        ("a fourteen ounce can", []),
        ("a 400 milliliter tin", []),
        ("two cups", []),
    ],
)
def test_package_size(amount: str, about: list[str]) -> None:
    """Cans come in many sizes (common practice)."""
    assert asked(drafted(f"does| {{action:add}} {{amount:{amount}}} of {{food:coconut milk}}"), "no_size") == about


def test_package_size_said_after() -> None:
    draft = drafted("does| {action:add} {amount:one can} of {food:black beans} the {size:fifteen ounce} one")
    assert asked(draft, "no_size") == []


@pytest.mark.parametrize(
    ("clause", "about"),
    [
        ("alternative| instead of {food:milk} use {food:cream}", ["cream"]),
        ("alternative| instead of {food:milk} use {amount:half a cup} of {food:cream}", []),
        ("alternative| instead of {food:milk} use the same amount of {food:cream}", []),
        ("not-done| i never use {food:cream}", []),
    ],
)
def test_alternative_unmeasured(clause: str, about: list[str]) -> None:
    draft = drafted(f"does| {{action:add}} {{amount:a cup}} of {{food:milk}}\n{clause}")
    assert asked(draft, "alternative_unmeasured") == about
