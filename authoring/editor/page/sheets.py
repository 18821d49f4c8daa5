"""The pages themselves: sheets of paper in a pane that scrolls."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QScrollArea, QWidget

from authoring.editor.i18n import tr
from authoring.editor.page.images import PageImages
from authoring.editor.page.spread import Fit, Spread, Zoom, lay_out, next_share
from authoring.editor.parts.labels import label
from authoring.editor.theme import theme

_STALE = 0.45
_GAP = 16


class PageSheet(QWidget):
    """One page on white paper, as it prints."""

    def __init__(self, index: int, images: PageImages, parent: QWidget) -> None:
        super().__init__(parent)
        self.index = index
        self.is_stale = False
        self._images = images
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def paintEvent(self, _event: QPaintEvent) -> None:
        ratio = self.devicePixelRatioF()
        size = QSize(round(self.width() * ratio), round(self.height() * ratio))
        image = self._images.image(self.index, size)
        painter = QPainter(self)
        painter.fillRect(self.rect(), Qt.GlobalColor.white)
        if image is not None:
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            painter.setOpacity(_STALE if self.is_stale else 1.0)
            painter.drawImage(QRectF(self.rect()), image)
            painter.setOpacity(1.0)
        painter.setPen(QPen(theme().colour("edge"), 1))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()


class PageView(QScrollArea):
    """Pages to scroll through. What was in sight stays in sight when the pages change.

    Signals:
        page_changed(int): index of the page that is seen most.
        zoomed(float): the size is now this share of 100 %.
    """

    page_changed = Signal(int)
    zoomed = Signal(float)

    def __init__(self, *, only_first: bool = False, parent: QWidget | None = None) -> None:
        """Args: only_first: show the first page alone, beside other work."""
        super().__init__(parent)
        self.images = PageImages(self)
        self.images.drawn.connect(self._drawn)
        self.zoom: Zoom = Fit.WIDTH
        self._only_first = only_first
        self._sheets: list[PageSheet] = []
        self._spread = Spread((), 0, 0, 1.0)
        self._page = -1
        self._name = ""
        self._ground = QWidget()
        self._wait = label(tr("Making the page…"), soft=True, parent=self)
        self.setAccessibleName(self._wait.text())
        self.setWidget(self._ground)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        # Always there: else its coming and going would change the width it depends on.
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.verticalScrollBar().valueChanged.connect(self._tell_page)
        self.verticalScrollBar().setSingleStep(theme().px(40))

    # ---- what is shown --------------------------------------------------------

    @property
    def count(self) -> int:
        """Pages in sight or to scroll to."""
        return len(self._sheets)

    @property
    def page(self) -> int:
        """Index of the page that is seen most."""
        return max(self._page, 0)

    @property
    def share(self) -> float:
        """The size as a share of 100 %."""
        return self._spread.share

    @property
    def sheets(self) -> tuple[PageSheet, ...]:
        """The sheets in order."""
        return tuple(self._sheets)

    def show_pdf(self, data: bytes, name: str) -> None:
        """Show a PDF; ``name`` is what screen readers call it."""
        self._name = name
        self._wait.hide()
        self.images.load(data)
        wanted = min(self.images.count, 1) if self._only_first else self.images.count
        while len(self._sheets) > wanted:
            self._sheets.pop().deleteLater()
        while len(self._sheets) < wanted:
            self._sheets.append(PageSheet(len(self._sheets), self.images, self._ground))
        for sheet in self._sheets:
            words = tr("Page {n} of {count}", n=sheet.index + 1, count=self.images.count)
            sheet.setAccessibleName(words)
        self.grey(stale=False)
        self._place()
        self._page = -1
        self._tell_page()

    def clear(self, name: str) -> None:
        """Show no page; ``name`` is what screen readers say instead."""
        while self._sheets:
            self._sheets.pop().deleteLater()
        self._name = name
        self._wait.hide()
        self._place()
        self._page = -1
        self._name_page()

    def grey(self, *, stale: bool) -> None:
        """Show the pages as old, or as they are."""
        for sheet in self._sheets:
            sheet.is_stale = stale
            sheet.update()

    def set_zoom(self, zoom: Zoom) -> None:
        """Show the pages in another size; the page in sight stays."""
        page, bar = self.page, self.verticalScrollBar()
        before = self._spread.places
        within = 0.0
        if page < len(before) and before[page].height:
            within = (bar.value() - before[page].y) / before[page].height
        self.zoom = zoom
        self._place()
        after = self._spread.places
        if page < len(after):
            bar.setValue(round(after[page].y + within * after[page].height))

    def step_zoom(self, step: int) -> None:
        """The next larger (1) or smaller (-1) size."""
        self.set_zoom(next_share(self.share, step))

    def go_to(self, page: int) -> None:
        """Bring the top of a page into sight."""
        places = self._spread.places
        if 0 <= page < len(places):
            self.verticalScrollBar().setValue(places[page].y - theme().px(_GAP))

    # ---- places -----------------------------------------------------------------

    def _place(self) -> None:
        room = self.viewport().size()
        gap = theme().px(_GAP)
        sizes = self.images.sizes()[: len(self._sheets)]
        mirrored = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        self._spread = lay_out(
            self.zoom, sizes, (room.width(), room.height()), gap, mirrored=mirrored
        )
        self._ground.resize(self._spread.width, max(self._spread.height, room.height()))
        for sheet, at in zip(self._sheets, self._spread.places, strict=True):
            sheet.setGeometry(QRect(at.x, at.y, at.width, at.height))
            sheet.show()
        self.zoomed.emit(self._spread.share)

    def _drawn(self, index: int) -> None:
        if index < len(self._sheets):
            self._sheets[index].update()

    def _tell_page(self) -> None:
        top, height = self.verticalScrollBar().value(), self.viewport().height()
        page = self._spread.page_at(top, height)
        if page == self._page:
            return
        self._page = page
        self._name_page()
        self.page_changed.emit(page)

    def _name_page(self) -> None:
        """Say which page is seen, and let screen readers read what stands on it."""
        if not self._sheets:
            self.setAccessibleName(self._name or self._wait.text())
            self.setAccessibleDescription("")
            return
        where = self._sheets[self.page].accessibleName()
        self.setAccessibleName(f"{where}, {self._name}" if self._name else where)
        words = " ".join(self.images.words(self.page).split())
        self.setAccessibleDescription(words)
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.NameChanged))

    def focus_rect(self) -> QRect:
        """Where the focus ring goes: around all that is seen."""
        return self.viewport().rect().adjusted(4, 4, -4, -4)

    # ---- events -------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._wait.adjustSize()
        self._wait.move(self.viewport().rect().center() - self._wait.rect().center())
        self._place()
        self._tell_page()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.LayoutDirectionChange:
            self._place()

    def wheelEvent(self, event: QWheelEvent) -> None:
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            turned = event.angleDelta().y()
            if turned:
                self.step_zoom(1 if turned > 0 else -1)
            event.accept()
            return
        super().wheelEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, bar = event.key(), self.verticalScrollBar()
        if key == Qt.Key.Key_Home:
            bar.setValue(0)
        elif key == Qt.Key.Key_End:
            bar.setValue(bar.maximum())
        elif key == Qt.Key.Key_Space:
            back = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            bar.setValue(bar.value() + (-1 if back else 1) * bar.pageStep())
        else:
            super().keyPressEvent(event)
