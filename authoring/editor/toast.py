"""Quiet messages above the key line; nothing waits for them."""

from __future__ import annotations

import time

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QEnterEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QSizePolicy, QWidget

from authoring.editor.i18n import tr
from authoring.editor.messages import Message
from authoring.editor.parts.labels import label
from authoring.editor.theme import theme

SHOWN_MS = 10_000
"""How long a message that is no problem stays."""

_JUST_S = 1.0
"""A message this young is about what the user is doing now, not about what was before."""


class Toast(QFrame):
    """One message over the foot of the window; the next takes its place."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self.setObjectName("toast")
        layout = QHBoxLayout(self)
        gap = theme().px(12)
        layout.setContentsMargins(gap, theme().px(4), theme().px(4), theme().px(4))
        layout.setSpacing(gap)
        self._words = label(wrap=False)
        self._action = QPushButton()
        self._action.setProperty("quiet", True)
        self._close = QPushButton(tr("Close"))
        self._close.setProperty("quiet", True)
        self._close.clicked.connect(self.put_away)
        self._action.clicked.connect(self._act)
        layout.addWidget(self._words, 1)
        for button in (self._action, self._close):
            button.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
            layout.addWidget(button)
        self._message: Message | None = None
        self._since = 0.0
        self._timer = QTimer(self, singleShot=True, interval=SHOWN_MS)
        self._timer.timeout.connect(self.put_away)
        window.installEventFilter(self)
        self.hide()

    @property
    def sentence(self) -> str:
        """The sentence that is shown, "" for none."""
        return self._words.text() if self._message is not None else ""

    def show_message(self, message: Message) -> None:
        """Show a message in place of the one before."""
        self._message, self._since = message, time.monotonic()
        self._words.setText(message.sentence)
        self._words.setWordWrap(len(message.sentence) > 90)
        self._action.setText(message.action_name)
        self._action.setVisible(bool(message.action_name))
        self._timer.stop()
        if not message.is_problem:
            self._timer.start()
        self.show()
        self._place()
        self.raise_()
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, message.sentence))

    def room_left(self) -> None:
        """Put away what was about the room before; problems stay."""
        old = time.monotonic() - self._since > _JUST_S
        if old and self._message is not None and not self._message.is_problem:
            self.put_away()

    def work_changed(self) -> None:
        """Put away an offer to undo: it would now undo something else."""
        if self._message is not None and self._message.action_name == tr("Undo"):
            self.put_away()

    def put_away(self) -> None:
        """Show nothing."""
        self._message = None
        self._timer.stop()
        self.hide()

    def _act(self) -> None:
        action = self._message.action if self._message is not None else None
        self.put_away()
        if action is not None:
            action()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and watched is self.parentWidget():
            self._place()
        return False

    def enterEvent(self, event: QEnterEvent) -> None:
        self._timer.stop()
        super().enterEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        if self._message is not None and not self._message.is_problem:
            self._timer.start()
        super().leaveEvent(event)

    def _place(self) -> None:
        window = self.parentWidget()
        if window is None or not self.isVisible():
            return
        most = min(window.width() - theme().px(48), theme().px(760))
        self.setMaximumWidth(most)
        if self._words.wordWrap():
            self.setFixedWidth(most)
        else:
            self.setMinimumWidth(0)
        self.adjustSize()
        left = (window.width() - self.width()) // 2
        self.move(left, window.height() - self.height() - theme().px(40))
