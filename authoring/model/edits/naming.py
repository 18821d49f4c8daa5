"""Fresh ids: unique in their file, readable, and the same for the same value.

References inside a copied piece follow its new ids.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterable, Mapping
from typing import TypeVar

from authoring.model.base import Fact, Node
from authoring.model.edits.tree import is_own_id, own_ids, with_leaves
from authoring.model.text import Text

_N = TypeVar("_N", bound=Node)

_LONGEST = 60
"""Characters of a slug made from words, which leaves room for a number."""

INNER = frozenset({"entry", "choice", "stage", "reference", "variant"})
"""What ids inside a file point to."""


def slug_of(words: str, *, otherwise: str) -> str:
    """Words as a slug: accents dropped, lower case, hyphens; ``otherwise`` where none is left."""
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode()
    made = re.sub(r"[^a-z0-9]+", "-", plain.lower())[:_LONGEST].strip("-")
    return made or otherwise


def slug_of_text(text: Text | None, *, otherwise: str) -> str:
    """The first words of a text as a slug."""
    words = next(iter(text.values.values())) if text is not None else ""
    return slug_of(words, otherwise=otherwise)


def fresh_id(base: str, *, taken: Collection[str]) -> str:
    """``base``, or ``base-2``, ``base-3`` … where it is taken.

    A number at the end counts on: a copy of ``squat-2`` is ``squat-3``, not ``squat-2-2``.
    """
    if base not in taken:
        return base
    stem = re.sub(r"-\d+$", "", base)
    number = 2
    while f"{stem}-{number}" in taken:
        number += 1
    return f"{stem}-{number}"


def ids_in(root: Node) -> set[str]:
    """The ids that are taken in a file."""
    return set(own_ids(root))


def renewed(
    pieces: Iterable[_N], *, taken: Collection[str], points: Collection[str]
) -> tuple[tuple[_N, ...], Mapping[str, str]]:
    """Pieces with fresh ids in place of those that are taken, or come twice.

    Args:
        pieces: nouns that are to stand in one file.
        taken: ids already in that file.
        points: which references inside the pieces follow ("entry", "variant" …).

    Returns:
        The pieces, and the new id for each old one that changed.
    """
    used = set(taken)
    made: list[_N] = []
    changed: dict[str, str] = {}
    for piece in pieces:
        new = _with_own_ids(piece, used, changed)
        made.append(new)
    return tuple(repointed(piece, changed, points=points) for piece in made), changed


def _with_own_ids(piece: _N, used: set[str], changed: dict[str, str]) -> _N:
    def change(name: str, known: Fact, value: Text | str) -> Text | str:
        if not isinstance(value, str) or not is_own_id(name, known):
            return value
        new = fresh_id(value, taken=used)
        used.add(new)
        if new != value:
            changed[value] = new
        return new

    return with_leaves(piece, change)


def repointed(piece: _N, changed: Mapping[str, str], *, points: Collection[str]) -> _N:
    """A piece whose references of these kinds follow changed ids."""
    if not changed:
        return piece

    def change(_: str, known: Fact, value: Text | str) -> Text | str:
        if isinstance(value, str) and known.points_to in points:
            return changed.get(value, value)
        return value

    return with_leaves(piece, change)


def with_fresh_ids(root: Node, piece: _N) -> _N:
    """A piece that is to be added to a file, its own ids made fresh where they are taken."""
    (new,), _ = renewed((piece,), taken=ids_in(root), points=())
    return new
