"""The time account: what was said, what follows from it, and that the cook's own total wins."""

import pytest

from stovescript.recipe.draft import Draft, Span

from .talking import drafted


def seconds(span: Span | None) -> tuple[float, float] | None:
    return (span.low, span.high) if span else None


def stated(draft: Draft) -> dict[str, tuple[float, float] | None]:
    return {time.what: seconds(time.span) for time in draft.times.stated}


@pytest.mark.parametrize(
    ("clause", "what", "span"),
    [
        ("does| {action:simmer} it for {time:twenty minutes}", "simmering", (1200, 1200)),
        ("does| {action:bake} it for {time:25 to 30 minutes}", "baking", (1500, 1800)),
        ("does| {action:fry} it for {time:five minutes}", "frying", (300, 300)),
        ("does| {action:let} it {action:rest} for {time:ten minutes}", "resting", (600, 600)),
        ("does| {action:marinate} it for {time:two hours}", "marinating", (7200, 7200)),
        ("does| {action:let} it {action:rise} for {time:an hour}", "rising", (3600, 3600)),
        ("does| {action:let} it {action:cool} for {time:half an hour}", "cooling", (1800, 1800)),
        ("states| it takes about {time:ten minutes} to come to pressure", "coming to pressure", (600, 600)),
        ("states| it'll take {time:ten minutes} for the {appliance:oven} to preheat", "preheating", (600, 600)),
        ("states| {time:fifteen minutes} of chopping", "prep", (900, 900)),
        ("states| start to finish that's {time:forty five minutes}", "total", (2700, 2700)),
        ("announce| the whole thing takes {time:an hour}", "total", (3600, 3600)),
        ("states| it keeps for {time:three days} in the fridge", "keeping", (259200, 259200)),
    ],
)
def test_what_a_time_is_for(clause: str, what: str, span: tuple[float, float]) -> None:
    assert stated(drafted(clause)) == {what: span}


@pytest.mark.parametrize(
    "clause",
    [
        "chat| i had this oven for {time:three days}",
        "alternative| in the {appliance:slow cooker} it's {time:six hours}",
        "not-done| some people fry it for {time:an hour}",
        "promise| there's a {time:ten minutes} version in the post",
    ],
)
def test_times_of_something_else_are_not_stated(clause: str) -> None:
    assert drafted(clause).times.stated == []


def test_nothing_said_is_null_not_zero() -> None:
    times = drafted("does| {action:add} {amount:a cup} of {food:flour}").times
    assert (times.prep, times.cook, times.total, times.stated) == (None, None, None, [])


def test_cooking_and_waiting_add_up() -> None:
    """Resting is in the total and not in the cooking time (common practice)."""
    times = drafted(
        """states| {time:ten minutes} of prep
        does @s1| {action:simmer} it for {time:twenty minutes}
        does @s2| {action:let} it {action:rest} for {time:five minutes}"""
    ).times
    assert seconds(times.prep) == (600, 600)
    assert seconds(times.cook) == (1200, 1200)
    assert seconds(times.total) == (2100, 2100)


def test_ranges_add_up_as_ranges() -> None:
    times = drafted(
        """does @s1| {action:fry} it for {time:five minutes}
        does @s2| {action:bake} it for {time:25 to 30 minutes}"""
    ).times
    assert seconds(times.cook) == seconds(times.total) == (1800, 2100)


def test_a_total_that_was_said_wins() -> None:
    times = drafted(
        """does @s1| {action:simmer} it for {time:twenty minutes}
        does @s2| {action:let} it {action:rest} for {time:five minutes}
        states| the whole thing takes {time:forty minutes}"""
    ).times
    assert seconds(times.total) == (2400, 2400)
    assert seconds(times.cook) == (1200, 1200)


def test_how_long_it_keeps_is_no_part_of_the_total() -> None:
    times = drafted(
        """does| {action:bake} it for {time:half an hour}
        states| it keeps for {time:three days} in the fridge"""
    ).times
    assert seconds(times.total) == (1800, 1800)


def test_coming_to_pressure_is_in_the_account() -> None:
    """A full pot takes ten to fifteen minutes to come to pressure (common practice)."""
    times = drafted(
        """does @s1| {action:set} the {appliance:pressure cooker} to {program:pressure cook} for {time:eight minutes}
        does @s2| then do a {action:quick release}"""
    ).times
    assert times.cook and times.total
    assert times.cook.low >= 480 + 600
    assert times.total.low >= times.cook.low


def test_coming_to_pressure_counts_as_said_where_it_is_said() -> None:
    talk = """
        does @s1| {{action:set}} the {{appliance:pressure cooker}} to {{program:pressure cook}} for {{time:an hour}}
        states| it takes {{time:{said}}} to come to pressure
        does @s2| then do a {{action:quick release}}"""
    short, long = (drafted(talk.format(said=said)).times.total for said in ("five minutes", "twenty five minutes"))
    assert short and long
    assert long.low - short.low == 20 * 60


def test_without_pressure_nothing_is_added() -> None:
    times = drafted(
        "does| {action:put} the {appliance:pressure cooker} on {program:saute} for {time:five minutes}"
    ).times
    assert seconds(times.cook) == (300, 300)


def test_the_same_time_told_twice_counts_once() -> None:
    times = drafted(
        """does| {action:bake} it for {time:half an hour}
        does| so you {action:bake} it {time:half an hour}"""
    ).times
    assert seconds(times.cook) == (1800, 1800)
