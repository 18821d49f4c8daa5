"""Selecting on the map: by hand, by arrow keys, and what an edit made."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from authoring.editor.session import NOTHING, Selection
from authoring.editor.stage_map.walking import beside

if TYPE_CHECKING:
    from authoring.editor.stage_map.room import StageMapRoom


class Selecting:
    """What is selected on the map of a room, and how to move from it."""

    def __init__(self, room: StageMapRoom) -> None:
        self._room = room

    @property
    def entry_id(self) -> str:
        """Id of the selected entry, "" for none."""
        chosen = self._room.session.selection
        return chosen.ids[0] if chosen.kind == "entry" and chosen.ids else ""

    @property
    def stage_id(self) -> str:
        """Id of the stage that is selected, or of the selected entry or border; else the first."""
        chosen, model = self._room.session.selection, self._room.model
        stages = model.stages if model is not None else ()
        wanted = chosen.ids[0] if chosen.kind in ("stage", "gate") and chosen.ids else ""
        if any(stage.id == wanted for stage in stages):
            return wanted
        cell = model.cell(self.entry_id) if model is not None else None
        if cell is not None:
            return stages[cell.stage].id
        return stages[0].id if stages else ""

    def entry(self, entry_id: str) -> None:
        """Select an entry and put the focus on it."""
        self._room.session.select(Selection("entry", (entry_id,)) if entry_id else NOTHING)
        view = self._room.map.board.view(entry_id)
        if view is not None:
            view.setFocus(Qt.FocusReason.OtherFocusReason)
            self._room.map.bring_into_view(entry_id)

    def stage(self, stage_id: str) -> None:
        """Select a stage and put the focus on its head."""
        self._room.session.select(Selection("stage", (stage_id,)))
        head = self._room.map.heads.get(stage_id)
        if head is not None:
            head.setFocus(Qt.FocusReason.OtherFocusReason)
            self._room.map.bring_stage_into_view(self._index(stage_id))

    def gate(self, stage_id: str) -> None:
        """Select the border after a stage."""
        self._room.session.select(Selection("gate", (stage_id,)))
        view = self._room.map.gates.get(stage_id)
        if view is not None:
            view.setFocus(Qt.FocusReason.OtherFocusReason)
            self._room.map.bring_stage_into_view(self._index(stage_id))

    def reached_entry(self, entry_id: str) -> None:
        """Select the entry that Tab came to: keys are about what has the focus.

        Not where that would change the form that is open beside the map.
        """
        if self._is_free:
            self.entry(entry_id)

    def reached_stage(self, stage_id: str) -> None:
        """The same for the head of a stage."""
        if self._is_free:
            self.stage(stage_id)

    @property
    def _is_free(self) -> bool:
        return self._room.details.isHidden() and not self._room.session.selection.ids

    def stop(self) -> QWidget | None:
        """The part of the map at which Tab stops: what is selected, or the first there is."""
        chosen, room = self._room.session.selection, self._room
        key = chosen.ids[0] if chosen.ids else ""
        found: QWidget | None = room.map.board.view(key)
        if chosen.kind in ("stage", "gate"):
            heads = room.map.heads if chosen.kind == "stage" else room.map.gates
            found = heads.get(key)
        if found is None and room.model is not None and room.model.cells:
            found = room.map.board.view(room.model.cells[0].entry.id)
        return found or next(iter(room.map.heads.values()), None)

    def made(self, part_id: str) -> None:
        """Select what an edit added or moved."""
        model = self._room.model
        if model is not None and model.cell(part_id) is not None:
            self.entry(part_id)
        elif part_id in self._room.map.heads:
            self.stage(part_id)

    def walk(self, *, across: int = 0, down: int = 0) -> None:
        """Go to the entry beside the selected one; above the first lies the stage's head."""
        model, chosen = self._room.model, self._room.session.selection
        if model is None:
            return
        if chosen.kind in ("stage", "gate") and chosen.ids:
            self._walk_heads(chosen, across=across, down=down)
            return
        found = beside(model, self.entry_id, across=across, down=down)
        if found:
            self.entry(found)
        elif down < 0:
            self.stage(self.stage_id)

    def _walk_heads(self, chosen: Selection, *, across: int, down: int) -> None:
        """Heads and borders alternate along the top; down leads into the stage."""
        model = self._room.model
        if model is None:
            return
        ids = [stage.id for stage in model.stages]
        if chosen.ids[0] not in ids:  # undone or redone away
            self.stage(ids[0])
            return
        at = ids.index(chosen.ids[0]) * 2 + (chosen.kind == "gate") + across
        if down > 0:
            cells = [c for c in model.cells if ids[c.stage] == chosen.ids[0]]
            if cells:
                self.entry(min(cells, key=lambda c: (c.row, c.slot)).entry.id)
        elif 0 <= at < 2 * len(ids):
            (self.gate if at % 2 else self.stage)(ids[at // 2])

    def _index(self, stage_id: str) -> int:
        stages = self._room.model.stages if self._room.model is not None else ()
        return next((i for i, stage in enumerate(stages) if stage.id == stage_id), 0)
