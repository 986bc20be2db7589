"""``stovescript scale``: two files whole, or one clear sentence, exit code 2 and nothing."""

import json
from pathlib import Path

import pytest

from stovescript.recipe.draft import Draft
from tests.cli.running import Stovescript, contents, one_line, untouched

from .drafts import amount, draft


@pytest.fixture
def stove(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Stovescript:
    return Stovescript(monkeypatch, capsys)


@pytest.fixture
def cake(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The draft of a cake, alone in the folder that the command runs in."""
    monkeypatch.chdir(tmp_path)
    made = draft(
        ["2 cup: all-purpose flour", "1 cup: sugar", "3: eggs"],
        steps=["Beat 1 cup of sugar with 3 eggs.", "Bake it in the 8 by 8 inch dish."],
        servings=amount(8, "serving"),
        pans=[("baking dish", "8 by 8 inches")],
    )
    file = tmp_path / "cake.draft.json"
    file.write_text(made.model_dump_json(), encoding="utf-8")
    return file


def test_it_writes_a_draft_and_a_page(stove: Stovescript, cake: Path) -> None:
    ran = stove("scale", "cake.draft.json", "--times", "2", "--out", "new/folder")
    assert (ran.code, ran.err) == (0, "")
    assert list(contents(Path("new/folder"))) == ["cake.scaled.draft.json", "cake.scaled.md"]
    made = Draft.model_validate_json(Path("new/folder/cake.scaled.draft.json").read_text())
    assert [i.uses[0].amount.low for i in made.ingredients if i.uses[0].amount] == [4, 2, 6]
    assert made.servings and made.servings.low == 16
    page = Path("new/folder/cake.scaled.md").read_text()
    assert "## Changed for this size\n\n- Everything is made 2 times as much." in page
    assert page.index("## Changed for this size") < page.index("## Ingredients") < page.index("## Method")
    assert "- 4 cups all-purpose flour" in page and "Beat 2 cups of sugar with 6 eggs." in page
    assert "## Nutrition, an estimate\n\n- Calories: " in page
    assert "new/folder/cake.scaled.md" in ran.out


@pytest.mark.parametrize(
    ("arguments", "line"),
    [
        (["--servings", "4"], "- 1 cup all-purpose flour"),
        (["--pan", "9x13"], "- 3 2/3 cups all-purpose flour"),
        (["--units", "weight"], "- 250 grams all-purpose flour"),
        (["--times", "1/2", "--units", "metric"], "- 235 milliliters all-purpose flour"),
    ],
)
def test_each_way(stove: Stovescript, cake: Path, arguments: list[str], line: str) -> None:
    assert stove("scale", cake, *arguments, "--out", "out").code == 0
    assert line in Path("out/cake.scaled.md").read_text()


def test_the_help_and_its_example(stove: Stovescript, cake: Path) -> None:
    text = stove("scale", "--help").out
    example = "stovescript scale drafts/captions.draft.json --times 2 --units metric --out drafts"
    assert f"Example: {example}" in " ".join(text.split())
    assert all(word in text for word in ("DRAFT", "--times", "--servings", "--pan", "--units", "--out"))
    Path("drafts").mkdir()
    cake.rename("drafts/captions.draft.json")
    assert stove(*example.split()[1:]).code == 0


def odd(data: dict[str, object]) -> str:
    """The cake with a number that no kitchen knows, as JSON lets one write it."""
    return json.dumps(data).replace("2.0", "1e999", 1)


@pytest.mark.parametrize(
    ("text", "tells"),
    [
        ("", "no JSON"),
        ("{", "no JSON (line 1"),
        ("[" * 100_000, "no JSON"),
        ("\x00\x01", "no JSON"),
        ("[]", "no draft"),
        ("{}", "no draft"),
        ('{"format": "other"}', "no draft"),
    ],
)
def test_what_is_no_draft_is_refused(stove: Stovescript, tmp_path: Path, text: str, tells: str) -> None:
    file = tmp_path / "x.draft.json"
    file.write_text(text)
    with untouched(tmp_path):
        ran = stove("scale", file, "--times", "2", "--out", tmp_path / "out")
    assert ran.code == 2 and tells in one_line(ran)


def test_a_number_no_kitchen_knows_is_refused(stove: Stovescript, cake: Path) -> None:
    cake.write_text(odd(json.loads(cake.read_text())))
    with untouched(cake.parent):
        ran = stove("scale", cake, "--times", "2", "--out", "out")
    assert ran.code == 2 and "no draft" in one_line(ran)


@pytest.mark.parametrize(
    ("arguments", "tells"),
    [
        (["cake.draft.json"], "nothing to do"),
        (["cake.draft.json", "--times", "-2"], "not above 0"),
        (["cake.draft.json", "--times", "x"], "no number"),
        (["cake.draft.json", "--times", "2", "--pan", "9x13"], "can't go together"),
        (["cake.draft.json", "--pan", "enormous"], "no pan size"),
        (["cake.draft.json", "--units", "stones"], "no system of units"),
        (["missing.draft.json", "--times", "2"], "no such file"),
        ([".", "--times", "2"], "a folder"),
    ],
)
def test_what_cannot_be_done_is_refused(stove: Stovescript, cake: Path, arguments: list[str], tells: str) -> None:
    with untouched(cake.parent):
        ran = stove("scale", *arguments, "--out", "out")
    assert ran.code == 2 and tells in one_line(ran)
    assert ran.err.startswith("stovescript: ")
