"""The index of an archive as one page: it needs no network, and no script to be read."""

import os
from collections.abc import Iterable
from html import escape
from importlib.resources import files
from urllib.parse import quote

from stovescript.archive.duplicates import Pair
from stovescript.archive.index import Index
from stovescript.archive.pictures import bars, points
from stovescript.archive.rows import Cell, Row
from stovescript.pages.markdown import clock

_MOST = 10  # talks in the list of those that need her most
_ASKED = 5  # questions shown for each of them
_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
)


def index_page(index: Index) -> str:
    """The whole page."""
    sections = [
        ("needs-you", "What needs you most", _needs(index)),
        ("all", "All drafts", _drafts(index)),
        ("twice", "Perhaps the same dish twice", _twice(index)),
        ("failed", "Could not be drafted", _failed(index)),
        ("look-again", "Answers to look at again", _look_again(index)),
        ("gone", "No longer found", _gone(index)),
        ("passed-over", "Files passed over", _passed_over(index)),
        ("pictures", "The archive at a glance", _pictures(index)),
        ("tables", "Tables", _tables(index)),
    ]
    shown = [(mark, heading, inside) for mark, heading, inside in sections if inside]
    links = "".join(f'<li><a href="#{mark}">{heading}</a></li>' for mark, heading, _ in shown)
    body = "".join(
        f'<section aria-labelledby="{mark}"><h2 id="{mark}">{heading}</h2>{inside}</section>'
        for mark, heading, inside in shown
    )
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>Recipe drafts</title><style>{_file('index.css')}</style></head>\n<body>\n"
        f"<header><h1>Recipe drafts, and what each still needs</h1>{_overview(index)}"
        f'<nav aria-label="On this page"><ul>{links}</ul></nav></header>\n'
        f"<main>{body}</main>\n<script>{_file('index.js')}</script>\n</body></html>\n"
    )


def _file(name: str) -> str:
    return files(__package__).joinpath(name).read_text(encoding="utf-8")


def _overview(index: Index) -> str:
    drafted = index.drafted
    ready = sum(talk["must"] == 0 for talk in drafted)
    must, promises = (sum(_number(talk[name]) for talk in drafted) for name in ("must", "promises"))
    talks = len(drafted) + len(index.failed)
    said = [
        f"{len(drafted):,} of {_count(talks, 'talk')} {_be(talks)} drafted.",
        f"{ready:,} ask nothing that must be answered; the others wait for {_count(must, 'answer')} from you.",
        f"{_count(promises, 'promise')} to viewers {_be(promises)} still open." if promises else "",
    ]
    return f"<p>{' '.join(filter(None, said))}</p>"


def _needs(index: Index) -> str:
    """The talks with most left to answer, with their first questions."""
    waiting = [talk for talk in index.drafted if talk["must"] or talk["promises"]]
    waiting.sort(key=lambda talk: (-_number(talk["must"]), -_number(talk["promises"])))
    items = []
    for talk in waiting[:_MOST]:
        asked = index.questions.get(str(talk["talk"]), ())
        lines = "".join(f"<li>{_time(index, talk, q['heard_at'])}{_text(q['question'])}</li>" for q in asked[:_ASKED])
        more = len(asked) - _ASKED
        rest = f'<li class="soft">and {more} more in the draft</li>' if more > 0 else ""
        items.append(
            f'<li>{_title(talk)} <span class="must">{_wants(talk)}</span>'
            f"<details><summary>The questions</summary><ul>{lines}{rest}</ul></details></li>"
        )
    return f'<ol class="most">{"".join(items)}</ol>' if items else ""


def _wants(talk: Row) -> str:
    must, promises = _number(talk["must"]), _number(talk["promises"])
    parts = [
        f"{_count(must, 'question')} must be answered" if must else "",
        f"{_count(promises, 'promise')} to keep" if promises else "",
    ]
    return ", ".join(filter(None, parts))


def _drafts(index: Index) -> str:
    if not index.drafted:
        return "<p>No talk is drafted yet.</p>"
    columns = (
        ("Dish", ""),
        ("Must be answered", "number"),
        ("Other questions", "number"),
        ("Promises open", "number"),
        ("Length", "number wide"),
        ("Ingredients", "number wide"),
    )
    head = "".join(
        f'<th scope="col" class="{kind}"{_SORTED if place == 1 else ""}>{name}</th>'
        for place, (name, kind) in enumerate(columns)
    )
    rows = "".join(_row(index, talk) for talk in index.drafted)
    return (
        '<div class="search" role="search" hidden><label for="words">Search the drafts by dish, file or ingredient'
        '</label><input id="words" type="search" autocomplete="off"><p id="shown" role="status"></p></div>'
        '<table id="drafts"><caption>Those with least missing come first.</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"
    )


_SORTED = ' aria-sort="ascending"'


def _row(index: Index, talk: Row) -> str:
    others = _number(talk["should"]) + _number(talk["could"])
    length = float(talk["length"] or 0)
    foods = index.ingredients.get(str(talk["talk"]), ())
    listed = f"<details><summary>Ingredients</summary>{_text(', '.join(foods))}</details>" if foods else ""
    return (
        f'<tr><th scope="row">{_title(talk)}<div class="soft">{_sources(index, talk)}</div>{listed}</th>'
        f"{_cell(talk['must'])}{_cell(others)}{_cell(talk['promises'])}"
        f'<td class="number wide" data-value="{length}">{clock(length)}</td>'
        f"{_cell(len(foods), ' wide')}</tr>"
    )


def _cell(value: Cell, kind: str = "") -> str:
    return f'<td class="number{kind}" data-value="{_number(value)}">{_number(value):,}</td>'


def _title(talk: Row) -> str:
    """The dish, linked to its draft."""
    title = str(talk["title"] or "")
    named = _text(title[:1].upper() + title[1:]) if title else f"Untitled dish ({_text(talk['talk'])})"
    page = talk["page"]
    return f'<a href="{quote(os.fsencode(str(page)))}">{named}</a>' if page else f"<span>{named}</span>"


def _sources(index: Index, talk: Row) -> str:
    """The captions and the video that a draft was made from."""
    return " · ".join(_link(index, str(talk[name])) for name in ("talk", "video") if talk[name])


def _link(index: Index, path: str) -> str:
    address = index.link(path)
    return f'<a href="{escape(address)}">{_text(path)}</a>' if address else _text(path)


def _time(index: Index, talk: Row, seconds: Cell) -> str:
    """When it was said, linked to that place in the video (W3C Media Fragments)."""
    if seconds is None:
        return ""
    shown = clock(float(seconds))
    address = index.link(str(talk["video"]))
    linked = f'<a href="{escape(address)}#t={float(seconds):g}">{shown}</a>' if address else shown
    return f'<span class="soft">{linked}</span> '


def _twice(index: Index) -> str:
    titles = {str(talk["talk"]): talk for talk in index.drafted}
    items = "".join(
        f"<li>{_title(titles[pair.first])} and {_title(titles[pair.second])}: {_why(pair)}"
        f'<div class="soft">{_text(pair.first)} · {_text(pair.second)}</div></li>'
        for pair in index.likely
    )
    return f"<ul>{items}</ul>" if items else ""


def _why(pair: Pair) -> str:
    if pair.same_captions:
        return "the captions are the same."
    some = ", ".join(pair.shared[:6]) + (" ..." if len(pair.shared) > 6 else "")
    return _text(f"{_count(len(pair.shared), 'ingredient')} in common ({some}).")


def _failed(index: Index) -> str:
    return _list(
        f"{_text(talk['error'])}"
        + (f' <a href="{quote(str(talk["page"]))}">An earlier draft</a> is kept.' if talk["page"] else "")
        for talk in index.failed
    )


def _look_again(index: Index) -> str:
    return _list(
        f"{_title(talk)}{_list(map(_text, str(talk['notices']).splitlines()))}"
        for talk in index.drafted
        if talk["notices"]
    )


def _gone(index: Index) -> str:
    if not index.gone:
        return ""
    told = (
        "<p>The last run did not find these talks. Their drafts are kept; take them away if you don't need them.</p>"
    )
    return told + _list(f"{_text(talk['talk'])}{_kept(talk)}" for talk in index.gone)


def _kept(talk: Row) -> str:
    return f": {_title(talk)}" if talk["page"] else ""


def _passed_over(index: Index) -> str:
    inside = _list(
        _text(item.why if item.why.startswith(item.path) else f"{item.path}: {item.why}.")
        for item in index.passed_over
    )
    count = len(index.passed_over)
    return f"<details><summary>{_count(count, 'file')} or folders</summary>{inside}</details>" if count else ""


def _pictures(index: Index) -> str:
    made = []
    if index.by_kind:
        made.append(("What is asked", bars("Questions by kind", index.by_kind)))
    timed = [
        (float(talk["words"]), float(talk["drafting_seconds"]))
        for talk in index.drafted
        if talk["words"] and talk["drafting_seconds"]
    ]
    if timed:
        made.append(("How long drafting took", points("Seconds per draft, by words", timed, "words", "seconds")))
    return "".join(f"<figure><figcaption>{title}</figcaption>{svg}</figure>" for title, svg in made)


def _tables(index: Index) -> str:
    links = "".join(f'<li><a href="{quote(path)}">{_text(path)}</a></li>' for path in index.tables)
    return (
        f"<p>The same as data, for a spreadsheet:</p><ul>{links}"
        '<li><a href="archive.sqlite">archive.sqlite</a> holds them all, for SQL.</li></ul>'
    )


def _list(items: Iterable[str]) -> str:
    inside = "".join(f"<li>{item}</li>" for item in items)
    return f"<ul>{inside}</ul>" if inside else ""


def _text(value: Cell) -> str:
    return escape(str(value))


def _number(value: Cell) -> int:
    return int(value or 0)


def _be(number: int) -> str:
    return "is" if number == 1 else "are"


def _count(number: int, noun: str) -> str:
    return f"{number:,} {noun}{'' if number == 1 else 's'}"
