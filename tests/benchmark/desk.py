"""`python -m tests.benchmark.desk [FOLDER]`: how soon the review page of a long talk opens and shows an edit.

The talk is invented: 20,000 words in two hours; its draft is kept in FOLDER, if given. Figures are for Chromium on
this machine, the server included.
"""

import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from stovescript.answers import DraftFiles, answered, heard_text, read_heard
from stovescript.drafting import hear_talk
from stovescript.files import write_together
from stovescript.recipe.draft import Draft
from stovescript.talk import Talk, Word
from tests.browser.conftest import CHROMIUM, FLAGS

_WORDS, _SECONDS = 20_000, 7_200
_FOODS = (
    "flour",
    "butter",
    "sugar",
    "salt",
    "onion",
    "garlic",
    "carrots",
    "thyme",
    "paprika",
    "cumin",
    "chicken broth",
)
_FOODS += ("diced tomatoes", "black beans", "lentils", "rice", "milk", "cream", "parsley", "lemon juice")
_FOODS += ("olive oil", "potatoes", "mushrooms", "spinach", "chickpeas", "ginger", "honey", "oats", "celery")
_MEASURES = ("cups", "tablespoons", "teaspoons", "ounces", "grams")
_NUMBERS = ("one", "two", "three", "four", "five", "six")
_GREETING = "hi everybody today i'm making a big pot of stew and i'll put how to store it in the post"
_TOLD = (
    "so now add {number} {measure} of {food} to the pot and stir it in",
    "and let that cook for about {number} minutes until it smells good",
    "turn the heat down to medium low and put the lid on",
    "my neighbor came by the other day and she said the kitchen smelled like her mother's",
    "you could also use {food} instead if that is what you have at home",
    "i always say don't rush this part because it really does make a difference",
    "scrape the bottom of the pot with a wooden spoon so nothing sticks",
    "then put it in the oven at four hundred degrees for {number} minutes",
    "if your {food} is from the freezer that is totally fine it works just the same",
    "the dog wants out so hang on one second okay where were we",
)


def invented_talk() -> Talk:
    """Two hours of cooking and chat."""
    chance = random.Random(20)
    words = [word for _, word in zip(range(_WORDS), _spoken(chance), strict=False)]
    each = _SECONDS / _WORDS
    spoken = tuple(Word(word, n * each, (n + 1) * each) for n, word in enumerate(words))
    return Talk("two-hours.vtt", "0" * 64, float(_SECONDS), spoken, ())


def _spoken(chance: random.Random) -> Iterator[str]:
    yield from _GREETING.split()
    while True:
        told = chance.choice(_TOLD)
        yield from told.format(
            number=chance.choice(_NUMBERS), measure=chance.choice(_MEASURES), food=chance.choice(_FOODS)
        ).split()


def written(folder: Path) -> tuple[DraftFiles, Draft]:
    """The files that a draft of the talk leaves, made where they are not there."""
    files = DraftFiles(folder, "two-hours")
    if files.heard.exists():
        files.answers.unlink(missing_ok=True)
        return files, read_heard(files.heard).draft
    heard = hear_talk(invented_talk())
    made = answered(heard.draft, ())
    write_together({**files.written(made), files.heard: heard_text(heard)})
    return files, made.draft


def opened(page: Page, address: str) -> float:
    """Milliseconds until the page is there and its first screen is painted."""
    started = time.perf_counter()
    page.goto(address)
    page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")
    return (time.perf_counter() - started) * 1000


_EDIT = """async ([field, value, line]) => {
  const input = document.getElementById(field), shown = document.getElementById(line), before = shown.textContent;
  input.value = value;
  const started = performance.now();
  input.dispatchEvent(new Event("change", { bubbles: true }));
  while (shown.textContent === before) await new Promise(requestAnimationFrame);
  await new Promise(requestAnimationFrame);
  return performance.now() - started;
}"""


def main() -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        started = time.perf_counter()
        files, draft = written(Path(sys.argv[1] if len(sys.argv) > 1 else folder))
        print(f"{_WORDS} words, {_SECONDS / 3600:g} hours; drafted in {time.perf_counter() - started:.1f} s: ", end="")
        print(f"{len(draft.ingredients)} ingredients, {len(draft.steps)} steps, {len(draft.gaps)} questions")
        command = [sys.executable, "-m", "stovescript", "desk", str(files.draft), "--no-browser"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server, sync_playwright() as driver:
            assert server.stdout
            address = server.stdout.readline().split(" at ")[1].strip()
            page = driver.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS)).new_page()
            print(f"opened for the first time: {opened(page, address):.0f} ms")
            again = [opened(page, address) for _ in range(5)]
            print(f"opened again: {statistics.median(again):.0f} ms (median of 5), {max(again):.0f} ms at most")
            use = next(one for one in draft.ingredients if len(one.uses) == 1 or one.total)
            page.locator(f"[id='{use.id}-change']").click()
            field = f"f-{use.uses[0].id}-amount"
            page.locator(f"[id='{field}']").wait_for()
            page.wait_for_timeout(1000)
            took = [page.evaluate(_EDIT, [field, f"{n + 7} cups", f"{use.id}-pick"]) for n in range(15)]
            print(f"an edit shows after: {statistics.median(took):.0f} ms (median of 15), {max(took):.0f} ms at most")
            server.terminate()


if __name__ == "__main__":
    main()
