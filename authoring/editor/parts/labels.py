"""Labels, keys and tags."""

from __future__ import annotations

import re

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QFrame, QLabel, QSizePolicy, QWidget

from authoring.editor.i18n import mark, tr
from authoring.editor.parts.own_order import draw_words
from authoring.editor.theme import Type, theme
from authoring.model.vocabulary import Status

_FAR_RIGHT = (
    Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignAbsolute | Qt.AlignmentFlag.AlignVCenter
)


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
    if QApplication.layoutDirection() == Qt.LayoutDirection.RightToLeft:
        # Else a label in a language of the other direction would stand at the far side.
        made.setAlignment(_FAR_RIGHT)
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


class ElidedLabel(QLabel):
    """One line that ends in "…" where there is no room for it; the whole is its tool tip."""

    def __init__(self, words: str = "", style: Type = Type.BODY, *, soft: bool = False) -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("type", style.value)
        self.setProperty("soft", soft)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Preferred)
        self.setText(words)

    def setText(self, words: str) -> None:
        super().setText(words)
        self.setToolTip(words)

    def minimumSizeHint(self) -> QSize:
        return QSize(theme().px(48), super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        token = "soft" if self.property("soft") else "ink"
        painter.setPen(theme().colour(token))
        elide = Qt.TextElideMode.ElideRight
        shown = self.fontMetrics().elidedText(self.text(), elide, self.width())
        draw_words(painter, self.rect(), int(self.alignment()), shown)
        painter.end()


_KEYS = frozenset(
    {
        mark("Ins"),
        mark("Del"),
        mark("Enter"),
        mark("Space"),
        mark("PgUp"),
        mark("PgDn"),
        mark("Esc"),
    }
)


def key_words(keys: str) -> str:
    """Keys as keyboards of the language in use name them ("Ctrl Del": "Ctrl Suppr")."""
    return re.sub("[A-Za-z]+", lambda key: tr(key[0]) if key[0] in _KEYS else key[0], keys)


class KeyCap(QLabel):
    """Keys as people read them, in a small outline."""

    def __init__(self, keys: str, parent: QWidget | None = None) -> None:
        super().__init__(key_words(keys), parent)
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
