"""Last questions: minutes, days, language and print size of the handout."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout

from authoring.editor.i18n import language_name, tr
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.fields.choices import PlainChoice
from authoring.editor.parts.fields.lines import WholeField
from authoring.editor.session import Session
from authoring.editor.shapes import shapes_of
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.letters import Letters
from authoring.editor.tailor.section import Section
from authoring.editor.theme import theme
from authoring.handout.catalogue import languages
from authoring.model.base import evolve
from authoring.model.patient import Presentation
from authoring.model.vocabulary import TypeSize


class Frame(Section):
    """How long, how often, and how it is printed."""

    def __init__(self, session: Session, desk: Desk) -> None:
        super().__init__(desk)
        self.rows.setSpacing(theme().px(12))
        known = {shape.name: shape.known for shape in shapes_of(Presentation)}
        self.minutes = WholeField(known["minutes"], optional=True)
        self.days = WholeField(known["days_per_week"], optional=True)
        self.type_size: Letters[TypeSize] = Letters(
            tr("Print size"),
            ((TypeSize.STANDARD, tr("Standard")), (TypeSize.LARGE, tr("Large"))),
        )
        own = session.library.manifest.language
        tags = sorted({own, *languages()}, key=lambda tag: language_name(tag).casefold())
        self.language = PlainChoice(
            [(None, tr("As the clinic")), *((t, language_name(t)) for t in tags)]
        )
        self._connect()
        row = QHBoxLayout()
        row.setSpacing(theme().px(12))
        row.addWidget(FieldRow(tr("Minutes"), self.minutes), 1)
        row.addWidget(FieldRow(tr("Days a week"), self.days), 1)
        self.rows.addLayout(row)
        self.rows.addWidget(FieldRow(tr("Print size"), self.type_size))
        self.rows.addWidget(FieldRow(tr("Handout language"), self.language))

    def _connect(self) -> None:
        self.minutes.edited.connect(
            lambda n: self.answer(tr("Minutes"), lambda p: evolve(p, minutes=n), "minutes")
        )
        self.days.edited.connect(
            lambda n: self.answer(tr("Days a week"), lambda p: evolve(p, days_per_week=n), "days")
        )
        self.type_size.chosen.connect(
            lambda size: self.answer(tr("Print size"), lambda p: evolve(p, print_size=size))
        )
        self.language.edited.connect(
            lambda tag: self.answer(tr("Handout language"), lambda p: evolve(p, language=tag))
        )
        for field in (self.minutes, self.days):
            field.ended.connect(self.desk.seal)

    def show_work(self) -> None:
        now = self.desk.work.presentation
        if self.minutes.value != now.minutes:
            self.minutes.show_value(now.minutes)
        if self.days.value != now.days_per_week:
            self.days.show_value(now.days_per_week)
        self.type_size.choose(now.print_size)
        self.language.show_value(now.language)
