"""Forms of English words."""

_IES = frozenset({"cookies", "brownies", "smoothies", "veggies", "pies", "foodies", "birdies", "zombies", "calories"})
"""Words in -ies whose singular ends in -ie."""
_OWN_PLURAL = {
    **{"loaves": "loaf", "leaves": "leaf", "halves": "half", "knives": "knife", "calves": "calf", "shelves": "shelf"},
    **{"chilies": "chili", "chillies": "chilli"},
}


def singular(word: str) -> str:
    """The singular of an English plural; other words as they are."""
    if len(word) < 4 or word.endswith(("ss", "us", "is")):
        return word
    if word in _IES:
        return word[:-1]
    if word in _OWN_PLURAL:
        return _OWN_PLURAL[word]
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("oes", "ches", "shes", "xes", "sses")):
        return word[:-2]
    return word[:-1] if word.endswith("s") else word


def plain(word: str) -> str:
    """A word in lower case without punctuation at its edges."""
    return word.lower().strip(".,!?;:\"'()[]-–—…") or word.lower()
