"""The tailor room: the patient on the left, the plan in the middle, the pages on the right."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import QEvent, QStandardPaths, Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QFileDialog,
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.i18n import day_words, tr
from authoring.editor.page.files import Format
from authoring.editor.page.notices import WorkLine
from authoring.editor.page.outlet import Outlet
from authoring.editor.room import KeyHint, Room
from authoring.editor.session import Session
from authoring.editor.tailor import plans_folder
from authoring.editor.tailor.desk import desk_of
from authoring.editor.tailor.going_out import Going, going
from authoring.editor.tailor.head_row import HeadRow
from authoring.editor.tailor.item_view import ItemView
from authoring.editor.tailor.middle import Middle
from authoring.editor.tailor.notes import notes_of
from authoring.editor.tailor.page_pane import PagePane
from authoring.editor.tailor.plan_pane import PlanPane
from authoring.editor.tailor.questions import Questions
from authoring.editor.theme import theme
from authoring.handout.document import PageSize
from authoring.model.library import Library
from authoring.model.vocabulary import OverrideKind

_FEWEST_ACTIONS = 4
"""Entries of the menu of plans, separators included, where at least one plan is listed."""


class TailorRoom(Room):
    """Answer, see, print, without a dialog."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.desk = desk_of(session)
        self._going = Going(may=False)
        self.head = HeadRow()
        self.questions = Questions(session, self.desk)
        self.plan_pane = PlanPane(session, self.desk)
        self.middle = Middle(session, self.desk, self.plan_pane)
        self.page = PagePane(session, self.desk)
        self.work = WorkLine()
        self.outlet = Outlet(session, self)
        self.ask_folder = ask_for_folder
        self._build()
        self._connect()
        self._add_commands()

    def _build(self) -> None:
        used = theme()
        rows = QVBoxLayout(self)
        rows.setContentsMargins(used.px(16), used.px(12), used.px(24), used.px(12))
        rows.setSpacing(used.px(12))
        rows.addWidget(self.head)
        rows.addWidget(self.work)
        columns = QHBoxLayout()
        columns.setSpacing(used.px(12))
        columns.addWidget(self.questions)
        columns.addWidget(self.middle, 5)
        columns.addWidget(self.page, 4)
        rows.addLayout(columns, 1)

    def _connect(self) -> None:
        head = self.head
        head.plans_wanted.connect(self._list_plans)
        head.review_wanted.connect(self.middle.begin_review)
        head.save_wanted.connect(self.save_plan)
        head.notes_wanted.connect(self.copy_notes)
        head.file_wanted.connect(self.save_page)
        head.print_wanted.connect(self.print_page)
        self.desk.changed.connect(self.show_work)
        self.middle.turned.connect(self._show_going)
        self.page.preview.shown.connect(self._show_going)
        self.page.preview.failed.connect(self._show_going)
        self.outlet.busy_changed.connect(self.work.begin)
        self.outlet.slow.connect(self.work.show)
        self.outlet.progressed.connect(self.work.show_progress)
        self.work.stop_wanted.connect(self.outlet.cancel)

    def _add_commands(self) -> None:
        self.add_command(tr("Print"), self.print_page, keys="Ctrl+P")
        self.add_command(tr("Save the page"), lambda: self.save_page(Format.PDF), keys="Ctrl+E")
        self.add_command(tr("Save the page for Word"), lambda: self.save_page(Format.WORD))
        self.add_command(tr("Save the page for the web"), lambda: self.save_page(Format.WEB))
        self.add_command(tr("Copy the plan for the notes"), self.copy_notes, keys="Ctrl+Shift+C")
        self.add_command(tr("Save the plan"), self.save_plan, keys="Ctrl+Shift+S")
        self.add_command(tr("New plan"), self.desk.begin, keys="Ctrl+Shift+N")
        self.add_command(tr("Review the plan"), self.middle.begin_review, keys="Ctrl+Shift+R")
        self.add_command(tr("Folder for plans…"), self.choose_folder)
        self.add_command(tr("Harder"), lambda: self._step(1), keys="Alt+Up")
        self.add_command(tr("Easier"), lambda: self._step(-1), keys="Alt+Down")
        self.add_command(tr("Take out of the plan"), self._take_out, keys="Alt+Del")
        self.add_command(tr("Undo in the plan"), self.desk.undo)
        self.add_command(tr("Redo in the plan"), self.desk.redo)
        self.add_command(tr("Next page"), lambda: self.page.turn(1), keys="Ctrl+PgDown")
        self.add_command(tr("Previous page"), lambda: self.page.turn(-1), keys="Ctrl+PgUp")

    # ---- what the window asks -------------------------------------------------------

    def title(self) -> str:
        """Whose plan it is."""
        label = self.desk.work.presentation.label
        return tr("Plan for {label}", label=label) if label else tr("New plan")

    def key_hints(self) -> Sequence[KeyHint]:
        """Keys for the questions and the plan."""
        return (
            KeyHint("0–9", tr("answer")),
            KeyHint("Tab", tr("next question")),
            KeyHint("F6", tr("next pane")),
            KeyHint("Alt ↑ ↓", tr("harder, easier")),
            KeyHint("Ctrl P", tr("print")),
            KeyHint("Ctrl Z", tr("undo in the plan")),
        )

    def focus_first(self) -> None:
        """Put the focus on the label."""
        self.questions.who.label.setFocus()

    def refresh(self, before: Library, after: Library) -> None:
        """The desk follows the library by itself; the pages follow the clinic."""
        self.show_work()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.show_work()

    def event(self, event: QEvent) -> bool:
        # The window's own keys for undo are about the library; here they are the plan's.
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.ShortcutOverride
            and (event.matches(QKeySequence.StandardKey.Undo) or _is_redo(event))
        ):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Undo):
            self.desk.undo()
        elif _is_redo(event):
            self.desk.redo()
        else:
            super().keyPressEvent(event)

    # ---- showing ----------------------------------------------------------------------

    def show_work(self) -> None:
        """Show the desk's work in all three panes."""
        if not self.isVisible():
            return
        self.head.title.setText(self.title())
        self.questions.show_work()
        self.plan_pane.show_work()
        self.middle.follow()
        plan = self.desk.plan
        self._going = going(plan)
        from_words = ""
        if plan is not None and plan.protocols:
            first = plan.protocols[0]
            from_words = tr(
                "from {title}, version {version}",
                title=first.title.best(first.language, first.language),
                version=first.version,
            )
        self.head.soft.setText(from_words)
        self.page.show_plan(self._going)
        self._show_going()

    def _show_going(self, *_made: object) -> None:
        state = self._going
        draft = state.is_draft or bool(self.page.because)
        failed = self.page.is_failed
        self.head.show_state(
            may=state.may and not failed,
            main=state.may and not draft and not failed and self.middle.review is None,
            draft=draft,
            why=state.sentence,
        )
        self.head.notes.setEnabled(self.desk.plan is not None)
        self.head.save.setEnabled(self.desk.plan is not None and self.desk.is_dirty)
        self.head.review.setEnabled(self.desk.plan is not None and bool(self.desk.plan.items))

    # ---- the plan ------------------------------------------------------------------------

    def _item(self) -> ItemView | None:
        widget = QApplication.focusWidget()
        while widget is not None and not isinstance(widget, ItemView):
            widget = widget.parentWidget()
        return widget

    def _step(self, step: int) -> None:
        view = self._item()
        if view is not None:
            self.plan_pane.step(view.face.id, step)

    def _take_out(self) -> None:
        view = self._item()
        if view is not None:
            self.plan_pane.decide(view.face.id, OverrideKind.REMOVED)

    # ---- where it goes --------------------------------------------------------------------

    def print_page(self) -> None:
        """Ask for a printer and print the plan's pages."""
        job = self.page.job()
        if job is None or not self._going.may:
            self.session.tell(self._going.sentence)
            return
        clinic = self.session.library.clinic
        paper = PageSize(clinic.paper.value) if clinic is not None else PageSize.A4
        self.outlet.print(job, paper, self.page.view.images.count)

    def save_page(self, kind: Format) -> None:
        """Ask for a file and save the plan's pages."""
        job = self.page.job()
        if job is None or not self._going.may:
            self.session.tell(self._going.sentence)
            return
        self.outlet.save(job, kind)

    def copy_notes(self) -> None:
        """Put the plan's text on the clipboard."""
        plan, face = self.desk.plan, self.plan_pane.face
        if plan is None or face is None:
            return
        QGuiApplication.clipboard().setText(notes_of(plan, face))
        self.session.tell(tr("The plan's text is on the clipboard."))

    def choose_folder(self) -> bool:
        """Ask for the folder that plans are kept in; it lies outside the library."""
        folder = self.ask_folder(self)
        return folder is not None and self.desk.choose_folder(folder)

    def save_plan(self) -> None:
        """Save the plan; the first time a folder is asked for."""
        if self.desk.plan is None or (self.desk.folder is None and not self.choose_folder()):
            return
        path = self.desk.save()
        if path is not None:
            self.session.tell(tr("Saved “{name}”.", name=path.name))

    def _list_plans(self) -> None:
        menu = self.head.plans_menu
        menu.clear()
        menu.addAction(tr("New plan")).triggered.connect(self.desk.begin)
        menu.addSeparator()
        menu.addSection(tr("Recent plans"))
        folder = self.desk.folder
        for kept in plans_folder.recent(folder) if folder is not None else ():
            action = menu.addAction(f"{kept.label}  {day_words(kept.day)}")
            action.triggered.connect(partial(self._open, kept.path))
        if len(menu.actions()) < _FEWEST_ACTIONS:
            menu.addAction(tr("None yet")).setEnabled(False)
        menu.addSeparator()
        menu.addAction(tr("Folder for plans…")).triggered.connect(self.choose_folder)

    def _open(self, path: Path, _checked: bool = False) -> None:
        self.desk.open(path)


def ask_for_folder(parent: QWidget | None) -> Path | None:
    """Ask with the system's own dialog."""
    place = QStandardPaths.StandardLocation.DocumentsLocation
    start = QStandardPaths.writableLocation(place)
    chosen = QFileDialog.getExistingDirectory(parent, tr("Folder for plans"), start)
    return Path(chosen) if chosen else None


def _is_redo(event: QKeyEvent) -> bool:
    control = Qt.KeyboardModifier.ControlModifier
    redo = event.key() == Qt.Key.Key_Y and event.modifiers() == control
    return redo or event.matches(QKeySequence.StandardKey.Redo)
