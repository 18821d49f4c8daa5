"""What is JSON and what is not, by RFC 8259 (JSON) and RFC 7493 (I-JSON)."""

from __future__ import annotations

import json
import math
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.files.errors import FileProblem, NotStrictJson
from authoring.files.strict_json import DEFAULT_LIMITS, Limits, read_json, write_json

# RFC 8259, section 13: the two examples of a text.
RFC_OBJECT = b"""{
  "Image": {
      "Width":  800,
      "Height": 600,
      "Title":  "View from 15th Floor",
      "Thumbnail": {
          "Url":    "http://www.example.com/image/481989943",
          "Height": 125,
          "Width":  100
      },
      "Animated" : false,
      "IDs": [116, 943, 234, 38793]
    }
}"""
RFC_ARRAY = b'[{"precision": "zip", "Latitude": 37.7668, "Longitude": -122.3959}, null]'


def test_the_examples_of_the_standard_are_read() -> None:
    image: Any = read_json(RFC_OBJECT)
    assert image["Image"]["Thumbnail"]["Url"] == "http://www.example.com/image/481989943"
    assert image["Image"]["IDs"] == [116, 943, 234, 38793]
    assert image["Image"]["Animated"] is False
    assert read_json(RFC_ARRAY) == [
        {"precision": "zip", "Latitude": 37.7668, "Longitude": -122.3959},
        None,
    ]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        # RFC 8259, section 13: values alone are texts.
        (b'"Hello world!"', "Hello world!"),
        (b"42", 42),
        (b"true", True),
        (b"null", None),
        # Section 2: white space around any of the structural characters.
        (b" \t\r\n[ \t\r\n1 \t\r\n, \t\r\n2 ] \t\r\n", [1, 2]),
        (b"{}", {}),
        (b"[]", []),
        # Section 6: numbers.
        (b"[0, -0, -1, 0.5, 1e2, 1E+2, 1e-2, 123.25e1]", [0, 0, -1, 0.5, 100, 100, 0.01, 1232.5]),
        # Section 7: escapes; U+1D11E as a pair.
        (rb'"\"\\\/\b\f\n\r\t\u00e9"', '"\\/\b\f\n\r\té'),
        (rb'"\uD834\uDD1E"', "\U0001d11e"),
        ('"\U0001d11e"'.encode(), "\U0001d11e"),
        (b'{"":""}', {"": ""}),
        (b'"\x7f"', "\x7f"),
        # Section 8.1: a reader may pass over a byte order mark.
        (b"\xef\xbb\xbf[1]", [1]),
        # RFC 7493, section 2.2: integers that doubles hold exactly.
        (b"[9007199254740991, -9007199254740991]", [2**53 - 1, 1 - 2**53]),
    ],
)
def test_what_the_standard_allows_is_read(text: bytes, value: object) -> None:
    assert read_json(text) == value


REFUSED = [
    # RFC 8259, section 6: no other numbers.
    (b"[NaN]", "NaN is not a number JSON knows, at line 1, column 2"),
    (b'{"a": "NaN",\n "b": Infinity}', "Infinity is not a number JSON knows, at line 2, column 7"),
    (b"[-Infinity]", "-Infinity is not a number"),
    (b"[01]", "a comma or a closing bracket was expected at line 1, column 3"),
    (b"[+1]", "a value was expected at line 1, column 2"),
    (b"[.5]", "a value was expected at line 1, column 2"),
    (b"[1.]", "a comma or a closing bracket was expected at line 1, column 3"),
    (b"[0x10]", "a comma or a closing bracket was expected"),
    ("[１]".encode(), "a value was expected at line 1, column 2"),
    # RFC 7493, section 2.2: no numbers beyond what a double holds.
    (b'["1e999", 1e999]', "the number 1e999 is too large, at line 1, column 11"),
    (b"[-1e400]", "the number -1e400 is too large"),
    (b"[9007199254740993]", "the whole number 9007199254740993 is too large to be kept exactly"),
    (b"9" * 5000, "(5000 characters) is too large to be kept exactly, at line 1, column 1"),
    # RFC 7493, section 2.3: no repeated names.
    (b'{"a": 1, "a": 2}', 'the name "a" stands twice in the outermost object; keep one'),
    (
        b'{"stages": [{}, {"dose": {"sets": 3, "sets": 4}}]}',
        '"sets" stands twice in stages[1].dose',
    ),
    (rb'{"a": 1, "\u0061": 2}', 'the name "a" stands twice'),
    (b'{"x y": {"a": {"b": 1, "b": 1}}}', 'the name "b" stands twice in ["x y"].a'),
    (b'[{"a": 1, "a": 2}, ', "the file breaks off at line 1, column 20"),
    # RFC 7493, section 2.1: no halves of characters; UTF-8 only.
    (rb'{"a": ["", "\ud800"]}', "the text at a[1] holds half of a character (U+D800)"),
    (rb'{"\udc00": 1}', "half of a character (U+DC00)"),
    (rb'"\ud834x"', "half of a character"),
    (b'{"a": "\xff"}', "the byte at offset 7 is not UTF-8 text"),
    (b'"\xed\xa0\x80"', "the byte at offset 1 is not UTF-8 text"),
    (b'"\xc0\x80"', "the byte at offset 1 is not UTF-8 text"),
    (b"\xef\xbb\xbf[\xff]", "the byte at offset 4 is not UTF-8 text"),
    ('["a"]'.encode("utf-16"), "the file is saved as UTF-16, not UTF-8"),
    ('"é'.encode()[:-1], "the file breaks off inside a character, at byte 1"),
    # What no document can show.
    (rb'{"a": {"b": "x\u0000"}}', "the text at a.b holds the character U+0000"),
    (b'"\x00"', "a line break or control character stands inside quotes"),
    # RFC 8259, sections 2 to 7: the grammar.
    (b"", "the file is empty"),
    (b" \n\t", "the file is empty"),
    (b"\xef\xbb\xbf", "the file is empty"),
    (b"{'a': 1}", "a name in double quotes was expected at line 1, column 2"),
    (b"{a: 1}", "a name in double quotes was expected at line 1, column 2"),
    (b'{"a" 1}', "a colon was expected at line 1, column 6"),
    (b'{"a": 1\n "b": 2}', "a comma or a closing bracket was expected at line 2, column 2"),
    (b"[1 2]", "a comma or a closing bracket was expected at line 1, column 4"),
    (b"[1, 2] x", "there is more after the end of the JSON text at line 1, column 8"),
    (b"[1] // note", "there is more after the end"),
    (b"[1}", "a comma or a closing bracket was expected"),
    (b"[True]", "a value was expected"),
    (b"[undefined]", "a value was expected"),
    (b'"a\nb"', "a line break or control character stands inside quotes at line 1, column 3"),
    (b'"\t"', "a line break or control character stands inside quotes"),
    (rb'"\x41"', "a backslash is not followed by a letter JSON knows"),
    (rb'"\u00g0"', r"\u is not followed by four hexadecimal digits"),
    ("[1]\u2060".encode(), "there is more after the end"),
    ("\u00a0[1]".encode(), "a value was expected at line 1, column 1"),
    # Cut short.
    (b"{", "the file breaks off at line 1, column 2"),
    (b'{"a": tru', "the file breaks off at line 1, column 10"),
    (b'{"a": 1.', "the file breaks off"),
    (b'{"a": -', "the file breaks off"),
    (b'{"a":\n "half', "the file breaks off at line 2, column 7"),
    (rb'{"a": "\u12', "the file breaks off"),
    (b'{"a": 1,\n', "the file breaks off at line 2, column 1"),
]


@pytest.mark.parametrize(("text", "told"), REFUSED, ids=range(len(REFUSED)))
def test_what_the_standard_forbids_is_refused_with_its_place(text: bytes, told: str) -> None:
    with pytest.raises(NotStrictJson) as caught:
        read_json(text, "card.json")
    assert told in str(caught.value)
    assert str(caught.value).startswith("card.json: ")
    assert "\n" not in str(caught.value)
    assert caught.value.mend


@pytest.mark.parametrize("text", [b"[1, ]", b'{"a": 1, }'])
def test_a_comma_too_many_is_refused(text: bytes) -> None:
    # Python 3.13 words this in its own way; both are understood.
    with pytest.raises(NotStrictJson, match="comma"):
        read_json(text)


@pytest.mark.parametrize("opening", [b"[", b'{"a":', b'[{"]]}}":'])
def test_nesting_beyond_the_limit_is_refused_however_deep(opening: bytes) -> None:
    for times in (DEFAULT_LIMITS.depth + 1, 100_000):
        with pytest.raises(NotStrictJson, match="nested more than 64 deep"):
            read_json(opening * times)


def test_nesting_up_to_the_limit_is_read_and_brackets_in_text_do_not_count() -> None:
    value: Any = read_json(b"[" * 63 + b'["' + b"[" * 1000 + rb'\"[[[", "]"' + b"]" * 64)
    for _ in range(63):
        value = value[0]
    assert value == ["[" * 1000 + '"[[[', "]"]


def test_too_large_a_text_is_refused_unread() -> None:
    with pytest.raises(NotStrictJson, match="the file has 20 bytes, more than the 19"):
        read_json(b'"' + b"x" * 18 + b'"', limits=Limits(size=19))


@pytest.mark.parametrize(
    "text",
    [
        b'["' + b'\\"' * 4_000_000,
        b'"' * 8_000_000,
        b"[" + b"\\" * 8_000_000,
        b"[" + b"1," * 4_000_000,
        b'["' + b"\\u0000" * 1_000_000 + b'"]',
        b"-" * 8_000_000,
    ],
    ids=["escaped quotes", "quotes", "backslashes", "open list", "noughts", "dashes"],
)
def test_hostile_megabytes_are_refused_without_hanging(text: bytes) -> None:
    # Work that grew with the square of the size would not end today.
    with pytest.raises(NotStrictJson):
        read_json(text)


SAMPLE: Any = {
    "format": "rungbook/card",
    "format_version": 1,
    "title": {"en": "Calf raise “slow”", "ar": "رفع الكعب", "emoji": "🦶"},
    "dose": {"sets": 3, "reps": [12, 10, 8], "hold_s": 1.5, "open": None, "per_side": True},
    "escapes": 'quote " backslash \\ line\nend',
}


def test_a_file_cut_at_any_byte_is_told_and_never_taken_for_whole() -> None:
    data = write_json(SAMPLE)
    end = len(data.rstrip())
    for length in range(end):
        with pytest.raises(NotStrictJson, match=r"the file (breaks off|is empty)"):
            read_json(data[:length])
    assert read_json(data[:end]) == SAMPLE


# ---- writing -----------------------------------------------------------------


def test_writing_keeps_the_order_and_is_readable_in_any_editor() -> None:
    assert write_json({"b": 1, "a": ["é", {}], "c": []}) == (
        '{\n  "b": 1,\n  "a": [\n    "é",\n    {}\n  ],\n  "c": []\n}\n'.encode()
    )


@pytest.mark.parametrize(
    ("value", "error", "told"),
    [
        ({"a": [1.5, math.nan]}, ValueError, r"a\[1\] holds nan"),
        ([math.inf], ValueError, r"\[0\] holds inf"),
        ({"a": {"b": "\ud800"}}, ValueError, r"a\.b holds half of a character"),
        ({"a": "\0"}, ValueError, r"a holds the character U\+0000"),
        ({"\0": 1}, ValueError, "a name in the outermost value holds"),
        ([2**53 + 1], ValueError, "too large to be kept exactly"),
        ({1: 2}, TypeError, "has the name 1, which is not text"),
        ({None: 2}, TypeError, "has the name None, which is not text"),
        ([(1, 2)], TypeError, r"\[0\] is tuple, for which JSON has no form"),
        ([b"x"], TypeError, "is bytes"),
    ],
)
def test_what_could_not_be_read_back_is_never_written(
    value: Any, error: type[Exception], told: str
) -> None:
    with pytest.raises(error, match=told):
        write_json(value)


def test_a_value_that_holds_itself_is_refused() -> None:
    loop: list[Any] = []
    loop.append(loop)
    with pytest.raises(ValueError, match="nested more than 64 deep"):
        write_json(loop)


def test_a_value_too_large_to_read_back_is_refused() -> None:
    with pytest.raises(ValueError, match="more than the 10 that can be read back"):
        write_json("x" * 10, Limits(size=10))


# ---- any value, any bytes ------------------------------------------------------

TEXTS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"))
SCALARS = (
    st.none()
    | st.booleans()
    | st.integers(-(2**53), 2**53)
    | st.floats(allow_nan=False, allow_infinity=False)
    | TEXTS
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner) | st.dictionaries(TEXTS, inner),
    max_leaves=30,
)


def _same(one: Any, other: Any) -> bool:
    """Equal, of the same types, with names in the same order."""
    if type(one) is not type(other):
        return False
    if isinstance(one, dict):
        return list(one) == list(other) and all(_same(one[key], other[key]) for key in one)
    if isinstance(one, list):
        return len(one) == len(other) and all(map(_same, one, other))
    return bool(one == other)


@given(VALUES)
def test_any_value_comes_back_equal_and_other_readers_agree(value: Any) -> None:
    data = write_json(value)
    assert _same(read_json(data), value)
    assert _same(json.loads(data), value)
    assert write_json(read_json(data)) == data


def _refused_or_read(data: bytes) -> None:
    try:
        value = read_json(data)
    except FileProblem as problem:
        told = str(problem)
    else:
        told = "read"
        assert _same(read_json(write_json(value)), value)
    assert "\n" not in told


@given(st.binary())
def test_random_bytes_are_refused_in_a_sentence_or_read(data: bytes) -> None:
    _refused_or_read(data)


PIECES = st.sampled_from(
    [bytes([byte]) for byte in b'{}[],:"\\.-+ \ne1\xc3\xa9']
    + [b"\\u", b"d800", b"0000", b"999", b"NaN", b"true", b"nul", b'"a"', b'"a":1']
)


@given(st.lists(PIECES, max_size=40).map(b"".join))
def test_random_pieces_of_json_are_refused_in_a_sentence_or_read(data: bytes) -> None:
    _refused_or_read(data)


@given(VALUES, st.data())
def test_a_damaged_file_is_refused_in_a_sentence_or_read(value: Any, data: st.DataObject) -> None:
    whole = write_json(value)
    start = data.draw(st.integers(0, len(whole)))
    end = data.draw(st.integers(start, min(len(whole), start + 6)))
    _refused_or_read(whole[:start] + data.draw(st.binary(max_size=6)) + whole[end:])


@pytest.mark.long
def test_a_million_damaged_files_are_refused_in_a_sentence_or_read(
    tmp_path: Path, record_property: Callable[[str, int], None]
) -> None:
    chance = random.Random(20240901)
    whole = write_json(SAMPLE)
    for _ in range(1_000_000):
        damaged = bytearray(whole)
        for _ in range(chance.randint(1, 4)):
            place = chance.randrange(len(damaged))
            match chance.randrange(4):
                case 0:
                    damaged[place] = chance.randrange(256)
                case 1:
                    del damaged[place : place + chance.randint(1, 20)]
                case 2:
                    other = chance.randrange(len(damaged))
                    damaged[place:place] = damaged[other : other + chance.randint(1, 20)]
                case _:
                    del damaged[max(place, 1) :]
        _refused_or_read(bytes(damaged))
    assert list(tmp_path.iterdir()) == []
    record_property("cases", 1_000_000)
