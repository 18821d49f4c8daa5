"""A place where two people's changes don't go together."""

from __future__ import annotations

from enum import StrEnum
from typing import Any

import attrs

from authoring.exchange.table import Key


class Side(StrEnum):
    """Whose change: of the one who merges, or of the other."""

    MINE = "mine"
    THEIRS = "theirs"


class ConflictKind(StrEnum):
    """What both sides changed."""

    FIELD = "field"
    PLACE = "place"
    DELETED = "deleted"
    ORDER = "order"
    TOGETHER = "together"
    """Fields that each merge by themselves and then don't go together."""


Name = tuple[ConflictKind, Key, str]


@attrs.frozen
class Conflict:
    """One thing to choose.

    Attributes:
        key: the part it is about.
        field: the field, or the list whose order it is; "" for the part as a whole.
        mine, theirs: what either side made of it; None where that side deleted the part.
    """

    kind: ConflictKind
    key: Key
    field: str = ""
    mine: Any = attrs.field(default=None, repr=False)
    theirs: Any = attrs.field(default=None, repr=False)

    @property
    def name(self) -> Name:
        """What tells this conflict from the others of a merge."""
        return self.kind, self.key, self.field
