"""The focus ring: one overlay for each window, that follows the focus.

It is painted outside the control with a gap. A widget that draws several things
itself says which of them has the focus by a method ``focus_rect() -> QRect``, and
calls :func:`focus_moved` when that changes.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QRegion
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractScrollArea,
    QApplication,
    QLineEdit,
    QMainWindow,
    QMenu,
    QMenuBar,
    QWidget,
)
from shiboken6 import isValid

from authoring.editor.theme import theme, tokens

_GAP = 2


class _Ring(QWidget):
    """The painted ring itself; it never takes the mouse."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self.setObjectName("focus-ring")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAttribute(Qt.WidgetAttribute.WA_NoSystemBackground)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def surround(self, rect: QRect, visible: QRect) -> None:
        """Lie around a rectangle of the window, cut to what is visible."""
        used = theme()
        width = used.px(tokens()["line_px"]["focus"])
        grow = used.px(_GAP) + width
        outer = rect.adjusted(-grow, -grow, grow, grow)
        hole = rect.adjusted(-1, -1, 1, 1).translated(-outer.topLeft())
        seen = visible.translated(-outer.topLeft())
        self.setGeometry(outer)
        self.setMask(QRegion(QRect(QPoint(), outer.size())).subtracted(QRegion(hole)) & seen)
        self.raise_()
        self.show()
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        width = used.px(tokens()["line_px"]["focus"])
        radius = used.px(tokens()["radius_px"]["ring"])
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(used.colour("focus"), width))
        inset = width / 2
        painter.drawRoundedRect(
            QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), radius, radius
        )
        painter.end()


class FocusRing(QObject):
    """Follows the focus of the application with a ring in the window that has it."""

    _instance: FocusRing | None = None

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._rings: dict[int, _Ring] = {}
        self._focus: QWidget | None = None
        self._watched: list[QWidget] = []
        self._later = QTimer(self, singleShot=True, interval=0)
        self._later.timeout.connect(self._place)
        app.focusChanged.connect(self._follow)
        FocusRing._instance = self

    @property
    def ring(self) -> QWidget | None:
        """The ring in the window of the focus, or None."""
        if self._focus is None or not isValid(self._focus):
            return None
        return self._rings.get(id(self._focus.window()))

    def _follow(self, _old: QWidget | None, new: QWidget | None) -> None:
        for ring in filter(isValid, self._rings.values()):
            ring.hide()
        for widget in filter(isValid, self._watched):
            widget.removeEventFilter(self)
        self._watched = []
        self._focus = new if _takes_ring(new) else None
        step = self._focus
        while step is not None:
            step.installEventFilter(self)
            self._watched.append(step)
            if step.isWindow():
                break
            step = step.parentWidget()
        self._later.start()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kinds = (
            QEvent.Type.Move,
            QEvent.Type.Resize,
            QEvent.Type.Show,
            QEvent.Type.Hide,
            QEvent.Type.LayoutRequest,
        )
        if event.type() in kinds:
            self._later.start()
        released = (QEvent.Type.KeyRelease, QEvent.Type.MouseButtonRelease)
        if event.type() in released and isinstance(watched, QAbstractItemView):
            self._later.start()
        return False

    def refresh(self) -> None:
        """Look again where the focus is."""
        self._later.start()

    def _place(self) -> None:
        widget = self._focus
        if widget is None or not isValid(widget) or not widget.isVisible():
            for ring in filter(isValid, self._rings.values()):
                ring.hide()
            return
        window = widget.window()
        rect, clip = _rect_in_window(widget, window), _visible_in_window(widget, window)
        ring = self._ring_of(window)
        if rect.isEmpty() or not rect.intersects(clip):
            ring.hide()
            return
        ring.surround(rect, clip)
        toast = window.findChild(QWidget, "toast")
        if toast is not None and toast.isVisible() and not toast.isAncestorOf(widget):
            toast.raise_()  # it lies over the controls, and so over their ring

    def _ring_of(self, window: QWidget) -> _Ring:
        key = id(window)
        if key not in self._rings or not isValid(self._rings[key]):
            self._rings[key] = _Ring(window)
        return self._rings[key]


def focus_moved(_widget: QWidget | None = None) -> None:
    """Say that what has the focus inside a widget changed."""
    if FocusRing._instance is not None:
        FocusRing._instance.refresh()


def _takes_ring(widget: QWidget | None) -> bool:
    """Whether a widget is shown with a ring: panes and whole rooms only for a part of them."""
    if widget is None or isinstance(widget, QMenu | QMenuBar | QMainWindow):
        return False
    if isinstance(widget, QLineEdit | QAbstractItemView | QAbstractScrollArea):
        return True
    if widget.property("pane") or widget.property("whole"):
        return callable(getattr(widget, "focus_rect", None))
    return not widget.isWindow()


def _rect_in_window(widget: QWidget, window: QWidget) -> QRect:
    inner, origin = widget.rect(), widget
    own = getattr(widget, "focus_rect", None)
    if callable(own):
        found = own()
        if isinstance(found, QRect) and not found.isEmpty():
            inner = found
    elif isinstance(widget, QAbstractItemView):
        row = widget.visualRect(widget.currentIndex())
        if not row.isEmpty():
            inner, origin = row, widget.viewport()
    return QRect(origin.mapTo(window, inner.topLeft()), inner.size())


def _visible_in_window(widget: QWidget, window: QWidget) -> QRect:
    """The part of the window in which a widget can be seen, its scroll areas counted."""
    grow = theme().px(_GAP + tokens()["line_px"]["focus"])
    seen = window.rect()
    step: QWidget | None = widget
    while step is not None and step is not window:
        parent = step.parentWidget()
        if isinstance(parent, QAbstractScrollArea) and step is parent.viewport():
            port = QRect(step.mapTo(window, QPoint()), step.size())
            seen &= port.adjusted(-grow, -grow, grow, grow)
        step = parent
    return seen
