"""The list of what was found."""

from __future__ import annotations

import datetime as dt

from authoring.editor.i18n import tr
from authoring.editor.library_room.edits import noun_of
from authoring.editor.library_room.faces import Face, Line, face_of
from authoring.editor.library_room.rows import Row, RowList
from authoring.editor.search.index import Found
from authoring.editor.search.pieces import Terms, terms_of
from authoring.editor.vocabulary_words import words_of
from authoring.model.library import Library


class ResultList(RowList):
    """What was found, best first."""

    def __init__(self, today: dt.date) -> None:
        super().__init__(tr("Found cards and protocols"))
        self._today = today
        self._found = Found()
        self._library: Library | None = None
        self._terms: Terms = {}

    def show_found(self, found: Found, library: Library) -> None:
        """Show what was found; the chosen row stays chosen where it is still there."""
        chosen, words_before = self.current_id, self._found.wanted
        if library is not self._library:
            self._terms = terms_of(library)
        self._found, self._library = found, library
        self.rows.show_rows(len(found.ids), self._row)
        keeps = chosen in found.ids and words_before == found.wanted
        if found.ids:
            self.choose(found.ids.index(chosen) if keeps else 0)
        else:
            self.shown.emit(-1)

    @property
    def ids(self) -> tuple[str, ...]:
        """Ids of the rows."""
        return self._found.ids

    @property
    def current_id(self) -> str:
        """Id of the chosen row, "" for none."""
        return self.ids[self.current] if 0 <= self.current < len(self.ids) else ""

    def face(self, row: int) -> Face | None:
        """What a row is about; None where its noun is gone meanwhile."""
        library = self._library
        noun = noun_of(library, self.ids[row]) if library is not None else None
        if library is None or noun is None:
            return None
        return face_of(noun, library, self._terms, self._found.wanted, self._today)

    def _row(self, number: int) -> Row:
        face = self.face(number)
        if face is None:
            return Row(Line(""))
        far = face.kind
        if face.status is None and face.regions:
            far = f"{face.kind} · {face.regions}"
        return Row(
            title=face.title,
            below=face.below,
            lead=face.lead,
            far=far,
            far_below=face.due,
            tag=words_of(face.status) if face.status is not None else "",
            warns=face.is_overdue,
            spoken=face.spoken,
        )
