"""Fresh ids. No Qt here."""

from __future__ import annotations

import re
import unicodedata
import uuid
from collections.abc import Collection, Iterator

from authoring.model.base import Node, fields

_LONGEST = 60


def new_file_id() -> str:
    """An id for a new file."""
    return str(uuid.uuid4())


def slug_of(words: str, otherwise: str = "item") -> str:
    """Words as an id: lower case, plain letters, hyphens; ``otherwise`` where none are left."""
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode("ascii").lower()
    made = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_LONGEST].strip("-")
    return made or otherwise


def fresh_id(words: str, taken: Collection[str], otherwise: str = "item") -> str:
    """An id made from words that is not taken yet ("step", "step-2")."""
    base = slug_of(words, otherwise)
    made, number = base, 2
    while made in taken:
        made, number = f"{base}-{number}", number + 1
    return made


def ids_in(value: object) -> frozenset[str]:
    """Every inner id of a noun and what it holds; ids of files are among them."""
    return frozenset(_ids(value))


def _ids(value: object) -> Iterator[str]:
    if isinstance(value, Node):
        own = getattr(value, "id", None)
        if isinstance(own, str):
            yield own
        for field in fields(type(value)):
            yield from _ids(getattr(value, field.name))
    elif isinstance(value, tuple):
        for item in value:
            yield from _ids(item)
