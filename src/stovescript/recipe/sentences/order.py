"""Heat, time and doneness at a sentence's end, in that order: "over medium heat for 5 minutes until soft"."""

from collections.abc import Sequence

from stovescript.kitchen.words import wordlist

from .pieces import Piece

_RANK = {"temp": 0, "level": 0, "time": 1, "cue": 2}


def heat_time_doneness(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with what ends them put in order; a bare time gets "for"."""
    start = _tail_start(pieces)
    head, tail = list(pieces[:start]), pieces[start:]
    chunks: list[list[Piece]] = [[]]
    for piece in tail:
        chunks[-1].append(piece)
        if piece.role in _RANK:
            chunks.append([])
    rest = chunks.pop()
    ranked = sorted(chunks, key=_rank)
    return _timed([*head, *(piece for chunk in ranked for piece in chunk), *rest])


def _rank(chunk: Sequence[Piece]) -> int:
    return 2 if any(piece.text in _SIGNS for piece in chunk) else _RANK[chunk[-1].role]


def with_place(pieces: Sequence[Piece], place: Sequence[Piece]) -> list[Piece]:
    """The pieces with a place that was said first put before the levels, times and signs that end them."""
    start = _tail_start(pieces)
    sign = next((n for n, piece in enumerate(pieces[:start]) if n and piece.text in _SIGNS), start)
    start = min(start, sign)
    return heat_time_doneness([*pieces[:start], *place, *pieces[start:]])


def _tail_start(pieces: Sequence[Piece]) -> int:
    """Where the run of levels, times and signs that ends the sentence begins."""
    start = len(pieces)
    for place in range(len(pieces) - 1, -1, -1):
        piece = pieces[place]
        if piece.role in _RANK:
            start = place
        elif piece.role != "word" or piece.text not in wordlist("reorder_words"):
            break
    sign = next((n for n in range(start - 1, max(-1, start - 5), -1) if pieces[n].text in _SIGNS), None)
    if sign is not None and start < len(pieces):
        start = sign
    while 0 < start < len(pieces) and pieces[start - 1].role == "word" and pieces[start - 1].text in _OPENS:
        start -= 1
    return start


_SIGNS = frozenset({"until", "once"})
_OPENS = frozenset({"for", "at", "on", "over", "to", "about", "another"})
_TIMED = frozenset(
    [
        "for",
        "after",
        "every",
        "in",
        "at",
        "another",
        "least",
        "of",
        "the",
        "to",
        "by",
        "within",
        "about",
        "only",
        "or",
        "maximum",
        "minimum",
        "up",
        "a",
        "around",
        "with",
        "than",
        "until",
        "per",
        "these",
        "those",
        "last",
        "first",
        "and",
        "before",
        "count",
        "set",
        "wait",
        "give",
    ]
)
_UNTIMED = frozenset({"before", "ago", "ahead", "after", "later", "from", "earlier"})


def _timed(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with "for" before each time that stands bare: "steam it 12 minutes"."""
    result: list[Piece] = []
    for place, piece in enumerate(pieces):
        before = pieces[place - 1] if place else None
        after = pieces[place + 1].text if place + 1 < len(pieces) else ""
        bare = before is None or (before.text.split()[-1] not in _TIMED and before.role != "time")
        if piece.role == "time" and piece.quantity and piece.text[-1:] != "t" and bare and after not in _UNTIMED:
            result.append(Piece("for", "word", piece.start, piece.start))
        result.append(piece)
    return result
