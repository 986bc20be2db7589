"""A draft as pieces of HTML, each of which can be put on the page anew; whatever the talk says is text in it."""

import re
import secrets
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from stovescript.answers import example, ref_of, suggestion
from stovescript.desk.sitting import Now, Sitting
from stovescript.desk.telling import told
from stovescript.measure import to_text
from stovescript.pages.markdown import plain_amount, span_text, temperature_text
from stovescript.pages.servings import yield_text
from stovescript.recipe.draft import Draft, Equipment, Evidence, Gap, Ingredient, Note, Part, Setting
from stovescript.talk.clock import clock_of

if TYPE_CHECKING:
    from jinja2 import Environment

TEMPLATES = Path(__file__).parent / "templates"
SECTIONS = ("top", "questions", "dish", "ingredients", "method", "notes", "yours")
WHOLE_DISH = "dish"
"""The id under which the draft as a whole is edited."""
_NUMBERED_GAPS = ("unused", "order")
_LEAVE_OUT = frozenset({"unmeasured", "vague", "unused", "promise", "alternative_unmeasured"})
"""Questions that can be answered by leaving out what they ask about."""


@dataclass(frozen=True, slots=True)
class Rendered:
    """The draft side: its sections with a mark where each line stands, and the lines by those marks."""

    frames: Mapping[str, str]
    lines: Mapping[str, str]

    def whole(self) -> dict[str, str]:
        """Every section as it is put on the page."""
        return {name: _LINE.sub(lambda mark: self.lines[mark[1]], frame) for name, frame in self.frames.items()}

    def since(self, shown: "Rendered") -> dict[str, str]:
        """What a page that shows another rendering needs: the sections that differ, and of them the lines that do."""
        same = {mark for mark, line in self.lines.items() if shown.lines.get(mark) == line}

        def line(mark: re.Match[str]) -> str:
            return f'<li id="{mark[1].split()[1]}" data-same></li>' if mark[1] in same else self.lines[mark[1]]

        return {
            name: _LINE.sub(line, frame)
            for name, frame in self.frames.items()
            if shown.frames.get(name) != frame or not all(mark in same for mark in _LINE.findall(frame))
        }


class Lines:
    """The lines of one draft as HTML, each made anew only where what it shows has changed."""

    def __init__(self) -> None:
        self._made: dict[str, tuple[object, str]] = {}
        self.used: dict[str, str] = {}

    def __call__(self, kind: str, part: Part, **shown: object) -> str:
        """The mark for the line of a part that has an id; `shown` is all that it says beyond the part."""
        from markupsafe import Markup

        mark, of = f"{kind} {vars(part)['id']}", (part, shown)
        known = self._made.get(mark)
        if known is None or known[0] != of:
            known = self._made[mark] = of, template(f"{kind}_item.html")(part=part, **shown)
        self.used[mark] = known[1]
        return Markup(f"<!--{_MARK} {mark}-->")


_MARK = secrets.token_hex(8)
_LINE = re.compile(rf"<!--{_MARK} ([a-z]+ [^ ]+)-->")
"""A mark; no draft can have it in its words, as it is another in each run."""


def rendered(sitting: Sitting, now: Now, lines: Lines) -> Rendered:
    """The draft side of the page."""
    lines.used = {}
    values = {**_values(sitting, now), "item": lines}
    frames = {name: template(f"{name}.html")(**values) for name in SECTIONS}
    return Rendered(frames, lines.used)


def editor(now: Now, id_: str) -> str | None:
    """The form in which a part is edited, or a question answered; None where the draft has no such part."""
    draft = now.draft
    numbers = {step.id: number for number, step in enumerate(draft.steps, 1)}
    shared: dict[str, Any] = {"draft": draft, "numbers": numbers, "id": id_}
    if id_ == WHOLE_DISH:
        return template("edit_dish.html")(**shared)
    try:
        ref = ref_of(draft, id_)
    except KeyError:
        return None
    if ref.kind == "gap":
        return template("edit_gap.html")(**shared, **_asked(draft, id_))
    part = _part(draft, ref.kind, id_)
    if part is None:
        return None
    name = ref.kind if ref.kind in ("ingredient", "step", "equipment") else "note"
    return template(f"edit_{name}.html")(**shared, part=part, kind=ref.kind)


def talk_groups(now: Now) -> list[dict[str, Any]]:
    """The clauses of the talk by the minute in which they begin, each with its place in the whole talk."""
    groups: list[dict[str, Any]] = []
    for number, clause in enumerate(now.heard.clauses):
        minute = int(clause.start // 60)
        if not groups or groups[-1]["minute"] != minute:
            groups.append({"minute": minute, "clauses": []})
        groups[-1]["clauses"].append((number, clause))
    return groups


@cache
def template(name: str) -> Callable[..., str]:
    """What fills in a template."""
    return environment().get_template(name).render


@cache
def environment() -> "Environment":
    """Templates that escape everything and know every name they use."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    made = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(
        clock=clock_of,
        spans=_spans,
        amount=plain_amount,
        span=span_text,
        degrees=lambda heat: temperature_text(heat.low, heat.high, heat.unit),
        typed_degrees=_typed_degrees,
        makes=lambda servings: yield_text(servings),
        setting=_setting,
        short=_short,
        heard=_heard,
        places=_places,
        number=lambda value: to_text(value),
    )
    return made


def _values(sitting: Sitting, now: Now) -> dict[str, Any]:
    draft = now.draft
    asked: dict[str, list[Gap]] = {}
    for gap in draft.gaps:
        for id_ in filter(None, (gap.ingredient, gap.step)):
            asked.setdefault(id_, []).append(gap)
    parts: dict[str | None, list[Ingredient]] = {}
    for ingredient in draft.ingredients:
        parts.setdefault(ingredient.component, []).append(ingredient)
    return {
        "draft": draft,
        "asked": asked,
        "parts_of": parts,
        "numbers": {step.id: number for number, step in enumerate(draft.steps, 1)},
        "yours": {id_ for one in draft.answered for id_ in (one.ingredient, one.step) if id_},
        "counts": {name: sum(gap.severity == name for gap in draft.gaps) for name in ("must", "should", "could")},
        "undo": sitting.past[-1].what if sitting.past else "",
        "redo": sitting.future[-1].what if sitting.future else "",
        "entries": [(number, told(entry)) for number, entry in enumerate(now.answers.entries)],
        "unplaced": now.outcome.unplaced,
        "notices": now.outcome.notices,
        "file": sitting.files.answers.name,
    }


def _asked(draft: Draft, id_: str) -> dict[str, Any]:
    gap = next(gap for gap in draft.gaps if gap.id == id_)
    offered = suggestion(gap, draft)
    how = {"unused": "in", "order": "after"}.get(gap.kind, "")
    steps = [
        (f"{how} step {number}", f"{how} step {number}: {_short(step.text)}")
        for number, step in enumerate(draft.steps, 1)
        if how
    ]
    return {
        "gap": gap,
        "offered": offered,
        "steps": steps,
        "example": example(gap),
        "long": gap.kind in ("promise", "safety"),
        "leave_out": gap.kind in _LEAVE_OUT,
    }


def _part(draft: Draft, kind: str, id_: str) -> Any:
    if kind == "ingredient":
        return next((one for one in draft.ingredients if one.id == id_), None)
    if kind == "step":
        return next((one for one in draft.steps if one.id == id_), None)
    notes: dict[str, Sequence[Note | Equipment]] = {
        "tip": draft.tips,
        "variation": draft.variations,
        "promise": draft.promises,
        "equipment": draft.equipment,
    }
    return next((one for one in notes.get(kind, ()) if one.id == id_), None)


def _spans(evidence: Iterable[Evidence]) -> str:
    """The seconds of evidence for the page's script: "75.2-78 95-97.5"."""
    return " ".join(f"{one.start:g}-{one.end:g}" for one in evidence)


def _heard(ingredient: Ingredient) -> list[Evidence]:
    return [evidence for use in ingredient.uses for evidence in use.evidence]


def _places(ingredient: Ingredient, numbers: dict[str, int]) -> list[int]:
    """The number of the step of each use; 0 where it goes into none."""
    return [numbers.get(use.step or "", 0) for use in ingredient.uses]


def _setting(setting: Setting) -> str:
    """ "pressure cooker, high, 10 minutes"."""
    heat = setting.temperature
    scale = "" if heat is None or heat.unit_said else " (scale not said)"
    words = (
        setting.appliance,
        setting.program if setting.program != setting.appliance else None,
        setting.level,
        temperature_text(heat.low, heat.high, heat.unit) + scale if heat else None,
        span_text(setting.seconds) if setting.seconds else None,
        f"{setting.release} release" if setting.release else None,
    )
    return ", ".join(word for word in words if word)


def _typed_degrees(setting: Setting) -> str:
    """A temperature as it is typed: "400 F", "gas mark 4"; "" for none."""
    heat = setting.temperature
    if heat is None:
        return ""
    numbers = f"{heat.low:g}" if heat.low == heat.high else f"{heat.low:g}-{heat.high:g}"
    return f"gas mark {numbers}" if heat.unit == "gas mark" else f"{numbers} {heat.unit}"


def _short(text: str, most: int = 60) -> str:
    return text if len(text) <= most else text[: most - 1].rsplit(" ", 1)[0] + " …"
