"""The room's commands, and the keys that the key line shows for them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from authoring.editor.i18n import tr
from authoring.editor.room import KeyHint
from authoring.model.edits.ladder import Way

if TYPE_CHECKING:
    from authoring.editor.workshop.room import WorkshopRoom


def add_commands(room: WorkshopRoom) -> None:
    """Add every command of the room, in the order of its menu."""
    ladder, add = room.on_ladder, room.add_command
    add(tr("Another card…"), room.on_cards.choose, keys="Ctrl+J")
    add(tr("New card"), lambda: room.on_cards.begin(""), keys="Ctrl+Shift+N")
    add(tr("Add a variant…"), room.offer_adding, keys="Ins")
    add(tr("Remove the variant"), ladder.remove, keys="Del")
    add(tr("Harder variant"), lambda: ladder.walk(Way.HARDER), keys="Ctrl+Up")
    add(tr("Easier variant"), lambda: ladder.walk(Way.EASIER), keys="Ctrl+Down")
    add(tr("Moving counterpart"), lambda: room.walk_across(False), keys="Ctrl+Left")
    add(tr("Holding counterpart"), lambda: room.walk_across(True), keys="Ctrl+Right")
    add(tr("One rung harder"), lambda: ladder.change_rung(1), keys="Alt+Up")
    add(tr("One rung easier"), lambda: ladder.change_rung(-1), keys="Alt+Down")
    add(tr("Prefer it earlier on its rung"), lambda: ladder.prefer(-1), keys="Alt+Shift+Up")
    add(tr("Prefer it later on its rung"), lambda: ladder.prefer(1), keys="Alt+Shift+Down")
    add(tr("Use the plain words"), room.use_first_words, keys="Alt+U")
    add(tr("Copy the variant"), room.on_clips.copy, keys="Ctrl+C")
    add(tr("Paste"), room.on_clips.paste, keys="Ctrl+V")
    add(tr("Add photos…"), room.on_photos.choose)
    add(tr("Paste a picture"), room.on_photos.paste, keys="Ctrl+Shift+V")


def ladder_hints() -> tuple[KeyHint, ...]:
    """Keys while the ladder has the focus."""
    return (
        KeyHint(tr("Arrows"), tr("walk the ladder")),
        KeyHint(tr("Enter"), tr("write it")),
        KeyHint(tr("Ins"), tr("add a variant")),
        KeyHint(tr("Del"), tr("remove it")),
        KeyHint(tr("Alt ↑ ↓"), tr("change its rung")),
        KeyHint(tr("Ctrl J"), tr("another card")),
    )


def form_hints() -> tuple[KeyHint, ...]:
    """Keys while a field has it."""
    return (
        KeyHint(tr("Ctrl ↑ ↓"), tr("harder, easier variant")),
        KeyHint(tr("Tab"), tr("next field")),
        KeyHint(tr("F6"), tr("next pane")),
        KeyHint(tr("Alt U"), tr("use the plain words")),
        KeyHint(tr("Ins"), tr("add a variant")),
        KeyHint(tr("Ctrl J"), tr("another card")),
    )
