"""The commands of the map and their keys."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from authoring.editor.i18n import tr
from authoring.model.edits.ladder import Way

if TYPE_CHECKING:
    from authoring.editor.stage_map.room import StageMapRoom


def add_commands(room: StageMapRoom) -> None:
    """Give the room its commands."""
    _entries(room)
    _stages(room)
    _walking(room)
    add = room.add_command
    add(tr("Show every field"), room.open_details, keys=["F2", "Return", "Enter"])
    add(tr("Close the details"), room.close_details, keys="Escape")
    add(tr("About this protocol"), room.bar.about_wanted.emit, keys="Ctrl+I")
    add(tr("New protocol"), room.bar.new_protocol, keys="Ctrl+Shift+P")
    add(tr("Choose another protocol"), room.bar.choose, keys="Ctrl+T")
    add(tr("Fold or unfold the borders"), room.toggle_folded, keys="B")


def _walking(room: StageMapRoom) -> None:
    add = partial(room.add_command, group=tr("Go to"))
    mirrored = room.layoutDirection() == Qt.LayoutDirection.RightToLeft
    on, back = ("Left", "Right") if mirrored else ("Right", "Left")
    add(tr("Next stage"), lambda: room.selecting.walk(across=1), keys=on)
    add(tr("Stage before"), lambda: room.selecting.walk(across=-1), keys=back)
    add(tr("Exercise below"), lambda: room.selecting.walk(down=1), keys="Down")
    add(tr("Exercise above"), lambda: room.selecting.walk(down=-1), keys="Up")


def _entries(room: StageMapRoom) -> None:
    do, menus = room.actions_of_map, room.menus
    add = partial(room.add_command, group=tr("Exercise"))

    def on_entry(run: Callable[[str], object]) -> Callable[[], None]:
        def act() -> None:
            if room.selecting.entry_id:
                run(room.selecting.entry_id)

        return act

    add(tr("Add an exercise"), menus.add_card, keys="Ins")
    add(tr("Edit the dose"), menus.edit_dose, keys="D")
    add(tr("Choose a variant"), menus.choose_variant, keys="L")
    add(tr("Harder variant"), on_entry(lambda e: do.step(e, Way.HARDER)), keys="Alt+Up")
    add(tr("Easier variant"), on_entry(lambda e: do.step(e, Way.EASIER)), keys="Alt+Down")
    add(tr("Switch moving and holding"), on_entry(do.switch_hold), keys="H")
    add(tr("Move a stage on"), on_entry(lambda e: do.move_to_stage(e, 1)), keys="Alt+Right")
    add(tr("Move a stage back"), on_entry(lambda e: do.move_to_stage(e, -1)), keys="Alt+Left")
    add(tr("Move down in its stage"), on_entry(lambda e: do.move_within(e, 1)), keys="Ctrl+Down")
    add(tr("Move up in its stage"), on_entry(lambda e: do.move_within(e, -1)), keys="Ctrl+Up")
    add(tr("Duplicate the exercise"), on_entry(do.duplicate), keys="Ctrl+D")
    add(tr("Carry on in the next stage"), on_entry(do.carry_on), keys="Ctrl+Right")
    add(tr("Build on another exercise"), menus.build_on, keys="K")
    add(tr("Either/or with the exercise above"), menus.either_or, keys="O")
    add(tr("Make a circuit"), menus.make_circuit)
    add(tr("Open the card"), menus.open_card, keys="Ctrl+Return")
    add(tr("Copy"), menus.copy, keys="Ctrl+C")
    add(tr("Paste"), menus.paste, keys="Ctrl+V")
    add(tr("Remove"), menus.remove, keys="Del")


def _stages(room: StageMapRoom) -> None:
    do, add = room.actions_of_map, partial(room.add_command, group=tr("Stage"))
    add(tr("Add a stage"), do.add_stage, keys="Ctrl+Shift+N")
    add(
        tr("Duplicate the stage"),
        lambda: do.duplicate_stage(room.selecting.stage_id),
        keys="Ctrl+Shift+D",
    )
    add(tr("Move the stage on"), lambda: do.move_stage(room.selecting.stage_id, 1))
    add(tr("Move the stage back"), lambda: do.move_stage(room.selecting.stage_id, -1))
    add(tr("Edit what leads on"), room.menus.edit_gate, keys="G")
