"""The talk room: a caption file becomes one ``Talk``, its words with their seconds."""

from stovescript.talk.read import bytes_of, read_bytes, read_talk
from stovescript.talk.types import Cue, Talk, Word

__all__ = ["Cue", "Talk", "Word", "bytes_of", "read_bytes", "read_talk"]
