"""What an edit gives back, and how it refuses.

Sentences are templates with named places, so that an interface can say them in another
language; every template stands as a literal where :func:`note` or :func:`refuse` is called.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Generic, TypeVar

import attrs
from immutabledict import immutabledict

from authoring.model.base import ModelError

_V = TypeVar("_V")


class EditError(ModelError):
    """An edit that can't be made.

    ``template`` and ``places`` give the sentence again in another language.
    """

    def __init__(self, template: str, places: Mapping[str, object]) -> None:
        super().__init__("", template.format(**places))
        self.template = template
        self.places = places


@attrs.frozen
class Note:
    """What an edit changed besides what was asked.

    Attributes:
        template: sentence with named places.
        places: what stands in the places.
        about: id of what changed.
    """

    template: str
    places: Mapping[str, object] = attrs.field(converter=immutabledict)
    about: str

    @property
    def sentence(self) -> str:
        """The note in English."""
        return self.template.format(**self.places)


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
    return Note(template, places, about)


def refuse(template: str, /, **places: object) -> EditError:
    """The error for an edit that can't be made, to be raised."""
    return EditError(template, places)
