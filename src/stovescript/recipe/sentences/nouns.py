"""What stands before and after a verb: its object, a place, an idle opening, the clause of another verb."""

from collections.abc import Sequence

from stovescript.kitchen.words import wordlist

from .pieces import Piece

DETERMINERS = frozenset(
    [
        "the",
        "a",
        "an",
        "your",
        "my",
        "our",
        "some",
        "that",
        "this",
        "those",
        "these",
        "all",
        "both",
        "another",
        "every",
        "each",
        "other",
        "half",
        "any",
        "their",
        "its",
    ]
)
SUBJECTS = {"they": "them", "those": "those", "these": "these", "it": "it", "that": "that", "everything": "everything",
            "she": "it", "he": "it", "this": "this", "them": "them", "all": "everything"}  # fmt: skip
"""What a pronoun before its verb is as an object: "they go in" is "add them"."""
PLACING = frozenset({"in", "into", "on", "onto", "to", "over", "under", "from", "inside", "with", "off", "through"})
JOINTS = frozenset({"and", "then", "so", "but"})


def led(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces without the idle words that a spoken sentence opens with."""
    kept = list(pieces)
    lead = wordlist("lead_words")
    while kept and kept[0].role in ("word", "mark", "bracket"):
        text, is_word = kept[0].text, kept[0].role == "word"
        first_off = text == "off" and len(kept) < len(pieces) and pieces[-len(kept) - 1].text == "first"
        if is_word and text not in lead and not first_off:
            break
        following = kept[1].text if len(kept) > 1 else "go"
        noun = following not in lead | {"go", "goes"} and following not in DETERMINERS
        if is_word and text in ("this", "that", "these", "those", "them") and noun:
            break
        kept.pop(0)
    return kept


def trimmed(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces without idle words at their end: "the avocado" you just."""
    kept = list(pieces)
    lead = wordlist("lead_words") - {"again", "time"}
    while (
        kept
        and kept[-1].role in ("word", "mark")
        and (kept[-1].text in lead | {"and", "or"} or kept[-1].role == "mark")
    ):
        before = kept[-2].text if len(kept) > 1 else ""
        if kept[-1].text == "all" and before == "and" and len(kept) > 2 and kept[-3].role == "word":
            break
        if kept[-1].text in ("it", "them", "that", "can") and before in ("of", "the", "a"):
            break
        kept.pop()
    return kept


def noun_phrase(pieces: Sequence[Piece]) -> list[Piece]:
    """The thing that some words before a verb name; [] where they name none: "the cukes" needs washed."""
    if any(piece.text in ("give", "gives") for piece in pieces) and not any(p.role == "food" for p in pieces):
        return []
    kept = trimmed(led(pieces))
    first = next((n for n, piece in enumerate(kept) if _begins(kept, n)), None)
    if first is None:
        return []
    kept = kept[first:]
    ends = wordlist("noun_ends")
    for place in range(1, len(kept)):
        piece, before = kept[place], kept[place - 1]
        if piece.role != "word":
            continue
        again = piece.text in DETERMINERS - {"half", "all", "both", "other"} and before.role in ("food", "vessel")
        if (piece.text in ends and before.text not in ("of", "the", "a")) or again:
            kept = kept[:place]
            break
    kept = trimmed(kept)
    return kept if any(piece.is_thing for piece in kept) or _named(kept) else []


def _begins(pieces: Sequence[Piece], place: int) -> bool:
    """True where a thing's name begins: at its article, its amount, or at most two plain words before it."""
    piece = pieces[place]
    if piece.is_thing or piece.text in DETERMINERS:
        return True
    if piece.text in wordlist("noun_ends") | wordlist("place_words") | wordlist("lead_words") | JOINTS:
        return False
    following = pieces[place + 1 : place + 3]
    return any(one.is_thing or one.text == "of" for one in following) and not any(
        one.text in wordlist("noun_ends") for one in following
    )


def _named(pieces: Sequence[Piece]) -> bool:
    """True for untagged words with an article: "the strips", "all the mix"."""
    return (
        1 < len(pieces) <= 6
        and pieces[0].text in DETERMINERS
        and pieces[1].text not in wordlist("place_words") | {"told"}
    )


def placed(pieces: Sequence[Piece]) -> tuple[list[Piece], list[Piece]]:
    """A place said first ("in a little bowl", or a bare "food processor" before the food) and the rest."""
    if len(pieces) > 1 and pieces[0].text == "with":
        return list(pieces), []
    if len(pieces) > 1 and pieces[0].text in PLACING and pieces[1].text in ("it", "she", "he", "they", "goes"):
        return [], led(pieces[2:])
    if len(pieces) > 1 and pieces[0].text in PLACING:
        vessels = [n for n, piece in enumerate(pieces) if piece.role in ("vessel", "appliance")]
        if vessels and not any(piece.role in ("food", "amount") for piece in pieces[: vessels[0]]):
            return list(pieces[: vessels[0] + 1]), led(pieces[vessels[0] + 1 :])
        stop = next((n for n, piece in enumerate(pieces) if piece.role in ("food", "amount") and n > 1), len(pieces))
        while stop > 2 and stop < len(pieces) and pieces[stop - 1].text in DETERMINERS | {"and"}:
            stop -= 1
        return list(pieces[:stop]), led(pieces[stop:])
    if len(pieces) > 2 and pieces[0].text == "back" and pieces[1].text in PLACING - {"to"}:
        place, rest = placed(pieces[1:])
        return [pieces[0], *place], rest
    first = next((n for n, piece in enumerate(pieces) if piece.is_thing), len(pieces))
    way = next((n for n, piece in enumerate(pieces[:first]) if piece.text in PLACING), None)
    plain = pieces[:1] and pieces[0].text not in DETERMINERS | {"back"}
    told = {piece.text for piece in pieces} & (wordlist("noun_ends") | {"said", "about", "come", "went"})
    if (
        way is not None
        and not told
        and 0 < way < min(first, len(pieces) - 1)
        and (first < len(pieces) or plain)
        and (plain or pieces[first].role in ("food", "appliance"))
    ):
        return list(pieces), []
    thing = next((n for n, piece in enumerate(pieces) if piece.role in ("food", "amount")), None)
    vessel = next((n for n, piece in enumerate(pieces) if piece.role in ("vessel", "appliance")), None)
    if (
        thing is not None
        and vessel is not None
        and vessel < thing
        and not {p.text for p in pieces[:thing]} & {"of", "and"}
    ):
        stop = thing
        while stop > vessel + 1 and pieces[stop - 1].text in DETERMINERS | {"so"}:
            stop -= 1
        inside = [Piece("in", "word", 0, 0)]
        if pieces[0].text not in DETERMINERS:
            inside.append(Piece("the", "word", 0, 0))
        return [*inside, *pieces[:stop]], led(pieces[stop:])
    return [], list(pieces)


def pronoun_first(after: Sequence[Piece]) -> tuple[list[Piece], list[Piece]]:
    """The pronoun that is the verb's object, and the rest; a pronoun before a noun is none ("that sauce")."""
    whole = [piece.text for piece in after[:3]]
    if " ".join(whole[:1]) in ("the whole thing", "the whole lot") or " ".join(whole) in (
        "the whole thing",
        "the whole lot",
    ):
        size = 1 if " " in whole[0] else 3
        return list(after[:size]), list(after[size:])
    if not after or after[0].text not in wordlist("object_pronouns") or after[0].role != "word":
        return [], list(after)
    if (
        after[0].text in ("all", "both")
        and len(after) > 1
        and after[1].text in ("that", "this", "those", "these", "it")
    ):
        inner, rest = pronoun_first(after[1:])
        return ([after[0], *inner], rest) if inner else ([], list(after))
    following = after[1] if len(after) > 1 else None
    ends = following is None or (
        following.role in ("mark", "time", "temp", "level", "cue", "bracket", "prep", "size", "action")
        or following.text
        in wordlist("place_words") | wordlist("subordinators") | wordlist("lead_words") | wordlist("manner")
    )
    sure = after[0].text in ("it", "them", "everything", "her", "him")
    return ([after[0]], list(after[1:])) if sure or ends else ([], list(after))


def measured_object(after: Sequence[Piece]) -> int:
    """How many pieces right after a verb are its object, a food or an amount; 0 where it has none."""
    end = 0
    for place, piece in enumerate(after):
        if piece.role not in ("food", "amount", "prep", "size") and piece.text not in DETERMINERS | {"of"}:
            break
        end = place + 1
    return end if any(piece.role in ("food", "amount") for piece in after[:end]) else 0


def has_object(after: Sequence[Piece]) -> bool:
    """True where an object follows a verb: a measured one, or words with an article."""
    if measured_object(after) or (after and after[0].role in ("vessel", "appliance", "program")):
        return True
    return (
        bool(after)
        and after[0].text in ("the", "your", "my", "our", "a", "an", "some", "each")
        and not (after[0].text in ("a", "each") and after[1:2] and after[1].text in ("bit", "little", "while", "side"))
    )


def clause_first(before: Sequence[Piece]) -> list[Piece]:
    """The subordinate clause that stands before the verb, "while that's heating"; [] where there is none."""
    start = next((n for n, piece in enumerate(before) if piece.text in _WHEN and piece.role == "word"), None)
    if start is None or any(piece.text not in wordlist("lead_words") for piece in before[:start]):
        return []
    lead = wordlist("lead_words")
    letting = next((n for n in range(start + 1, len(before)) if before[n].text in ("let", "lets")), len(before))
    if letting < len(before):
        return list(before[:letting])
    for place in range(len(before) - 1, start + 1, -1):
        if before[place].text in _SUBJECT_WORDS:
            if all(piece.text in lead | {"a", "gonna"} for piece in before[place:]):
                return list(before[:place])
            break
    skipped = 0 if not (before[start + 1 :][:1] and before[start + 1].text in ("you", "you're")) else 1
    for place in range(start + 2, len(before)):
        if before[place].role in ("food", "amount") and before[place - 1].role != "amount" and place > start + 2:
            if skipped:
                skipped -= 1
                continue
            back = place
            while back > start + 2 and before[back - 1].text in DETERMINERS:
                back -= 1
            return list(before[:back])
    return list(before)


_SUBJECT_WORDS = frozenset({"you", "i", "we", "you're", "i'm", "we're", "you'll", "i'll", "we'll"})
_WHEN = frozenset({"when", "once", "while", "whilst", "after", "before", "if", "as"})
