"""The fields of find and replace."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.i18n import own_name, tr
from authoring.editor.library_room.replacing import Wish
from authoring.editor.parts.labels import label
from authoring.editor.parts.ticks import Tick
from authoring.editor.theme import Type, theme
from authoring.model.edits.replace import Holder, Options


class ReplaceForm(QFrame):
    """What to find, what to put there, and where to look.

    Signals:
        changed(): another wish stands in the form.
        replace_wanted()
    """

    changed = Signal()
    replace_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("panel", True)
        self.setProperty("pane", True)
        self.find_field = QLineEdit()
        self.with_field = QLineEdit()
        self.case_box = Tick(tr("Match case"))
        self.whole_box = Tick(tr("Whole words only"))
        self.capital_box = Tick(tr("Keep capitals"))
        self.capital_box.setToolTip(tr("“Heel” becomes “Calf” where “heel” becomes “calf”."))
        self.capital_box.setAccessibleDescription(self.capital_box.toolTip())
        self.holders = {
            Holder.CARD: Tick(tr("Cards")),
            Holder.PROTOCOL: Tick(tr("Protocols")),
            Holder.CLINIC: Tick(tr("Clinic")),
            Holder.LIBRARY: Tick(tr("Words and kit")),
        }
        self.language = QComboBox()
        self.button = QPushButton(tr("Replace"))
        self.button.setProperty("main", True)
        self.warning = label(style=Type.SMALL, wrap=True)
        self._start()
        self._build()
        self._connect()

    def _start(self) -> None:
        self.whole_box.setChecked(True)
        self.capital_box.setChecked(True)
        for holder in (Holder.CARD, Holder.PROTOCOL):
            self.holders[holder].setChecked(True)
        self.language.addItem(tr("Any language"), "")

    def _build(self) -> None:
        used = theme()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(used.px(16), used.px(12), used.px(16), used.px(16))
        layout.setSpacing(used.px(4))
        layout.addWidget(label(tr("Find"), Type.SMALL, soft=True, buddy=self.find_field))
        layout.addWidget(self.find_field)
        layout.addSpacing(used.px(8))
        words = tr("Replace with")
        layout.addWidget(label(words, Type.SMALL, soft=True, buddy=self.with_field))
        layout.addWidget(self.with_field)
        layout.addSpacing(used.px(8))
        for box in (self.whole_box, self.case_box, self.capital_box):
            layout.addWidget(box)
        layout.addSpacing(used.px(8))
        layout.addWidget(label(tr("Where"), Type.SMALL, soft=True))
        for box in self.holders.values():
            layout.addWidget(box)
        layout.addSpacing(used.px(8))
        layout.addWidget(label(tr("Language"), Type.SMALL, soft=True, buddy=self.language))
        layout.addWidget(self.language)
        layout.addStretch(1)
        layout.addWidget(self.warning)
        layout.addSpacing(used.px(4))
        layout.addWidget(self.button)

    def _connect(self) -> None:
        for field in (self.find_field, self.with_field):
            field.textChanged.connect(self.changed)
            field.returnPressed.connect(self.replace_wanted)
        for box in (self.case_box, self.whole_box, self.capital_box, *self.holders.values()):
            box.toggled.connect(self.changed)
        self.language.currentIndexChanged.connect(self.changed)
        self.button.clicked.connect(self.replace_wanted)

    @property
    def wish(self) -> Wish:
        """What stands in the form."""
        return Wish(
            pattern=self.find_field.text(),
            new=self.with_field.text(),
            keep_capital=self.capital_box.isChecked(),
            options=Options(
                match_case=self.case_box.isChecked(),
                whole_words=self.whole_box.isChecked(),
                language=str(self.language.currentData() or ""),
                holders=frozenset(h for h, box in self.holders.items() if box.isChecked()),
            ),
        )

    def show_wish(self, wish: Wish) -> None:
        """Put a wish into the form."""
        options = wish.options
        self.blockSignals(True)
        self.find_field.setText(wish.pattern)
        self.with_field.setText(wish.new)
        self.case_box.setChecked(options.match_case)
        self.whole_box.setChecked(options.whole_words)
        self.capital_box.setChecked(wish.keep_capital)
        for holder, box in self.holders.items():
            box.setChecked(holder in options.holders)
        self._choose_language(options.language)
        self.blockSignals(False)
        self.changed.emit()

    def show_languages(self, tags: list[str]) -> None:
        """Offer these languages."""
        chosen = str(self.language.currentData() or "")
        known = [self.language.itemData(row) for row in range(1, self.language.count())]
        if known != tags:
            self.language.blockSignals(True)
            while self.language.count() > 1:
                self.language.removeItem(1)
            for tag in tags:
                self.language.addItem(f"{own_name(tag)} ({tag})", tag)
            self._choose_language(chosen)
            self.language.blockSignals(False)

    def _choose_language(self, tag: str) -> None:
        self.language.setCurrentIndex(max(self.language.findData(tag), 0))
