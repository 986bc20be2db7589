"""Renews the picture of the demo's post in the README: `python -m tests.browser.picture`."""

from playwright.sync_api import sync_playwright

from stovescript.drafting import draft_file
from stovescript.pages.forms import Publication
from stovescript.pages.post_page import post_html
from tests.browser.conftest import CHROMIUM, FLAGS
from tests.pages.demo import DEMO

PICTURE = DEMO.with_name("post.png")
VIDEO = "https://video.example/watch?v=soup"
_SHOWN = {"width": 1000, "height": 960}


def main() -> None:
    """Take the picture."""
    page = post_html(Publication(draft_file(DEMO), DEMO.stem, VIDEO))
    with sync_playwright() as driver:
        chromium = driver.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        shown = chromium.new_page(viewport={"width": _SHOWN["width"], "height": _SHOWN["height"]})
        shown.set_content(page)
        shown.screenshot(path=PICTURE)
        chromium.close()
    print(f"wrote {PICTURE.name}, {PICTURE.stat().st_size // 1000} kB")


if __name__ == "__main__":
    main()
