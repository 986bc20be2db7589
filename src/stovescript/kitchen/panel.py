"""What spoken words on an appliance's panel name: the appliance itself, its program, level and release."""

import re
import unicodedata
from collections.abc import Mapping
from functools import cache

from .appliances import Appliance, ApplianceSetting, by_form, by_name, by_unsure_form, settings

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
    """The program of a phrase as said, on that appliance first; None where it names none."""
    return _setting_named("program", text, appliance)


@cache
def level_named(text: str, appliance: str | None = None) -> str | None:
    """The level of a phrase as said ("a medium high flame" is medium-high); None where it names none."""
    for kind in ("level", "power", "speed"):
        if found := _setting_named(kind, text, appliance if kind == "level" else appliance or "-"):
            return found.name
    return None


def release_in(text: str) -> str | None:
    """The pressure release that a clause tells of: "quick", "natural", "timed natural" ...; None where none."""
    best: tuple[int, str] | None = None
    for form, setting in _forms("release").items():
        if re.search(rf"\b{re.escape(form)}\b", text) and (best is None or len(form) > best[0]):
            best = len(form), setting[0].name.removesuffix(" release")
    return best[1] if best else None


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
