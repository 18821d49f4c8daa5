"""One unknown word, or one of the clinic's own: what it is, what to do, where it stands."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr, tr_n
from authoring.editor.library_room.rows import RowList
from authoring.editor.library_room.spelled_places import place_row
from authoring.editor.parts.flow import FlowLayout
from authoring.editor.parts.labels import label, line
from authoring.editor.spelling.shelf import Shelf
from authoring.editor.spelling.unknown import Unknown
from authoring.editor.theme import Type, theme
from authoring.model.library import Library


class WordSheet(QWidget):
    """About the chosen word.

    Signals:
        add_wanted(), remove_wanted(): to or from the clinic's own words.
        change_wanted(new): change it everywhere; "" where the new word is still to be typed.
        place_wanted(Place): show where it stands.
    """

    add_wanted = Signal()
    remove_wanted = Signal()
    change_wanted = Signal(str)
    place_wanted = Signal(object)

    def __init__(self, shelf: Shelf, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shelf = shelf
        self._unknown: Unknown | None = None
        self.word = label(style=Type.HEADING)
        self.about = label(style=Type.SMALL, soft=True, wrap=True)
        self.near = QWidget()
        self._flow = FlowLayout(self.near, gap=4)
        self.add_button = QPushButton(tr("Add to clinic words"))
        self.change_button = QPushButton(tr("Change everywhere …"))
        self.remove_button = QPushButton(tr("Remove from clinic words"))
        self.places = RowList(tr("Where it stands"), far=240)
        self._build()
        self.add_button.clicked.connect(self.add_wanted)
        self.remove_button.clicked.connect(self.remove_wanted)
        self.change_button.clicked.connect(lambda _=False: self.change_wanted.emit(""))
        self.places.wanted.connect(self._go)
        shelf.suggested.connect(self._show_near)
        shelf.arrived.connect(self._on_dictionary)

    def _build(self) -> None:
        used = theme()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        head = QVBoxLayout()
        head.setContentsMargins(used.px(16), used.px(12), used.px(16), used.px(12))
        head.setSpacing(used.px(8))
        for part in (self.word, self.about, self.near):
            head.addWidget(part)
        row = QHBoxLayout()
        row.setSpacing(used.px(8))
        for button in (self.add_button, self.change_button, self.remove_button):
            row.addWidget(button)
        row.addStretch(1)
        head.addLayout(row)
        column.addLayout(head)
        column.addWidget(line())
        column.addWidget(self.places, 1)

    # ---- showing -----------------------------------------------------------------

    def show_own(self, word: str) -> None:
        """Show one of the clinic's own words."""
        self._unknown = None
        self._show(word, tr("Accepted in every text of this library."), own=True)
        self.places.rows.show_rows(0, self.places.rows.row)

    def show_unknown(self, unknown: Unknown, library: Library) -> None:
        """Show an unknown word, and look for what may have been meant."""
        self._unknown = unknown
        times = tr_n("It stands {n} time.", "It stands {n} times.", unknown.count)
        self._show(unknown.word, times, own=False)
        places, word = unknown.places, unknown.word
        self.places.rows.show_rows(len(places), lambda row: place_row(places[row], word, library))
        self.places.choose(0)
        self._ask_near()

    def _show(self, word: str, about: str, *, own: bool) -> None:
        self.word.setText(word)
        self.about.setText(about)
        self.add_button.setVisible(not own)
        self.change_button.setVisible(not own)
        self.remove_button.setVisible(own)
        self._clear_near()

    def _go(self, row: int) -> None:
        if self._unknown is not None and 0 <= row < len(self._unknown.places):
            self.place_wanted.emit(self._unknown.places[row])

    # ---- what may have been meant ---------------------------------------------------

    def _ask_near(self) -> None:
        unknown = self._unknown
        if unknown is not None and self._shelf.dictionary(unknown.language) is not None:
            self._shelf.suggest(unknown.language, unknown.word)

    def _on_dictionary(self, language: str) -> None:
        if self._unknown is not None and self._unknown.language == language:
            self._ask_near()

    def _clear_near(self) -> None:
        while (item := self._flow.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.deleteLater()
        self.near.hide()

    def _show_near(self, language: str, word: str, words: tuple[str, ...]) -> None:
        unknown = self._unknown
        if unknown is None or (unknown.language, unknown.word) != (language, word):
            return
        self._clear_near()
        self._flow.addWidget(label(tr("Change everywhere to"), Type.SMALL, soft=True))
        for other in words:
            button = QPushButton(other)
            button.setProperty("chip", True)
            button.setAccessibleName(tr("Change everywhere to “{word}”", word=other))
            button.clicked.connect(lambda _=False, new=other: self.change_wanted.emit(new))
            self._flow.addWidget(button)
        self.near.setVisible(bool(words))
