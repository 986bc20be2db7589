"""The talk room: a caption file becomes one ``Talk``, its words with their seconds."""

from stovescript.talk.read import read_bytes, read_talk
from stovescript.talk.types import Cue, Talk, Word

__all__ = ["Cue", "Talk", "Word", "read_bytes", "read_talk"]
