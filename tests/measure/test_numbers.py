"""Numbers as they are said, checked against a general library for spoken numbers (text2num)."""

import pytest
from text_to_num import text2num  # type: ignore[import-untyped]

from stovescript.measure import number_at

ONES = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
TEENS = ["ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]


def spoken(number: int, joint: str) -> str:
    """A number below 1000 in words; ``joint`` stands between hundreds and the rest."""
    hundreds, rest = divmod(number, 100)
    if rest < 10:
        words = ONES[rest]
    elif rest < 20:
        words = TEENS[rest - 10]
    else:
        words = TENS[rest // 10 - 2] + (f" {ONES[rest % 10]}" if rest % 10 else "")
    if not hundreds:
        return words
    return f"{ONES[hundreds]} hundred" + (f"{joint}{words}" if rest else "")


@pytest.mark.parametrize("joint", [" and ", " "])
def test_cardinals_agree_with_text2num(joint: str) -> None:
    for number in range(1000):
        words = spoken(number, joint)
        assert number_at(words.split(), 0) == (number, len(words.split()))
        assert text2num(words, "en") == number


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("one hundred and twenty five", 125),
        ("a hundred and sixty five", 165),
        ("four twenty five", 425),
        ("one eighty", 180),
        ("three fifty", 350),
        ("one oh five", 105),
        ("two and a half", 2.5),
        ("two and three quarter", 2.75),
        ("one and two thirds", 5 / 3),
        ("1 1/2", 1.5),
        ("1-1/2", 1.5),
        ("1½", 1.5),
        ("½", 0.5),
        ("1 and 1/2", 1.5),
        ("2.5", 2.5),
        ("1,000", 1000),
        ("two point five", 2.5),
        ("one point two five", 1.25),
        ("point five", 0.5),
        ("a third", 1 / 3),
        ("three quarters", 0.75),
        ("half a dozen", 6),
        ("a couple", 2),
        ("a dozen", 12),
        ("two dozen", 24),
        ("twenty-five", 25),
        ("fifteen hundred", 1500),
        ("two thousand", 2000),
        ("a couple hundred", 200),
    ],
)
def test_spoken_number(said: str, value: float) -> None:
    read = number_at(said.split(), 0)
    assert read is not None
    assert read[0] == pytest.approx(value)
    assert read[1] == len(said.split())


@pytest.mark.parametrize("said", ["cups", "a cup", "the", "200g", "1st", "$5", "80/20", "00", "um two", ""])
def test_no_number(said: str) -> None:
    assert number_at(said.split(" "), 0) is None


def test_a_number_is_read_where_it_stands() -> None:
    tokens = ["put", "two", "and", "a", "half", "cups"]
    assert number_at(tokens, 1) == (2.5, 4)
    assert number_at(tokens, 5) is None
    assert number_at(tokens, 99) is None
