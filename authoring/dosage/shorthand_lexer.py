"""Dose shorthand cut into numbers, words and signs that remember where they stood."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from enum import Enum
from typing import TypeVar

import attrs

from authoring.dosage.shorthand_errors import ShorthandError
from authoring.model.sentence import Sentence, say

LONGEST = 10_000
"""Characters in one text: a table of sixty weeks with every row spelled out."""

STOPS = frozenset(",;@()/")
"""Signs that end free words."""

_PHRASE = 6
"""Most tokens in one fixed phrase."""

_TOKEN = re.compile(
    r"(?P<number>[0-9]+(?:\.[0-9]+)?(?:,[0-9]+(?:\.[0-9]+)?)*)"
    r"|(?P<dotted>[^\W\d_](?:\.[^\W\d_])+\b\.?)"
    r"|(?P<word>[^\W\d_]+(?:['’\-][^\W\d_]+)*)"
    r"|(?P<space>\s+)"
    r"|(?P<sign>.)",
    re.DOTALL,
)

_SAME_SIGN = {
    **dict.fromkeys("×✕⨯*", "x"),
    **dict.fromkeys("-‐‑‒–—−", "-"),
    **dict.fromkeys('"“”″', "s"),
    **dict.fromkeys("°º", "deg"),
    **dict.fromkeys("'’′", "'"),
}


class Kind(Enum):
    """What a token is."""

    NUMBER = "number"
    WORD = "word"
    SIGN = "sign"
    END = "end"


@attrs.frozen
class Token:
    """One number, word or sign.

    Attributes:
        key: its spelling brought to one form: lower case, one dash, ``x`` for every times
            sign, no full stops in abbreviations.
        start, end: where it stands in the text.
    """

    kind: Kind
    text: str
    key: str
    start: int
    end: int

    @property
    def parts(self) -> tuple[str, ...]:
        """The numbers that commas without spaces join ("12,10,8")."""
        return tuple(self.text.split(","))


_T = TypeVar("_T")


def _kind_and_key(kind: str, text: str) -> tuple[Kind, str]:
    if kind == "number":
        return Kind.NUMBER, text
    if kind == "dotted":
        return Kind.WORD, text.replace(".", "").casefold()
    if kind == "word":
        return Kind.WORD, text.casefold().replace("’", "'")
    key = _SAME_SIGN.get(text, text)
    return (Kind.WORD if key.isalpha() else Kind.SIGN), key


def _closes(text: str, at: int) -> bool:
    """Whether the full stop there only ends an abbreviation or the text."""
    after = text[at + 1 : at + 2]
    return at > 0 and text[at - 1].isalnum() and (not after or after.isspace() or after in STOPS)


def tokens(text: str) -> Iterator[Token]:
    """The tokens of a text, the last one of kind END.

    Raises:
        ShorthandError: the text is longer than a dose can be.
    """
    if len(text) > LONGEST:
        raise ShorthandError(
            say("The text has {n} characters, more than any dose needs.", n=len(text)),
            LONGEST,
            len(text),
            say("Shorten it, or use the forms."),
        )
    for found in _TOKEN.finditer(text):
        name = found.lastgroup or ""
        if name == "space" or (found.group() == "." and _closes(text, found.start())):
            continue
        kind, key = _kind_and_key(name, found.group())
        yield Token(kind, found.group(), key, found.start(), found.end())
    yield Token(Kind.END, "", "", len(text), len(text))


class Cursor:
    """A place among the tokens of one text, moved on by what is read."""

    def __init__(self, text: str) -> None:
        self.text = text
        self._tokens = tuple(tokens(text))
        self.place = 0

    def peek(self, ahead: int = 0) -> Token:
        """The token at the place, or some after it."""
        return self._tokens[min(self.place + ahead, len(self._tokens) - 1)]

    @property
    def start(self) -> int:
        """Where the next token stands in the text."""
        return self.peek().start

    @property
    def end(self) -> int:
        """Where the token before ends in the text."""
        return self._tokens[self.place - 1].end if self.place else 0

    def next(self) -> Token:
        """The token at the place, which is passed."""
        found = self.peek()
        self.place = min(self.place + 1, len(self._tokens) - 1)
        return found

    def number(self, ahead: int = 0) -> bool:
        """Whether a number stands there."""
        return self.peek(ahead).kind is Kind.NUMBER

    def word(self, ahead: int = 0) -> bool:
        """Whether a word of letters stands there, and no sign that is read as one, nor "or"."""
        token = self.peek(ahead)
        return token.kind is Kind.WORD and token.text[0].isalpha() and token.key != "or"

    def done(self) -> bool:
        """Whether nothing is left."""
        return self.peek().kind is Kind.END

    def at(self, *keys: str, ahead: int = 0) -> bool:
        """Whether a word or sign with one of these keys stands there."""
        token = self.peek(ahead)
        return token.key in keys and token.kind in (Kind.WORD, Kind.SIGN)

    def take(self, *keys: str) -> bool:
        """Pass a token with one of these keys, where one stands there."""
        if self.at(*keys):
            self.next()
            return True
        return False

    def phrase(self, table: Mapping[str, _T], ahead: int = 0) -> tuple[int, _T] | None:
        """The longest phrase of a table that stands there: its length in tokens, its value."""
        keys = [self.peek(ahead + step) for step in range(_PHRASE)]
        for length in range(_PHRASE, 0, -1):
            words = " ".join(token.key for token in keys[:length])
            if words in table:
                return length, table[words]
        return None

    def take_phrase(self, table: Mapping[str, _T]) -> _T | None:
        """The value of the longest phrase that stands there, which is passed."""
        found = self.phrase(table)
        if found is None:
            return None
        self.place += found[0]
        return found[1]

    def free_words(self) -> str:
        """Words as they stand, up to a sign of :data:`STOPS`, "or" or the end."""
        start = self.start
        while not (self.done() or self.peek().key in STOPS or self.at("or")):
            self.next()
        return " ".join(self.text[start : self.start].split())

    def fault(
        self, sentence: Sentence, mend: Sentence, token: Token | None = None
    ) -> ShorthandError:
        """An error at a token, the next one unless given."""
        where = token or self.peek()
        return ShorthandError(sentence, where.start, where.end, mend)


def reads_back(words: str) -> bool:
    """Whether free words are read back as they were written."""
    cursor = Cursor(words)
    return bool(words) and cursor.free_words() == words and cursor.done()


def only_words(words: str, most: int) -> bool:
    """Whether free words are words of letters, as many as may stand before a unit."""
    cursor = Cursor(words)
    while cursor.word():
        cursor.next()
    return cursor.done() and 0 < cursor.place <= most
