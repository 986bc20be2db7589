"""Two talks of one dish are found by title and ingredients; what merely shares its salt and oil is not."""

import random
import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stovescript.archive.duplicates import Dish, Pair, pairs

PANTRY = "salt|black pepper|olive oil|onion|garlic|butter"
SOUP = f"{PANTRY}|chicken|chicken broth|corn tortillas|black beans|cumin|lime"
OTHERS = [
    Dish(f"other{n}.vtt", title, frozenset(foods.split("|")), f"other{n}")
    for n, (title, foods) in enumerate(
        [
            ("beef stew", f"{PANTRY}|beef|carrots|potatoes|red wine|thyme"),
            ("mushroom risotto", f"{PANTRY}|rice|mushrooms|white wine|parmesan"),
            ("lemon tart", "flour|butter|sugar|eggs|lemons|cream|salt"),
            ("split pea soup", f"{PANTRY}|split peas|ham hock|carrots|celery"),
            ("brownies", "butter|sugar|eggs|cocoa powder|flour|chocolate|salt"),
        ]
    )
]


def dish(name: str, title: str, foods: str) -> Dish:
    return Dish(name, title, frozenset(foods.split("|")), name)


@pytest.mark.parametrize(
    ("first", "second", "same"),
    [
        (("chicken tortilla soup", SOUP), ("weeknight chicken tortilla soup", SOUP + "|avocado|cilantro"), True),
        (("chicken tortilla soup", SOUP), ("", SOUP), True),  # the second talk never names the dish
        (("tortilla soup with chicken", SOUP), ("chicken tortilla soup", SOUP.replace("cumin", "chili powder")), True),
        (("chicken soup", SOUP), ("fish soup", f"{PANTRY}|cod|egg noodles|fennel|cream|dill"), False),
        (("tortilla soup", SOUP), ("flour tortillas", "flour|salt|lard|water"), False),
        (("", PANTRY + "|chicken"), ("", PANTRY + "|cod|capers|lemons|parsley|potatoes|white wine"), False),
    ],
)
def test_two_talks_of_one_dish(first: tuple[str, str], second: tuple[str, str], same: bool) -> None:
    found = pairs([dish("a.vtt", *first), dish("b.vtt", *second), *OTHERS])
    assert [(pair.first, pair.second) for pair in found] == ([("a.vtt", "b.vtt")] if same else [])


def test_the_same_captions_twice_are_told_though_nothing_was_heard_in_them() -> None:
    copies = [Dish("a.vtt", "", frozenset(), "same"), Dish("old/a.vtt", "", frozenset(), "same")]
    assert pairs([*copies, *OTHERS]) == [Pair("a.vtt", "old/a.vtt", 100.0, 1.0, (), True)]


def test_what_is_shared_is_told_rarest_first() -> None:
    (pair,) = pairs([dish("a.vtt", "tortilla soup", SOUP), dish("b.vtt", "tortilla soup", SOUP), *OTHERS])
    assert set(pair.shared[:6]) == set(SOUP.split("|")) - set(PANTRY.split("|"))


DISHES = st.lists(
    st.builds(
        lambda title, foods: (title, frozenset(foods)),
        st.sampled_from(["", "soup", "tortilla soup", "beef stew"]),
        st.sets(st.sampled_from(string.ascii_lowercase[:12])),
    ),
    max_size=12,
)


@given(DISHES, st.integers())
def test_the_order_of_the_talks_does_not_matter(drawn: list[tuple[str, frozenset[str]]], seed: int) -> None:
    dishes = [Dish(f"{n:02}", title, foods, f"{n}") for n, (title, foods) in enumerate(drawn)]
    mixed = random.Random(seed).sample(dishes, len(dishes))
    one, two = ({frozenset((p.first, p.second)) for p in pairs(each)} for each in (dishes, mixed))
    assert one == two


def test_no_dish_has_no_double() -> None:
    assert pairs([]) == pairs([dish("a.vtt", "soup", SOUP)]) == []
