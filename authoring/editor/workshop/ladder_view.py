"""The ladder: rungs in the middle between two stiles, moving on one side, holding on the other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QPoint, QPointF, QRect, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent
from PySide6.QtWidgets import QAbstractScrollArea, QHBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.gauge import rung_words
from authoring.editor.parts.icons import IconView
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme
from authoring.editor.workshop.ladder_cell import (
    LEAST_HEIGHT,
    FreeCell,
    LadderCell,
    VariantCell,
    icon_of_side,
)
from authoring.editor.workshop.ladder_load import RungLoad
from authoring.editor.workshop.ladder_model import Row, Side, Spot, beside, column, rows_of
from authoring.editor.workshop.ladder_paint import (
    PLATE,
    STILE,
    paint_arm,
    paint_plate_of_rung,
    plate_rect,
)
from authoring.editor.workshop.words import CellFace
from authoring.model.card import Card

_HEAD = 34
_ARM = 12
_GAP = 8


class LadderView(QWidget):
    """Draws a card's ladder.

    Signals:
        chosen(variant id): the user went to a variant.
        opened(variant id): the user wants to write it.
        add_wanted(rung, side): a free place was pressed.
        menu_wanted(variant id, global position).
        moved(variant id, rung): it was carried to another rung.
    """

    chosen = Signal(str)
    opened = Signal(str)
    add_wanted = Signal(int, object)
    menu_wanted = Signal(str, QPoint)
    moved = Signal(str, int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Ladder"))
        self._rows: tuple[Row, ...] = ()
        self._tops: list[int] = []
        self._bottom = 0
        self._high = theme().px(LEAST_HEIGHT)
        self._cells: dict[Spot, LadderCell] = {}
        self._faces: Mapping[str, CellFace] = {}
        self._loads: Mapping[int, RungLoad] = {}
        self._selected = ""
        self._over: int | None = None
        self._heads = [
            _head(self, tr("Moving"), Side.MOVING),
            _head(self, tr("Holding"), Side.HOLDING),
        ]
        self._middle = label(tr("Rung"), Type.SMALL, soft=True, parent=self)
        self._middle.setAlignment(Qt.AlignmentFlag.AlignCenter)

    # ---- showing --------------------------------------------------------------

    def show_card(
        self,
        card: Card,
        faces: Mapping[str, CellFace],
        pictures: Mapping[str, QPixmap | None],
        selected: str,
    ) -> None:
        """Show a card.

        Args:
            faces: what each variant shows, by id.
            pictures: its picture, by id.
            selected: the variant that is being written.
        """
        self._rows, self._faces = rows_of(card), faces
        spots = _spots(self._rows)
        moved = spots != list(self._cells)
        if moved:
            self._make_cells(spots)
        self.show_pictures(pictures)
        if moved or self._cell_height() != self._high:
            self._place()
        self.select(selected)

    def show_pictures(self, pictures: Mapping[str, QPixmap | None]) -> None:
        """Show the variants with these pictures, by id."""
        plates = any(face.pictured for face in self._faces.values())
        for cell in self._cells.values():
            face = self._faces.get(cell.spot.variant)
            if isinstance(cell, VariantCell) and face is not None:
                cell.show_face(face, pictures.get(cell.spot.variant), plates=plates)

    def show_loads(self, loads: Mapping[int, RungLoad]) -> None:
        """Show on the plates what each rung's load is against rung 0; nothing for none."""
        self._loads = loads
        self._middle.setText(tr("Rung, load") if loads else tr("Rung"))
        said = (f"{rung_words(n)}: {load.ratio} {load.band}".strip() for n, load in loads.items())
        self.setAccessibleDescription("; ".join(said))
        self.update()

    def _make_cells(self, wanted: list[Spot]) -> None:
        by_variant = {s.variant: c for s, c in self._cells.items() if s.variant}
        kept: dict[Spot, LadderCell] = {}
        for spot in wanted:
            known = by_variant.get(spot.variant) if spot.variant else self._cells.get(spot)
            cell = known or self._new_cell(spot)
            cell.spot = spot
            kept[spot] = cell
        for gone in set(self._cells.values()) - set(kept.values()):
            gone.hide()
            gone.deleteLater()
        self._cells = kept

    def _new_cell(self, spot: Spot) -> LadderCell:
        if not spot.variant:
            free = FreeCell(spot, self)
            free.clicked.connect(lambda: self.add_wanted.emit(free.spot.rung, free.spot.side))
            free.show()
            return free
        cell = VariantCell(spot, self)
        cell.clicked.connect(lambda: self.chosen.emit(cell.spot.variant))
        cell.opened.connect(self.opened)
        cell.menu_wanted.connect(self.menu_wanted)
        cell.carried.connect(self._show_over)
        cell.dropped.connect(self._drop)
        cell.show()
        return cell

    def select(self, variant_id: str) -> None:
        """Show a variant as the one that is written."""
        self._selected = variant_id
        for cell in self._cells.values():
            if isinstance(cell, VariantCell):
                cell.select(cell.spot.variant == variant_id)
        self.update()

    def focus_selected(self) -> None:
        """Put the focus on the variant that is written, or else on the first free place."""
        target = self.cell(self._selected) or next(iter(self._cells.values()), None)
        if target is not None:
            target.setFocus(Qt.FocusReason.OtherFocusReason)

    def cell(self, variant_id: str) -> VariantCell | None:
        """The cell of a variant, or None."""
        found = [c for s, c in self._cells.items() if s.variant == variant_id]
        return found[0] if found and isinstance(found[0], VariantCell) else None

    def free_cell(self, rung: int, side: Side) -> LadderCell | None:
        """The free place of a rung, or None where the side has variants there."""
        return self._cells.get(Spot(rung, side))

    def cells(self) -> tuple[LadderCell, ...]:
        """Every cell, from the hardest rung down."""
        return tuple(self._cells.values())

    # ---- places ---------------------------------------------------------------

    def _cell_height(self) -> int:
        """Height of every cell: that of the one that says most."""
        # As if the scroll bar were there: heights that came and went with it would never rest.
        room = self.width()
        port = self.parentWidget()
        area = port.parentWidget() if port is not None else None
        if isinstance(area, QAbstractScrollArea):
            room = min(room, area.width() - area.verticalScrollBar().sizeHint().width())
        width = _side_width(room)
        cells = [cell for cell in self._cells.values() if isinstance(cell, VariantCell)]
        return max([theme().px(LEAST_HEIGHT), *(cell.height_for(width) for cell in cells)])

    def _row_height(self, row: Row) -> int:
        used = theme()
        most = max(len(row.moving), len(row.holding), 1)
        if not row.moving and not row.holding and len(self._rows) > 1:
            return used.px(40)
        return most * self._high + (most - 1) * used.px(_GAP)

    def _place(self) -> None:
        used, side_width = theme(), _side_width(self.width())
        self._high = self._cell_height()
        rtl = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        far = self.width() - side_width
        lefts = {Side.MOVING: far if rtl else 0, Side.HOLDING: 0 if rtl else far}
        self._tops, top = [], used.px(_HEAD)
        for row in self._rows:
            self._tops.append(top)
            height = self._row_height(row)
            for side in Side:
                cells = [c for s, c in self._cells.items() if (s.rung, s.side) == (row.rung, side)]
                _stack(cells, QRect(lefts[side], top, side_width, height), self._high)
            top += height + used.px(_GAP)
        self._bottom = top
        self.setMinimumHeight(top)
        head = used.px(_HEAD - _GAP)
        for widget, side in zip(self._heads, Side, strict=True):
            widget.setGeometry(lefts[side], 0, side_width, head)
        middle = self.width() - 2 * side_width
        self._middle.setGeometry(side_width, 0, middle, head)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    # ---- painting ---------------------------------------------------------------

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        middle = self.width() / 2
        stile = used.px(STILE)
        painter.setPen(QPen(used.colour("edge"), 1.6 * used.scale))
        for x in (middle - stile, middle + stile):
            painter.drawLine(QPointF(x, used.px(_HEAD - 4)), QPointF(x, self._bottom))
        for row, top in zip(self._rows, self._tops, strict=True):
            self._paint_rung(painter, row, top)
        painter.end()

    def _paint_rung(self, painter: QPainter, row: Row, top: int) -> None:
        load = self._loads.get(row.rung)
        below = [words for words in (load.ratio, load.band) if words] if load else []
        plate = plate_rect(self.width(), top, self._row_height(row), len(below))
        for spot, cell in self._cells.items():
            carried = isinstance(cell, VariantCell) and cell.is_carried
            if spot.rung == row.rung and spot.variant and not carried:
                chosen = spot.variant == self._selected
                paint_arm(painter, cell.geometry(), plate, chosen=chosen)
        chosen = any(v.id == self._selected for v in (*row.moving, *row.holding))
        empty = not row.moving and not row.holding
        over = self._over == row.rung
        paint_plate_of_rung(painter, plate, row.rung, below, chosen=chosen, over=over, empty=empty)

    # ---- carrying -----------------------------------------------------------------

    def rung_at(self, y: int) -> int:
        """The rung at a height; above the top one a new harder one, below the last an easier."""
        if not self._rows:
            return 0
        for row, top in zip(self._rows, self._tops, strict=True):
            if y < top:
                return row.rung + (1 if row is self._rows[0] else 0)
            if y < top + self._row_height(row) + theme().px(_GAP):
                return row.rung
        return self._rows[-1].rung - 1

    def _show_over(self, _variant: str, centre: QPoint) -> None:
        self._over = self.rung_at(centre.y())
        self.update()

    def _drop(self, variant: str, centre: QPoint) -> None:
        rung, self._over = self.rung_at(centre.y()), None
        cell = self.cell(variant)
        if cell is not None and rung != cell.spot.rung:
            self.moved.emit(variant, rung)
        self._place()
        self.update()

    # ---- keys ---------------------------------------------------------------------

    def focused_spot(self) -> Spot | None:
        """The place that has the focus, or None."""
        focus = self.focusWidget()
        if isinstance(focus, LadderCell) and focus.hasFocus():
            return focus.spot
        return None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        here = self.focused_spot()
        key = Qt.Key(event.key())
        plain = event.modifiers() in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.KeypadModifier,
        )
        if here is None or not plain:
            super().keyPressEvent(event)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._enter(here)
        elif key == Qt.Key.Key_Escape and self._over is not None:
            cell = self._cells.get(here)
            if isinstance(cell, VariantCell):
                cell.let_go()
            self._over = None
            self._place()
            self.update()
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Left, Qt.Key.Key_Right):
            self._go(self._next(here, key))
        else:
            super().keyPressEvent(event)

    def _enter(self, here: Spot) -> None:
        if here.variant:
            self.opened.emit(here.variant)
        else:
            self.add_wanted.emit(here.rung, here.side)

    def _next(self, here: Spot, key: Qt.Key) -> Spot:
        if key == Qt.Key.Key_Up:
            return beside(self._rows, here, up=1)
        if key == Qt.Key.Key_Down:
            return beside(self._rows, here, up=-1)
        rtl = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        ahead = (key == Qt.Key.Key_Right) != rtl
        return beside(self._rows, here, side=Side.HOLDING if ahead else Side.MOVING)

    def _go(self, spot: Spot) -> None:
        cell = self._cells.get(spot)
        if cell is None:
            return
        cell.setFocus(Qt.FocusReason.TabFocusReason)
        if spot.variant and spot.variant != self._selected:
            self.chosen.emit(spot.variant)


def _spots(rows: tuple[Row, ...]) -> list[Spot]:
    """Every place of the grid, row by row."""
    return [spot for row in rows for side in Side for spot in column((row,), side)]


def _stack(cells: Sequence[LadderCell], at: QRect, most: int) -> None:
    """Put cells below each other into the middle of a place, each at most so high."""
    height = min(at.height(), most)
    step = height + theme().px(_GAP)
    whole = len(cells) * step - theme().px(_GAP)
    top = at.top() + (at.height() - whole) // 2
    for cell in cells:
        if not (isinstance(cell, VariantCell) and cell.is_carried):
            cell.setGeometry(at.left(), top, at.width(), height)
        top += step


def _head(parent: QWidget, words: str, side: Side) -> QWidget:
    head = QWidget(parent)
    layout = QHBoxLayout(head)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(theme().px(8))
    layout.addWidget(IconView(icon_of_side(side), words))
    layout.addWidget(label(words, Type.STRONG), 1)
    return head


def _side_width(whole: int) -> int:
    """Width of one side, what the middle needs taken off."""
    used = theme()
    return (whole - used.px(PLATE.width()) - 2 * used.px(_ARM)) // 2
