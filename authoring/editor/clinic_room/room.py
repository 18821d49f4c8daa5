"""The clinic room: fields by section on one side, the page as it prints on the other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from authoring.checks.result import CheckResult, Subject
from authoring.editor.clinic_room.section import Section
from authoring.editor.clinic_room.sections import Part, make_section, part_of, part_words
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.library_edits import with_clinic
from authoring.editor.page.making import MadePage, make_page
from authoring.editor.page.notices import Notice
from authoring.editor.page.preview import Preview, kept_images
from authoring.editor.page.sheets import PageView
from authoring.editor.page.wish import PageFault, PageJob, PageWish
from authoring.editor.parts.check_strip import CheckStrip
from authoring.editor.parts.empty_page import EmptyPage
from authoring.editor.parts.labels import ElidedLabel, label
from authoring.editor.parts.marks import Mark
from authoring.editor.parts.segmented import Segmented
from authoring.editor.place import Place
from authoring.editor.place_words import words_of_place
from authoring.editor.room import KeyHint, Room
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.editor.workers import Token
from authoring.model.base import evolve
from authoring.model.clinic import Clinic
from authoring.model.library import Library
from authoring.model.text import Text

_PART = "clinic/part"
_STRIP = 132
_FORM = 800
_SAMPLED = (Part.EMERGENCY, Part.PAIN)
"""Sections whose sample page shows the stop box and the pain rule alone."""


def _make(job: PageJob, token: Token) -> MadePage:
    if job.wish.subject is not Subject.CLINIC:
        return make_page(job, token)
    from authoring.editor.clinic_room.sample import make_sample  # noqa: PLC0415  (slow to import)

    return make_sample(job, token)


class ClinicRoom(Room):
    """Edit the clinic, and see what its pages become."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.sections: dict[Part, Section] = {}
        kept = session.settings.kept(_PART)
        self.part = Part(kept) if kept in list(Part) else Part.CONTACT
        self.view = PageView(only_first=True)
        self.view.setProperty("pane", True)
        self.preview = Preview(self.view, _make, self)
        self.notice = Notice()
        self.strip = CheckStrip(session, _is_ours, self._place_words)
        self.strip.setMaximumHeight(theme().px(_STRIP))
        self._build()
        # Methods, no lambdas: Qt lets go of a method when the room goes.
        session.checks.changed.connect(self._show_checks)
        session.text_language_changed.connect(self._rebuild)
        session.protocol_chosen.connect(self._ask)
        self.preview.shown.connect(self._say)
        self.preview.failed.connect(self._say)
        for number, part in enumerate(Part, 1):
            name = tr("Clinic: {section}", section=part_words(part))
            self.add_command(name, partial(self._go_to_part, part), keys=f"Alt+{number}")

    # ---- building -------------------------------------------------------------

    def _build(self) -> None:
        used = theme()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(used.px(24), used.px(12), used.px(24), used.px(12))
        layout.setSpacing(used.px(12))
        layout.addLayout(self._title_row())
        self.body = QWidget()
        choices = [(part, part_words(part)) for part in Part]
        self.tabs = Segmented(tr("Section"), choices, self.part)
        self.tabs.chosen.connect(self.show_part)
        below = QVBoxLayout(self.body)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(used.px(8))
        below.addWidget(self.tabs, 0, Qt.AlignmentFlag.AlignLeading)
        columns = QHBoxLayout()
        columns.setSpacing(used.px(16))
        below.addLayout(columns, 1)
        columns.addLayout(self._form_column(), 5)
        columns.addLayout(self._page_column(), 4)
        layout.addWidget(self.body, 1)
        layout.addWidget(self.strip)
        self.empty = self._empty_page()
        layout.addWidget(self.empty, 1)

    def _title_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(theme().px(12))
        self.title_words = ElidedLabel(style=Type.TITLE)
        self.whole = QPushButton(tr("See the whole page"))
        self.whole.setProperty("main", True)
        self.whole.clicked.connect(lambda: self.session.open_room("handouts"))
        row.addWidget(self.title_words)
        row.addStretch(1)
        row.addWidget(self.whole)
        return row

    def _form_column(self) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(theme().px(8))
        self.stack = QStackedWidget()
        self.panel = QFrame()
        self.panel.setProperty("panel", True)
        self.panel.setProperty("pane", True)
        inside = QVBoxLayout(self.panel)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.addWidget(self.stack)
        self.panel.setMaximumWidth(theme().px(_FORM))
        column.addWidget(self.panel, 1)
        return column

    def _page_column(self) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(theme().px(8))
        self.heading = label(style=Type.STRONG)
        column.addWidget(self.heading)
        column.addWidget(self.notice)
        column.addWidget(self.view, 1)
        return column

    def _empty_page(self) -> QWidget:
        words = tr(
            "Handouts carry the clinic's name and colours, and say whom a patient calls. "
            "Without a clinic no page can be made."
        )
        self.begin_button = QPushButton(tr("Set up the clinic"))
        self.begin_button.clicked.connect(self.begin)
        return EmptyPage(tr("No clinic yet"), words, self.begin_button)

    # ---- what the window asks -----------------------------------------------------

    def title(self) -> str:
        """The clinic's name."""
        clinic = self.session.library.clinic
        return clinic.name.best(clinic.language, clinic.language) if clinic is not None else ""

    def key_hints(self) -> Sequence[KeyHint]:
        """Keys of the room."""
        return (
            KeyHint(f"Alt 1–{len(Part)}", tr("section")),
            KeyHint("Tab", tr("next field")),
            KeyHint("F6", tr("next pane")),
            KeyHint("F8", tr("next check")),
            KeyHint("Ctrl Z", tr("undo")),
        )

    def focus_first(self) -> None:
        """Put the focus on the sections."""
        if self.session.library.clinic is None:
            self.begin_button.setFocus()
        else:
            self.tabs.button(self.part).setFocus()

    def refresh(self, before: Library, after: Library) -> None:
        """Show the clinic as it is, and the page made of it."""
        clinic = after.clinic
        self.body.setVisible(clinic is not None)
        self.whole.setVisible(clinic is not None)
        self.empty.setVisible(clinic is None)
        self.title_words.setText(self.title() or tr("Clinic"))
        if clinic is None:
            self._forget_sections()
            self.strip.hide()
            return
        for section in self.sections.values():
            section.show_clinic(clinic)
        self.show_part(self.part)
        if before is after or before.clinic is not after.clinic or before != after:
            self._ask()

    def show_place(self, subject: Subject, subject_id: str, path: str) -> None:
        """Show the field that a check or a search hit is about."""
        part = part_of(path)
        self.show_part(part)
        section = self.sections.get(part)
        if section is not None:
            section.focus_path(path)

    # ---- sections -------------------------------------------------------------------

    def show_part(self, part: Part) -> None:
        """Show a section; it is made when it is first shown."""
        clinic = self.session.library.clinic
        if clinic is None:
            return
        changed, self.part = part is not self.part, part
        self.session.settings.keep(_PART, part.value)
        self.tabs.choose(part)
        if part not in self.sections:
            self._make_section(part, clinic)
        self.stack.setCurrentIndex(list(self.sections).index(part))
        sampled = part in _SAMPLED
        self.heading.setText(
            tr("A sample of the stop box and the pain rule")
            if sampled
            else tr("Page 1, as it prints")
        )
        self._show_checks()
        if changed:
            self._ask()

    def _go_to_part(self, part: Part) -> None:
        self.show_part(part)
        self.tabs.button(part).setFocus()

    def _make_section(self, part: Part, clinic: Clinic) -> None:
        section = make_section(part, clinic, FormContext.of_clinic(self.session))
        section.edited.connect(self._edit)
        section.ended.connect(self.session.document.seal)
        self.sections[part] = section
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(section)
        self.stack.addWidget(scroll)

    def _forget_sections(self) -> None:
        self.sections.clear()
        while (page := self.stack.widget(0)) is not None:
            self.stack.removeWidget(page)
            page.deleteLater()

    def _rebuild(self, _language: str = "") -> None:
        """Make the sections anew, for texts in another language."""
        self._forget_sections()
        self.show_part(self.part)

    def _edit(self, changes: Mapping[str, Any], name: str, key: str) -> None:
        def change(library: Library) -> Library:
            clinic = library.clinic
            return library if clinic is None else with_clinic(library, evolve(clinic, **changes))

        self.session.document.edit(name, change, merge_key=key)

    def begin(self) -> None:
        """Give the library a clinic with the library's own name."""
        manifest = self.session.library.manifest
        clinic = Clinic(language=manifest.language, name=Text.plain(manifest.name))
        document = self.session.document
        if document.edit(tr("Set up the clinic"), lambda library: with_clinic(library, clinic)):
            self.show_part(Part.CONTACT)
            self.sections[Part.CONTACT].focus_path("name")

    # ---- checks -----------------------------------------------------------------------

    def _place_words(self, result: CheckResult) -> str:
        return words_of_place(self.session.library, Place.of(result))

    def _show_checks(self) -> None:
        results = self.session.checks.about(Subject.CLINIC)
        for section in self.sections.values():
            section.show_checks(results)
        for part in Part:
            count = sum(part_of(result.path) is part for result in results)
            words = part_words(part)
            self.tabs.say(part, f"{words}  {count}" if count else words)
        self.strip.setVisible(bool(results) and self.session.library.clinic is not None)

    # ---- the page -----------------------------------------------------------------------

    def _ask(self, _protocol: str = "") -> None:
        session = self.session
        if not self.isVisible() or session.library.clinic is None:
            return
        images = kept_images(session)
        job = PageJob(session.library, session.document.opened, images, self._wish(), draft=False)
        self.preview.ask(job)

    def _wish(self) -> PageWish:
        """The first page of a handout, or the sample where that says more."""
        protocol, card = self.session.protocol, self.session.card
        if self.part not in _SAMPLED and protocol is not None:
            stages = (1,) if len(protocol.stages) > 1 else ()
            return PageWish(Subject.PROTOCOL, protocol.id, stages)
        if self.part not in _SAMPLED and card is not None:
            return PageWish(Subject.CARD, card.id)
        return PageWish(Subject.CLINIC, "")

    def _say(self, result: object) -> None:
        if not isinstance(result, PageFault):
            self.notice.say("")
            return
        place = result.place
        if place is None:
            self.notice.say(result.sentence, Mark.MUST)
        else:
            self.notice.say(
                result.sentence, Mark.MUST, tr("Mend it"), lambda: self.session.go_to(place)
            )


def _is_ours(result: CheckResult) -> bool:
    return result.subject is Subject.CLINIC
