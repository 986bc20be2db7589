"""Links into the video. Outside the project: urllib reads the query; W3C Media Fragments URI 1.0 for media files."""

from urllib.parse import parse_qs, urlsplit

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stovescript.errors import StovescriptError
from stovescript.pages.video_link import at_second, checked


@pytest.mark.parametrize(
    ("video", "link"),
    [
        ("https://video.example/soup", "https://video.example/soup?t=95"),
        ("https://video.example/watch?v=soup", "https://video.example/watch?v=soup&t=95"),
        ("https://video.example/watch?t=5&v=soup", "https://video.example/watch?v=soup&t=95"),
        ("https://video.example/watch?v=soup&t=5m#top", "https://video.example/watch?v=soup&t=95#top"),
        ("https://video.example/#comments", "https://video.example/?t=95#comments"),
        ("https://video.example/watch?v=a%20b&list=", "https://video.example/watch?v=a%20b&list=&t=95"),
        ("https://files.example/soup.mp4", "https://files.example/soup.mp4#t=95"),
        ("https://files.example/soup.WEBM?key=1#t=3", "https://files.example/soup.WEBM?key=1#t=95"),
    ],
)
def test_a_second_is_added_whatever_the_address_has(video: str, link: str) -> None:
    assert at_second(video, 95.7) == link


@given(st.dictionaries(st.sampled_from(["v", "list", "t", "time"]), st.from_regex(r"[a-z0-9]{1,5}", fullmatch=True)))
def test_the_rest_of_the_query_stays(query: dict[str, str]) -> None:
    video = "https://video.example/watch?" + "&".join(f"{name}={value}" for name, value in query.items())
    made = parse_qs(urlsplit(at_second(video, 12)).query)
    assert made == {name: [value] for name, value in {**query, "t": "12"}.items()}
    assert at_second(at_second(video, 7), 12) == at_second(video, 12)


@pytest.mark.parametrize(
    "text",
    [
        "javascript:alert(1)",
        "data:text/html,hi",
        "file:///soup.mp4",
        "ftp://video.example/soup",
        "//video.example/soup",
        "video.example/soup",
        "https://",
        "https:///soup",
        "https://video.example/so up",
        "https://video.example/\nsoup",
        "https://[::1",
        "https://video.example:99999/",
        "",
    ],
)
def test_only_addresses_on_the_web_are_taken(text: str) -> None:
    with pytest.raises(StovescriptError, match="this is no web address"):
        checked(text)


@pytest.mark.parametrize(
    "text", ["http://video.example/soup", " https://video.example/watch?v=soup#t ", "https://a.example:8080/"]
)
def test_an_ordinary_address_stays(text: str) -> None:
    assert checked(text) == text.strip()


@pytest.mark.parametrize("mark", [*"\"'<>()`{}|^", "]("])
def test_no_mark_can_end_the_link_that_holds_it(mark: str) -> None:
    """RFC 3986, section 2.2: what stands outside the reserved and unreserved sets is percent-encoded."""
    made = at_second(checked(f"https://video.example/{mark}?v={mark}#{mark}"), 3)
    assert not set("\"'<>()`{}|^] ") & set(made)
