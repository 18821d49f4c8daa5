"""Whether a label looks as if it named the patient."""

from __future__ import annotations

import re

_NAME_LIKE = re.compile(r"\b[^\W\d_a-z][^\W\d_]{2,}[ ,]+[^\W\d_a-z][^\W\d_]{2,}\b")
_LONG_NUMBER = re.compile(r"(?:\d[ -]?){7,}")
_DATE = re.compile(r"\b\d{1,4}[-./]\d{1,2}[-./]\d{1,4}\b")
_MAIL = re.compile(r"\S@\S")
_TITLE = re.compile(r"\b(mr|mrs|ms|miss|dr|sir|madam|herr|frau|mme|mlle|m\.)\b", re.IGNORECASE)


def looks_like_identity(label: str) -> bool:
    """Whether a label looks like a name, a number of identity, a birthday or an address.

    Two words of three letters or more that both begin with a capital, seven digits or more, a
    date, a mail address, or a form of address. A warning, never a refusal: it can't be sure.
    """
    return any(
        pattern.search(label) for pattern in (_NAME_LIKE, _LONG_NUMBER, _DATE, _MAIL, _TITLE)
    )
