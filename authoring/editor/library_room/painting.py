"""Painting of rows: one line of words with marked letters, tags, and the row's ground."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QFont,
    QFontMetricsF,
    QPainter,
    QPen,
    QTextCharFormat,
    QTextLayout,
    QTextOption,
)
from PySide6.QtWidgets import QStyle, QStyleOptionViewItem

from authoring.editor.parts.own_order import draw_words
from authoring.editor.theme import FAMILY_SEMIBOLD, Type, theme

Span = tuple[int, int]
_CENTRE = Qt.AlignmentFlag.AlignVCenter


def font_of(style: Type, *, strong: bool = False) -> QFont:
    """A font in the size of a style; strong ones in the weight of names, others plain."""
    used = theme()
    font = used.font(Type.STRONG if strong else Type.BODY)
    font.setPixelSize(used.font(style).pixelSize())
    return font


def paint_ground(painter: QPainter, option: QStyleOptionViewItem) -> QRectF:
    """The ground of a row by its state, and a hairline below; the row's place."""
    used, at = theme(), QRectF(option.rect)
    if option.state & QStyle.StateFlag.State_Selected:
        painter.fillRect(at, used.colour("wash"))
        bar = QRectF(at.left(), at.top(), used.px(3), at.height())
        if option.direction == Qt.LayoutDirection.RightToLeft:
            bar.moveRight(at.right())
        painter.fillRect(bar, used.colour("accent"))
    elif option.state & QStyle.StateFlag.State_MouseOver:
        painter.fillRect(at, used.colour("ground"))
    painter.setPen(used.colour("rule"))
    painter.drawLine(at.bottomLeft(), at.bottomRight())
    return at


def columns(
    at: QRectF, widths: Sequence[float], gap: float, direction: Qt.LayoutDirection
) -> list[QRectF]:
    """Columns from where reading begins; a width below 0 is a share of what is left."""
    fixed = sum(width for width in widths if width >= 0) + gap * (len(widths) - 1)
    shares = -sum(width for width in widths if width < 0) or 1.0
    rest = max(at.width() - fixed, 0.0)
    made, x = [], at.left()
    for width in widths:
        wide = width if width >= 0 else rest * -width / shares
        made.append(QRectF(x, at.top(), wide, at.height()))
        x += wide + gap
    if direction == Qt.LayoutDirection.RightToLeft:
        for rect in made:
            rect.moveRight(at.right() - (rect.left() - at.left()))
    return made


def paint_words(
    painter: QPainter, at: QRectF, words: str, font: QFont, token: str, *, far: bool = False
) -> None:
    """One line, cut with "…" where it is too long.

    Args:
        far: at the side where reading ends.
    """
    painter.setFont(font)
    painter.setPen(theme().colour(token))
    shown = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(at.width()))
    side = Qt.AlignmentFlag.AlignTrailing if far else Qt.AlignmentFlag.AlignLeading
    draw_words(painter, at, int(_CENTRE | side), shown)


def paint_marked(
    painter: QPainter,
    at: QRectF,
    words: str,
    marks: Sequence[Span],
    font: QFont,
    token: str,
    direction: Qt.LayoutDirection,
) -> None:
    """One line in which some letters are marked by weight and a line below them."""
    used = theme()
    metrics = QFontMetricsF(font)
    shown = metrics.elidedText(words, Qt.TextElideMode.ElideRight, at.width())
    bold = QTextCharFormat()
    if font.family() != FAMILY_SEMIBOLD:
        bold.setFontWeight(QFont.Weight.Bold)
    bold.setForeground(used.colour("ink"))
    bold.setFontUnderline(True)
    bold.setUnderlineColor(used.colour("accent"))
    layout = QTextLayout(shown, font)
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.NoWrap)
    # The words keep the direction of their own language, the line that of the screen.
    option.setTextDirection(Qt.LayoutDirection.LayoutDirectionAuto)
    mirrored = direction == Qt.LayoutDirection.RightToLeft
    side = Qt.AlignmentFlag.AlignRight if mirrored else Qt.AlignmentFlag.AlignLeft
    option.setAlignment(side | Qt.AlignmentFlag.AlignAbsolute)
    layout.setTextOption(option)
    layout.setFormats([_range(start, end, bold) for start, end in marks if start < len(shown)])
    layout.beginLayout()
    line = layout.createLine()
    line.setLineWidth(at.width())
    layout.endLayout()
    painter.save()
    painter.setClipRect(at)
    painter.setPen(used.colour(token))
    layout.draw(painter, QPointF(at.left(), at.top() + (at.height() - line.height()) / 2))
    painter.restore()


def _range(start: int, end: int, how: QTextCharFormat) -> QTextLayout.FormatRange:
    made = QTextLayout.FormatRange()
    made.start, made.length, made.format = start, end - start, how
    return made


def tag_width(words: str) -> float:
    """Width of an outlined tag."""
    return width_of(words, font_of(Type.SMALL, strong=True)) + theme().px(16)


def paint_tag(painter: QPainter, at: QRectF, words: str) -> None:
    """A word in an outline, as a protocol's status."""
    used = theme()
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(used.colour("ink"), 1))
    painter.setBrush(used.colour("sheet"))
    painter.drawRoundedRect(at.adjusted(0.5, 0.5, -0.5, -0.5), used.px(3), used.px(3))
    painter.setFont(font_of(Type.SMALL, strong=True))
    painter.drawText(at, int(Qt.AlignmentFlag.AlignCenter), words)
    painter.restore()


def paint_box(painter: QPainter, at: QRectF, *, is_on: bool) -> None:
    """A box to tick, in the middle of its place."""
    used = theme()
    box = QRectF(0, 0, used.px(15), used.px(15))
    box.moveCenter(at.center())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(used.colour("fill" if is_on else "edge"), used.px(1)))
    painter.setBrush(used.colour("fill" if is_on else "sheet"))
    painter.drawRoundedRect(box, used.px(3), used.px(3))
    if is_on:
        painter.setPen(QPen(used.colour("on-accent"), used.px(2)))
        unit = box.width() / 15
        tick = ((3.5, 7.8), (6.4, 10.8), (11.6, 4.4))
        painter.drawPolyline([QPointF(box.x() + x * unit, box.y() + y * unit) for x, y in tick])
    painter.restore()


def width_of(words: str, font: QFont) -> float:
    """Room that one line needs."""
    return QFontMetricsF(font).horizontalAdvance(words) + 2
