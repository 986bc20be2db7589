"""The neutral kitchen style: no first or second person, no praise, no filler; numbers, cues and names untouched."""

import re
from collections.abc import Sequence

from stovescript.kitchen.actions import by_form
from stovescript.kitchen.words import wordlist
from stovescript.recipe.pieces import Piece

_THING = r"(?:it|them|that|this|those)"
PATTERNS: tuple[tuple[str, str], ...] = (
    # her words, with an example → what a method says
    (r"\b(Give|give|Count|count|Wait|wait)( (?:it|them|the|that|each \w+))? for (?=\d)", r"\1\2 "),
    (r"\b(\d\S* (?:minutes?|hours?|days?)) ago\b", r"\1 ahead"),
    (r" yourself\b", ""),
    (r"^(Add .*?\w) (\w+) and all\b", r"\1, \2 and all"),  # the tomatoes, juice and all
    (r"\buntil you can see through (?:it|them)\b", "until translucent"),
    (r"\b(until|when|once) you (?:can |start to )?see (it|them|the \w+) (?=\w+ing\b)", r"\1 \2 be_ "),
    (
        r"\b(until|when|once) you (?:can |start to )?(smell|hear|feel) (it|them|the \w+) (\w+)",
        r"\1 \3 can be \2_ed \4_g",
    ),
    (r"\bif you(?:'d)? (?:like|want|fancy|wish|prefer)(?: (?:it|them|that|to|some))?\b", "if wanted"),
    (r"\bif you(?:'ve got| have| got)(?: any| some| it)?\b", "if there is"),  # if you have parsley
    (r"\b(?:until|when|once) you can(?: really| actually| just)? smell (?:it|them|that)\b", "until fragrant"),
    (
        r"\b(until|when|once) you (?:can |start to |begin to |can start to )?(see|hear|smell|feel) (.+)$",
        r"\1 you_\2 \3",
    ),
    (
        r"\buntil you (?:can't|cannot|can not|don't) (see|hear|smell|feel) (it|them|that|the \w+)(?= any ?more|[,;.]|$)(?: any ?more)?",
        r"until \2 can no longer be \1_ed",
    ),
    (
        r"\buntil you (?:can't|cannot|can not|don't) (see|hear|smell|feel) (?:any more |any |no more |no )?(.+?)(?:(?= any ?more) any ?more|(?=[,;.]|$))",
        r"until no \2 can be \1_ed",
    ),
    (r"\b(?:until|til) you(?:'ve got| have| get|'ve| 've got) (?=a|an|some|about|the|soft|stiff)", "until there is "),
    (r"\bso(?: that)? you (?:can |could |don't have to |get to )?(?=\w)", "to "),  # so you can see the seam
    (r"\b(before|after|while|by) (?:you|i|we) (?:can |start to |go to |ever |even )*(\w+)\b", r"\1 you_do \2"),
    (
        r"\b(?:when|if|as) you (?:look at|touch|press|push|shake|squeeze|tap|poke|turn|lift|tilt) (?:it|them)\b",
        r"\g<0>",
    ),
    (
        r"\b(when|if) you (look at|touch|press|push|shake|squeeze|tap|poke|tip|turn|lift|tilt|knock|pull|cut)\b(?: (?:it|them|that))?",
        r"\1 you_ed \2",
    ),
    (r"\b(?:and |so |but )?(?:you|we|i) (?:just )?want it to (?=\w)", "; it should "),
    (r"\b(?:and |so |but )?(?:you|we|i) (?:just )?want them to (?=\w)", "; they should "),
    (r"\b(?:and |so |but )?(?:you|we|i) (?:just )?want it (?=\w)", "; it should be "),
    (r"\b(?:and |so |but )?(?:you|we|i) (?:just )?want them (?=\w)", "; they should be "),
    (r"\b(?:and |so |but )?(?:you|we|i) (?:just )?want (?=(?:about )?\d)", "; it should be "),
    (r"\b(?:and |so |but )?(?:you|we|i) (?:just )?want (.+?) to (?=\w)", r"; \1 should "),
    (r"\bso (?:that )?(?:i|you|we) don't\b", "so as not to"),
    (r"(?:^|\b(?:and |so |but )?)\b(?:you|we|i) want (?=\w)", "; it should be "),
    (r"\b(?:on|for|at|to|with) (?:you|me|us)\b(?= |$|[,;.])", ""),  # brown on you
    (r"\b(?:for|to) you(?:rself)?\b", ""),
    (r"\bas you (?:go|work|like)\b", "along the way"),
    (r"\bnice and\b|\bgood and\b", ""),
    (r"\b(?:a|the) (?:nice|lovely|beautiful|gorgeous|good old|good) (?=\w)", "a "),
    (r"\breal (?=\w)", "very "),
    (r"\b(?:real|really) (?=(?:good|well)\b)", ""),
    (r"\bthere ain't no\b", "there are no"),
    (r"\bain't\b", "isn't"),
    (r"\bdon't (?=[a-z]+$)", "don't "),
    (r"\bkind of |\bsort of |\bkinda |\bsorta ", ""),
    (r"\bthem (?=[a-z]+s\b(?! (?:in|on|up|out|off)))", "the "),  # them beans
    (r"\b(?:like )(?=(?:so|this|that)$)", ""),
    (r"\bgonna\b|\bgoing to\b", ""),
    (r"\b(?:all of it|all of them|all of that) (?:in|on) ?(?:there)?$", ""),
    (r"\blike (?=(?:about |around )?\d)", "about "),
    (r"\babout about\b", "about"),
    (r"\bof the of (?:it|the|them)\b", "of it"),
    (r"\bof of\b", "of"),
    (r"\bthe the\b|\bthe of the\b", "the"),
    (r"\b(a|an|the|some) (?:the|a|an|some) (?=\w)", r"\1 "),
    (r"\b(when|while) (?:you|we)(?: are|'re)? (?:ready|about) ", r"\1 ready "),
    (
        r"\b(when|while|whenever) (?:you|we) (serve|eat|stir|add|pour|cook|work|cut|roll|fold|turn|whisk|mix)\b",
        r"\1 you_do \2",
    ),
    (r"\bif (?:you|we) (need|prefer|wish)\b(?: to| it)?", "if needed"),
    (r"\bas (\w+) as (?:you|i) can\b", r"as \1 as possible"),
    (
        r"\b(until|when|once) (?:you|i|we) can (?:just |stand to )?(hold|touch|handle|pick up)\b(?: (?:it|them|that))?",
        r"\1 cool enough to \2",
    ),
    (r"\b([a-z']+) \1\b(?! of)", r"\1"),
    (r"\bsome (?=(?:about )?\d)", ""),
    (r"\bthe (?=\d+(?: \d/\d)? (?:cups?|tablespoons?|teaspoons?|pounds?|ounces?|grams?|cans?|cloves?)\b)", ""),
    (r"\b([a-z']+ [a-z']+) \1\b", r"\1"),
    (r"\b(?:in|on|up|off|out) (in|on|up|off|out) (?=there\b|$)", r"\1 "),
)
"""Each pattern over a whole sentence in lower case; `you_…` marks what the next step turns into a passive."""

_COMPILED = tuple((re.compile(pattern, re.IGNORECASE), to) for pattern, to in PATTERNS)
_SEEN = {"see": "seen", "hear": "heard", "smell": "smelled", "feel": "felt"}


def neutral(words: Sequence[Piece | str]) -> str:
    """The words as a neutral sentence without its full stop, the first letter large; "" where nothing is left."""
    text = _spaced(words)
    for pattern, to in _COMPILED:
        text = pattern.sub(to, text)
    text = re.sub(r"\byou_(see|hear|smell|feel) (.+)$", lambda m: f"{m[2]} can be {_SEEN[m[1]]}", text)
    text = re.sub(r"\b(see|hear|smell|feel)_ed\b", lambda m: _SEEN[m[1]], text)
    text = re.sub(r"\b(\w+)_g\b", lambda m: _gerund(m[1]) if m[1] in by_form() else m[1], text)
    text = re.sub(r"\b(it|the \w+) be_ ", r"\1 is ", re.sub(r"\bthem be_ ", "they are ", text))
    text = re.sub(r"\byou_do (?:ever |even |first )?(\w+)\b", lambda m: _gerund(m[1]), text)
    text = re.sub(r"\byou_ed (\w+)(?: at)?", lambda m: _participle(m[1]), text)
    text = re.sub(r"\s+([,;.)])", r"\1", re.sub(r"\s+", " ", text)).strip(" ,;")
    text = re.sub(r"([,;])(?:\s*[,;])+", r"\1", text)
    kept = text.split()
    while len(kept) > 1 and kept[-1].lower() in wordlist("print_dangling"):
        kept.pop()
    text = " ".join(kept).strip(" ,;")
    return text[:1].upper() + text[1:]


def _spaced(words: Sequence[Piece | str]) -> str:
    """The words with single spaces, mis-spoken fillers left out, states after their food between commas."""
    parts: list[str] = []
    last: Piece | str | None = None
    dropped = wordlist("print_dropped")
    for place, word in enumerate(words):
        text = word if isinstance(word, str) else word.text
        role = "word" if isinstance(word, str) else word.role
        before = words[place - 1] if place else None
        following = words[place + 1] if place + 1 < len(words) else None
        if role == "word" and (text in dropped or _idle(text, before, following)):
            continue
        if role == "prep" and _after_food(words, place):
            ends = following is None or _role(following) in ("prep", "mark") or _joined_prep(words, place)
            text = f", {text}" if ends else f", {text},"
        elif role == "word":
            text = _impersonal(text, following)
        elif role in ("cue", "prep"):
            text = re.sub(r"\b(?:your|my|our|you're)(?= \w)", "the", text)
        if role == "amount" and last is not None and _parts(words[:place], last, following):
            text = f", {text}"
        if role == "time" and _role(last) == "time":
            text = f"({text})"
        if (
            role == "cue"
            and last is not None
            and text.split()[0] not in _CUE_OPENERS
            and _role(last) not in ("word", "cue")
        ):
            text = f", {text}"
        if text in ("don't", "not") and role == "word" and _forbids(words, place):
            text = f"; {text}"
        if role == "size" and following is not None and _adjectival(text, following):
            text = re.sub(r"^(.*\d) (\w+?)e?s?$", r"\1-\2", text) if " by " not in text else text
        if role in ("food", "bracket") and before is not None and role == "food" and _role(before) == "food":
            text = f", {text}"
        parts.append(text)
        last = word
    return " ".join(parts)


_CUE_OPENERS = wordlist("subordinators") | {"to", "just", "for", "by", "or", "you", "we", "or until", "only"}


def _parts(said: Sequence[Piece | str], before: Piece | str, following: Piece | str | None) -> bool:
    """True where an amount begins another item right after a food or its state, or after words that sum up items."""
    if _role(before) in ("food", "prep", "bracket"):
        return True
    words = [_of(word) for word in said if _of(word) != "so"]
    sums_up = words[:1] == ["Add"] and words[-2:-1] == ["the"] and words[-3:-2] in (["Add"], ["then"], ["and"])
    measured = _role(following) == "food" or (following is not None and _of(following) == "of")
    return sums_up and measured and words[-1] not in ("rest", "other", "remaining", "last", "first")


def _forbids(words: Sequence[Piece | str], place: int) -> bool:
    """True for "don't" that opens an order of its own: "spread it; don't stir it", not "so it doesn't burn"."""
    near = [_of(word) for word in words[max(0, place - 5) : place]]
    object_ = len(near) > 1 and near[-1] in ("it", "that", "them") and near[-2] in _BEFORE_OBJECT
    if object_ and not {"so", "if", "until"} & set(near[:-2]):
        return _of(words[place]) == "don't"
    if _of(words[place]) != "don't" or not near or near[-1] in ("and", "but", "they", "it", "that", "which", "i"):
        return False
    return not {"so", "if", "that", "they", "who", "until", "because", "until it"} & set(near)


_BEFORE_OBJECT = frozenset({"behind", "over", "around", "on", "in", "with", "to", "under", "into", "of", "at"})


def _joined_prep(words: Sequence[Piece | str], place: int) -> bool:
    """True for "peeled" before "and cut": two states of one food need no comma between them."""
    pair = words[place + 1 : place + 3]
    return len(pair) == 2 and _of(pair[0]) == "and" and _role(pair[1]) == "prep"


_UNITS = re.compile(r"(?:inch|inches|centimeters?|millimeters?|pound|ounce|cup|quart|liter)s?$")


def _adjectival(text: str, following: Piece | str) -> bool:
    """True for a size before what it is of: "8-inch dish", "3-centimeter chunks"; not "8 inches across"."""
    plain = _role(following) in ("vessel", "food") or (
        _role(following) == "word"
        and _of(following) not in wordlist("place_words") | wordlist("subordinators") | _MEASURED_BY
    )
    return bool(_UNITS.search(text)) and not text.startswith("about") and plain


_MEASURED_BY = frozenset({"and", "of", "or", "wide", "thick", "long", "deep", "high", "tall", "across", "bare", "big",
                          "each", "all", "is", "apart", "headspace", "thin", "square", "cut", "slices"})  # fmt: skip


def _impersonal(text: str, following: Piece | str | None) -> str:
    """A possessive as an article, and "her" or "him" as "it"."""
    if text in ("my", "our", "your", "you're", "yer", "ya"):
        return "the"
    if text in ("she'll", "she's", "he'll", "he's"):
        return f"it'{text.split(chr(39))[1]}"
    if text in ("her", "him", "she", "he"):
        noun = following is not None and _role(following) == "word" and _of(following) not in wordlist("place_words")
        return "the" if noun and text == "her" and _of(following or "") not in wordlist("subordinators") else "it"
    return text


def _after_food(words: Sequence[Piece | str], place: int) -> bool:
    before, following = words[place - 1] if place else None, words[place + 1] if place + 1 < len(words) else None
    return before is not None and _role(before) == "food" and (following is None or _role(following) != "food")


def _of(word: Piece | str) -> str:
    return word if isinstance(word, str) else word.text


def _role(word: Piece | str | None) -> str:
    return word.role if isinstance(word, Piece) else "word"


def _idle(text: str, before: Piece | str | None, after: Piece | str | None) -> bool:
    """True for "like", "just", "so", "right" and "now" where they fill and do not tell."""
    following = _of(after) if after is not None else ""
    if text == "like":
        return following not in _LIKENED or _role(after) != "word"
    if text == "just":
        return following not in ("until", "over", "under", "enough", "before", "below", "above", "warm", "barely")
    if text == "so":
        measured = _role(after) in ("amount", "time", "level", "temp", "size", "mark") or after is None
        return before is None or measured or _role(before) == "mark" or following in wordlist("lead_words") - _PURPOSE
    if text == "right":
        return following not in ("away", "side", "hand", "height") or _role(after) != "word"
    if (
        text == "you"
        and before is not None
        and (isinstance(before, str) or before.role in ("food", "vessel", "appliance"))
    ):
        return True
    return text in ("now", "also") or (text in ("then", "next") and _role(after) != "word")


_LIKENED = frozenset({"a", "an", "the", "this", "that", "it's", "they're", "your", "you're", "wet", "coarse", "thick"})
_PURPOSE = frozenset({"it", "they", "them", "the", "that", "nothing", "there", "there's", "it's", "they're", "you", "as",
                      "i", "each", "all", "everything", "we", "no", "your", "every", "none"})  # fmt: skip


def _gerund(verb: str) -> str:
    if verb.endswith("ed"):
        return f"{verb[:-2]}ing"
    if verb.endswith("ing"):
        return verb
    if verb.endswith("e") and not verb.endswith(("ee", "oe")):
        return f"{verb[:-1]}ing"
    if re.fullmatch(r"[^aeiou]*[aeiou][^aeiouwxy]", verb):
        return f"{verb}{verb[-1]}ing"
    return f"{verb}ing"


_IRREGULAR = {"shake": "shaken", "cut": "cut"}


def _participle(verb: str) -> str:
    if verb in _IRREGULAR:
        return _IRREGULAR[verb]
    if verb.endswith("e"):
        return f"{verb}d"
    if re.fullmatch(r"[^aeiou]*[aeiou][^aeiouwxy]", verb):
        return f"{verb}{verb[-1]}ed"
    return f"{verb}ed"
