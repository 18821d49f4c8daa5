"""Text and JSON values as files may hold them."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

_PRINTABLE = st.characters(
    exclude_categories=["Cs"],
    exclude_characters=[
        *map(chr, range(9)),
        "\x0b",
        "\x0c",
        *map(chr, range(14, 32)),
        "\ufffe",
        "\uffff",
    ],
)
_SAYABLE = st.characters(exclude_categories=["Cs"], exclude_characters="\0")

_AWKWARD = [
    "",
    " ",
    "Push, then rest.",
    "a\nb",
    "\t",
    "<b>&amp;</b>",
    "#let x = 1",
    "{{ x }}",
    "$\\",
    "\u202eabc",
    "e\u0301",
    "\U0001f9b6",
    "الركبة",
    "x\u2028y",
    "\ufeff",
    '"',
    "\\u0041",
]


def words(fewest: int = 0, longest: int = 40) -> st.SearchStrategy[str]:
    """Text that can be printed, with what writers of formats trip over."""
    awkward = st.sampled_from([text for text in _AWKWARD if fewest <= len(text) <= longest])
    return awkward | st.text(_PRINTABLE, min_size=fewest, max_size=longest)


def names() -> st.SearchStrategy[str]:
    """Names of fields that no noun has, or has elsewhere."""
    known_elsewhere = [
        "extra",
        "kind",
        "format",
        "format_version",
        "id",
        "dose",
        "x",
        "a.b",
        "[0]",
        "",
    ]
    return st.sampled_from(known_elsewhere) | st.text(_SAYABLE, max_size=12)


def json_values() -> st.SearchStrategy[Any]:
    """Any value that strict JSON can hold, small."""
    leaves = (
        st.none()
        | st.booleans()
        | st.integers(-(2**53), 2**53)
        | st.floats(allow_nan=False, allow_infinity=False)
        | st.text(_SAYABLE, max_size=12)
    )
    return st.recursive(
        leaves,
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(st.text(_SAYABLE, max_size=8), inner, max_size=3)
        ),
        max_leaves=6,
    )
