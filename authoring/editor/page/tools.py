"""The row above the pages: which page is seen, and how large."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from authoring.editor.i18n import tr
from authoring.editor.page.sheets import PageView
from authoring.editor.page.spread import Fit
from authoring.editor.parts.labels import label
from authoring.editor.parts.segmented import Segmented
from authoring.editor.theme import Type, theme


class PageTools(QWidget):
    """Page number, size in percent, and buttons for the size."""

    def __init__(self, view: PageView, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view = view
        self.where = label(style=Type.STRONG)
        self.soft = label(soft=True)
        self.fit = Segmented(
            tr("Size of the pages"),
            ((Fit.WIDTH, tr("Page width")), (Fit.PAGE, tr("Whole page"))),
            view.zoom if isinstance(view.zoom, Fit) else None,
        )
        self.fit.chosen.connect(view.set_zoom)
        self.percent = label(soft=True)
        self.percent.setMinimumWidth(theme().px(48))
        smaller = self._button("−", tr("Smaller pages"), -1)
        larger = self._button("+", tr("Larger pages"), 1)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(8))
        layout.addWidget(self.where)
        layout.addWidget(self.soft)
        layout.addStretch(1)
        for part in (self.fit, smaller, self.percent, larger):
            layout.addWidget(part)
        view.zoomed.connect(lambda _share: self.refresh())
        view.page_changed.connect(lambda _page: self.refresh())
        self.refresh()

    def _button(self, words: str, name: str, step: int) -> QPushButton:
        button = QPushButton(words)
        button.setAccessibleName(name)
        button.setToolTip(name)
        button.setFixedWidth(theme().px(36))
        button.clicked.connect(lambda: self._view.step_zoom(step))
        return button

    def refresh(self) -> None:
        """Say what is seen."""
        view = self._view
        count = view.count
        words = tr("Page {n} of {count}", n=view.page + 1, count=count) if count else ""
        self.where.setText(words)
        self.percent.setText(tr("{percent} %", percent=round(view.share * 100)))
        self.fit.choose(view.zoom if isinstance(view.zoom, Fit) else None)
