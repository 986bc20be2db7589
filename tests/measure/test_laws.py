"""Laws of the grammar: what is printed reads back, conversions return, and no words whatever make it fail."""

import subprocess
import sys
import time
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from stovescript.kitchen.units import units
from stovescript.measure import Quantity, convert, find_quantities, number_at, to_text
from stovescript.measure.vocabulary import vocabulary

from .test_phrases import ROWS

FLOOR_TOKENS_PER_SECOND = 20_000
"""Far below what a quiet machine reaches, so that a busy one does not fail."""

AMOUNT_UNITS = sorted(
    name for name, unit in units().items() if unit.spoken and unit.dimension in {"volume", "mass", "count", "vague"}
)
PACKAGES = sorted(name for name, unit in units().items() if unit.dimension == "package")
SIZES = ["ounce", "gram", "milliliter", "pound", "fluid ounce"]
LENGTHS = ["inch", "centimeter", "millimeter"]
CONVERTIBLE = sorted(name for name, unit in units().items() if unit.factor is not None)

parts = st.sampled_from([0.0, 0.5, 0.25, 0.75, 1 / 3, 2 / 3, 1 / 8, 3 / 8, 5 / 8, 7 / 8, 0.05, 0.1, 0.35])
values = st.builds(lambda whole, part: whole + part, st.integers(0, 40), parts).filter(lambda value: value > 0)
wholes = st.integers(1, 24).map(float)
minutes = st.integers(1, 240).map(lambda count: count * 60.0)


def a_quantity(kind: str, low: float, high: float, unit: str, approximate: bool) -> Quantity:
    vague = unit in units() and units()[unit].approximate
    return Quantity(kind, 0, 0, min(low, high), max(low, high), unit, approximate or vague, "")


quantities = st.one_of(
    st.builds(a_quantity, st.just("amount"), values, values, st.sampled_from(AMOUNT_UNITS), st.booleans()),
    st.builds(lambda v, u: a_quantity("amount", v, v, u, False), values, st.sampled_from(AMOUNT_UNITS)),
    st.builds(a_quantity, st.just("package"), wholes, wholes, st.sampled_from(PACKAGES), st.booleans()),
    st.builds(
        lambda count, unit, each, size: replace(
            a_quantity("package", count, count, unit, False), size=a_quantity("amount", each, each, size, False)
        ),
        wholes,
        st.sampled_from([name for name in PACKAGES if name != "pot"]),
        values,
        st.sampled_from(SIZES),
    ),
    st.builds(
        lambda low, more, unit, fan, about: replace(
            a_quantity("temperature", low, low + more, unit, about), fan=fan and unit != "gas mark"
        ),
        st.integers(12, 50).map(lambda tens: tens * 10.0),
        st.sampled_from([0.0, 10.0, 25.0]),
        st.sampled_from(["F", "C", ""]),
        st.booleans(),
        st.booleans(),
    ),
    st.builds(lambda mark: a_quantity("temperature", mark, mark, "gas mark", False), st.integers(1, 10).map(float)),
    st.builds(a_quantity, st.just("duration"), minutes, minutes, st.just("second"), st.booleans()),
    st.builds(lambda time: a_quantity("duration", time, time, "second", False), st.integers(2, 9000).map(float)),
    st.builds(a_quantity, st.just("dimension"), values, values, st.sampled_from(LENGTHS), st.booleans()),
    st.builds(lambda v: a_quantity("dimension", v, v, "quart", False), wholes),
    st.builds(
        lambda sides, unit: replace(a_quantity("dimension", min(sides), max(sides), unit, False), sides=sides),
        st.tuples(st.integers(2, 20).map(float), st.integers(2, 20).map(float)),
        st.sampled_from(["", "inch", "centimeter"]),
    ),
    st.builds(lambda part: a_quantity("fraction", part, part, "", False), st.sampled_from([0.5, 0.25, 0.75, 1 / 3])),
)


def value_of(quantity: Quantity) -> tuple[object, ...]:
    size = quantity.size
    return (
        quantity.kind,
        round(quantity.low, 6),
        round(quantity.high, 6),
        quantity.unit,
        quantity.approximate,
        quantity.fan,
        quantity.sides,
        (round(size.low, 6), size.unit) if size else None,
    )


@settings(max_examples=400, deadline=None)
@given(quantities)
def test_what_is_printed_reads_back(quantity: Quantity) -> None:
    text = to_text(quantity)
    assert [value_of(found) for found in find_quantities(text.split())] == [value_of(quantity)], text


@settings(max_examples=200, deadline=None)
@given(values, st.booleans())
def test_a_printed_count_reads_back_before_its_food(value: float, approximate: bool) -> None:
    quantity = a_quantity("count", value, value, "", approximate)
    found = find_quantities([*to_text(quantity).split(), "onions"])
    assert [value_of(one) for one in found] == [value_of(quantity)]


def test_kitchen_style() -> None:
    assert to_text(1.5, unit="cup") == "1 1/2 cups"
    assert to_text(3, 4, "tablespoon") == "3 to 4 tablespoons"
    assert to_text(0.5, unit="cup", approximate=True) == "about 1/2 cup"
    assert to_text(1, unit="pinch", approximate=True) == "1 pinch"
    assert to_text(2) == "2"
    assert to_text(350, unit="F") == "350 °F"
    said = "two fifteen ounce cans and nine by thirteen inch and one eighty fan and an hour and a quarter"
    assert [to_text(found) for found in find_quantities(said.split())] == [
        "2 15-ounce cans",
        "9 by 13 inch",
        "180 degrees fan",
        "1 hour 15 minutes",
    ]


@given(
    st.sampled_from(CONVERTIBLE).flatmap(
        lambda one: st.tuples(
            st.just(one),
            st.sampled_from([name for name in CONVERTIBLE if units()[name].dimension == units()[one].dimension]),
        )
    ),
    st.floats(1e-3, 1e6),
)
def test_there_and_back(pair: tuple[str, str], value: float) -> None:
    one, other = pair
    back = convert(convert(value, one, other), other, one)
    assert abs(back - value) <= 1e-9 * value


@given(st.sampled_from(["F", "C", "gas mark"]), st.floats(230, 490))
def test_heat_there_and_back(scale: str, fahrenheit: float) -> None:
    assert abs(convert(convert(fahrenheit, "F", scale), scale, "F") - fahrenheit) < 1e-6


WORDS = sorted(vocabulary().atoms)
PHRASES = sorted(
    {" ".join(said) for firsts in vocabulary().phrases.values() for all_ in firsts.values() for said in all_}
)
ODD = ["½-", "1-1/2-2", "(14", "oz)", "—", "80/20", "4:25", '8"', "…", "½½", "-", "9x", "x9", "°", "°c", "1/0", "٣"]
tokens = st.one_of(
    st.sampled_from(WORDS),
    st.sampled_from(PHRASES),
    st.sampled_from(ODD),
    st.text(max_size=6),
    st.from_regex(r"\d{1,3}[a-c°x.,/-]\d?"),
)


@settings(max_examples=500, deadline=None)
@given(st.lists(tokens, max_size=14))
def test_no_words_make_it_fail(said: list[str]) -> None:
    talk = [token for phrase in said for token in (phrase.split() or [phrase])]
    end = 0
    for found in find_quantities(talk):
        assert end <= found.start < found.end <= len(talk)
        assert 0 <= found.low <= found.high
        assert found.said == " ".join(talk[found.start : found.end])
        end = found.end
    for place in range(len(talk)):
        number_at(talk, place)


def test_a_talk_is_read_fast() -> None:
    talk = [token for row in ROWS for token in row["says"].split()] * 4
    find_quantities(talk[:100])
    fastest = 0.0
    for _ in range(3):
        begun = time.perf_counter()
        find_quantities(talk)
        fastest = max(fastest, len(talk) / (time.perf_counter() - begun))
    assert fastest > FLOOR_TOKENS_PER_SECOND


def test_time_grows_no_faster_than_the_talk() -> None:
    def seconds(talk: list[str]) -> float:
        begun = time.perf_counter()
        find_quantities(talk)
        return time.perf_counter() - begun

    for worst in (["one"], ["a"], ["half"], ["two", "no"], ["one", "to"], ["like"], ["between", "one", "and"]):
        short, long = worst * (1500 // len(worst)), worst * (6000 // len(worst))
        assert min(seconds(long) for _ in range(2)) < 16 * max(min(seconds(short) for _ in range(3)), 1e-3)


def test_nothing_heavy_is_loaded() -> None:
    heavy = "{'spacy', 'pint', 'quantulum3', 'pydantic', 'numpy'}"
    used = "import sys, stovescript.measure as measure; measure.find_quantities(['2', 'cups'])"
    subprocess.run([sys.executable, "-c", f"{used}; assert not {heavy} & set(sys.modules)"], check=True)
