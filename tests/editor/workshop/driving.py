"""What tests of the workshop ask and do again and again."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QLabel,
    QWidget,
)
from pytestqt.qtbot import QtBot

from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.workshop.room import WorkshopRoom
from authoring.editor.workshop.variant_form import VariantForm
from authoring.model.card import Card

Key, Mod = Qt.Key, Qt.KeyboardModifier


def card(room: WorkshopRoom) -> Card:
    found = room.session.card
    assert found is not None
    return found


def form(room: WorkshopRoom) -> VariantForm:
    found = room.bench.form.form
    assert found is not None
    found.chunks.finish()
    return found


def text(room: WorkshopRoom, name: str) -> TextField:
    return dict(form(room).fields.texts())[name]


def focused_name() -> str:
    focus = QApplication.focusWidget()
    return "" if focus is None else focus.accessibleName()


def names(room: WorkshopRoom) -> list[str]:
    return [v.name.best("en", "en") for v in card(room).variants]


def said(widget: QWidget) -> list[str]:
    """The words in sight, in order."""
    parts = widget.findChildren(QWidget)
    return [p.text() for p in parts if isinstance(p, QLabel | QAbstractButton) and p.text()]


def pick(room: WorkshopRoom, words: str) -> None:
    """Choose from the menu that is open, as Enter on that line would."""
    menu = room.on_ladder.menu
    assert menu is not None
    action = next(a for a in menu.actions() if a.text() == words)
    menu.close()
    action.trigger()


def write_step(room: WorkshopRoom, words_: str, qtbot: QtBot) -> None:
    """Write the first step anew, and wait until the card is measured."""
    edit = text(room, "steps[0]").edit
    edit.setFocus()
    edit.selectAll()
    with qtbot.waitSignal(room.measuring.done, timeout=5000):
        qtbot.keyClicks(edit, words_)
