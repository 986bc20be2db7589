"""What spoken words on an appliance's panel name: the appliance itself, its program, level and release."""

import re
import unicodedata
from collections.abc import Mapping
from functools import cache

from .appliances import Appliance, ApplianceSetting, by_form, by_name, by_unsure_form, settings
from .sounds import alike
from .words import wordlist

_BY_SOUND = 66.0  # how alike a mis-heard program must be to one that the appliance has

_USUAL_SENSE = {"grill": "grill", "cooker": "slow cooker", "mixer": "stand mixer", "heat": "stovetop"}
"""Where a word means several appliances and nothing else tells: common practice."""


@cache
def appliance_named(text: str) -> Appliance | None:
    """The appliance of a phrase as said ("my little air fryer"); None where it names none."""
    words = _plain(text).split()
    for forms in (by_form(), _unsure()):
        for size in range(len(words), 0, -1):
            for start in range(len(words) - size + 1):
                if found := forms.get(" ".join(words[start : start + size])):
                    return found
    return None


@cache
def _unsure() -> Mapping[str, Appliance]:
    named = by_name()
    return {
        form: named.get(_USUAL_SENSE.get(form, ""), candidates[0]) for form, candidates in by_unsure_form().items()
    }


@cache
def program_named(text: str, appliance: str | None = None) -> ApplianceSetting | None:
    """The program of a phrase as said, on that appliance first, by sound at last; None where it names none."""
    if found := _setting_named("program", text, appliance):
        return found
    own = [(alike(_plain(text), form), form) for form, several in _forms("program").items() for s in several
           if appliance in s.appliances]  # fmt: skip
    likeness, form = max(own, default=(0.0, ""))
    return _setting_named("program", form, appliance) if likeness >= _BY_SOUND else None


@cache
def programs_in(text: str, appliance: str | None) -> tuple[str, ...]:
    """The programs that a clause names in words that mean nothing else: "sauté", "pressure cook", "slow cook mode"."""
    found = [form for form in _plain_programs(appliance) if re.search(rf"\b{re.escape(form)}\b", text)]
    return tuple(sorted(found, key=len, reverse=True)[:1])


@cache
def _plain_programs(appliance: str | None) -> tuple[str, ...]:
    return tuple(
        form
        for form, several in _forms("program").items()
        if (" " in form or form == "saute") and any(appliance in setting.appliances for setting in several)
    )


def program_text(text: str, appliance: str | None = None) -> str:
    """The program's name as the panel has it: the cook's words where they hold the usual name, else that."""
    found = program_named(text, appliance)
    words = [word for word in _plain(text).split() if word not in wordlist("panel")]
    words = words[:-1] if words[1:] and words[-1] in ("it", "them", "that", "again") else words
    if found is None or (_plain(found.name) in " ".join(words) and _plain(found.name) != " ".join(words)):
        return " ".join(words) or text
    return found.name


@cache
def level_named(text: str, appliance: str | None = None) -> str | None:
    """The level of a phrase as said ("a medium high flame" is medium-high); None where it names none."""
    for kind in ("level", "power", "speed"):
        if found := _setting_named(kind, text, appliance if kind == "level" else appliance or "-"):
            return found.name
    return None


def release_in(text: str) -> str | None:
    """The pressure release that a clause tells of: "quick", "natural", "timed natural" ...; None where none."""
    found = max(_release_pattern().findall(text), key=len, default=None)
    return _forms("release")[found][0].name.removesuffix(" release") if found else None


@cache
def _release_pattern() -> re.Pattern[str]:
    forms = sorted(_forms("release"), key=len, reverse=True)
    return re.compile(r"\b(?:" + "|".join(map(re.escape, forms)) + r")\b")


def _setting_named(kind: str, text: str, appliance: str | None) -> ApplianceSetting | None:
    words = _plain(text).split()
    forms = _forms(kind)
    for size in range(len(words), 0, -1):
        for start in range(len(words) - size + 1):
            for found in (candidates := forms.get(" ".join(words[start : start + size]), [])):
                if appliance in found.appliances:
                    return found
            if candidates and appliance != "-":
                return candidates[0]
    return None


@cache
def _forms(kind: str) -> Mapping[str, list[ApplianceSetting]]:
    found: dict[str, list[ApplianceSetting]] = {}
    for setting in settings():
        if setting.kind == kind:
            for form in (setting.name, *setting.forms):
                found.setdefault(_plain(form), []).append(setting)
    return found


def _plain(text: str) -> str:
    """Lower case, no accents, spaces for hyphens."""
    letters = unicodedata.normalize("NFKD", text.lower().replace("-", " "))
    return " ".join("".join(c for c in letters if not unicodedata.combining(c)).strip(".,!?").split())
