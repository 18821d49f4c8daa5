"""The head of the room: whose plan it is, and one action each for where it goes."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QWidget

from authoring.editor.i18n import tr
from authoring.editor.page.files import Format, format_words
from authoring.editor.parts.labels import ElidedLabel
from authoring.editor.theme import Type, theme


class HeadRow(QWidget):
    """Signals:
    plans_wanted(), review_wanted(), save_wanted(), notes_wanted(),
    file_wanted(Format), print_wanted()
    """

    plans_wanted = Signal()
    review_wanted = Signal()
    save_wanted = Signal()
    notes_wanted = Signal()
    file_wanted = Signal(object)
    print_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = ElidedLabel(style=Type.TITLE)
        self.soft = ElidedLabel(soft=True)
        self.plans = QPushButton(tr("Plans"))
        self.plans_menu = QMenu(self)
        self.plans.setMenu(self.plans_menu)
        self.plans_menu.aboutToShow.connect(self.plans_wanted)
        self.review = self._button(tr("Review…"), self.review_wanted)
        self.save = self._button(tr("Save plan"), self.save_wanted)
        self.notes = self._button(tr("Copy text"), self.notes_wanted)
        self.files = {
            kind: self._file(format_words(kind), kind)
            for kind in (Format.PDF, Format.WORD, Format.WEB)
        }
        self.print = self._button(tr("Print…"), self.print_wanted)
        self.print.setToolTip(tr("Ctrl+P"))
        for button in (self.plans, self.review, self.notes):
            button.setProperty("quiet", True)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(theme().px(4))
        row.addWidget(self.title)
        row.addSpacing(theme().px(8))
        row.addWidget(self.soft, 1)
        row.addStretch(1)
        for part in (
            self.plans,
            self.review,
            self.notes,
            self.save,
            *self.files.values(),
            self.print,
        ):
            row.addWidget(part)

    def _button(self, words: str, signal: object) -> QPushButton:
        button = QPushButton(words)
        button.clicked.connect(lambda _=False: signal.emit())  # type: ignore[attr-defined]
        return button

    def _file(self, words: str, kind: Format) -> QPushButton:
        button = QPushButton(words)
        button.setAccessibleName(tr("Save the page: {kind}", kind=words))
        button.clicked.connect(lambda _=False: self.file_wanted.emit(kind))
        return button

    def show_state(self, *, may: bool, main: bool, draft: bool, why: str) -> None:
        """Show what may be done with the pages.

        Args:
            main: whether printing is the main thing to do.
            why: what stands against it, for screen readers.
        """
        self.print.setText(tr("Print a draft…") if draft else tr("Print…"))
        for button in (self.print, *self.files.values()):
            button.setEnabled(may)
            button.setAccessibleDescription(why)
        make_main(self.print, main)


def make_main(button: QPushButton, on: bool) -> None:
    """Make a button the main one of its screen, or not."""
    if bool(button.property("main")) != on:
        button.setProperty("main", on)
        button.style().unpolish(button)
        button.style().polish(button)
