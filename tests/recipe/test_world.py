"""The cook's world: one addition told twice is one use, another addition is another; the rest, halves and totals."""

import pytest

from .talking import amount_text, drafted, ingredient, measured, steps_of


@pytest.mark.parametrize(
    ("talk", "expected"),
    [
        pytest.param(
            """does| {action:add} {amount:a splash} of {food:milk}
            states| that was {amount:a quarter cup} of {food:milk}""",
            {"milk": ["0.25 cup"]},
            id="vague, then measured",
        ),
        pytest.param(
            """does| {action:throw in} {amount:a handful} of {food:spinach}
            states| that's about {amount:two cups} of {food:spinach}""",
            {"spinach": ["about 2 cup"]},
            id="a handful, then about two cups",
        ),
        pytest.param(
            """states| i've got {amount:three cups} of {food:broth}
            does| {action:pour in} the {food:broth}""",
            {"broth": ["3 cup"]},
            id="set out, then added",
        ),
        pytest.param(
            """states| i've got some {food:flour}
            does| {action:add} {amount:two cups} of {food:flour}""",
            {"flour": ["2 cup"]},
            id="set out unmeasured, added measured",
        ),
        pytest.param(
            """does| {action:add} the {food:lentils} {amount:one cup}
            does| {action:stir} the {food:lentils}
            does| {action:cover} the {food:lentils} and {action:let} them sit""",
            {"lentils": ["1 cup"]},
            id="stirred and covered",
        ),
        pytest.param(
            """does| {action:add} {amount:two tablespoons} of {food:butter}
            announce| so we've got the {food:butter} in there {amount:two tablespoons} of {food:butter}""",
            {"butter": ["2 tablespoon"]},
            id="a recap adds nothing",
        ),
        pytest.param(
            """announce| later we'll add {amount:two cups} of {food:cream}
            does| {action:pour in} {amount:two cups} of {food:cream}""",
            {"cream": ["2 cup"]},
            id="announced, then added",
        ),
        pytest.param(
            """states| {amount:sixteen tablespoons} of {food:butter}
            does| {action:melt} the {food:butter}
            states| so that's {amount:a cup} of {food:butter}""",
            {"butter": ["1 cup"]},
            id="the same in another unit",
        ),
        pytest.param(
            """does| {action:chop} {amount:two} {food:onions} and {amount:three} {food:carrots}
            does| {action:add} the {food:onions}
            does| {action:add} the {food:carrots}""",
            {"onions": ["2"], "carrots": ["3"]},
            id="chopped, then added",
        ),
    ],
)
def test_one_use(talk: str, expected: dict[str, list[str]]) -> None:
    assert measured(drafted(talk)) == expected


def test_the_later_statement_is_evidence_for_the_same_use() -> None:
    draft = drafted(
        """does| {action:add} {amount:a splash} of {food:milk}
        states| that was {amount:a quarter cup} of {food:milk}"""
    )
    (use,) = ingredient(draft, "milk").uses
    assert [evidence.text for evidence in use.evidence] == ["add a splash of milk", "that was a quarter cup of milk"]


@pytest.mark.parametrize(
    ("talk", "name", "uses", "total", "steps"),
    [
        pytest.param(
            """does @s1| {action:add} {amount:a tablespoon} of {food:oil} to the {vessel:pan}
            does| {action:fry} {amount:one} {food:onion} for {time:five minutes} on {level:medium}
            does @s2| now {action:add} another {amount:two tablespoons} of {food:oil}""",
            "oil",
            ["1 tablespoon", "2 tablespoon"],
            "3 tablespoon",
            ["s1", "s2"],
            id="another two tablespoons",
        ),
        pytest.param(
            """does @s1| {action:add} {amount:one} {food:onion}
            does @s2| {action:add} {amount:one} more {food:onion}""",
            "onion",
            ["1", "1"],
            "2",
            ["s1", "s2"],
            id="one more of the same",
        ),
        pytest.param(
            """does @s1| {action:add} {amount:two cups} of {food:stock}
            ~ 60
            does @s2| {action:add} {amount:one cup} of {food:stock}""",
            "stock",
            ["2 cup", "1 cup"],
            "3 cup",
            ["s1", "s2"],
            id="two amounts",
        ),
        pytest.param(
            "does @s1| {action:add} {amount:a cup} of {food:milk} and another {amount:half a cup} of {food:milk}",
            "milk",
            ["1 cup", "0.5 cup"],
            "1.5 cup",
            ["s1", "s1"],
            id="in one breath",
        ),
        pytest.param(
            """states| i've got {amount:six tablespoons} of {food:butter}
            does @s1| {action:melt} {amount:two tablespoons} of {food:butter} in the {vessel:pan}
            ~ 20
            does @s2| {action:stir in} the rest of the {food:butter}""",
            "butter",
            ["2 tablespoon", "4 tablespoon"],
            "6 tablespoon",
            ["s1", "s2"],
            id="the rest",
        ),
        pytest.param(
            """states| {amount:one cup} of {food:cream}
            does @s1| {action:stir in} {amount:a quarter cup} of the {food:cream}
            does @s2| {action:pour} the remaining {food:cream} over""",
            "cream",
            ["0.25 cup", "0.75 cup"],
            "1 cup",
            ["s1", "s2"],
            id="the remaining",
        ),
        pytest.param(
            """does @s1| {action:add} {amount:a cup} of {food:milk}
            does @s2| {action:pour in} the rest of the {food:milk}
            states| so altogether that's {amount:three cups} of {food:milk}""",
            "milk",
            ["1 cup", "2 cup"],
            "3 cup",
            ["s1", "s2"],
            id="the rest, reckoned from a total said last",
        ),
        pytest.param(
            """states| i've got {amount:a cup} of {food:parsley}
            does @s1| {action:add} {amount:half} the {food:parsley}
            does @s2| {action:sprinkle} the other half of the {food:parsley} on top""",
            "parsley",
            ["0.5 cup", "0.5 cup"],
            "1 cup",
            ["s1", "s2"],
            id="half, and the other half",
        ),
    ],
)
def test_several_uses_and_their_total(talk: str, name: str, uses: list[str], total: str, steps: list[str]) -> None:
    draft = drafted(talk)
    found = ingredient(draft, name)
    assert measured(draft)[name] == uses
    assert amount_text(found.total) == total
    assert steps_of(draft, name) == steps


def test_uses_that_do_not_convert_have_no_total() -> None:
    draft = drafted(
        """does @s1| {action:add} {amount:a bunch} of {food:parsley}
        ~ 60
        does @s2| {action:sprinkle} on {amount:a tablespoon} more {food:parsley}"""
    )
    assert measured(draft) == {"parsley": ["1 bunch", "1 tablespoon"]}
    assert ingredient(draft, "parsley").total is None


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("so that's {amount:three cups} of {food:stock} altogether", "3 cup"),
        ("all told that's {amount:four cups} of {food:stock}", "4 cup"),
    ],
)
def test_a_stated_total_is_kept_beside_the_sum(said: str, expected: str) -> None:
    draft = drafted(
        f"""does @s1| {{action:add}} {{amount:two cups}} of {{food:stock}}
        ~ 60
        does @s2| {{action:add}} {{amount:one cup}} of {{food:stock}}
        states| {said}"""
    )
    found = ingredient(draft, "stock")
    assert amount_text(found.total) == "3 cup"
    assert amount_text(found.stated_total) == expected


def test_two_amounts_for_one_use_are_both_kept() -> None:
    draft = drafted(
        """states| this is {amount:two cups} of {food:rice}
        does| {action:add} the {food:rice}
        states| that's {amount:three cups} of {food:rice}"""
    )
    found = ingredient(draft, "rice")
    assert len(found.uses) == 1
    assert [(amount_text(a), amount_text(b)) for a, b in found.disagreements] == [("2 cup", "3 cup")]


@pytest.mark.parametrize(
    ("talk", "steps"),
    [
        pytest.param(
            """states| i've got {amount:two} {food:onions} and {amount:three} {food:carrots}
            does @s1| those {action:go in}""",
            {"onions": ["s1"], "carrots": ["s1"]},
            id="those go in",
        ),
        pytest.param(
            """states| {amount:a teaspoon} of {food:cumin}
            states| {amount:two teaspoons} of {food:coriander}
            states| {amount:a pinch} of {food:cayenne}
            does @s1| everything {action:goes in}""",
            {"cumin": ["s1"], "coriander": ["s1"], "cayenne": ["s1"]},
            id="everything goes in",
        ),
        pytest.param(
            """states| {amount:two cups} of {food:flour}
            does @s1| {action:add} {amount:a cup} of {food:milk}
            does @s2| {action:chop} {amount:a bunch} of {food:parsley}
            does @s3| that {action:goes in}""",
            {"milk": ["s1"], "parsley": ["s3"], "flour": [None]},
            id="that is the last thing named",
        ),
        pytest.param(
            """states| the {food:butter} is {amount:four ounces}
            does @s1| {action:melt} the {food:butter}
            does @s2| and it {action:goes in} with {amount:a cup} of {food:sugar}""",
            {"butter": ["s1"], "sugar": ["s2"]},
            id="melted and poured in is one use",
        ),
    ],
)
def test_pronouns(talk: str, steps: dict[str, list[str | None]]) -> None:
    draft = drafted(talk)
    assert {name: steps_of(draft, name) for name in steps} == steps


def test_what_is_only_prepared_is_used_where_it_is_prepared() -> None:
    draft = drafted(
        """does @s1| {action:slice} {amount:three} {food:tomatoes}
        does @s2| {action:whisk} {amount:a cup} of {food:milk}"""
    )
    assert measured(draft)["tomatoes"] == ["3"]
    assert steps_of(draft, "tomatoes") == ["s1"]


def test_what_is_cut_first_is_used_where_it_goes_in() -> None:
    draft = drafted(
        """does @s1| {action:peel} and {action:dice} {amount:three} {food:carrots}
        does @s2| {action:add} the {food:carrots} to the {vessel:pot}"""
    )
    assert measured(draft) == {"carrots": ["3"]}
    assert steps_of(draft, "carrots") == ["s2"]
    assert [step.ingredients for step in draft.steps] == [["i1"], ["i1"]]


def test_what_is_only_set_out_has_no_step() -> None:
    draft = drafted(
        """states| i've got {amount:a cup} of {food:walnuts} here
        does @s1| {action:add} {amount:two cups} of {food:flour}"""
    )
    assert measured(draft) == {"walnuts": ["1 cup"], "flour": ["2 cup"]}
    assert steps_of(draft, "walnuts") == [None]


def test_ingredients_come_in_the_order_of_their_first_use() -> None:
    draft = drafted(
        """states| {amount:a cup} of {food:cream} and {amount:two} {food:leeks}
        does @s1| {action:add} the {food:leeks}
        does @s2| {action:add} {amount:two cups} of {food:stock}
        does @s3| {action:pour in} the {food:cream}"""
    )
    assert list(measured(draft)) == ["leeks", "stock", "cream"]


@pytest.mark.parametrize(
    ("talk", "preparation"),
    [
        (
            "does| {action:add} {amount:two} {food:onions} {prep:finely chopped} and "
            "{amount:three cloves} of {food:garlic} {prep:minced}",
            {"onions": ["finely chopped"], "garlic": ["minced"]},
        ),
        ("does| {action:add} {prep:chopped} {food:parsley} {amount:a handful}", {"parsley": ["chopped"]}),
        (
            """states| {amount:a can} of {food:chickpeas} {prep:drained}
            does| the {food:chickpeas} {action:go in}""",
            {"chickpeas": ["drained"]},
        ),
    ],
)
def test_preparation_belongs_to_the_food_beside_it(talk: str, preparation: dict[str, list[str]]) -> None:
    assert {one.name: one.preparation for one in drafted(talk).ingredients} == preparation


def test_what_is_made_here_is_no_ingredient() -> None:
    draft = drafted(
        """does @s1| {action:whisk} {amount:a cup} of {food:olive oil} with {amount:a tablespoon} of {food:vinegar}
        does @s2| {action:pour} the {food:dressing} over {amount:a head} of {food:lettuce}"""
    )
    assert list(measured(draft)) == ["olive oil", "vinegar", "lettuce"]
