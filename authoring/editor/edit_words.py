"""What edits refuse or tell besides, in the language of the interface. No Qt here."""

from __future__ import annotations

from collections.abc import Iterable

from authoring.editor.sentences import said
from authoring.model.base import ModelError
from authoring.model.edits.outcome import Note


def refusal(error: ModelError) -> str:
    """Why an edit can't be made."""
    return said(error.sentence)


def told(notes: Iterable[Note]) -> tuple[str, ...]:
    """What edits changed besides what was asked, one sentence each."""
    return tuple(said(note.sentence) for note in notes)
