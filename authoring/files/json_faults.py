"""Say in plain words where and how a text stops being JSON."""

from __future__ import annotations

import json
import re
from pathlib import Path

from authoring.files.errors import NotStrictJson
from authoring.model.sentence import Sentence, say

# What may be left of a value when a file is cut short in the middle of it.
_STUMP = re.compile(r"(?:t|tr|tru|f|fa|fal|fals|n|nu|nul|-|\.|[eE][+-]?)\s*")
_OPEN_STRING = re.compile(r'(?:[^"\\]++|\\.)*+\\?', re.DOTALL)

_WORDS = {
    "Expecting property name enclosed in double quotes": (
        say("a name in double quotes was expected"),
        say("put the name in double quotes, or delete the comma before it"),
    ),
    "Illegal trailing comma before end of object": (
        say("a comma stands after the last item"),
        say("delete that comma"),
    ),
    "Illegal trailing comma before end of array": (
        say("a comma stands after the last item"),
        say("delete that comma"),
    ),
    "Expecting ':' delimiter": (say("a colon was expected"), say("put a colon after the name")),
    "Expecting ',' delimiter": (
        say("a comma or a closing bracket was expected"),
        say('add it, or put quotes inside the text as \\"'),
    ),
    "Expecting value": (say("a value was expected"), say("add one, or delete the comma before it")),
    "Extra data": (
        say("there is more after the end of the JSON text"),
        say("delete what follows, or restore the file from a backup"),
    ),
    "Invalid control character at": (
        say("a line break or control character stands inside quotes"),
        say("write it as \\n or delete it"),
    ),
    "Invalid \\escape": (
        say("a backslash is not followed by a letter JSON knows"),
        say("write the backslash twice"),
    ),
    "Invalid \\uXXXX escape": (
        say("\\u is not followed by four hexadecimal digits"),
        say("write four, or the character itself"),
    ),
}


def position(text: str, offset: int) -> tuple[int, int]:
    """Line and column, from 1, of a character offset."""
    line = text.count("\n", 0, offset) + 1
    return line, offset - text.rfind("\n", 0, offset)


def at(line: int, column: int) -> Sentence:
    return say("at line {line}, column {column}", line=line, column=column)


def explain_syntax(error: json.JSONDecodeError, text: str, source: Path | str) -> NotStrictJson:
    """The reader's own fault, told apart from a file that was cut short."""
    if _cut_short(error, text):
        line, column = position(text, len(text))
        return NotStrictJson(
            source,
            say("the file breaks off {at}", at=at(line, column)),
            say("restore it from a backup or copy it again"),
            line=line,
            column=column,
        )
    message = error.msg.removesuffix(": ")
    known = next((words for start, words in _WORDS.items() if message.startswith(start)), None)
    sentence, mend = known or (
        say("this is not JSON"),
        say("correct it, or restore it from a backup"),
    )
    return NotStrictJson(
        source,
        say("{sentence} {at}", sentence=sentence, at=at(error.lineno, error.colno)),
        mend,
        line=error.lineno,
        column=error.colno,
    )


def _cut_short(error: json.JSONDecodeError, text: str) -> bool:
    if error.msg.startswith("Unterminated string"):
        return True
    if error.pos >= len(text.rstrip(" \t\r\n")):
        return True
    if error.msg.startswith("Invalid \\u"):
        # Cut inside the escape: nothing but the rest of the string follows.
        return len(text) - error.pos < 6 and _OPEN_STRING.fullmatch(text, error.pos) is not None
    return _STUMP.fullmatch(text, error.pos) is not None
