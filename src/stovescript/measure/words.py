"""Cuts tokens into atoms: "15-ounce" is 15, ounce; "9x13" is 9, x, 13; "cup." is cup and a sentence's end."""

import re
import unicodedata
from collections.abc import Sequence
from functools import cache, lru_cache

from stovescript.kitchen.words import misheard_before_unit

from .vocabulary import BREAK, CLOSE, COMMA, DASH, INCH_MARK, OPEN, SLASH, Atom, vocabulary

MEASURES_OF_ONE_FOOD = frozenset({"clove", "stalk", "sprig", "stick"})
"""Counting units whose plural is said of a food and after a number: "for cloves of garlic"."""

END = Atom(BREAK, roles=frozenset({"break", "end"}))
LOOKAHEAD = 10
"""END atoms after the last, so that a rule may look ahead without asking where the talk ends."""
MARKS = {
    BREAK: Atom(BREAK, roles=frozenset({"break"})),
    COMMA: Atom(COMMA, roles=frozenset({"comma"})),
    OPEN: Atom(OPEN),
    CLOSE: Atom(CLOSE),
    DASH: Atom(DASH, roles=frozenset({"range"})),
    SLASH: Atom(SLASH),
}
TAIL_MARKS = {",": COMMA, ")": CLOSE, "]": CLOSE} | dict.fromkeys(".!?;:…", BREAK)
HEAD_MARKS = {"(": OPEN, "[": OPEN}
DEGREE_MARKS = "°º˚"
QUOTES = "'\"“”‘’`*_<>{}|"
SYMBOL_WORDS = {"%": "percent", "×": "x"} | dict.fromkeys(DEGREE_MARKS, "degrees") | dict.fromkeys('"″”', INCH_MARK)
ALONE = {"&": "and", "+": "plus", "~": "about", "×": "x", "°": "degrees"}

VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
WHOLE = r"[0-9]{1,7}"
PIECE = re.compile(
    rf"(?P<mixed>{WHOLE}-[0-9]{{1,2}}[/⁄][0-9]{{1,2}}(?![0-9]))"  # 1-1/2
    r"|(?P<bar>[0-9]{1,2}[/⁄][0-9]{1,2}(?![0-9]))"  # 1/2
    rf"|(?P<vulgar>(?:{WHOLE}-?)?[{VULGAR}])"  # ½, 1½
    r"|(?P<number>[0-9]{1,3}(?:,[0-9]{3})+|[0-9]{1,7}(?:\.[0-9]{1,7})?|\.[0-9]{1,7})"  # 1,000 2.5 .5
    r"|(?P<word>[a-zµ]+)"
    r"|(?P<dash>[-–—])"
    r"|(?P<symbol>[°º˚\"″”'/%×+~])"
)
LABEL = re.compile(r"[$£€#].*|.*[0-9]{8}.*|0[0-9]+.*|.*[0-9]:[0-9].*")
CLOCK = re.compile(r"([0-9]{1,2}):([0-9]{2})")  # captions write "four twenty five" as 4:25


class Words:
    """The atoms of a talk and, for each, the index of its token; END atoms close the list."""

    __slots__ = ("_phrases", "atoms", "last", "tokens", "where")

    def __init__(self, tokens: Sequence[str]) -> None:
        self.tokens = tokens
        self._phrases = vocabulary().phrases
        self.atoms: list[Atom] = []
        self.where: list[int] = []
        for index in range(len(tokens)):
            atoms = lex(_mended(tokens, index))
            if not atoms and self.atoms and self.atoms[-1] is MARKS[COMMA]:
                self.atoms.pop()  # "two, um, cups"
                self.where.pop()
            self.atoms += atoms
            self.where += [index] * len(atoms)
        self.last = len(self.atoms)
        self.atoms += [END] * LOOKAHEAD
        self.where += [len(tokens)] * LOOKAHEAD

    def said(self, start: int, end: int) -> str:
        """The tokens that hold the atoms [start, end), joined."""
        return " ".join(self.tokens[self.where[start] : self.where[end - 1] + 1])

    def _says(self, i: int, words: tuple[str, ...]) -> bool:
        return all(self.atoms[i + place].text == word for place, word in enumerate(words))

    def glued(self, i: int) -> bool:
        """Atom i stands in the same token as the atom before it."""
        return i > 0 and self.where[i] == self.where[i - 1]

    def phrase(self, role: str, i: int) -> int:
        """Where the longest phrase of ``role`` that begins at atom i ends; 0 if none does."""
        atoms = self.atoms
        for words in self._phrases[role].get(atoms[i].text, ()):
            length = len(words)
            if length == 1:
                return i + 1
            if atoms[i + 1].text == words[1] and (length == 2 or self._says(i, words)):
                return i + length
        return 0

    def phrase_before(self, role: str, i: int) -> bool:
        """A phrase of ``role`` ends just before atom i."""
        return any(self.phrase(role, j) == i for j in range(max(0, i - 4), i))


def _mended(tokens: Sequence[str], index: int) -> str:
    """The token, or the number that captions mis-heard it from where only a number fits: "for tablespoons"."""
    token = tokens[index]
    if token not in misheard_before_unit(with_of=True) or (index and _counts(tokens[index - 1])):
        return token
    one, two = " ".join(tokens[index + 1 : index + 2]), " ".join(tokens[index + 1 : index + 3])
    plural, counting = _measure_forms()
    after = index + 3 if two in plural else index + 2 if one in plural else 0
    if not after and not counting.fullmatch(two):
        return token
    return misheard_before_unit(with_of=after < len(tokens) and tokens[after] == "of").get(token, token)


def _counts(token: str) -> bool:
    """True for a word after which "for" and "to" keep their own meaning: "five to cups" is no amount."""
    atom = vocabulary().atoms.get(token.lower())
    return atom is not None and (atom.number is not None or atom.value is not None)


@cache
def _measure_forms() -> tuple[frozenset[str], re.Pattern[str]]:
    """The plurals of measures, after which a number must have been said, and "of them", which counts."""
    plural = frozenset(
        " ".join(phrase.words)
        for atom in vocabulary().atoms.values()
        for phrase in atom.units
        if not phrase.singular and not phrase.short
        if phrase.unit.dimension in ("volume", "mass") or phrase.unit.name in MEASURES_OF_ONE_FOOD
    )
    return plural, re.compile(r"of (them|those|these)")


@lru_cache(maxsize=1 << 16)
def lex(token: str) -> tuple[Atom, ...]:
    """The atoms of one token; sounds such as "um" give none."""
    if token == "T":
        return (vocabulary().atoms["tablespoon"],)
    text = token.lower().replace("’", "'")
    known = vocabulary().atoms.get(text)
    if known is not None:
        return () if "filler" in known.roles else (known,)
    if text.isalpha():
        return (Atom(text),)
    if text in ALONE:
        return (vocabulary().atoms[ALONE[text]],)
    if text in ("-", "–", "—"):
        return (MARKS[DASH],)
    head: list[Atom] = []
    while text and (text[0] in HEAD_MARKS or text[0] in QUOTES):
        if text[0] in HEAD_MARKS:
            head.append(MARKS[OPEN])
        text = text[1:]
    tail: list[Atom] = []
    while text and (text[-1] in TAIL_MARKS or text[-1] in QUOTES):
        if text[-1] in '"”' and len(text) > 1 and (text[-2].isdigit() or text[-2] in VULGAR):
            break  # 8" is eight inches
        if text[-1] in TAIL_MARKS:
            mark = TAIL_MARKS[text[-1]]
            if not (text[-1] == "." and _abbreviates(text[:-1])):
                tail.append(MARKS[mark])
        text = text[:-1]
    body = _body(text) if text else []
    if len(body) == 1 and "filler" in body[0].roles:
        return (*head, *(mark for mark in tail if mark is not MARKS[COMMA]))
    return (*head, *body, *reversed(tail))


def _abbreviates(text: str) -> bool:
    """The full stop after this ends no sentence: "tbsp.", "8oz."."""
    last = re.split(r"[^a-z]", text)[-1]
    atom = vocabulary().atoms.get(last)
    return atom is not None and "function" not in atom.roles and any(phrase.short for phrase in atom.units)


def _word(text: str) -> Atom:
    return vocabulary().atoms.get(text) or Atom(text)


def _body(text: str) -> list[Atom]:
    """The atoms of a token without its outer punctuation."""
    known = vocabulary().atoms.get(text)
    if known is not None:
        return [known]
    if any(mark in text for mark in VULGAR) or any("0" <= mark <= "9" for mark in text):
        return _written(text)
    if "-" in text or "–" in text:
        pieces = [_word(piece) for piece in re.split("[-–]", text) if piece]
        if pieces and (pieces[0].number or any(p.unit.dimension == "length" for p in pieces[0].units)):
            return pieces
    if text[0] in DEGREE_MARKS:
        return [_word("degrees"), *(_body(text[1:]) if len(text) > 1 else [])]
    if text.endswith(("'s", "s'")) and _word(text[:-2]).units:
        return [_word(text[:-2])]
    return [Atom(text)]


def _written(text: str) -> list[Atom]:
    """The atoms of a token with digits; one plain atom where it is a label ("1st", "80/20", "$5", "00")."""
    if LABEL.fullmatch(text):
        clock = CLOCK.fullmatch(text)
        if clock:
            return [Atom(text, value=float(clock[1] + clock[2]), roles=frozenset({"clock"}), opens=True)]
        return [Atom(text)]
    atoms: list[Atom] = []
    place = 0
    while place < len(text):
        piece = PIECE.match(text, place)
        if piece is None:
            return [Atom(text)]
        part = piece[0]
        place = piece.end()
        kind = piece.lastgroup
        if kind in ("mixed", "bar", "vulgar", "number"):
            value = _value(part)
            if value is None:
                return [Atom(text)]
            atoms.append(Atom(part, value=value, fraction=kind != "number", opens=True))
        elif kind == "word":
            word = _word(part)
            if atoms and "odd_suffix_noise" in word.roles and not word.units and place == len(text):
                return [Atom(text)]  # 1st, 90s, 2x
            odd = bool(atoms) and atoms[-1].value is not None and not word.units and not word.roles and not word.number
            atoms.append(Atom(part, roles=frozenset({"odd"})) if odd else word)
        elif kind == "dash":
            if (not atoms or atoms[-1].value is not None) and text[place : place + 1].strip(
                VULGAR + "0123456789."
            ) == "":
                atoms.append(MARKS[DASH])
        elif part in SYMBOL_WORDS:
            atoms.append(_word(SYMBOL_WORDS[part]))
        elif part == "/":
            atoms.append(MARKS[SLASH])
        elif part == "~":
            atoms.append(_word("about"))
    return atoms or [Atom(text)]


def _value(text: str) -> float | None:
    """The number written; None where it is no amount ("80/20", "24/7", "1/0")."""
    if text[-1] in VULGAR:
        whole = text[:-1].rstrip("-")
        return (float(whole) if whole else 0.0) + unicodedata.numeric(text[-1])
    whole, _, bar = text.rpartition("-")
    over = re.split("[/⁄]", bar)
    if len(over) == 1:
        return float(text.replace(",", ""))
    top, bottom = float(over[0]), float(over[1])
    if bottom == 0 or bottom > 64 or top + bottom == 100 or (top, bottom) == (24, 7):
        return None
    return (float(whole) if whole else 0.0) + top / bottom
