"""Times in print: clock marks and lengths of time."""

import re
from datetime import timedelta

import isodate  # type: ignore[import-untyped]
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stovescript.pages.markdown import clock, draft_page, span_text
from stovescript.recipe.draft import Draft, Span
from stovescript.talk.clock import seconds_of
from tests.pages.demo import demo_draft
from tests.pages.posts import full_draft

UREG: pint.UnitRegistry[float] = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("seconds", "text"),
    [
        (0, "0:00"),
        (0.99, "0:00"),
        (9.5, "0:09"),
        (59.999, "0:59"),
        (60, "1:00"),
        (75.2, "1:15"),
        (3599, "59:59"),
        (3600, "1:00:00"),
        (3725, "1:02:05"),
        (36000, "10:00:00"),
    ],
)
def test_clock(seconds: float, text: str) -> None:
    assert clock(seconds) == text


@given(st.floats(0, 86399.999))
def test_the_clock_agrees_with_the_standard_library(seconds: float) -> None:
    """Python's datetime writes a length of time as h:mm:ss; the page leaves "0:" and a leading zero out."""
    long = str(timedelta(seconds=int(seconds)))
    assert clock(seconds) == (re.sub(r"^0:0?", "", long) if long.startswith("0:") else long)


@given(st.integers(3600, 86399))
def test_the_clock_is_a_time_of_day_in_iso_8601(seconds: int) -> None:
    """isodate reads ISO 8601, with the hour in two digits, as the standard has it."""
    time = isodate.parse_time(clock(seconds).zfill(8))
    assert time.hour * 3600 + time.minute * 60 + time.second == seconds


@given(st.floats(0, 359999))
def test_the_clock_is_read_back_by_the_caption_reader(seconds: float) -> None:
    assert seconds_of(clock(seconds)) == int(seconds)


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [
        (30, 30, "30 seconds"),
        (45, 60, "45 seconds to 1 minute"),
        (60, 60, "1 minute"),
        (60, 120, "1 to 2 minutes"),
        (600, 600, "10 minutes"),
        (1500, 1800, "25 to 30 minutes"),
        (3600, 3600, "1 hour"),
        (3600, 7200, "1 to 2 hours"),
        (3600, 5400, "1 hour to 1 hour 30 minutes"),
        (5400, 5400, "1 hour 30 minutes"),
        (2700, 3600, "45 minutes to 1 hour"),
        (28800, 36000, "8 to 10 hours"),
        (86400, 86400, "1 day"),
        (86400, 172800, "1 to 2 days"),
        (90000, 90000, "1 day 1 hour"),
        pytest.param(1, 1, "1 second"),
        pytest.param(90, 90, "1 minute 30 seconds"),
        pytest.param(150, 150, "2 minutes 30 seconds"),
        pytest.param(90, 120, "1 minute 30 seconds to 2 minutes"),
    ],
)
def test_a_length_of_time_in_print(low: float, high: float, text: str) -> None:
    assert span_text(Span(low=low, high=high)) == text


def printed_seconds(text: str) -> float:
    """ "1 hour 30 minutes" in seconds, by pint."""
    return sum(UREG.Quantity(float(n), unit).to("second").magnitude for n, unit in re.findall(r"([\d.]+) (\w+)", text))


@given(st.integers(1, 14 * 24 * 60))
def test_whole_minutes_in_print_are_what_was_said(minutes: int) -> None:
    assert printed_seconds(span_text(Span(low=minutes * 60, high=minutes * 60))) == minutes * 60


@pytest.mark.parametrize("seconds", [5, 45, 75, *(pytest.param(s) for s in (90, 105, 135, 630))])
def test_seconds_in_print_are_what_was_said(seconds: int) -> None:
    """ "Microwave it for ninety seconds" is not two minutes."""
    assert printed_seconds(span_text(Span(low=seconds, high=seconds))) == seconds


def spans(draft: Draft) -> list[Span]:
    """Every length of time of a draft."""
    times = draft.times
    settings = [setting.seconds for step in draft.steps for setting in step.settings]
    found = [times.prep, times.cook, times.total, *(stated.span for stated in times.stated), *settings]
    return [span for span in found if span is not None]


@pytest.mark.parametrize("draft", [demo_draft, full_draft])
def test_the_drafts_times_are_durations_of_iso_8601(draft: object) -> None:
    """isodate writes and reads the ISO 8601 durations that recipe markup asks for."""
    assert callable(draft)
    found = spans(draft())
    assert found
    for span in found:
        assert 0 < span.low <= span.high
        for seconds in (span.low, span.high):
            length = timedelta(seconds=seconds)
            assert isodate.parse_duration(isodate.duration_isoformat(length)) == length


def test_the_demo_prints_every_time_it_holds() -> None:
    page = draft_page(demo_draft())
    for stated in demo_draft().times.stated:
        assert f"  - {stated.what}: {span_text(stated.span)} `{clock(stated.evidence[0].start)}`" in page.splitlines()
