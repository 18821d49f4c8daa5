"""A colour: its signs, a patch of it, and the system's own dialog."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QColorDialog, QPushButton, QSizePolicy, QWidget

from authoring.checks.contrast import ColourError, parse_hex
from authoring.editor.i18n import tr
from authoring.editor.parts.fields import reading
from authoring.editor.parts.fields.lines import ReadField
from authoring.editor.theme import theme


class _Patch(QPushButton):
    """A button that shows the colour."""

    def __init__(self) -> None:
        super().__init__()
        self.colour = "#000000"
        self.setProperty("field", True)
        self.setFixedSize(theme().px(48), theme().px(32))

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        inset = theme().px(4)
        at = QRectF(self.rect()).adjusted(inset, inset, -inset, -inset)
        painter = QPainter(self)
        painter.fillRect(at, QColor(self.colour))
        painter.setPen(QPen(theme().colour("edge"), 1))
        painter.drawRect(at)
        painter.end()


class ColourField(ReadField):
    """``#RRGGBB``. Typing may leave the # out; the patch opens the colour dialog."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(example="#123F5C", parent=parent)
        self._name = name
        self.dialog: QColorDialog | None = None
        self.line.setMinimumWidth(theme().px(104))
        self.line.setMaximumWidth(theme().px(140))
        self.line.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.patch = _Patch()
        self.patch.clicked.connect(self.pick)
        self.row_.insertWidget(0, self.patch)
        self.row_.addStretch(1)

    def read(self, words: str) -> str:
        typed = words.strip()
        colour = (typed if typed.startswith("#") else f"#{typed}").upper()
        try:
            parse_hex(colour)
        except ColourError as error:
            raise reading.Unreadable(str(error)) from error
        self.edit_key = ""
        return colour

    def write(self, value: Any) -> str:
        return str(value).upper()

    def show_value(self, value: Any) -> None:
        """Show a colour."""
        super().show_value(value)
        self._show_patch(str(value))

    def name_controls(self, name: str, description: str = "") -> None:
        """Name the line, and the patch with its colour."""
        super().name_controls(name, description)
        self._name = name
        self._show_patch(self.patch.colour)

    def offer(self, value: Any) -> None:
        """Take a colour that the user made."""
        self._show_patch(str(value))
        super().offer(value)

    def _show_patch(self, colour: str) -> None:
        self.patch.colour = colour
        words = tr("{field}: choose a colour, now {colour}", field=self._name, colour=colour)
        self.patch.setAccessibleName(words)
        self.patch.setToolTip(tr("Choose a colour"))
        self.patch.update()

    def pick(self) -> None:
        """Open the colour dialog."""
        dialog = QColorDialog(QColor(str(self.value)), self)
        dialog.setWindowTitle(self._name)
        dialog.colorSelected.connect(self._picked)
        dialog.finished.connect(dialog.deleteLater)
        self.dialog = dialog
        dialog.open()

    def _picked(self, colour: QColor) -> None:
        self.edit_key = None
        value = colour.name(QColor.NameFormat.HexRgb).upper()
        self.line.setText(value)
        self.offer(value)
