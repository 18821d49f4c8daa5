"""What an edit gives back, and how it refuses.

Sentences are templates with named places, so that an interface can say them in another
language; every template stands as a literal where :func:`note` or :func:`refuse` is called.
"""

from __future__ import annotations

from typing import Generic, TypeVar

import attrs

from authoring.model.base import ModelError
from authoring.model.sentence import Sentence

_V = TypeVar("_V")


class EditError(ModelError):
    """An edit that can't be made."""


@attrs.frozen
class Note:
    """What an edit changed besides what was asked.

    Attributes:
        sentence: what, one sentence.
        about: id of what changed.
    """

    sentence: Sentence
    about: str


@attrs.frozen
class Edited(Generic[_V]):
    """The value after an edit.

    Attributes:
        value: the new value.
        select: ids of what was added or moved, which a screen should select.
        notes: what changed besides.
    """

    value: _V
    select: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()


def note(template: str, /, *, about: str, **places: object) -> Note:
    """A note on what changed besides what was asked."""
    return Note(Sentence(template, places), about)


def refuse(template: str, /, **places: object) -> EditError:
    """The error for an edit that can't be made, to be raised."""
    return EditError("", Sentence(template, places))
