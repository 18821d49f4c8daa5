"""Tab order: what was built later still comes where it stands."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractScrollArea, QLayout, QScrollArea, QWidget


def put_in_order(whole: QWidget) -> None:
    """Let Tab go through a widget's controls in the order in which its layouts hold them.

    Qt puts whatever is added to a window that is there already after everything else.
    """
    before: QWidget | None = None
    for control in _controls(whole):
        if before is not None:
            QWidget.setTabOrder(before, control)
        before = control


def put_in_order_around(part: QWidget) -> None:
    """The same for all of the page that a part stands on, up to where it scrolls."""
    page = part
    while (above := page.parentWidget()) is not None:
        if page.isWindow() or isinstance(above.parentWidget(), QAbstractScrollArea):
            break
        page = above
    put_in_order(page)


def _controls(widget: QWidget) -> Iterator[QWidget]:
    is_stop = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
    if is_stop and widget.focusProxy() is None:
        yield widget
    content = widget.widget() if isinstance(widget, QScrollArea) else None
    if content is not None:
        yield from _controls(content)
    layout = widget.layout()
    if layout is not None:
        yield from _inside(layout)


def _inside(layout: QLayout) -> Iterator[QWidget]:
    for index in range(layout.count()):
        item = layout.itemAt(index)
        if item is None:
            continue
        widget, inner = item.widget(), item.layout()
        if widget is not None:
            yield from _controls(widget)
        elif inner is not None:
            yield from _inside(inner)
