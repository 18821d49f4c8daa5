"""The focus ring follows the focus, outside the control, inside what is seen."""

from PySide6.QtCore import QPoint, QRect
from PySide6.QtWidgets import QLineEdit, QScrollArea, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from authoring.editor.appearance import Appearance
from authoring.editor.focus_ring import FocusRing, focus_moved


def ring() -> QWidget | None:
    assert FocusRing._instance is not None
    return FocusRing._instance.ring


def shown(widget: QWidget, qtbot: QtBot) -> None:
    qtbot.addWidget(widget)
    widget.show()
    widget.activateWindow()
    qtbot.waitExposed(widget)


def test_the_ring_lies_outside_the_control_with_a_gap(appearance: Appearance, qtbot: QtBot) -> None:
    page = QWidget()
    page.resize(400, 300)
    field = QLineEdit(page)
    field.setGeometry(100, 100, 120, 32)
    shown(page, qtbot)
    field.setFocus()
    qtbot.waitUntil(lambda: ring() is not None and ring().isVisible())  # type: ignore[union-attr]
    found = ring()
    assert found is not None
    assert found.geometry() == QRect(95, 95, 130, 42)
    assert not found.mask().contains(QPoint(65, 21))
    field.move(100, 160)
    qtbot.waitUntil(lambda: found.geometry() == QRect(95, 155, 130, 42))


def test_the_ring_goes_where_a_painted_view_says_its_focus_is(
    appearance: Appearance, qtbot: QtBot
) -> None:
    class Painted(QWidget):
        at = QRect(10, 10, 50, 20)

        def focus_rect(self) -> QRect:
            return self.at

    page = QWidget()
    page.resize(300, 200)
    layout = QVBoxLayout(page)
    layout.setContentsMargins(0, 0, 0, 0)
    view = Painted()
    view.setFocusPolicy(view.focusPolicy().StrongFocus)
    layout.addWidget(view)
    shown(page, qtbot)
    view.setFocus()
    qtbot.waitUntil(lambda: ring() is not None and ring().isVisible())  # type: ignore[union-attr]
    found = ring()
    assert found is not None
    assert found.geometry() == QRect(5, 5, 60, 30)
    view.at = QRect(100, 50, 50, 20)
    focus_moved(view)
    qtbot.waitUntil(lambda: found.geometry() == QRect(95, 45, 60, 30))


def test_the_ring_does_not_leave_a_scroll_area(appearance: Appearance, qtbot: QtBot) -> None:
    area = QScrollArea()
    area.resize(200, 100)
    tall = QWidget()
    tall.setFixedSize(150, 1000)
    field = QLineEdit(tall)
    field.setGeometry(10, 80, 100, 40)
    area.setWidget(tall)
    shown(area, qtbot)
    field.setFocus()
    area.verticalScrollBar().setValue(0)
    qtbot.waitUntil(lambda: ring() is not None and ring().isVisible())  # type: ignore[union-attr]
    found = ring()
    assert found is not None
    seen = found.mask().translated(found.pos())
    assert seen.boundingRect().bottom() <= area.viewport().geometry().bottom() + 5
    area.verticalScrollBar().setValue(500)
    qtbot.waitUntil(lambda: not found.isVisible())


def test_the_ring_goes_when_its_control_goes(appearance: Appearance, qtbot: QtBot) -> None:
    page = QWidget()
    field = QLineEdit(page)
    shown(page, qtbot)
    field.setFocus()
    qtbot.waitUntil(lambda: ring() is not None and ring().isVisible())  # type: ignore[union-attr]
    found = ring()
    assert found is not None
    field.deleteLater()
    qtbot.waitUntil(lambda: not found.isVisible())
