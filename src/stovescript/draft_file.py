"""Reads a draft from the file that `stovescript draft` wrote."""

import json
import math
from pathlib import Path

from pydantic import ValidationError

from stovescript.errors import StovescriptError
from stovescript.recipe.draft import Draft

_ENDING = ".draft.json"
_GIVE = f"give the {_ENDING} file that stovescript draft wrote"
_HIGHEST = 1e9


def read_draft(path: Path) -> Draft:
    """The draft in the file. Raises StovescriptError, in one sentence, where there is none that can be used."""
    if path.is_dir():
        raise StovescriptError(f"{path}: this is a folder; give the {_ENDING} file in it.")
    try:
        data = json.loads(path.read_bytes().decode("utf-8-sig"))
    except FileNotFoundError:
        raise StovescriptError(f"{path}: no such file; {_GIVE}.") from None
    except OSError as error:
        raise StovescriptError(f"{path}: can't be read ({(error.strerror or str(error)).lower()}).") from None
    except json.JSONDecodeError as error:
        raise StovescriptError(
            f"{path}: this is no JSON (line {error.lineno}: {error.msg.lower()}); {_GIVE}."
        ) from None
    except (UnicodeDecodeError, RecursionError, ValueError):
        raise StovescriptError(f"{path}: this is no JSON; {_GIVE}.") from None
    try:
        draft = Draft.model_validate(data)
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(map(str, first["loc"])) or "the whole file"
        raise StovescriptError(f"{path}: this is no draft ({place}: {first['msg'].lower()}).") from None
    if place := _odd_number(data, ""):
        raise StovescriptError(f"{path}: this is no draft ({place} is no number a kitchen knows).")
    return draft


def stem_of(path: Path) -> str:
    """ "soup" for "soup.draft.json"."""
    return path.name.removesuffix(_ENDING) if path.name.endswith(_ENDING) else path.stem


def _odd_number(data: object, place: str) -> str:
    """Where a number is infinite, below 0 or beyond all use; "" where none is."""
    if isinstance(data, float | int) and not isinstance(data, bool):
        return place if not (math.isfinite(data) and abs(data) <= _HIGHEST and data >= 0) else ""
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return next((odd for key, value in items if (odd := _odd_number(value, f"{place}.{key}".strip(".")))), "")
