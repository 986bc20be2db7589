"""The neutral kitchen style: no first or second person, no praise, no filler; numbers and names untouched."""

import re
from collections.abc import Callable, Sequence

from stovescript.kitchen.actions import by_form
from stovescript.kitchen.words import wordlist

from .pieces import Piece
from .spacing import spaced

Change = str | Callable[[re.Match[str]], str]

_WHO = r"(?:you|i|we)"
_IT = r"(?:it|them|that)"
_UNTIL = r"\b(until|when|once)"
_CAN = r"(?:(?:can|start to|begin to|can start to|just|really|actually) )*"
_SENSE = r"(see|hear|smell|feel)"
_CANNOT = r"(?:can't|cannot|can not|don't)"
_WANT = rf"(?:^|\b(?:and |so |but )?)\b{_WHO} (?:just )?want"
_HANDLED = r"(look at|touch|press|push|shake|squeeze|tap|poke|tip|turn|lift|tilt|knock|pull|cut)"
_WORKED = r"(serve|eat|stir|add|pour|cook|work|cut|roll|fold|turn|whisk|mix)"
_MEASURES = r"(?:cups?|tablespoons?|teaspoons?|pounds?|ounces?|grams?|cans?|cloves?)"

_SENSED = {"see": "seen", "hear": "heard", "smell": "smelled", "feel": "felt"}


def _gerund(verb: str) -> str:
    """ "lift" is "lifting", "cut" is "cutting", "taste" is "tasting"; "started" is "starting"."""
    if verb.endswith("ing"):
        return verb
    if verb.endswith("ed"):
        return f"{verb[:-2]}ing"
    if verb.endswith("e") and not verb.endswith(("ee", "oe")):
        return f"{verb[:-1]}ing"
    return f"{_doubled(verb)}ing"


def _participle(verb: str) -> str:
    """ "press" is "pressed", "shake" is "shaken"."""
    if verb in _IRREGULAR:
        return _IRREGULAR[verb]
    return f"{verb}d" if verb.endswith("e") else f"{_doubled(verb)}ed"


_IRREGULAR = {"shake": "shaken", "cut": "cut"}


def _doubled(verb: str) -> str:
    return f"{verb}{verb[-1]}" if re.fullmatch(r"[^aeiou]*[aeiou][^aeiouwxy]", verb) else verb


def _sensed(match: re.Match[str]) -> str:
    """ "until you smell it catching" is "until it can be smelled catching"."""
    doing = _gerund(match[4]) if match[4] in by_form() else match[4]
    return f"{match[1]} {match[3]} can be {_SENSED[match[2]]} {doing}"


def _now(thing: str) -> str:
    return re.sub(r" any ?more\b", "", thing)


def _seen_doing(match: re.Match[str]) -> str:
    """ "until you see them steaming" is "until they are steaming"."""
    return f"{match[1]} {'they are' if match[2] == 'them' else match[2] + ' is'} "


_CHANGES: tuple[tuple[str, Change], ...] = (
    # signs that she names by her own senses
    (rf"\buntil you can see through {_IT}\b", "until translucent"),
    (rf"{_UNTIL} you {_CAN}smell {_IT}(?=$|[,;.]| and)", "until fragrant"),
    (rf"{_UNTIL} you {_CAN}see (it|them|the \w+) (?=\w+ing\b)", _seen_doing),
    (rf"{_UNTIL} you {_CAN}(smell|hear|feel) (it|them|the \w+) (\w+)", _sensed),
    (
        rf"\buntil you {_CANNOT} {_SENSE} (it|them|that|the \w+)(?: any ?more)?(?=$|[,;.])",
        lambda m: f"until {m[2]} can no longer be {_SENSED[m[1]]}",
    ),
    (
        rf"\buntil you {_CANNOT} {_SENSE} (?:any more |any |no more |no |the )?(.+?)(?=$|[,;.])",
        lambda m: f"until no {_now(m[2])} can be {_SENSED[m[1]]}",
    ),
    (rf"{_UNTIL} you {_CAN}{_SENSE} (.+)$", lambda m: f"{m[1]} {m[3]} can be {_SENSED[m[2]]}"),
    (r"\buntil you(?:'ve got| have| get|'ve) (?=a|an|some|about|the|soft|stiff)", "until there is "),
    (rf"{_UNTIL} {_WHO} can (?:just |stand to )?(hold|touch|handle|pick up)\b(?: {_IT})?", r"\1 cool enough to \2"),
    # what the reader does: "before you lift them out", "when you press it"
    (
        rf"\b(before|after|while|by) {_WHO} (?:can |start to |go to |ever |even |first )*(\w+)\b",
        lambda m: f"{m[1]} {_gerund(m[2])}",
    ),
    (rf"\b(when|if) you {_HANDLED}\b(?: {_IT})?", lambda m: f"{m[1]} {_participle(m[2].split()[0])}"),
    (rf"\b(when|while|whenever) {_WHO} {_WORKED}\b", lambda m: f"{m[1]} {_gerund(m[2])}"),
    (rf"\b(when|while) {_WHO}(?: are|'re)? (?:ready|about) ", r"\1 ready "),
    (r"\bif you(?:'d)? (?:like|want|fancy|wish|prefer)(?: (?:it|them|that|to|some))?\b", "if wanted"),
    (r"\bif you(?:'ve got| have| got)(?: any| some| it)?\b", "if there is"),
    (rf"\bif {_WHO} need\b(?: to| it)?", "if needed"),
    (rf"\bas (\w+) as {_WHO} can\b", r"as \1 as possible"),
    (r"\bas you (?:go|work|like)\b", "along the way"),
    # what she wants: "you want it to come out clean"
    (rf"{_WANT} it to (?=\w)", "; it should "),
    (rf"{_WANT} them to (?=\w)", "; they should "),
    (rf"{_WANT} it (?=\w)", "; it should be "),
    (rf"{_WANT} them (?=\w)", "; they should be "),
    (rf"{_WANT} (?=(?:about )?\d)", "; it should be "),
    (rf"{_WANT} (.+?) to (?=\w)", r"; \1 should "),
    (rf"{_WANT} (?=\w)", "; it should be "),
    (rf"\bso (?:that )?{_WHO} don't\b", "so as not to"),
    (r"\bso(?: that)? you (?:can |could |get to )?(?=\w)", "to "),
    (r"\b(?:on|for|at|to|with) (?:you|me|us)\b(?= |$|[,;.])", ""),
    (r"\b(?:for|to) you(?:rself)?\b| yourself\b", ""),
    # praise, hedges, dialect
    (r"\bnice and\b|\bgood and\b", ""),
    (r"\b(?:a|the) (?:nice|lovely|beautiful|gorgeous|good old|good) (?=\w)", "a "),
    (r"\b(?:real|really) (?=(?:good|well)\b)", ""),
    (r"\breal (?=\w)", "very "),
    (r"\bthere ain't no\b", "there are no"),
    (r"\bain't\b", "isn't"),
    (r"\bkind of |\bsort of |\bkinda |\bsorta ", ""),
    (r"\bthem (?=[a-z]+s\b(?! (?:in|on|up|out|off)))", "the "),
    (r"\blike (?:so|this|that)$", ""),
    (r"\bgonna\b|\bgoing to\b", ""),
    (r"\blike (?=(?:about |around )?\d)", "about "),
    (r" (?:is|are) (?:fine|okay|ok|great|perfect)\b", ""),
    # times and amounts
    (r"\ba (?=(?:8\d*|11|18)\b)", "an "),
    (r"\b(Give|give|Count|count|Wait|wait)( (?:it|them|the|that|each \w+))? for (?=\d)", r"\1\2 "),
    (r"\b(\d\S* (?:minutes?|hours?|days?)) ago\b", r"\1 ahead"),
    (r"\bsome (?=(?:about )?\d)", ""),
    (rf"\bthe (?=\d+(?: \d/\d)? {_MEASURES}\b)", ""),
    # stutters and what is left of cut words
    (r"^(Add .*?\w) (\w+) and all\b", r"\1, \2 and all"),
    (r"\babout about\b", "about"),
    (r"\bof the of (?:it|the|them)\b", "of it"),
    (r"\bof of\b", "of"),
    (r"\bthe of the\b", "the"),
    (r"\b(a|an|the|some) (?:the|a|an|some) (?=\w)", r"\1 "),
    (r"\b([a-z']+(?: [a-z']+)?) \1\b(?! of)", r"\1"),
    (r"\b(?:in|on|up|off|out) (in|on|up|off|out) (?=there\b|$)", r"\1 "),
    (r"\s+", " "),
    (r"\s+([,;.)])", r"\1"),
    (r"([,;])(?:\s*[,;])+", r"\1"),
)
"""What is changed in a whole sentence, in this order."""

_COMPILED = tuple((re.compile(pattern, re.IGNORECASE), change) for pattern, change in _CHANGES)


def neutral(words: Sequence[Piece | str]) -> str:
    """The words as a neutral sentence without its full stop, the first letter large; "" where nothing is left."""
    text = spaced(words)
    for pattern, change in _COMPILED:
        text = pattern.sub(change, text)
    kept = text.strip(" ,;").split()
    while len(kept) > 1 and kept[-1].lower() in wordlist("print_dangling"):
        kept.pop()
    text = " ".join(kept).strip(" ,;")
    return text[:1].upper() + text[1:]
