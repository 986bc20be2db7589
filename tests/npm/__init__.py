"""What the tests need from npm: `npm ci` in this folder installs it, and a test that misses it is skipped."""

import json
from pathlib import Path

import pytest

FOLDER = Path(__file__).parent


def npm_package(name: str) -> Path:
    """The folder of an installed package; skips the test where it is not installed."""
    folder = FOLDER / "node_modules" / name
    if not (folder / "package.json").is_file():
        pytest.skip(f"{name} is not installed: run npm ci in {FOLDER.relative_to(FOLDER.parents[1])}")
    return folder


def version_of(name: str) -> str:
    """The version of an installed package."""
    return str(json.loads((npm_package(name) / "package.json").read_text(encoding="utf-8"))["version"])
