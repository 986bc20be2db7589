"""A headless Chromium for the tests in this folder; skipped with the reason where there is none.

`browser` is one Chromium for all tests here; `opened` opens a page of given HTML, a file or an address at a width.
"""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or ""
PHONE, DESKTOP = 360, 1280
"""Widths in CSS pixels."""

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
)

Opened = Callable[..., Page]


@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    """Chromium of the system. Closed after this folder: until then it holds the thread's event loop."""
    if not CHROMIUM:
        pytest.skip("no Chromium on this machine: install the package chromium")
    with sync_playwright() as driver:
        chromium = driver.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield chromium
        chromium.close()


@pytest.fixture
def opened(browser: Browser) -> Iterator[Opened]:
    """Opens HTML (a string), a file or an address: `opened(page, width=PHONE, script=False, dark=True)`."""
    contexts = []

    def open_page(source: str | Path, width: int = DESKTOP, script: bool = True, dark: bool = False) -> Page:
        context = browser.new_context(
            viewport={"width": width, "height": 800},
            java_script_enabled=script,
            color_scheme="dark" if dark else "light",
        )
        contexts.append(context)
        page = context.new_page()
        if isinstance(source, Path) or source.startswith("http"):
            page.goto(source.resolve().as_uri() if isinstance(source, Path) else source)
        else:
            page.set_content(source)
        return page

    yield open_page
    for context in contexts:
        context.close()
