"""Where the arrow keys lead on the map. No Qt here."""

from __future__ import annotations

from authoring.editor.stage_map.model import Cell, MapModel


def beside(model: MapModel, entry_id: str, *, across: int, down: int) -> str:
    """The entry next to one, "" where the map ends.

    Args:
        across: 1 to the next stage, -1 to the stage before; the same row is preferred.
        down: 1 down, -1 up within the stage.
    """
    cell = model.cell(entry_id)
    if cell is None:
        return model.cells[0].entry.id if model.cells else ""
    if across:
        return _across(model, cell, across)
    order = sorted(_in_stage(model, cell.stage), key=_height)
    index = order.index(cell) + down
    return order[index].entry.id if 0 <= index < len(order) else ""


def _across(model: MapModel, cell: Cell, step: int) -> str:
    stage = cell.stage + step
    while 0 <= stage < len(model.stages):
        there = _in_stage(model, stage)
        if there:
            nearest = min(there, key=lambda c: (abs(c.row - cell.row), abs(c.slot - cell.slot)))
            return nearest.entry.id
        stage += step
    return ""


def _in_stage(model: MapModel, stage: int) -> list[Cell]:
    return [cell for cell in model.cells if cell.stage == stage]


def _height(cell: Cell) -> tuple[int, int]:
    return cell.row, cell.slot
