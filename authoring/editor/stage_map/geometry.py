"""Where everything on the map lies, in logical pixels, for one model and one theme.

Coordinates are those of the map's body: stages from leading to trailing, rows from top
to bottom, without the fixed heads and row names. Right-to-left is mirrored at the end.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from attrs import evolve, frozen
from PySide6.QtCore import QPointF, QRect, QRectF

from authoring.editor.parts.gauge import rung_height
from authoring.editor.stage_map.model import Cell, MapModel, Strand
from authoring.editor.theme import Theme

_ENTRY = (188, 78)
_GAP = 8
_ROW_PAD = 6
_GATE = 134
_TIGHT = (174, 127)
_FOLDED = 60
_MOST_MORE = 170
_MARGIN = 6
_GAUGE = (8, 8, 20, 62)


@frozen
class Thread:
    """A link as it is drawn: its corners, where its words stand, and whether it is broken."""

    strand: Strand
    points: tuple[QPointF, ...]
    words_at: QRectF
    broken: bool


@frozen
class Geometry:
    """Places of everything on the map.

    Attributes:
        entries: rectangle of each entry, by id.
        columns: rectangle of each stage, full height.
        gates: rectangle of each border, full height.
        rows: top and height of each row.
        threads: links.
        ors: where "or" stands between the entries of a choice.
        width, height: of the whole body.
    """

    entries: Mapping[str, QRect]
    columns: tuple[QRect, ...]
    gates: tuple[QRect, ...]
    rows: tuple[tuple[int, int], ...]
    threads: tuple[Thread, ...]
    ors: tuple[QRect, ...]
    width: int
    height: int


def gauge_rect(entry: QRectF, used: Theme, *, mirrored: bool) -> QRectF:
    """Where an entry's gauge lies within its rectangle."""
    x, y, width, height = (used.px(part) for part in _GAUGE)
    left = entry.right() - x - width if mirrored else entry.left() + x
    return QRectF(left, entry.top() + y, width, height)


@frozen
class Widths:
    """Widths of an entry and of an open border, in pixels of the screen."""

    entry: int
    gate: int


def widths(model: MapModel, used: Theme, folded: Collection[int], room: int) -> Widths:
    """Widths that use the room there is, within limits that keep a map readable.

    A little is taken from every column where the whole protocol can then be seen at once.
    """
    least = Widths(used.px(_ENTRY[0]), used.px(_GATE))
    tight = Widths(used.px(_TIGHT[0]), used.px(_TIGHT[1]))
    if _needed(model, used, folded, least) > room >= _needed(model, used, folded, tight):
        least = tight
    stages = max(1, len(model.stages))
    shares = 2 * stages - len(set(folded))
    spare = max(0, room - _needed(model, used, folded, least)) // shares
    most = used.px(_MOST_MORE)
    return Widths(least.entry + min(spare, most), least.gate + min(spare, most))


def folded_to_fit(model: MapModel, used: Theme, room: int) -> tuple[int, ...]:
    """The last border, where the whole protocol can be seen only without its words; else none."""
    tight, last = Widths(used.px(_TIGHT[0]), used.px(_TIGHT[1])), (len(model.stages) - 1,)
    if _needed(model, used, (), tight) <= room or len(model.stages) < 2:
        return ()
    return last if _needed(model, used, last, tight) <= room else ()


def _needed(model: MapModel, used: Theme, folded: Collection[int], sizes: Widths) -> int:
    stages, closed = max(1, len(model.stages)), len(set(folded))
    columns = stages * (sizes.entry + 2 * used.px(_MARGIN))
    return columns + (stages - closed) * sizes.gate + closed * used.px(_FOLDED)


def lay_out(
    model: MapModel,
    used: Theme,
    folded: Collection[int] = (),
    *,
    room: int = 0,
    mirrored: bool = False,
) -> Geometry:
    """Place a model.

    Args:
        room: width that there is; wider columns use it.
        folded: numbers of the borders (by the stage before them) that are folded.
        mirrored: from right to left.
    """
    sizes = widths(model, used, folded, room)
    columns, gates, width = _across(model, used, folded, sizes)
    rows, height = _down(model, used)
    entries = {cell.entry.id: _entry(cell, columns, rows, used) for cell in model.cells}
    columns = tuple(QRect(c.x(), 0, c.width(), height) for c in columns)
    gates = tuple(QRect(g.x(), 0, g.width(), height) for g in gates)
    if mirrored:
        entries = {key: _flipped(rect, width) for key, rect in entries.items()}
        columns = tuple(_flipped(rect, width) for rect in columns)
        gates = tuple(_flipped(rect, width) for rect in gates)
    return Geometry(
        entries=entries,
        columns=columns,
        gates=gates,
        rows=rows,
        threads=_threads(model, entries, gates, used, mirrored=mirrored),
        ors=_ors(model, entries, used),
        width=width,
        height=height,
    )


def _flipped(rect: QRect, width: int) -> QRect:
    return QRect(width - rect.x() - rect.width(), rect.y(), rect.width(), rect.height())


def _across(
    model: MapModel, used: Theme, folded: Collection[int], sizes: Widths
) -> tuple[tuple[QRect, ...], tuple[QRect, ...], int]:
    x, columns, gates = 0, [], []
    for gate in model.gates:
        column = sizes.entry + 2 * used.px(_MARGIN)
        columns.append(QRect(x, 0, column, 0))
        x += column
        width = used.px(_FOLDED) if gate.stage in folded else sizes.gate
        gates.append(QRect(x, 0, width, 0))
        x += width
    return tuple(columns), tuple(gates), x


def _down(model: MapModel, used: Theme) -> tuple[tuple[tuple[int, int], ...], int]:
    y, rows = 0, []
    for row in model.rows:
        slots = max(1, row.slots)
        height = slots * used.px(_ENTRY[1]) + (slots - 1) * used.px(_GAP) + 2 * used.px(_ROW_PAD)
        rows.append((y, height))
        y += height
    return tuple(rows), max(y, used.px(_ENTRY[1] + 2 * _ROW_PAD))


def _entry(
    cell: Cell, columns: tuple[QRect, ...], rows: tuple[tuple[int, int], ...], used: Theme
) -> QRect:
    width = columns[cell.stage].width() - 2 * used.px(_MARGIN)
    height = used.px(_ENTRY[1])
    x = columns[cell.stage].x() + used.px(_MARGIN)
    y = rows[cell.row][0] + used.px(_ROW_PAD) + cell.slot * (height + used.px(_GAP))
    return QRect(x, y, width, height)


def _ors(model: MapModel, entries: Mapping[str, QRect], used: Theme) -> tuple[QRect, ...]:
    found = []
    for cell in model.cells:
        if cell.joined:
            rect = entries[cell.entry.id]
            found.append(
                QRect(
                    rect.center().x() - used.px(14),
                    rect.top() - used.px(13),
                    used.px(28),
                    used.px(18),
                )
            )
    return tuple(found)


# ---- links --------------------------------------------------------------------------


def _threads(
    model: MapModel,
    entries: Mapping[str, QRect],
    gates: tuple[QRect, ...],
    used: Theme,
    *,
    mirrored: bool,
) -> tuple[Thread, ...]:
    cells = {cell.entry.id: cell for cell in model.cells}
    found: list[Thread] = []
    for strand in model.strands:
        made = _thread(strand, cells, entries, gates, used, mirrored=mirrored)
        found.append(_clear(made, found, used))
    return tuple(found)


def _clear(thread: Thread, others: list[Thread], used: Theme) -> Thread:
    """The link with its words where no other link's words stand, as near as can be."""
    line = used.px(18)
    for lines in (0, 1, -1, 2, -2, 3):
        spot = thread.words_at.translated(0, lines * line)
        if spot.isEmpty() or not any(spot.intersects(other.words_at) for other in others):
            return evolve(thread, words_at=spot)
    return thread


def _thread(
    strand: Strand,
    cells: Mapping[str, Cell],
    entries: Mapping[str, QRect],
    gates: tuple[QRect, ...],
    used: Theme,
    *,
    mirrored: bool,
) -> Thread:
    start, end = cells[strand.base], cells[strand.entry]
    from_rect, to_rect = QRectF(entries[strand.base]), QRectF(entries[strand.entry])
    y1 = _height(start, from_rect, used, mirrored=mirrored)
    y2 = _height(end, to_rect, used, mirrored=mirrored)
    x1 = from_rect.left() if mirrored else from_rect.right()
    x2 = to_rect.right() if mirrored else to_rect.left()
    if start.stage == end.stage:
        return _beside(strand, QPointF(x1, y1), QPointF(x1, y2), used, mirrored=mirrored)
    gate = QRectF(gates[max(end.stage - 1, start.stage)])
    turn = gate.center().x()
    points = (QPointF(x1, y1), QPointF(turn, y1), QPointF(turn, y2), QPointF(x2, y2))
    above = min(y1, y2) - used.px(20)
    words = QRectF(gate.left() + used.px(4), above, gate.width() - used.px(8), used.px(18))
    return Thread(strand, points, words, strand.step is None)


def _beside(strand: Strand, start: QPointF, end: QPointF, used: Theme, *, mirrored: bool) -> Thread:
    """A link within one stage, drawn as a bracket beside the entries."""
    out = used.px(5) * (-1 if mirrored else 1)
    points = (start, QPointF(start.x() + out, start.y()), QPointF(end.x() + out, end.y()), end)
    return Thread(strand, points, QRectF(), strand.step is None)


def _height(cell: Cell, rect: QRectF, used: Theme, *, mirrored: bool) -> float:
    """Height of an entry's rung; the middle where the rung is not known."""
    if cell.variant is None:
        return rect.center().y()
    at = gauge_rect(rect, used, mirrored=mirrored)
    return rung_height(cell.rungs, cell.variant.rung, at, used.scale)
