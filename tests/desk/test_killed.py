"""The server is killed in mid-save, fifty times: nothing that the page was told is kept is lost, no file is half."""

import json
import os
import random
import re
import signal
import threading
import time
from contextlib import suppress
from http.client import HTTPException

from stovescript.answers import DraftFiles, read_answers
from stovescript.draft_file import read_draft
from tests.desk.conftest import STEM
from tests.desk.serving import Served, servers

_COMMENT = "# what my aunt says about cumin"


def kept(files: DraftFiles) -> int:
    """The amount of cumin in the answers file, which must be whole."""
    for entry in read_answers(files.answers).entries:
        if entry.do == "amount":
            return int(entry.text.split()[0])
    return 0


def save_twice(served: Served, files: DraftFiles, chance: random.Random) -> tuple[int, bool]:
    """Saves an amount, then another while the server is killed: the last that it said is kept, and if it said so."""
    page = served.page(f"drafts/{STEM}")
    edition = re.findall(r'data-edition="([^"]+)"', page)[0]
    amount = int(re.findall(r"<b>(\d+) teaspoons?</b> cumin", page)[0]) + 1
    started = time.perf_counter()
    assert served.post(f"change/{STEM}", wish(edition, amount)) == 200
    took = time.perf_counter() - started
    assert kept(files) == amount
    edition = json.loads(served.page(f"edition/{STEM}"))["edition"]
    timer = threading.Timer(chance.uniform(0, took), os.kill, (served.process, signal.SIGKILL))
    timer.start()
    told = False
    with suppress(OSError, HTTPException):
        told = served.post(f"change/{STEM}", wish(edition, amount + 1)) == 200
    timer.join()
    return amount + told, told


def wish(edition: str, amount: int) -> str:
    return json.dumps({"edition": edition, "do": "amount", "of": "i9.u1", "to": f"{amount} teaspoons"})


def test_fifty_kills_lose_nothing(drafted: DraftFiles) -> None:
    drafted.answers.write_text(
        f'{_COMMENT}\nformat = "stovescript/answers"\nversion = 1\n\n[[entry]]\ndo = "title"\nto = "Soup"\n',
        encoding="utf-8",
    )
    chance = random.Random(6)
    interrupted = 0
    with servers(drafted.draft) as new:
        for _, served in zip(range(50), new, strict=False):
            last, told = save_twice(served, drafted, chance)
            assert last <= kept(drafted) <= last + 1, "what was said to be kept is there, and at most one more"
            assert read_draft(drafted.draft).title == "Soup", "it is whole"
            interrupted += not told
    assert interrupted > 20, "most kills came before the page was told"
    assert drafted.answers.read_text(encoding="utf-8").startswith(_COMMENT)
