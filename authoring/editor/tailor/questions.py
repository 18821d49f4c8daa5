"""The left pane: all that a physio asks, on one page, in the order in which it is asked."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.session import Session
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.facts_section import SIDES, Facts, fact_sections
from authoring.editor.tailor.flags_section import Flags
from authoring.editor.tailor.frame_section import Frame
from authoring.editor.tailor.kit_section import Kit
from authoring.editor.tailor.pain_section import Pains
from authoring.editor.tailor.who_section import Sources, Who
from authoring.editor.theme import theme
from authoring.model.vocabulary import Side

_WIDE = 364


class Questions(QScrollArea):
    """Every section below the other, with one scroll bar."""

    def __init__(self, session: Session, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(tr("The patient"))
        self.setProperty("pane", True)
        self.setFixedWidth(theme().px(_WIDE) + theme().px(16))
        self.sources = Sources(session, desk)
        self.who = Who(desk)
        self.flags = Flags(session, desk)
        self.pains = Pains(session, desk)
        self.dates, self.avoid, self.body = fact_sections(session, desk)
        self.sides = Facts(
            session, desk, tr("What differs between the sides"), SIDES, is_open=False
        )
        self.kit = Kit(session, desk)
        self.frame = Frame(session, desk)
        self.sections = (
            self.sources,
            self.who,
            self.sides,
            self.flags,
            self.pains,
            self.dates,
            self.avoid,
            self.kit,
            self.frame,
            self.body,
        )
        body = QWidget()
        rows = QVBoxLayout(body)
        # Room for the focus ring, which lies outside what has the focus.
        rows.setContentsMargins(theme().px(8), theme().px(8), theme().px(8), theme().px(8))
        rows.setSpacing(theme().px(16))
        for section in self.sections:
            rows.addWidget(section)
        rows.addStretch(1)
        self.setWidget(body)
        desk.name_wanted.connect(self._ask_name)

    def _ask_name(self) -> None:
        self.who.ask_name()
        self.ensureWidgetVisible(self.who.clinician_row)

    def show_work(self) -> None:
        """Show the work as it stands, in every section."""
        for section in self.sections:
            section.show_work()
        self.sides.setVisible(self._desk.work.presentation.side is Side.BOTH)
