"""The shopping list as a Markdown page to take along and as CSV for a spreadsheet."""

import csv
import io
from collections.abc import Iterator, Mapping
from itertools import groupby

from stovescript.pages.buying import portion_text, whole_text
from stovescript.pages.forms import Publication, form
from stovescript.pages.markdown import safe
from stovescript.pages.servings import yield_text
from stovescript.pages.shopping import Dish, Item, ShoppingList, dishes_of, shopping_list

COLUMNS = ("section", "food", "amount", "in whole", "optional", "instead", "for", "note")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""A spreadsheet takes a cell that starts so for a formula (OWASP, CSV injection)."""
_RANGED = "high end of a range"
_TURNED = "cups and weights added up"


@form("shopping")
def shopping(publication: Publication) -> Mapping[str, str | bytes]:
    """STEM.shopping.md and STEM.shopping.csv."""
    found = shopping_list(dishes_of([(publication.stem, publication.draft)]))
    return shopping_files(found, f"{publication.stem}.shopping") if found.items else {}


def shopping_files(found: ShoppingList, name: str) -> dict[str, str | bytes]:
    """The page and the table, by file name."""
    return {f"{name}.md": shopping_page(found), f"{name}.csv": shopping_table(found)}


def shopping_page(found: ShoppingList) -> str:
    """The list as Markdown: a box to tick for every food, by section."""
    lines = ["# Shopping list", "", *_heading(found)]
    for section, items in groupby(found.items, key=lambda item: item.section):
        lines += [f"## {safe(section)}", ""]
        lines += [f"- [ ] {_line(item, len(found.dishes))}" for item in items]
        lines.append("")
    if found.not_bought:
        lines += ["## Not on the list", "", *(f"- {safe(name)} ({why})" for name, why in found.not_bought)]
    return "\n".join(lines).rstrip() + "\n"


def shopping_table(found: ShoppingList) -> str:
    """The list as CSV (RFC 4180), a row for each food."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(COLUMNS)
    for item in found.items:
        row = (
            item.section,
            item.name,
            amount_text(item),
            whole_text(item.name, item.portions),
            _of("optional", item.optional, item) if item.optional else "",
            " or ".join(item.instead),
            "; ".join(item.dishes),
            "; ".join(_notes(item)),
        )
        writer.writerow([f"'{cell}" if cell.startswith(_FORMULA) else cell for cell in row])
    return out.getvalue()


def amount_text(item: Item) -> str:
    """ "2 (15-ounce) cans + 1 cup"; "amount not said", alone or for a part of it."""
    said = " + ".join(map(portion_text, item.portions))
    if not item.unsaid:
        return said
    return f"{said} + an amount not said" if said else "amount not said"


def _heading(found: ShoppingList) -> Iterator[str]:
    for dish in found.dishes:
        yield f"- For {safe(dish.label)}{_serves(dish)}{_open(dish)}"
    yield ""
    notes = {note for item in found.items for note in _notes(item)}
    if _RANGED in notes:
        yield from ("Where a range was said, its high end is listed.", "")
    if _TURNED in notes:
        yield from ("Cups and weights of one food are added up by the usual weight of a cup: about right.", "")


def _serves(dish: Dish) -> str:
    return f": {safe(yield_text(dish.draft.servings))}" if dish.draft.servings else ""


def _open(dish: Dish) -> str:
    count = sum(gap.severity == "must" and gap.ingredient is not None for gap in dish.draft.gaps)
    if not count:
        return ""
    return f" (not final: {count} question{'s' if count > 1 else ''} about its ingredients must still be answered)"


def _line(item: Item, dishes: int) -> str:
    whole = whole_text(item.name, item.portions)
    text = f"{safe(item.name)}: {safe(amount_text(item))}" + (f" ({safe(whole)})" if whole else "")
    if item.instead:
        text += f", or {safe(' or '.join(item.instead))}"
    if item.optional:
        text += f" ({safe(_of('optional', item.optional, item))})"
    if notes := _notes(item):
        text += f" *({safe('; '.join(notes))})*"
    if dishes > 1:
        text += f" – for {safe(', '.join(item.dishes))}"
    return text


def _of(what: str, some: tuple[str, ...], item: Item) -> str:
    """ "optional in the soup" where it holds for some of an item's dishes only."""
    return what if some == item.dishes else f"{what} in {', '.join(some)}"


def _notes(item: Item) -> list[str]:
    notes = []
    if any(portion.ranged for portion in item.portions):
        notes.append(_RANGED)
    if any(portion.turned for portion in item.portions):
        notes.append(_TURNED)
    if item.larger:
        notes.append(_of("two amounts were said", item.larger, item) + "; the larger is counted")
    if item.unsettled:
        notes.append(_of("another amount was said too", item.unsettled, item) + "; check which is right")
    return notes
