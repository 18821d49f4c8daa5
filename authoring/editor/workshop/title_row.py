"""The head of the room: which card it is, and the buttons for it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import KeyCap, label
from authoring.editor.theme import Type, theme
from authoring.editor.vocabulary_words import words_of
from authoring.editor.workshop.words import card_title, text_words
from authoring.model.card import Card


class TitleButton(QPushButton):
    """The card's title; pressing it offers the other cards."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("place", True)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        used = theme()
        font = used.font(Type.TITLE)
        self.ensurePolished()
        width = QFontMetrics(font).horizontalAdvance(self.text()) + used.px(30)
        return QSize(width, used.px(36))

    def minimumSizeHint(self) -> QSize:
        return QSize(theme().px(120), self.sizeHint().height())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Down):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        if self.underMouse():
            painter.fillRect(self.rect(), used.colour("wash"))
        font = used.font(Type.TITLE)
        painter.setFont(font)
        painter.setPen(used.colour("ink"))
        metrics = painter.fontMetrics()
        rtl = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        room = self.width() - used.px(26)
        words = metrics.elidedText(self.text(), Qt.TextElideMode.ElideRight, room)
        at = self.rect().adjusted(used.px(26) if rtl else 0, 0, 0 if rtl else -used.px(26), 0)
        side = Qt.AlignmentFlag.AlignRight if rtl else Qt.AlignmentFlag.AlignLeft
        painter.drawText(
            at, side | Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignAbsolute, words
        )
        self._paint_arrow(painter, metrics.horizontalAdvance(words), rtl=rtl)
        painter.end()

    def _paint_arrow(self, painter: QPainter, after: int, *, rtl: bool) -> None:
        used = theme()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        pen = painter.pen()
        pen.setWidthF(1.9 * used.scale)
        pen.setColor(used.colour("soft"))
        painter.setPen(pen)
        x = self.width() - after - used.px(15) if rtl else after + used.px(15)
        y, step = self.height() / 2 - used.px(2), used.px(5)
        painter.drawPolyline([QPointF(x - step, y), QPointF(x, y + step), QPointF(x + step, y)])


class KeyButton(QPushButton):
    """A button with its keys in a small outline behind the words."""

    def __init__(self, words: str, keys: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(words)
        self._layout = QHBoxLayout(self)
        used = theme()
        self._layout.setContentsMargins(used.px(14), 0, used.px(10), 0)
        self._layout.setSpacing(used.px(10))
        self._words = label(words, Type.STRONG)
        cap = KeyCap(keys)
        for part in (self._words, cap):
            part.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            self._layout.addWidget(part)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(self._layout.sizeHint().width(), theme().px(36))


class TitleRow(QWidget):
    """Title, trade name, what it is for, and the button that adds a variant.

    Signals:
        choosing(): the user wants another card.
        adding(): the user wants another variant.
    """

    choosing = Signal()
    adding = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        used = theme()
        self.title = TitleButton()
        self.title.clicked.connect(self.choosing)
        self.trade = label(style=Type.SMALL, soft=True)
        self.about = label(style=Type.SMALL, soft=True)
        for one in (self.trade, self.about):
            one.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.add_button = KeyButton(tr("Add a variant"), tr("Ins"))
        self.add_button.clicked.connect(self.adding)
        said = QVBoxLayout()
        said.setSpacing(0)
        said.addWidget(self.trade)
        said.addWidget(self.about)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(used.px(16))
        layout.addWidget(self.title)
        layout.addLayout(said, 1)
        layout.addWidget(self.add_button)

    def show_card(self, card: Card, language: str) -> None:
        """Show a card."""
        title = card_title(card, language)
        self.title.setText(title)
        self.title.setAccessibleName(tr("Card: {title}. Choose another", title=title))
        self.title.updateGeometry()
        self.trade.setText(text_words(card.trade_name, language, card.language))
        self.trade.setVisible(bool(self.trade.text()))
        regions = ", ".join(words_of(region) for region in card.regions)
        purpose = text_words(card.purpose, language, card.language)
        about = ". ".join(part.rstrip(".") for part in (regions, purpose) if part)
        self.about.setText(f"{about}." if about else tr("No region and no purpose yet."))
        for one in (self.trade, self.about):
            one.setToolTip(one.text())
