"""JSON as RFC 8259 and I-JSON (RFC 7493) ask for it, and nothing looser.

Python's own reader takes NaN, numbers that overflow, repeated names and half
characters, and gives up on deep nesting in a way of its own. Each of these is
refused here in one sentence with its place. What :func:`write_json` writes,
:func:`read_json` reads back equal.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from itertools import accumulate
from math import isfinite
from pathlib import Path
from typing import Any, NoReturn, TypeAlias

from attrs import frozen

from authoring.files.errors import NotStrictJson
from authoring.files.json_faults import at, explain_syntax, position
from authoring.files.reading import MEBIBYTE, read_file
from authoring.model.sentence import say

__all__ = ["DEFAULT_LIMITS", "JsonValue", "Limits", "read_file", "read_json", "write_json"]

JsonValue: TypeAlias = "bool | int | float | str | list[JsonValue] | dict[str, JsonValue] | None"

_LONG_TOKEN = 200

# I-JSON: beyond this, readers that hold numbers as doubles change them.
LARGEST_INTEGER = 2**53


@frozen
class Limits:
    """``size`` in bytes; ``depth`` counts arrays and objects inside each other."""

    size: int = 16 * MEBIBYTE
    depth: int = 64


DEFAULT_LIMITS = Limits()

_STRING = re.compile(rb'"(?:[^"\\]++|\\.?)*+"?', re.DOTALL)
_NOT_BRACKETS = bytes(set(range(256)) - set(b"[]{}"))
_STEP = {ord("["): 1, ord("{"): 1, ord("]"): -1, ord("}"): -1}
_SUSPECT_ESCAPE = re.compile(r"\\u(?:0000|[dD][89a-fA-F])")
_UNUSABLE = re.compile("[\x00\ud800-\udfff]")


class _Refusal(Exception):  # noqa: N818 - carries a sentence out of the reader, not an error type
    """What a hook of the reader objects to: sentence and mend."""


def read_json(
    data: bytes, source: Path | str = "this file", limits: Limits = DEFAULT_LIMITS
) -> JsonValue:
    """The value of a whole JSON text; a leading byte order mark is passed over.

    ``source`` is only named in messages. Raises :class:`NotStrictJson`, and
    nothing else, for any bytes at all.
    """
    text = _decode(data, source, limits)
    try:
        value: JsonValue = json.loads(
            text,
            parse_constant=_refuse_constant,
            parse_float=_finite,
            parse_int=_exact,
            object_pairs_hook=_unique,
        )
    except json.JSONDecodeError as error:
        raise explain_syntax(error, text, source) from None
    except _Refusal as refusal:
        raise _place_refusal(refusal, text, source) from None
    except MemoryError:
        raise NotStrictJson(
            source, say("the computer ran out of memory reading it"), say("close other programs")
        ) from None
    if _SUSPECT_ESCAPE.search(text):
        _refuse_unusable_text(value, source)
    return value


def write_json(value: JsonValue, limits: Limits = DEFAULT_LIMITS) -> bytes:
    """UTF-8 with two-space indent, names in the order given, one newline at the end.

    Raises ``ValueError`` for what :func:`read_json` would refuse and
    ``TypeError`` for what JSON has no form for, each naming the place in the
    value: both are faults of the caller, not of a file.
    """
    for place, item, depth in _walk(value):
        _check_writable(place, item, depth, limits)
    text = json.dumps(value, ensure_ascii=False, allow_nan=False, indent=2)
    data = text.encode("utf-8") + b"\n"
    if len(data) > limits.size:
        raise ValueError(f"{len(data)} bytes are more than the {limits.size} that can be read back")
    return data


# ---- before the reader ---------------------------------------------------


def _decode(data: bytes, source: Path | str, limits: Limits) -> str:
    if len(data) > limits.size:
        raise NotStrictJson(
            source,
            say(
                "the file has {n} bytes, more than the {size} this program reads",
                n=len(data),
                size=limits.size,
            ),
            say("check that this is the right file, or split it"),
        )
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise NotStrictJson(
            source, say("the file is saved as UTF-16, not UTF-8"), say("save it again as UTF-8")
        )
    body = data.removeprefix(b"\xef\xbb\xbf")
    try:
        text = body.decode("utf-8")
    except UnicodeDecodeError as error:
        offset = error.start + len(data) - len(body)
        if error.end == len(body) and error.reason == "unexpected end of data":
            raise NotStrictJson(
                source,
                say("the file breaks off inside a character, at byte {offset}", offset=offset),
                say("restore it from a backup or copy it again"),
            ) from None
        raise NotStrictJson(
            source,
            say("the byte at offset {offset} is not UTF-8 text", offset=offset),
            say("save the file again as UTF-8, or restore it from a backup"),
        ) from None
    if not text.strip(" \t\r\n"):
        raise NotStrictJson(source, say("the file is empty"), say("restore it from a backup"))
    if _depth(body) > limits.depth:
        raise NotStrictJson(
            source,
            say("arrays and objects are nested more than {depth} deep", depth=limits.depth),
            say("check that this is the right file; none of ours nests so deep"),
        )
    return text


def _depth(data: bytes) -> int:
    """Deepest nesting, found without recursion and in time linear in the size."""
    brackets = _STRING.sub(b"", data).translate(None, _NOT_BRACKETS)
    return max(accumulate(map(_STEP.__getitem__, brackets)), default=0)


# ---- hooks of the reader -------------------------------------------------


def _refuse_constant(name: str) -> NoReturn:
    raise _Refusal(
        say("{name} is not a number JSON knows", name=name), say("write a number, or null"), name
    )


def _finite(digits: str) -> float:
    number = float(digits)
    if not isfinite(number):
        raise _Refusal(
            say("the number {short} is too large", short=_short(digits)),
            say("write a smaller one"),
            digits,
        )
    return number


def _exact(digits: str) -> int:
    # Sixteen digits are the most that 2**53 has; longer ones aren't worth turning.
    if len(digits) > 17 or abs(int(digits)) > LARGEST_INTEGER:
        raise _Refusal(
            say("the whole number {short} is too large to be kept exactly", short=_short(digits)),
            say("write a smaller one, or put it in quotes as text"),
            digits,
        )
    return int(digits)


def _unique(pairs: list[tuple[str, JsonValue]]) -> dict[str, JsonValue]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise _Refusal(say("a name stands twice in one object"), say("keep one of the two"), None)
    return found


def _short(digits: str) -> str:
    return digits if len(digits) <= 24 else f"{digits[:20]}… ({len(digits)} characters)"


# ---- naming the place ----------------------------------------------------


def _place_refusal(refusal: _Refusal, text: str, source: Path | str) -> NotStrictJson:
    sentence, mend, token = refusal.args
    if token is None:
        try:
            place, name = _first_repeated(text)
        except json.JSONDecodeError as error:
            return explain_syntax(error, text, source)
        return NotStrictJson(
            source,
            say("the name {quoted} stands twice in {place}", quoted=_quoted(name), place=place),
            mend,
        )
    line, column = position(text, _find_token(token, text))
    return NotStrictJson(
        source,
        say("{sentence}, {at}", sentence=sentence, at=at(line, column)),
        mend,
        line=line,
        column=column,
    )


def _find_token(token: str, text: str) -> int:
    """Where ``token`` first stands outside a string; 0 if it can't be told."""
    if len(token) > _LONG_TOKEN:  # as a pattern it would take seconds, and where else could it be
        return max(text.find(token), 0)
    pattern = re.compile(rf'"(?:[^"\\]++|\\.?)*+"?|(?<![\w.+-]){re.escape(token)}(?![\w.+-])', re.S)
    for match in pattern.finditer(text):
        if not match.group().startswith('"'):
            return match.start()
    return 0


class _Pairs(list[tuple[str, Any]]):
    """An object with its repeated names still in it."""


def _first_repeated(text: str) -> tuple[str, str]:
    """Where the first object with a repeated name stands, and that name.

    Reads the text a second time, for files that are refused anyway. Numbers are
    left as text here: they are not what this looks for.
    """
    tree = json.loads(text, object_pairs_hook=_Pairs, parse_int=str, parse_float=str)
    todo: list[tuple[str, Any]] = [("", tree)]
    while todo:
        place, item = todo.pop()
        if isinstance(item, _Pairs):
            seen: set[str] = set()
            for name, _ in item:
                if name in seen:
                    return place or "the outermost object", name
                seen.add(name)
            todo.extend((_member(place, name), inner) for name, inner in reversed(item))
        elif isinstance(item, list):
            todo.extend((f"{place}[{i}]", item[i]) for i in reversed(range(len(item))))
    return "one object", "?"


def _refuse_unusable_text(value: JsonValue, source: Path | str) -> None:
    for place, item, _ in _walk(value):
        strings = item.keys() if isinstance(item, dict) else (item,)
        for string in strings:
            if isinstance(string, str) and (fault := _unusable(string)):
                where = place or "the outermost value"
                raise NotStrictJson(
                    source,
                    say("the text at {where} holds {fault}", where=where, fault=fault),
                    say("delete it from the text"),
                )


def _unusable(text: str) -> str | None:
    match = _UNUSABLE.search(text)
    if match is None:
        return None
    if match.group() == "\0":
        return "the character U+0000, which no document can show"
    return f"half of a character (U+{ord(match.group()):04X}), which is no text"


def _walk(value: JsonValue) -> Iterator[tuple[str, JsonValue, int]]:
    """Every value with its path and how many arrays and objects hold it."""
    todo: list[tuple[str, JsonValue, int]] = [("", value, 0)]
    while todo:
        place, item, depth = todo.pop()
        yield place, item, depth
        if isinstance(item, dict):
            todo.extend((_member(place, k), v, depth + 1) for k, v in reversed(item.items()))
        elif isinstance(item, list):
            todo.extend((f"{place}[{i}]", item[i], depth + 1) for i in reversed(range(len(item))))


def _member(place: str, name: str) -> str:
    if not str(name).isidentifier():
        return f"{place}[{_quoted(name)}]"
    return f"{place}.{name}" if place else name


def _quoted(name: str) -> str:
    return json.dumps(name if len(str(name)) <= 60 else f"{name[:57]}…")


# ---- writing -------------------------------------------------------------


def _check_writable(place: str, item: object, depth: int, limits: Limits) -> None:
    where = place or "the outermost value"
    if isinstance(item, dict | list):
        if depth >= limits.depth:
            raise ValueError(f"{where} is nested more than {limits.depth} deep")
        for name in item if isinstance(item, dict) else ():
            _check_scalar(f"a name in {where}", name)
            if not isinstance(name, str):
                raise TypeError(f"{where} has the name {name!r}, which is not text")
    else:
        _check_scalar(where, item)


def _check_scalar(where: str, item: object) -> None:
    fault = None
    if isinstance(item, str):
        fault = _unusable(item)
    elif isinstance(item, float):
        fault = None if isfinite(item) else f"{item}, which is not a number JSON knows"
    elif isinstance(item, int):
        if abs(item) > LARGEST_INTEGER:
            fault = "a whole number too large to be kept exactly"
    elif item is not None:
        raise TypeError(f"{where} is {type(item).__name__}, for which JSON has no form")
    if fault:
        raise ValueError(f"{where} holds {fault}")
