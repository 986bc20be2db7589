"""Places in a talk as a person writes them."""

import pytest

from stovescript.errors import StovescriptError
from stovescript.talk import Talk
from stovescript.talk.place import second_in, window

TALK = Talk("soup.vtt", "0" * 64, 4000.0, (), ())


@pytest.mark.parametrize(
    ("text", "second"),
    [
        ("4:10", 250), ("1:04:10", 3850), ("250", 250), ("250 s", 250), ("250s", 250), ("12.5", 12.5),
        ("250 seconds", 250), ("0", 0), (" 4:10 ", 250), ("66:40", 4000),
    ],
)  # fmt: skip
def test_a_time(text: str, second: float) -> None:
    assert second_in(TALK, text) == second


@pytest.mark.parametrize("text", ["", "lunch", "4:75", "-5", "1:60:00", "4:10 pm", "nan", "inf"])
def test_what_is_no_time(text: str) -> None:
    with pytest.raises(StovescriptError, match="is no time; write it like 4:10"):
        second_in(TALK, text)


@pytest.mark.parametrize("text", ["66:41", "2:00:00", "9999 s"])
def test_a_time_outside_the_talk(text: str) -> None:
    with pytest.raises(StovescriptError, match=r"outside the talk, which ends at 1:06:40\.$"):
        second_in(TALK, text)


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        (("4:10", None, None, None), (230, 270)),
        (("4:10", 5.0, None, None), (245, 255)),
        (("0:05", None, None, None), (0, 25)),
        (("66:35", None, None, None), (3975, 4000)),
        ((None, None, "4:00", "5:00"), (240, 300)),
        ((None, None, "4:00", None), (240, 4000)),
        ((None, None, None, "0:30"), (0, 30)),
    ],
)
def test_a_stretch_of_the_talk(
    asked: tuple[str | None, float | None, str | None, str | None], expected: tuple[float, float]
) -> None:
    assert window(TALK, *asked) == expected


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (("4:10", None, "4:00", None), "not both"),
        ((None, 5.0, "4:00", None), "--around needs --at"),
        ((None, None, "5:00", "4:00"), "--to 4:00 is before --from 5:00"),
    ],
)
def test_what_is_no_stretch(asked: tuple[str | None, float | None, str | None, str | None], told: str) -> None:
    with pytest.raises(StovescriptError, match=told):
        window(TALK, *asked)
