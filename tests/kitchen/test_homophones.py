"""Homophones: what captions show must sound like the food, or it is a guess."""

import pytest

from stovescript.kitchen.foods import food_named
from stovescript.kitchen.homophones import homophones
from stovescript.kitchen.sounds import alike, sound


@pytest.mark.parametrize(("heard", "name"), sorted(homophones().items()))
def test_it_sounds_like_the_food(heard: str, name: str) -> None:
    assert sound(heard) == sound(name) or alike(heard, name) >= 43
    assert heard != name


@pytest.mark.parametrize(("heard", "name"), [("flower", "flour"), ("time", "thyme"), ("leaks", "leeks")])
def test_english_homophones(heard: str, name: str) -> None:
    """Common English."""
    assert homophones()[heard] == name
    assert food_named(name)
