"""An entry of the answers file in a few words: what is undone, what was changed elsewhere, what is kept."""

from stovescript.answers import Entry

_TOLD = {
    "answer": "{about}: {to}",
    "dismiss": "{about}: no answer needed",
    "title": "title: {to}",
    "summary": "line under the title: {to}",
    "servings": "yield: {to}",
    "rename": "{about} is called {to}",
    "amount": "amount of {about}: {to}",
    "goes in": "where {about} goes in",
    "add use": "{about} goes in once more: {to}",
    "size": "size of {about}: {to}",
    "preparation": "preparation of {about}: {to}",
    "optional": "{about} may be left out: {to}",
    "component": "{about} belongs to: {to}",
    "add ingredient": "new ingredient: {to}",
    "split": "{about} is two: {to}",
    "merge": "“{about}” put together with “{where}”",
    "drop": "“{about}” taken out",
    "words": "words of “{about}”",
    "until": "sign that “{about}” is done: {to}",
    "add step": "new step: {to}",
    "move": "step “{about}” moved",
    "fulfil": "promise “{about}”: {to}",
    "add tip": "new tip: {to}",
    "add variation": "new variation: {to}",
}
_LONGEST = 60


def told(entry: Entry) -> str:
    """What the entry does: "amount of cumin: 2 teaspoons"."""
    about = entry.of.about or entry.of.id if entry.of else ""
    if entry.of and entry.of.kind == "gap":
        about = about.replace("_", " ")
    usual = f"{entry.do} of “{about}”: {{to}}" if entry.of else f"{entry.do}: {{to}}"
    where = entry.where.about if entry.where else ""
    return _TOLD.get(entry.do, usual).format(about=about, to=_short(entry.text) or "nothing", where=where)


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1].rsplit(" ", 1)[0] + " …"
