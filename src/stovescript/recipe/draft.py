"""The draft: the contract's types, validated by pydantic, in seconds and in units written in full."""

from typing import Literal

from pydantic import BaseModel, ConfigDict

GapKind = Literal[
    "unmeasured",
    "vague",
    "unused",
    "conflict",
    "total_mismatch",
    "no_temperature",
    "no_time",
    "temperature_unit",
    "no_servings",
    "no_size",
    "no_release",
    "no_doneness",
    "promise",
    "safety",
    "order",
    "title",
    "alternative_unmeasured",
]
Severity = Literal["must", "should", "could"]


class Part(BaseModel):
    """Base of every part of a draft: immutable, and strict about names.

    An `id` that may be empty is filled by `answers.parts.numbered`, so that each part can be corrected by it.
    """

    model_config = ConfigDict(extra="forbid", frozen=True)


class Evidence(Part):
    """The words that say it, and the seconds from the start of the talk at which they were said."""

    start: float
    end: float
    text: str


TO_TASTE = "to taste"


class Amount(Part):
    """A quantity of an ingredient. `unit` is singular and in full; "" counts whole items.

    The unit TO_TASTE marks an amount that the cook leaves to the reader, in the words of `said`.
    """

    low: float
    high: float
    unit: str
    approximate: bool
    said: str


class Span(Part):
    """A length of time in seconds, from `low` to `high`."""

    low: float
    high: float


class Temperature(Part):
    """A temperature on the scale `unit`; `unit_said` is false where the scale is assumed."""

    low: float
    high: float
    unit: Literal["F", "C", "gas mark"]
    unit_said: bool


class Setting(Part):
    """What an appliance is set to."""

    appliance: str | None
    program: str | None
    level: str | None
    temperature: Temperature | None
    seconds: Span | None
    release: str | None
    evidence: list[Evidence]
    id: str = ""


class Package(Part):
    """Whole packages of a size: two 15-ounce cans."""

    count: float
    size: Amount | None


class Use(Part):
    """One addition of an ingredient; `amount` is null where it was never measured."""

    amount: Amount | None
    step: str | None
    evidence: list[Evidence]
    id: str = ""


class Alternative(Part):
    """What could replace an ingredient."""

    name: str
    amount: Amount | None
    note: str | None
    evidence: list[Evidence]
    id: str = ""


class Ingredient(Part):
    """One food that goes in, with its uses in order.

    `stated_total` is what the cook said it adds up to, `disagreements` pairs of amounts said for one use,
    `heard_as` the ways in which the captions show it.
    """

    id: str
    name: str
    component: str | None
    optional: bool
    preparation: list[str]
    package: Package | None
    uses: list[Use]
    total: Amount | None
    stated_total: Amount | None = None
    disagreements: list[tuple[Amount, Amount]] = []
    alternatives: list[Alternative]
    allergens: list[str]
    heard_as: list[str] = []


class Step(Part):
    """One step of the method, imperative, with the seconds in which it was said."""

    id: str
    text: str
    start: float
    end: float
    ingredients: list[str]
    settings: list[Setting]
    until: str | None
    equipment: list[str]
    evidence: list[Evidence] = []


class StatedTime(Part):
    """A clock time that the cook said, and what it is for."""

    what: str
    span: Span
    evidence: list[Evidence]


class Times(Part):
    """The time account: what was said, and what follows from it."""

    prep: Span | None
    cook: Span | None
    total: Span | None
    stated: list[StatedTime]


class Equipment(Part):
    """A vessel or appliance that is used."""

    name: str
    size: str | None
    evidence: list[Evidence]
    id: str = ""


class Note(Part):
    """A variation, tip or promise in the cook's words; `fulfilled_by` is the text or link that keeps a promise."""

    text: str
    evidence: list[Evidence]
    id: str = ""
    fulfilled_by: str | None = None


class SetAside(Part):
    """A food that was named and does not go in."""

    name: str
    why: Literal["not used", "alternative", "another dish", "chat"]
    evidence: list[Evidence]


class Caution(Part):
    """A caution that the draft calls for, with the guidance it defers to."""

    text: str
    source: str


class Gap(Part):
    """A question for the cook; `id` stays the same when the same talk is drafted again."""

    id: str
    kind: GapKind
    severity: Severity
    about: str
    question: str
    ingredient: str | None
    step: str | None
    evidence: list[Evidence]


class Answered(Part):
    """What the cook answered or corrected after the talk.

    `do` is the kind of entry in her answers file, `text` her words, the rest what it concerns.
    """

    do: str
    about: str
    text: str
    gap: str | None = None
    ingredient: str | None = None
    step: str | None = None


class Mishearing(Part):
    """Words that the captions show, and what they are taken for; seconds from the start of the talk."""

    heard: str
    meant: str
    start: float
    end: float


class Source(Part):
    """The talk that was read."""

    file: str
    sha256: str
    seconds: float
    words: int


class Draft(Part):
    """A recipe as far as the talk says it, with the evidence for every value and a gap for every silence."""

    format: Literal["stovescript/draft"]
    version: Literal[1]
    title: str | None
    summary: str | None
    source: Source
    servings: Amount | None
    ingredients: list[Ingredient]
    steps: list[Step]
    times: Times
    equipment: list[Equipment]
    variations: list[Note]
    tips: list[Note]
    promises: list[Note]
    set_aside: list[SetAside]
    cautions: list[Caution]
    gaps: list[Gap]
    mishearings: list[Mishearing] = []
    answered: list[Answered] = []
