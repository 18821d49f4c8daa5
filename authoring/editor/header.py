"""The head of the window: our mark, the rooms, the clinic and the way into the search."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.icons import Icon, IconView
from authoring.editor.parts.labels import ElidedLabel, KeyCap, label
from authoring.editor.rooms import RoomEntry
from authoring.editor.theme import Type, theme


class RoomButton(QPushButton):
    """Opens a room; the open one is bold over a thick line."""

    def __init__(self, entry: RoomEntry, parent: QWidget | None = None) -> None:
        super().__init__(tr(entry.name), parent)
        self.setProperty("place", True)
        self.setCheckable(True)
        self.setToolTip(entry.keys)
        self.setAccessibleName(tr("Room: {name}", name=tr(entry.name)))
        bold = theme().font(Type.STRONG)
        room = self.fontMetrics().horizontalAdvance(self.text())
        self.setFont(bold)
        wide = max(room, self.fontMetrics().horizontalAdvance(self.text()))
        self.setFixedWidth(wide + theme().px(28))

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.isChecked():
            used = theme()
            thick = used.px(4)
            inset = used.px(14)
            painter = QPainter(self)
            painter.fillRect(
                inset,
                self.height() - thick,
                self.width() - 2 * inset,
                thick,
                used.colour("accent"),
            )
            painter.end()


class SearchButton(QPushButton):
    """Looks like a field; opens the command search, which is the field."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("field", True)
        self.setAccessibleName(tr("Find a card, stage or command"))
        used = theme()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(used.px(12), 0, used.px(8), 0)
        self._words = words = ElidedLabel(tr("Find a card, stage or command"), soft=True)
        key = KeyCap("Ctrl F")
        for part in (words, key):
            part.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        layout.addWidget(words, 1)
        layout.addWidget(key)
        self.setFixedHeight(used.px(32))
        self.setMinimumWidth(used.px(120))
        self._whole = self._wide = layout.sizeHint().width() + used.px(8)

    def sizeHint(self) -> QSize:
        return QSize(self._wide, self.height())

    def say_in(self, width: int) -> int:
        """Say as much as a width has room for; returns the width that it takes."""
        whole, short = tr("Find a card, stage or command"), tr("Find")
        metrics = self._words.fontMetrics()
        more = metrics.horizontalAdvance(whole) - metrics.horizontalAdvance(short)
        fits = self._whole <= width
        self._words.setText(whole if fits else short)
        self._wide = self._whole if fits else self._whole - more
        self.updateGeometry()
        return self._wide


class Header(QFrame):
    """Signals:
    room_wanted(key), search_wanted()
    """

    room_wanted = Signal(str)
    search_wanted = Signal()

    def __init__(self, entries: Sequence[RoomEntry], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("header")
        used = theme()
        self.setFixedHeight(used.px(48))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(used.px(24), 0, used.px(24), 0)
        layout.setSpacing(0)
        layout.addWidget(IconView(Icon.LADDER, tr("Rungbook's mark"), size=24))
        layout.addSpacing(used.px(8))
        layout.addWidget(label(tr("Rungbook"), Type.STRONG))
        layout.addSpacing(used.px(36))
        self._buttons: dict[str, RoomButton] = {}
        for entry in entries:
            button = RoomButton(entry)
            button.setFixedHeight(used.px(47))
            button.clicked.connect(lambda _=False, key=entry.key: self._want(key))
            layout.addWidget(button)
            self._buttons[entry.key] = button
        layout.addStretch(1)
        self._clinic = ElidedLabel(soft=True)
        layout.addWidget(self._clinic)
        layout.addSpacing(used.px(20))
        self._search = SearchButton()
        self._search.clicked.connect(self.search_wanted)
        layout.addWidget(self._search)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Rather leave the clinic's name out than cut it: the window's title says it too."""
        super().resizeEvent(event)
        used = theme()
        rooms = max(button.geometry().right() for button in self._buttons.values())
        start = min(button.geometry().left() for button in self._buttons.values())
        taken = used.px(24 + 24 + 8 + 36 + 24) + used.px(70) + rooms - start
        room = self.width() - taken - self._search.say_in(self.width() - taken)
        words = self._clinic.fontMetrics().horizontalAdvance(self._clinic.text())
        self._clinic.setVisible(room >= words + used.px(20))

    def _want(self, key: str) -> None:
        # No button group: in one, Tab would reach the open room's button only.
        self.show_room(key)
        self.room_wanted.emit(key)

    def show_room(self, key: str) -> None:
        """Mark the button of the room that is open."""
        for one, button in self._buttons.items():
            button.setChecked(one == key)

    def show_clinic(self, name: str) -> None:
        """Say whose library it is."""
        self._clinic.setText(name)

    @property
    def clinic(self) -> str:
        """The name that is shown."""
        return self._clinic.text()

    def button(self, key: str) -> RoomButton:
        """The button of a room."""
        return self._buttons[key]
