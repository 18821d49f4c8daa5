"""Where Tab leads in a window: through what is seen, in the order in which it is laid out.

Qt's own chain is the order of making, and rooms make parts late and anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QGridLayout,
    QLabel,
    QLayout,
    QLineEdit,
    QMainWindow,
    QPlainTextEdit,
    QScrollArea,
    QWidget,
)

from authoring.editor.theme import theme

_WHOLE = (QLabel, QLineEdit, QAbstractButton, QComboBox, QPlainTextEdit, QAbstractItemView)
"""Controls that have nothing inside to stop at."""


def walk(window: QWidget, *, ahead: bool) -> bool:
    """Move the focus on by one control, or back; False where there is none to go to.

    A widget that lays its parts out itself gives them in order by ``tab_parts()``.
    """
    every = list(_inside(window))
    stops = [index for index, one in enumerate(every) if _is_stop(one)]
    if not stops:
        return False
    focus = QApplication.focusWidget()
    here = every.index(focus) if focus in every else -1
    if ahead:
        goal = next((index for index in stops if index > here), stops[0])
    else:
        goal = next((index for index in reversed(stops) if index < here), stops[-1])
    reason = Qt.FocusReason.TabFocusReason if ahead else Qt.FocusReason.BacktabFocusReason
    every[goal].setFocus(reason)
    _bring_into_view(every[goal])
    return True


class TabWindow(QMainWindow):
    """A window in which Tab walks so."""

    def focusNextPrevChild(self, ahead: bool) -> bool:
        return walk(self, ahead=ahead)


def _is_stop(widget: QWidget) -> bool:
    tab = Qt.FocusPolicy.TabFocus
    takes = widget.focusPolicy() & tab == tab and widget.focusProxy() is None
    return takes and widget.isEnabled()


def _inside(widget: QWidget) -> Iterator[QWidget]:
    """What is seen of a widget's parts, and their parts, in order."""
    for part in _parts(widget):
        if part.isVisible() and not part.isWindow():
            yield part
            if not isinstance(part, _WHOLE):
                yield from _inside(part)


def _parts(widget: QWidget) -> list[QWidget]:
    own = getattr(widget, "tab_parts", None)
    if callable(own):
        return list(own())
    layout = widget.layout()
    laid = [] if layout is None else list(_laid_out(layout))
    known = set(laid)
    children = (child for child in widget.children() if isinstance(child, QWidget))
    return [*laid, *(child for child in children if child not in known)]


def _laid_out(layout: QLayout) -> Iterator[QWidget]:
    numbers = list(range(layout.count()))
    if isinstance(layout, QGridLayout):
        numbers.sort(key=lambda number: _place(layout, number))
    for number in numbers:
        item = layout.itemAt(number)
        widget, inner = (None, None) if item is None else (item.widget(), item.layout())
        if widget is not None:
            yield widget
        elif inner is not None:
            yield from _laid_out(inner)


def _place(grid: QGridLayout, number: int) -> tuple[int, int]:
    """What stands beside several rows comes after them."""
    row, column, rows, _columns = cast("tuple[int, int, int, int]", grid.getItemPosition(number))
    return row + rows - 1, column


def _bring_into_view(widget: QWidget) -> None:
    margin = theme().px(24)
    above = widget.parentWidget()
    while above is not None:
        if isinstance(above, QScrollArea):
            above.ensureWidgetVisible(widget, margin, margin)
        above = above.parentWidget()
