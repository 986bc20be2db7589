"""Questions that an editor would put to the cook; importing this room registers every check."""

from stovescript.gaps import doneness, ingredients, notes, safety, settings, waits
from stovescript.gaps.registry import CHECKS, ask

__all__ = ["CHECKS", "ask", "doneness", "ingredients", "notes", "safety", "settings", "waits"]
