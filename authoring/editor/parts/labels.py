"""Labels, keys and tags."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QLabel, QSizePolicy, QWidget

from authoring.editor.i18n import tr
from authoring.editor.theme import Type
from authoring.model.vocabulary import Status


def label(
    words: str = "",
    style: Type = Type.BODY,
    *,
    soft: bool = False,
    wrap: bool = False,
    buddy: QWidget | None = None,
    parent: QWidget | None = None,
) -> QLabel:
    """A label in a style of type.

    Args:
        soft: in the colour of second text.
        wrap: break into lines where it is too long.
        buddy: the control that it names.
    """
    made = QLabel(words, parent)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setProperty("type", style.value)
    if soft:
        made.setProperty("soft", True)
    made.setWordWrap(wrap)
    if buddy is not None:
        made.setBuddy(buddy)
        if not buddy.accessibleName():
            buddy.setAccessibleName(words)
    return made


def line(parent: QWidget | None = None) -> QFrame:
    """A hairline between parts, for decoration only."""
    made = QFrame(parent)
    made.setProperty("line", True)
    made.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
    return made


def panel(parent: QWidget | None = None) -> QFrame:
    """A sheet with a hairline around it."""
    made = QFrame(parent)
    made.setProperty("panel", True)
    return made


class KeyCap(QLabel):
    """Keys as people read them, in a small outline."""

    def __init__(self, keys: str, parent: QWidget | None = None) -> None:
        super().__init__(keys, parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("key", True)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)


def status_words(status: Status) -> str:
    """A protocol's status in words."""
    return {
        Status.DRAFT: tr("Draft"),
        Status.IN_REVIEW: tr("In review"),
        Status.APPROVED: tr("Approved"),
        Status.RETIRED: tr("Retired"),
    }[status]


class StatusTag(QLabel):
    """Where a protocol is in its life, in an outline."""

    def __init__(self, status: Status, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("status", True)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.show_status(status)

    def show_status(self, status: Status) -> None:
        """Say another status."""
        self.setText(status_words(status))
        self.setAccessibleName(tr("Status: {status}", status=status_words(status)))
