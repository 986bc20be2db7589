"""Forms of English words."""


def singular(word: str) -> str:
    """The singular of a regular English plural; other words as they are."""
    if len(word) < 4 or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("oes", "ches", "shes", "xes", "sses")):
        return word[:-2]
    if word.endswith("ves"):
        return word[:-3] + "f"
    return word[:-1] if word.endswith("s") else word


def plain(word: str) -> str:
    """A word in lower case without punctuation at its edges."""
    return word.lower().strip(".,!?;:\"'()[]-–—…") or word.lower()
