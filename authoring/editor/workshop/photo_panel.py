"""A small window to cut, level and brighten one photo; the card changes only at the end."""

from __future__ import annotations

import io

from attrs import evolve
from PIL import Image
from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QPushButton,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme
from authoring.files.photo_edits import LEAST_PART, STEEPEST_DEG, PhotoEdit, edited

_PREVIEW_PX = 900
_CORNERS = (("left", "top"), ("right", "top"), ("left", "bottom"), ("right", "bottom"))
_ARROWS = {
    Qt.Key.Key_Left: (-0.01, 0.0),
    Qt.Key.Key_Right: (0.01, 0.0),
    Qt.Key.Key_Up: (0.0, -0.01),
    Qt.Key.Key_Down: (0.0, 0.01),
}


def moved_corner(edit: PhotoEdit, corner: tuple[str, str], x: float, y: float) -> PhotoEdit:
    """The cut with one corner at a place, shares of the photo; a part is always left."""
    across, down = corner
    if across == "left":
        x = min(max(x, 0.0), edit.right - LEAST_PART)
    else:
        x = max(min(x, 1.0), edit.left + LEAST_PART)
    if down == "top":
        y = min(max(y, 0.0), edit.bottom - LEAST_PART)
    else:
        y = max(min(y, 1.0), edit.top + LEAST_PART)
    return evolve(edit, **{across: x, down: y})


class Corner(QWidget):
    """A corner of the cut: pulled with the mouse, or moved with the arrow keys."""

    moved = Signal(float, float)
    pushed = Signal(float, float)
    dropped = Signal()

    def __init__(self, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(name)
        self.setToolTip(name)
        self.setCursor(Qt.CursorShape.SizeAllCursor)
        self.resize(theme().px(24), theme().px(24))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = self.mapToParent(event.position())
        self.moved.emit(at.x(), at.y())

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        self.dropped.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        way = _ARROWS.get(Qt.Key(event.key()))
        if way is None:
            super().keyPressEvent(event)
            return
        self.pushed.emit(*way)
        self.dropped.emit()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        size = theme().px(12)
        at = QRectF(0, 0, size, size)
        at.moveCenter(QRectF(self.rect()).center())
        painter.setPen(QPen(theme().colour("accent"), theme().px(2)))
        painter.setBrush(theme().colour("sheet"))
        painter.drawRect(at)
        painter.end()


class CutView(QWidget):
    """The levelled photo, what is cut off dimmed.

    Signals:
        cut_to(edit): a corner was moved.
        dropped(): it was let go.
    """

    cut_to = Signal(object)
    dropped = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._picture = QImage()
        self._edit = PhotoEdit()
        names = (tr("Upper left"), tr("Upper right"), tr("Lower left"), tr("Lower right"))
        self.corners = {c: Corner(n, self) for c, n in zip(_CORNERS, names, strict=True)}
        for key, corner in self.corners.items():
            corner.moved.connect(lambda x, y, key=key: self._pull(key, QPointF(x, y)))
            corner.pushed.connect(lambda x, y, key=key: self._push(key, x, y))
            corner.dropped.connect(self.dropped)

    def sizeHint(self) -> QSize:
        return QSize(theme().px(520), theme().px(400))

    def show_photo(self, picture: QImage, edit: PhotoEdit) -> None:
        """Show a levelled photo with its cut."""
        self._picture, self._edit = picture, edit
        self._place()
        self.update()

    def _photo(self) -> QRectF:
        size = QSize(self._picture.size())
        size.scale(self.size() - QSize(24, 24), Qt.AspectRatioMode.KeepAspectRatio)
        at = QRectF(0, 0, size.width(), size.height())
        at.moveCenter(QRectF(self.rect()).center())
        return at

    def _cut(self) -> QRectF:
        at, e = self._photo(), self._edit
        return QRectF(
            at.left() + e.left * at.width(),
            at.top() + e.top * at.height(),
            (e.right - e.left) * at.width(),
            (e.bottom - e.top) * at.height(),
        )

    def _place(self) -> None:
        cut = self._cut()
        spots = (cut.topLeft(), cut.topRight(), cut.bottomLeft(), cut.bottomRight())
        for corner, at in zip(self.corners.values(), spots, strict=True):
            half = corner.width() / 2
            corner.move(round(at.x() - half), round(at.y() - half))

    def resizeEvent(self, _event: object) -> None:
        self._place()

    def _pull(self, key: tuple[str, str], at: QPointF) -> None:
        photo = self._photo()
        x = (at.x() - photo.left()) / max(1.0, photo.width())
        y = (at.y() - photo.top()) / max(1.0, photo.height())
        self.cut_to.emit(moved_corner(self._edit, key, x, y))

    def _push(self, key: tuple[str, str], x: float, y: float) -> None:
        now = (getattr(self._edit, key[0]) + x, getattr(self._edit, key[1]) + y)
        self.cut_to.emit(moved_corner(self._edit, key, *now))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        photo, cut = self._photo(), self._cut()
        painter.drawImage(photo, self._picture)
        dim = theme().colour("ground")
        dim.setAlphaF(0.7)
        for part in (
            QRectF(photo.topLeft(), QPointF(photo.right(), cut.top())),
            QRectF(QPointF(photo.left(), cut.bottom()), photo.bottomRight()),
            QRectF(QPointF(photo.left(), cut.top()), cut.bottomLeft()),
            QRectF(cut.topRight(), QPointF(photo.right(), cut.bottom())),
        ):
            painter.fillRect(part, dim)
        painter.setPen(QPen(theme().colour("accent"), theme().px(2)))
        painter.drawRect(cut)
        painter.end()


class PhotoPanel(QDialog):
    """Signals:
    chosen(edit): the photo is to be written so.
    """

    chosen = Signal(object)

    def __init__(self, data: bytes, parent: QWidget | None = None) -> None:
        """Args:
        data: a PNG or JPEG of the library.

        Raises:
            OSError, ValueError: it can't be read.
        """
        super().__init__(parent)
        self.setWindowTitle(tr("Edit photo"))
        with Image.open(io.BytesIO(data), formats=("PNG", "JPEG")) as opened:
            small = opened.convert("RGB")
        small.thumbnail((_PREVIEW_PX, _PREVIEW_PX))
        self._small = small
        self.edit = PhotoEdit()
        self._before: list[PhotoEdit] = []
        self._kept = self.edit
        self.view = CutView()
        self.view.cut_to.connect(self._show)
        self.view.dropped.connect(self._keep)
        self.turn = self._slider(tr("Straighten"), int(STEEPEST_DEG * 10))
        self.light = self._slider(tr("Brightness"), 100)
        self.undo_button = QPushButton(tr("Undo"))
        self.undo_button.setEnabled(False)
        self.undo_button.clicked.connect(self.undo)
        box = QDialogButtonBox()
        self.use = box.addButton(tr("Use photo"), QDialogButtonBox.ButtonRole.AcceptRole)
        box.addButton(tr("Cancel"), QDialogButtonBox.ButtonRole.RejectRole)
        self.use.setProperty("main", True)
        box.accepted.connect(self._use)
        box.rejected.connect(self.reject)
        self._lay_out(box)
        self._draw()

    def _lay_out(self, box: QDialogButtonBox) -> None:
        used = theme()
        layout = QVBoxLayout(self)
        layout.setSpacing(used.px(12))
        layout.addWidget(self.view, 1)
        for words, slider in ((tr("Straighten"), self.turn), (tr("Brightness"), self.light)):
            row = QHBoxLayout()
            name = label(words, Type.SMALL, buddy=slider)
            name.setMinimumWidth(used.px(90))
            row.addWidget(name)
            row.addWidget(slider, 1)
            layout.addLayout(row)
        last = QHBoxLayout()
        last.addWidget(self.undo_button)
        last.addStretch(1)
        last.addWidget(box)
        layout.addLayout(last)

    def _slider(self, name: str, most: int) -> QSlider:
        made = QSlider(Qt.Orientation.Horizontal)
        made.setRange(-most, most)
        made.setAccessibleName(name)
        made.valueChanged.connect(self._slide)
        made.sliderReleased.connect(self._keep)
        return made

    def _slide(self, _value: int) -> None:
        turn, light = self.turn.value() / 10, self.light.value() / 100
        self._show(evolve(self.edit, turn_deg=turn, brightness=light))
        if not (self.turn.isSliderDown() or self.light.isSliderDown()):
            self._keep()

    # ---- steps --------------------------------------------------------------------

    def _show(self, edit: PhotoEdit) -> None:
        self.edit = edit
        self._draw()

    def _keep(self) -> None:
        """End a step, so that Undo goes back to what was before it."""
        if self.edit != self._kept:
            self._before.append(self._kept)
            self._kept = self.edit
            self.undo_button.setEnabled(True)

    def undo(self) -> None:
        """Take the last step back."""
        if not self._before:
            return
        self.edit = self._kept = self._before.pop()
        for slider, value in (
            (self.turn, round(self.edit.turn_deg * 10)),
            (self.light, round(self.edit.brightness * 100)),
        ):
            slider.blockSignals(True)
            slider.setValue(value)
            slider.blockSignals(False)
        self.undo_button.setEnabled(bool(self._before))
        self._draw()

    def _draw(self) -> None:
        whole = evolve(self.edit, left=0.0, top=0.0, right=1.0, bottom=1.0)
        made = edited(self._small, whole)
        bytes_in_line = made.width * 3
        picture = QImage(
            made.tobytes(), made.width, made.height, bytes_in_line, QImage.Format.Format_RGB888
        ).copy()
        self.view.show_photo(picture, self.edit)

    def _use(self) -> None:
        self._keep()
        self.accept()
        if not self.edit.is_none:
            self.chosen.emit(self.edit)
