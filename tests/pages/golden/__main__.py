"""Writes the golden files anew."""

from tests.pages.golden import FOLDER, pages

for name, text in pages().items():
    (FOLDER / name).write_text(text, encoding="utf-8")
    print(f"wrote {name}")
