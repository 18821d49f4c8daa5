"""What edits refuse or tell besides, in the language of the interface. No Qt here."""

from __future__ import annotations

from collections.abc import Iterable

from authoring.editor.i18n import tr
from authoring.model.base import ModelError
from authoring.model.edits.outcome import EditError, Note


def refusal(error: ModelError) -> str:
    """Why an edit can't be made; a fault of a value stays in English, as in the files."""
    if isinstance(error, EditError):
        return tr(error.template, **error.places)
    return error.sentence


def told(notes: Iterable[Note]) -> tuple[str, ...]:
    """What edits changed besides what was asked, one sentence each."""
    return tuple(tr(note.template, **note.places) for note in notes)
