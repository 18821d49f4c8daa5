"""What every field has in common."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from authoring.editor.theme import theme


def focus_target(widget: QWidget) -> QWidget:
    """The widget that takes the focus when this one is given it."""
    target = widget
    while (proxy := target.focusProxy()) is not None:
        target = proxy
    return target


class ValueField(QWidget):
    """A control over one immutable value. ``None`` stands for "not given".

    ``edit_key`` tells, while ``edited`` is sent, how the edit joins the one before it: ""
    is typing in this field, another text typing at a place inside it, None a step of its
    own (a choice, an item added).

    Signals:
        edited(value): the user made another value.
        ended(): the user left the field; a step of undo ends here.
        faulted(sentence): what stands in the field makes no value, and why; "" once it does.
    """

    edited = Signal(object)
    ended = Signal()
    faulted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.value: Any = None
        self.edit_key: str | None = ""
        self._fault = ""
        self.layout_ = QVBoxLayout(self)
        self.layout_.setContentsMargins(0, 0, 0, 0)
        self.layout_.setSpacing(theme().px(4))

    def show_value(self, value: Any) -> None:
        """Show a value; sends nothing."""
        raise NotImplementedError

    @property
    def fault(self) -> str:
        """Why what stands in the field makes no value, "" where it does."""
        return self._fault

    def name_controls(self, name: str, description: str = "") -> None:
        """Name what takes the focus inside, for screen readers."""
        target = focus_target(self)
        target.setAccessibleName(name)
        target.setAccessibleDescription(description)

    # ---- for a field to use -----------------------------------------------------

    def holds(self, control: QWidget) -> None:
        """Put the control that takes the focus into the field."""
        self.layout_.addWidget(control)
        self.setFocusProxy(control)
        control.installEventFilter(self)

    def offer(self, value: Any) -> None:
        """Take a value that the user made."""
        self._say("")
        if value != self.value:
            self.value = value
            self.edited.emit(value)

    def refuse(self, sentence: str) -> None:
        """Say why what stands in the field makes no value."""
        self._say(sentence)

    def _say(self, sentence: str) -> None:
        if sentence != self._fault:
            self._fault = sentence
            self.faulted.emit(sentence)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusOut and watched is self.focusProxy():
            self.ended.emit()
        return super().eventFilter(watched, event)
