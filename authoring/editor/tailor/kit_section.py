"""Kit at home: what the exercises ask for, each with its real sizes."""

from __future__ import annotations

from PySide6.QtWidgets import QGridLayout, QLineEdit, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.ticks import Tick
from authoring.editor.session import Session
from authoring.editor.tailor.answers import (
    KitAsked,
    cards_used,
    kit_of,
    owned,
    sizes_of,
    with_kit,
)
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.section import Section
from authoring.editor.tailor.work import library_of
from authoring.editor.theme import theme
from authoring.model.base import said
from authoring.model.patient import OwnedKit


class KitRow:
    """A tick, a line for sizes where sizes matter, and a tick for a pair where two are needed."""

    def __init__(self, asked: KitAsked) -> None:
        self.asked = asked
        self.have = Tick(asked.name)
        self.sizes = QLineEdit()
        unit = asked.unit.value if asked.unit is not None else ""
        self.sizes.setPlaceholderText(tr("sizes, {unit}", unit=unit))
        self.sizes.setAccessibleName(tr("Sizes of {kit}, in {unit}", kit=asked.name, unit=unit))
        self.pair = Tick(tr("{n} of each", n=asked.count))
        self.pair.setAccessibleName(tr("{kit}: {n} of each", kit=asked.name, n=asked.count))

    def show_kit(self, found: OwnedKit | None) -> None:
        """Show it as the patient has it."""
        self.have.setChecked(found is not None)
        self.sizes.setVisible(found is not None and self.asked.unit is not None)
        self.pair.setVisible(found is not None and self.asked.count > 1)
        self.pair.setChecked(found is not None and found.count >= self.asked.count)
        if not self.sizes.hasFocus():
            self.sizes.setText(" ".join(map(said, found.sizes)) if found is not None else "")

    def taken(self) -> tuple[float, ...] | None:
        """The sizes as they stand; None where it is not at hand."""
        if not self.have.isChecked():
            return None
        return sizes_of(self.sizes.text()) or ()

    @property
    def count(self) -> int:
        """How many of each."""
        return self.asked.count if self.pair.isChecked() else 1


class Kit(Section):
    """Ticks for the kit that any exercise of the plan's sources needs."""

    def __init__(self, session: Session, desk: Desk) -> None:
        super().__init__(desk, tr("Kit at home"))
        self._session = session
        self._known: tuple[KitAsked, ...] = ()
        self.kit_rows: list[KitRow] = []
        self._body = QWidget()
        self.rows.addWidget(self._body)

    def show_work(self) -> None:
        now = self.desk.work
        library = library_of(now, self._session.library)
        own = library.manifest.language
        asked = kit_of(library, cards_used(library, now.protocols, now.cards), own)
        if asked != self._known:
            self._build(asked)
        self.setVisible(bool(asked))
        for row in self.kit_rows:
            row.show_kit(owned(now.presentation, row.asked.kit))

    def _build(self, asked: tuple[KitAsked, ...]) -> None:
        self._known = asked
        fresh = QWidget()
        grid = QGridLayout(fresh)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(theme().px(8))
        grid.setVerticalSpacing(theme().px(4))
        grid.setColumnStretch(0, 1)
        self.kit_rows = [KitRow(one) for one in asked]
        for at, row in enumerate(self.kit_rows):
            grid.addWidget(row.have, at, 0)
            grid.addWidget(row.sizes, at, 1)
            grid.addWidget(row.pair, at, 2)
            row.sizes.setMaximumWidth(theme().px(110))
            row.have.clicked.connect(lambda on, row=row: self._tick(row, on))
            row.pair.clicked.connect(lambda _=False, row=row: self._take(row))
            row.sizes.editingFinished.connect(lambda row=row: self._take(row))
        self.rows.replaceWidget(self._body, fresh)
        self._body.deleteLater()
        self._body = fresh

    def _tick(self, row: KitRow, on: bool) -> None:
        row.pair.setChecked(on and row.asked.count > 1)
        self._take(row)

    def _take(self, row: KitRow) -> None:
        sizes, count = row.taken(), row.count
        before = owned(self.desk.work.presentation, row.asked.kit)
        now = None if sizes is None else (sizes, count)
        if now == (None if before is None else (before.sizes, before.count)):
            return
        self.answer(tr("Kit at home"), lambda p: with_kit(p, row.asked, sizes, count))
