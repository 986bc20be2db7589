"""The golden files are what the program makes; `python -m tests.pages.golden` renews them."""

import pytest

from tests.pages.golden import FOLDER, pages


@pytest.mark.parametrize("name", sorted(pages()))
def test_the_page_is_as_it_was_reviewed(name: str) -> None:
    assert pages()[name] == (FOLDER / name).read_text(encoding="utf-8")


def test_there_is_no_golden_file_that_nothing_makes() -> None:
    assert {file.name for file in FOLDER.iterdir() if file.suffix in (".md", ".html")} == set(pages())
