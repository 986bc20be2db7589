"""Annotated talks: the `.said` markup and its `.gold.toml`, read, checked, and spoken into caption files.

A `.said` file holds one clause per line: ``intent @label| words with {food:spans} marked``. A leading ``+``
says that the clause goes on with the sentence of the line before. ``~ 40`` is a silence of 40 seconds,
``! [music]`` a caption artefact, ``# …`` a remark. ``python -m tests.accuracy.corpus FILE…`` checks files.
"""

import re
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

TALKS = Path(__file__).parents[3] / "fixtures" / "talks"
INTENTS = ("does", "states", "alternative", "not-done", "announce", "chat", "promise", "tip")
LABELS = (
    "food", "amount", "size", "prep", "vessel", "appliance", "program", "level", "temp", "time", "cue", "action",
)  # fmt: skip
KINDS = (
    "unmeasured", "vague", "unused", "conflict", "total_mismatch", "no_temperature", "no_time", "temperature_unit",
    "no_servings", "no_size", "no_release", "no_doneness", "promise", "safety", "order", "title",
    "alternative_unmeasured",
)  # fmt: skip
LINE = re.compile(r"(?P<more>\+?)(?P<intent>[a-z-]+)\s*(?P<label>@\w+)?\s*\|\s*(?P<text>.+)")
STEP = re.compile(r"s\d+")
SPAN = re.compile(r"\{(?P<label>[a-z]+):(?P<words>[^{}]+)\}")


class Strict(BaseModel):
    model_config = ConfigDict(extra="forbid")


class GoldAmount(Strict):
    low: float
    high: float
    unit: str = ""
    approximate: bool = False


class GoldSpan(Strict):
    low: float
    high: float


class GoldPackage(Strict):
    count: float
    size: GoldAmount | None = None


class GoldUse(Strict):
    amount: GoldAmount | None = None
    step: str | None = None


class GoldAlternative(Strict):
    name: str
    amount: GoldAmount | None = None


class GoldIngredient(Strict):
    name: str
    also: list[str] = []
    component: str | None = None
    optional: bool = False
    preparation: list[str] = []
    package: GoldPackage | None = None
    uses: list[GoldUse] = Field(min_length=1)
    total: GoldAmount | None = None
    alternatives: list[GoldAlternative] = []


class GoldTemperature(Strict):
    low: float
    high: float
    unit: Literal["F", "C", "gas mark"]
    unit_said: bool = True


class GoldSetting(Strict):
    step: str
    appliance: str | None = None
    program: str | None = None
    level: str | None = None
    temperature: GoldTemperature | None = None
    seconds: GoldSpan | None = None
    release: str | None = None


class GoldStep(Strict):
    id: str
    text: str


class GoldTime(Strict):
    what: str
    span: GoldSpan


class GoldNote(Strict):
    at: str
    text: str


class GoldSetAside(Strict):
    name: str
    why: Literal["not used", "alternative", "another dish", "chat"]


class GoldGap(Strict):
    kind: Literal[KINDS]  # type: ignore[valid-type]
    about: str
    at: str | None = None


class GoldSpeech(Strict):
    voice: str
    captions: Literal["vtt", "rolling", "srt", "sbv", "text"]
    words_per_minute: float = Field(ge=80, le=230)


class Gold(Strict):
    speech: GoldSpeech
    title: str | None = None
    servings: GoldAmount | None = None
    total: GoldSpan | None = None
    ingredients: list[GoldIngredient] = Field(min_length=1)
    steps: list[GoldStep] = Field(min_length=1)
    settings: list[GoldSetting] = []
    times: list[GoldTime] = []
    variations: list[GoldNote] = []
    tips: list[GoldNote] = []
    promises: list[GoldNote] = []
    set_aside: list[GoldSetAside] = []
    gaps: list[GoldGap] = []


@dataclass(frozen=True)
class Span:
    label: str
    start: int  # word index over the whole talk, end exclusive
    end: int


@dataclass(frozen=True)
class Clause:
    intent: str
    label: str | None
    start: int
    end: int
    new_sentence: bool


@dataclass(frozen=True)
class Said:
    """One annotated talk: its words with times in seconds, clauses, spans and draft-level gold."""

    stem: str
    words: tuple[str, ...]
    starts: tuple[float, ...]
    ends: tuple[float, ...]
    clauses: tuple[Clause, ...]
    spans: tuple[Span, ...]
    noise: tuple[tuple[int, str], ...]  # artefact shown before the word of that index
    steps: frozenset[str]  # labels of the clauses where a method step starts
    gold: Gold | None = None

    def at(self, label: str) -> float:
        """Seconds at which the clause with this label starts."""
        return self.starts[next(c.start for c in self.clauses if c.label == label)]


class CorpusError(ValueError):
    """A line of an annotated talk that breaks the format."""


def read_said(path: Path) -> Said:
    """The annotated talk at PATH (`.said`), with the `.gold.toml` beside it. Raises CorpusError.

    A talk in the folder `heard-only` has no gold: it teaches hearing, and no draft is scored by it.
    """
    if path.parent.name == "heard-only":
        return _read_words(path, None)
    try:
        gold = Gold.model_validate(tomllib.loads(path.with_name(path.stem + ".gold.toml").read_text("utf-8")))
    except (OSError, tomllib.TOMLDecodeError, ValidationError) as error:
        raise CorpusError(f"{path.with_suffix('.gold.toml')}: {error}") from None
    return _read_words(path, gold)


def _read_words(path: Path, gold: Gold | None) -> Said:
    words: list[str] = []
    starts: list[float] = []
    ends: list[float] = []
    clauses: list[Clause] = []
    spans: list[Span] = []
    noise: list[tuple[int, str]] = []
    clock = 0.8
    letters_per_second = (gold.speech.words_per_minute if gold else 150) / 60 * 5.2
    for line in marked_lines(path.read_text("utf-8"), str(path)):
        clock += line.pause
        if line.artefact:
            noise.append((len(words), line.artefact))
        first = len(words)
        for label, tokens in line.pieces:
            if label:
                spans.append(Span(label, len(words), len(words) + len(tokens)))
            for token in tokens:
                words.append(token)
                starts.append(clock)
                clock += (len(token) + 1) / letters_per_second
                ends.append(clock)
        if line.pieces:
            clock += 0.12
            clauses.append(Clause(line.intent, line.mark, first, len(words), line.new_sentence))
    named = (step.id for step in gold.steps) if gold else (c.label for c in clauses if STEP.fullmatch(c.label or ""))
    said = Said(
        path.stem,
        tuple(words),
        tuple(starts),
        tuple(ends),
        tuple(clauses),
        tuple(spans),
        tuple(noise),
        frozenset(filter(None, named)),
        gold,
    )
    _check(said, path)
    return said


@dataclass(frozen=True)
class Line:
    """One line of a `.said` file: a clause in pieces (span label or "", its words), a pause, or an artefact."""

    intent: str = ""
    mark: str | None = None
    new_sentence: bool = True
    pieces: tuple[tuple[str, tuple[str, ...]], ...] = ()
    pause: float = 0.0  # seconds
    artefact: str = ""


def marked_lines(text: str, where: str) -> Iterator[Line]:
    """The lines of annotated text. Raises CorpusError that names `where` and the line."""
    for number, raw in enumerate(text.splitlines(), 1):
        line = raw.strip()
        if not line or line.startswith("#"):
            continue
        if line.startswith("~"):
            yield Line(pause=float(line[1:]))
            continue
        if line.startswith("!"):
            yield Line(artefact=line[1:].strip())
            continue
        found = LINE.fullmatch(line)
        if not found or found["intent"] not in INTENTS:
            raise CorpusError(f"{where}:{number}: not a clause line (intents: {', '.join(INTENTS)}): {line[:60]}")
        pieces = tuple((label, tuple(words.split())) for label, words in _pieces(found["text"]))
        for label, tokens in pieces:
            if label and label not in LABELS:
                raise CorpusError(f"{where}:{number}: unknown span {label!r} (spans: {', '.join(LABELS)})")
            if any("{" in token or "}" in token for token in tokens):
                raise CorpusError(f"{where}:{number}: stray brace in {line[:60]!r}")
        yield Line(found["intent"], found["label"][1:] if found["label"] else None, not found["more"], pieces)


def _pieces(text: str) -> list[tuple[str, str]]:
    pieces, last = [], 0
    for match in SPAN.finditer(text):
        pieces += [("", text[last : match.start()]), (match["label"], match["words"])]
        last = match.end()
    return [*pieces, ("", text[last:])]


def _check(said: Said, path: Path) -> None:
    """Raises CorpusError where gold and words disagree."""
    labels = [clause.label for clause in said.clauses if clause.label]
    problems = [f"label @{label} is used twice" for label in set(labels) if labels.count(label) > 1]
    if (gold := said.gold) is None:
        if problems or not said.steps:
            raise CorpusError(f"{path}: {'; '.join(problems) or 'no clause has a step label (@s1 ...)'}")
        return
    steps = {step.id for step in gold.steps}
    wanted = steps | {note.at for note in [*gold.variations, *gold.tips, *gold.promises]}
    wanted |= {gap.at for gap in gold.gaps if gap.at}
    problems += [f"gold names @{label}, no clause has it" for label in wanted - set(labels)]
    named = {setting.step for setting in gold.settings}
    named |= {use.step for ingredient in gold.ingredients for use in ingredient.uses if use.step}
    problems += [f"gold names step {step!r}, which [[steps]] lacks" for step in named - steps]
    heard = " ".join(said.words).lower()
    for ingredient in gold.ingredients:
        stems = [name.lower()[:-1].rstrip("e") for name in [ingredient.name, *ingredient.also]]
        if not any(stem in heard for stem in stems):
            problems.append(
                f"ingredient {ingredient.name!r} is not in the words; add what the captions show to `also`"
            )
    names = {name.lower() for i in gold.ingredients for name in [i.name, *i.also]}
    for gap in gold.gaps:
        of_food = gap.kind in {"unmeasured", "vague", "unused", "conflict", "total_mismatch"}
        if of_food and gap.about.lower() not in names:
            problems.append(f"gap {gap.kind}: about {gap.about!r} must be an ingredient's name")
    foods = sum(span.label == "food" for span in said.spans)
    if foods < len(gold.ingredients):
        problems.append(f"only {foods} food spans are marked for {len(gold.ingredients)} ingredients")
    if not any(clause.intent == "does" for clause in said.clauses):
        problems.append("no clause has intent does")
    if problems:
        raise CorpusError("\n".join(f"{path}: {problem}" for problem in problems))


def captions(said: Said) -> tuple[str, str]:
    """(suffix, file text) of the talk as a caption file in the style its gold names."""
    return _WRITERS[said.gold.speech.captions if said.gold else "vtt"](said)


def _blocks(said: Said, size: int) -> list[tuple[float, float, str]]:
    """Blocks of about `size` characters that ignore sentence ends, as automatic captions do."""
    noise = dict(said.noise)
    blocks: list[tuple[float, float, str]] = []
    line: list[str] = []
    start = said.starts[0]
    for index, word in enumerate(said.words):
        silent = index and said.starts[index] - said.ends[index - 1] > 4
        if line and (silent or index in noise or len(" ".join(line)) + len(word) > size):
            blocks.append((start, said.ends[index - 1], " ".join(line)))
            line = []
        if index in noise:
            blocks.append((said.starts[index], said.starts[index], noise[index]))
        if not line:
            start = said.starts[index]
        line.append(word)
    blocks.append((start, said.ends[-1], " ".join(line)))
    return blocks


def _clock(seconds: float, mark: str = ".") -> str:
    milliseconds = round(seconds * 1000)
    return (
        f"{milliseconds // 3_600_000:02}:{milliseconds // 60_000 % 60:02}:"
        f"{milliseconds // 1000 % 60:02}{mark}{milliseconds % 1000:03}"
    )


def _vtt(said: Said) -> tuple[str, str]:
    cues = [f"{_clock(a)} --> {_clock(b + 0.01)}\n{text}\n" for a, b, text in _blocks(said, 60)]
    return ".vtt", "WEBVTT\nKind: captions\nLanguage: en\n\n" + "\n".join(cues)


def _rolling(said: Said) -> tuple[str, str]:
    """Two-line automatic captions: each cue shows the line before again, as players roll them."""
    cues, before = [], " "
    for start, end, text in _blocks(said, 38):
        cues.append(f"{_clock(start)} --> {_clock(end + 0.01)} align:start position:0%\n{before}\n{text}\n")
        before = text
    return ".vtt", "WEBVTT\n\n" + "\n".join(cues)


def _srt(said: Said) -> tuple[str, str]:
    cues = [
        f"{number}\n{_clock(a, ',')} --> {_clock(b + 0.01, ',')}\n{text}\n"
        for number, (a, b, text) in enumerate(_blocks(said, 70), 1)
    ]
    return ".srt", "\n".join(cues)


def _sbv(said: Said) -> tuple[str, str]:
    cues = [f"{_clock(a)[1:]},{_clock(b + 0.01)[1:]}\n{text}\n" for a, b, text in _blocks(said, 64)]
    return ".sbv", "\n".join(cues)


def _text(said: Said) -> tuple[str, str]:
    lines = [f"[{int(a) // 60}:{int(a) % 60:02}] {text}" for a, _, text in _blocks(said, 160)]
    return ".txt", "\n".join(lines) + "\n"


_WRITERS = {"vtt": _vtt, "rolling": _rolling, "srt": _srt, "sbv": _sbv, "text": _text}


def main(paths: list[str]) -> int:
    """Check the named files; print one line each."""
    failed = 0
    for path in map(Path, paths):
        try:
            said = read_said(path)
        except CorpusError as error:
            failed += 1
            print(error)
        else:
            counts = f"{path}: {len(said.words)} words, {len(said.clauses)} clauses, {len(said.spans)} spans"
            if said.gold:
                counts += f", {len(said.gold.ingredients)} ingredients, {len(said.gold.gaps)} gaps"
            print(f"{counts}, {said.ends[-1] / 60:.1f} min")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
