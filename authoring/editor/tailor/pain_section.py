"""How easily it flares up, and pain: at rest, next morning, and with each exercise."""

from __future__ import annotations

from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.labels import label
from authoring.editor.session import Session
from authoring.editor.tailor.answers import limit_of, pain_with, with_during
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.letters import Letters
from authoring.editor.tailor.pain_row import PainRow
from authoring.editor.tailor.section import Section
from authoring.editor.tailor.work import library_of
from authoring.editor.theme import Type, theme
from authoring.model.base import evolve
from authoring.model.vocabulary import Irritability


class Pains(Section):
    """Irritability and the pain rows; one row for each exercise of the plan."""

    def __init__(self, session: Session, desk: Desk) -> None:
        super().__init__(desk)
        self._session = session
        self.rows.setSpacing(theme().px(8))
        levels = (
            (Irritability.LOW, tr("Low")),
            (Irritability.MODERATE, tr("Moderate")),
            (Irritability.HIGH, tr("High")),
        )
        self.irritability: Letters[Irritability] = Letters(tr("Irritability"), levels)
        self.irritability.chosen.connect(
            lambda level: self.answer(tr("Irritability"), lambda p: evolve(p, irritability=level))
        )
        self.rows.addWidget(FieldRow(tr("Irritability"), self.irritability))
        head = QHBoxLayout()
        head.addWidget(label(tr("Pain, 0 to 10"), Type.SMALL, soft=True))
        head.addStretch(1)
        self.allowed = label(style=Type.SMALL, soft=True)
        head.addWidget(self.allowed)
        self.rows.addLayout(head)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(theme().px(8))
        self._grid.setVerticalSpacing(theme().px(8))
        self._grid.setColumnStretch(1, 1)
        self.rows.addLayout(self._grid)
        self.rest = self._row(0, tr("At rest"))
        self.rest.chosen.connect(
            lambda pain: self.answer(tr("Pain at rest"), lambda p: evolve(p, rest_pain=pain))
        )
        self.morning = self._row(1, tr("Next morning"))
        self.morning.chosen.connect(
            lambda pain: self.answer(
                tr("Pain next morning"), lambda p: evolve(p, morning_pain=pain)
            )
        )
        self.with_card: dict[str, PainRow] = {}
        self._names: list[QLabel] = []

    def _row(self, at: int, name: str) -> PainRow:
        row = PainRow(name)
        words = label(name, Type.SMALL, wrap=True)
        words.setFixedWidth(theme().px(92))
        self._grid.addWidget(words, at, 0, Qt.AlignmentFlag.AlignVCenter)
        self._grid.addWidget(row, at, 1)
        return row

    def show_work(self) -> None:
        now = self.desk.work
        library = library_of(now, self._session.library)
        used = [library.protocols[one] for one in now.protocols if one in library.protocols]
        limit = limit_of(library, used)
        self.allowed.setText(
            "" if limit is None else tr("this protocol allows {n}", n=f"{limit:g}")
        )
        self.irritability.choose(now.presentation.irritability)
        self.rest.show_pain(now.presentation.rest_pain, limit)
        self.morning.show_pain(now.presentation.morning_pain, limit)
        plan = now.plan
        of_plan = [item.card for item in plan.items] if plan is not None else []
        scored = [pain.card for pain in now.presentation.pains if pain.card]
        cards = tuple(dict.fromkeys((*of_plan, *scored)))
        if cards != tuple(self.with_card):
            self._rebuild(cards)
        for card, row in self.with_card.items():
            found = pain_with(now.presentation, card)
            row.show_pain(found.during if found is not None else None, limit)

    def _rebuild(self, cards: tuple[str, ...]) -> None:
        """Rows are kept where their exercise stays, so that the focus stays, too."""
        library = library_of(self.desk.work, self._session.library)
        while self._grid.count() > 4:
            taken = self._grid.takeAt(4)
            widget = taken.widget() if taken is not None else None
            if isinstance(widget, QLabel):
                widget.deleteLater()
        kept, self.with_card = self.with_card, {}
        for at, card in enumerate(cards, 2):
            known = library.cards.get(card)
            name = known.title.best(known.language, known.language) if known else card
            words = label(name, Type.SMALL, wrap=True)
            words.setFixedWidth(theme().px(92))
            row = kept.pop(card, None) or self._new(card, name)
            self.with_card[card] = row
            self._grid.addWidget(words, at, 0, Qt.AlignmentFlag.AlignVCenter)
            self._grid.addWidget(row, at, 1)
        for row in kept.values():
            row.deleteLater()
        self._chain()

    def _new(self, card: str, name: str) -> PainRow:
        row = PainRow(tr("Pain with {exercise}", exercise=name))
        row.chosen.connect(
            lambda pain: self.answer(
                tr("Pain with an exercise"),
                lambda p: with_during(p, card, pain),
            )
        )
        return row

    def _chain(self) -> None:
        rows = [self.morning, *self.with_card.values()]
        for one, following in pairwise(rows):
            QWidget.setTabOrder(one, following)
