"""Small editors that open on the map itself: the dose of an entry, and a card to add."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import frozen
from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from authoring.dosage.shorthand import ShorthandError, why_not
from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FaultLine
from authoring.editor.parts.fields.dose_line import DoseLine
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark
from authoring.editor.sentences import said
from authoring.editor.theme import Type, theme
from authoring.editor.vocabulary_words import field_words
from authoring.model.dose import Dose

_MOST_SHOWN = 200


class _Popup(QFrame):
    """A panel over the map, inside the window; Escape, or a press outside, closes it."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent.window())
        self._from = parent
        self._spot = QPoint()
        self.setProperty("panel", True)
        self.setAutoFillBackground(True)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._focus_moved)
        self.body = QVBoxLayout(self)
        pad = theme().px(12)
        self.body.setContentsMargins(pad, pad, pad, pad)
        self.body.setSpacing(theme().px(8))

    def open_at(self, at: QPoint) -> None:
        """Show it with its leading top corner at a global position, inside the window."""
        self.adjustSize()
        window = self.parentWidget()
        if window is None:
            return
        self._spot = window.mapFromGlobal(at)
        self._keep_inside()
        self.show()
        self.raise_()
        proxy = self.focusProxy()
        if proxy is not None:
            proxy.setFocus(Qt.FocusReason.PopupFocusReason)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._keep_inside()  # a fault makes it taller

    def _keep_inside(self) -> None:
        window = self.parentWidget()
        if window is None:
            return
        gap = theme().px(8)
        most = window.rect().bottomRight() - self.rect().bottomRight() - QPoint(gap, gap)
        x, y = min(self._spot.x(), most.x()), min(self._spot.y(), most.y())
        self.move(max(gap, x), max(gap, y))

    def dismiss(self) -> None:
        """Put it away, and the focus back where it came from."""
        if self.isVisible():
            self.hide()
            self._from.setFocus(Qt.FocusReason.PopupFocusReason)
            self.deleteLater()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.dismiss()
        else:
            super().keyPressEvent(event)

    def _focus_moved(self, _old: QWidget | None, new: QWidget | None) -> None:
        if self.isVisible() and new is not None and not self.isAncestorOf(new):
            self.hide()
            self.deleteLater()


class DosePopup(_Popup):
    """The dose of an entry, in one line.

    Signals:
        chosen(Dose or None): Enter was pressed on a dose; None for an empty line.
        form_wanted(): the shorthand can't say it, or the user wants the form.
    """

    chosen = Signal(object)
    form_wanted = Signal()

    def __init__(self, dose: Dose | None, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setMinimumWidth(theme().px(640))
        self.body.addWidget(label(tr("Dose of {name}", name=name), Type.STRONG))
        self.line = DoseLine()
        self.line.setAccessibleName(tr("Dose"))
        is_shown = self.line.show_dose(dose)
        self.line.setSelection(len(self.line.text()), -len(self.line.text()))
        self.line.returnPressed.connect(self._take)
        self.line.dose_typed.connect(self._typed)
        self.line.failed.connect(self._failed)
        self.body.addWidget(self.line)
        self.fault = FaultLine()
        self.body.addWidget(self.fault)
        hint = tr("Enter keeps it, Escape leaves it. F2 opens the form.")
        if not is_shown and dose is not None:
            hint = f"{said(why_not(dose) or '')} {tr('F2 opens the form.')}"
        self.body.addWidget(label(hint, Type.SMALL, soft=True, wrap=True))
        self._dose = dose
        self.setFocusProxy(self.line)

    def _typed(self, dose: Dose | None) -> None:
        self._dose = dose
        gone = lost_parts(self.line.before, dose)
        self.fault.say(
            tr("This leaves out: {parts}.", parts=", ".join(gone)) if gone else "", Mark.MAY
        )
        self.adjustSize()

    def _failed(self, problem: ShorthandError) -> None:
        self.fault.say(said(problem.whole), Mark.MUST)
        self.adjustSize()

    def _take(self) -> None:
        if self.line.problem is None:
            self.dismiss()
            self.chosen.emit(self._dose)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_F2:
            self.dismiss()
            self.form_wanted.emit()
            return
        super().keyPressEvent(event)


def lost_parts(before: Dose | None, after: Dose | None) -> list[str]:
    """Names of the parts of a dose that the new one leaves out."""
    if before is None or after is None:
        return []
    names = ("loads", "rest", "tempo", "range", "sides", "frequency", "weeks", "sessions")
    return [
        field_words(Dose, name).lower()
        for name in names
        if getattr(before, name) and not getattr(after, name)
    ]


@frozen
class Pick:
    """One thing to choose: its id, its name, and soft words beside it."""

    key: str
    name: str
    soft: str = ""


class PickPopup(_Popup):
    """Type to filter, Enter to choose.

    Signals:
        picked(key)
    """

    picked = Signal(str)

    def __init__(self, title: str, picks: Iterable[Pick], parent: QWidget) -> None:
        super().__init__(parent)
        self.setMinimumWidth(theme().px(440))
        self._picks = tuple(picks)
        self.body.addWidget(label(title, Type.STRONG))
        self.filter = QLineEdit()
        self.filter.setPlaceholderText(tr("Type to find"))
        self.filter.setAccessibleName(title)
        self.filter.textChanged.connect(self._show)
        self.filter.returnPressed.connect(self._take)
        self.filter.installEventFilter(self)
        self.body.addWidget(self.filter)
        self.list = QListWidget()
        self.list.setAccessibleName(title)
        self.list.setMinimumHeight(theme().px(260))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.itemActivated.connect(lambda _item: self._take())
        self.list.itemClicked.connect(lambda _item: self._take())
        self.body.addWidget(self.list)
        self._show("")
        self.setFocusProxy(self.filter)

    def _show(self, words: str) -> None:
        wanted = words.casefold().split()
        self.list.clear()
        for pick in self._picks:
            text = f"{pick.name} {pick.soft}".casefold()
            if all(word in text for word in wanted):
                item = QListWidgetItem(f"{pick.name}   {pick.soft}" if pick.soft else pick.name)
                item.setData(Qt.ItemDataRole.UserRole, pick.key)
                self.list.addItem(item)
            if self.list.count() >= _MOST_SHOWN:
                break
        self.list.setCurrentRow(0)

    def _take(self) -> None:
        item = self.list.currentItem()
        if item is not None:
            key = str(item.data(Qt.ItemDataRole.UserRole))
            self.dismiss()
            self.picked.emit(key)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Arrows in the filter walk the list."""
        if watched is self.filter and isinstance(event, QKeyEvent):
            step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(Qt.Key(event.key()), 0)
            if event.type() == QEvent.Type.KeyPress and step:
                row = self.list.currentRow() + step
                self.list.setCurrentRow(max(0, min(self.list.count() - 1, row)))
                return True
        return super().eventFilter(watched, event)
