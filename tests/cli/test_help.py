"""Help, at once and with examples that work; the schema."""

import json
import re
import shlex
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]

from tests.cli.running import DIP, Stovescript, contents, python

COMMANDS = {
    "draft": "stovescript draft captions.vtt --out drafts",
    "check": "stovescript check captions.vtt",
    "explain": "stovescript explain captions.vtt --at 0:05",
    "schema": "stovescript schema > draft.schema.json",
}
HEAVY = ("spacy", "onnxruntime", "pydantic", "quantulum3", "numpy", "tokenizers", "rapidfuzz", "webvtt", "srt")

HELP_AND_MODULES = """
import sys
from stovescript.cli import main
try:
    main()
except SystemExit as done:
    print(sorted(name for name in sys.modules if "." not in name), file=sys.stderr)
    sys.exit(done.code)
"""


def test_help_loads_nothing_heavy(tmp_path: Path) -> None:
    ran = python(HELP_AND_MODULES, "--help", cwd=tmp_path)
    assert ran.code == 0
    assert all(command in ran.out for command in COMMANDS)
    loaded = set(re.findall(r"'(\w+)'", ran.err))
    assert "stovescript" in loaded and not loaded & set(HEAVY)
    assert "\x1b" not in ran.out


@pytest.mark.parametrize(("command", "example"), COMMANDS.items())
def test_the_help_of_a_command_shows_its_example(stove: Stovescript, command: str, example: str) -> None:
    ran = stove(command, "--help")
    assert (ran.code, ran.err) == (0, "")
    assert f"Example: {example}" in ran.out


@pytest.mark.parametrize(("command", "example"), COMMANDS.items())
def test_the_example_works_as_shown(
    stove: Stovescript, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str, example: str
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "captions.vtt").write_text(DIP)
    line, _, redirected = example.partition(" > ")
    ran = stove(*shlex.split(line)[1:])
    assert (ran.code, ran.err) == (0, "")
    if redirected:
        Draft202012Validator.check_schema(json.loads(ran.out))
    if command == "draft":
        assert list(contents(tmp_path / "drafts")) == ["captions.draft.json", "captions.heard.json", "captions.md"]


def test_the_help_of_draft_tells_its_options(stove: Stovescript) -> None:
    text = stove("draft", "--help").out
    assert all(word in text for word in ("TALK", "--out", "--title", ".vtt", ".srt", ".sbv", "standard input"))


def test_no_command_shows_the_help(stove: Stovescript) -> None:
    ran = stove()
    assert all(command in ran.out + ran.err for command in COMMANDS)


@pytest.mark.parametrize("arguments", [("bake",), ("draft",), ("check",), ("draft", "a.vtt", "b.vtt"), ("--fast",)])
def test_a_wrong_command_line_is_a_usage_error(stove: Stovescript, arguments: tuple[str, ...]) -> None:
    """Exit code 2 for usage errors: common practice of command lines."""
    ran = stove(*arguments)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("Usage: ") and "Traceback" not in ran.err
