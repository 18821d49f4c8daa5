"""The work queue: what needs attention, by kind; Enter goes there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFrame, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from authoring.editor.i18n import tr, tr_n
from authoring.editor.library_room.attention import (
    PRESSING,
    Group,
    Item,
    Situation,
    gather,
    group_words,
)
from authoring.editor.library_room.empty import EmptyPage
from authoring.editor.library_room.faces import Line
from authoring.editor.library_room.page import LibraryPage
from authoring.editor.library_room.rows import Row, RowList
from authoring.editor.parts.labels import label, line
from authoring.editor.parts.marks import Mark
from authoring.editor.protocol_checks import today
from authoring.editor.room import KeyHint
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.editor.workers import LatestTask, Token, sentence_of
from authoring.files.history import ApprovedVersions
from authoring.model.library import Library

_MARKS = {
    Group.FILES: Mark.MUST,
    Group.CHANGED: Mark.MUST,
    Group.MUST: Mark.MUST,
    Group.OVERDUE: Mark.SHOULD,
    Group.IN_REVIEW: Mark.SHOULD,
    Group.DRAFT: Mark.MAY,
    Group.SOON: Mark.MAY,
    Group.SHOULD: Mark.SHOULD,
    Group.MAY: Mark.MAY,
}


class AttentionPage(LibraryPage):
    """Groups of work on one side, the work of the chosen group on the other."""

    def __init__(
        self,
        session: Session,
        parent: QWidget | None = None,
        *,
        open_folder: Callable[[Path], object] | None = None,
    ) -> None:
        """Args:
        open_folder: shows a folder in the system's own file manager.
        """
        super().__init__(session, parent)
        self._open_folder = open_folder or _open_folder
        self._versions = ApprovedVersions(session.document.folder)
        self._items: tuple[Item, ...] = ()
        self._groups: list[Group | None] = [None]
        self._seen: tuple[Item, ...] = ()
        self.groups = RowList(tr("Kinds of work"), low=True, far=48)
        self.list = RowList(tr("What needs attention"), far=380)
        self.count = label(style=Type.SMALL, soft=True)
        self.stack = QStackedWidget()
        self.task = LatestTask(_gather, delay_ms=100, parent=self)
        self._build()
        self.task.done.connect(self._take)
        self.task.failed.connect(lambda error: self.count.setText(sentence_of(error)))
        session.checks.changed.connect(self._on_checks)
        self.groups.shown.connect(self._show_group)
        self.groups.wanted.connect(lambda _row: self.list.setFocus())
        self.list.wanted.connect(self.go)

    def _build(self) -> None:
        used = theme()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(used.px(16))
        side = QFrame()
        side.setProperty("panel", True)
        side.setFixedWidth(used.px(290))
        inside = QVBoxLayout(side)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.addWidget(self.groups)
        layout.addWidget(side)
        sheet = QFrame()
        sheet.setProperty("panel", True)
        column = QVBoxLayout(sheet)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(0)
        head = QHBoxLayout()
        head.setContentsMargins(used.px(14), used.px(8), used.px(14), used.px(8))
        head.addWidget(self.count, 1)
        column.addLayout(head)
        column.addWidget(line())
        self.stack.addWidget(self.list)
        self.stack.addWidget(_nothing())
        column.addWidget(self.stack, 1)
        layout.addWidget(sheet, 1)

    # ---- gathering ---------------------------------------------------------------

    def refresh(self, before: Library, after: Library) -> None:
        """Gather the work of the library as it is."""
        self.ask()

    def _on_checks(self) -> None:
        if self.isVisible():
            self.ask()

    def ask(self) -> None:
        """Gather the work, away from the window."""
        document = self.session.document
        self.task.ask(
            Situation(
                document.library,
                document.opened.problems,
                self.session.checks.results,
                self._versions,
                today(),
            )
        )

    def _take(self, items: tuple[Item, ...]) -> None:
        chosen = self._groups[self.groups.current] if self.groups.current >= 0 else None
        self._items = items
        kept = [group for group in Group if any(item.group is group for item in items)]
        self._groups = [None, *kept]
        self.groups.rows.show_rows(len(self._groups), self._group_row)
        row = self._groups.index(chosen) if chosen in self._groups else 0
        self.groups.choose(row)
        self._show_group(row)
        number = sum(item.group in PRESSING for item in items)
        self.counted.emit(str(number) if number else "")

    # ---- showing -----------------------------------------------------------------

    def _group_row(self, row: int) -> Row:
        group = self._groups[row]
        words = tr("Everything") if group is None else group_words(group)
        number = sum(group in (None, item.group) for item in self._items)
        return Row(
            Line(words),
            far=str(number),
            mark=Mark.GOOD if group is None and not number else None,
            spoken=f"{words}, {number}",
        )

    def _show_group(self, row: int) -> None:
        if not 0 <= row < len(self._groups):
            return
        group = self._groups[row]
        self._seen = tuple(item for item in self._items if group in (None, item.group))
        self.list.rows.show_rows(len(self._seen), self._item_row)
        self.list.choose(0)
        self.stack.setCurrentIndex(0 if self._seen else 1)
        self.count.setText(self._count_words(len(self._seen)))
        self.moved.emit()

    def _count_words(self, number: int) -> str:
        words = tr_n("{n} thing to look at.", "{n} things to look at.", number) if number else ""
        if self.session.checks.task.is_busy:
            words = f"{words} {tr('The Protocol checks are still running.')}".strip()
        return words

    def _item_row(self, row: int) -> Row:
        item = self._seen[row]
        return Row(
            Line(item.title),
            Line(item.sentence),
            far=group_words(item.group),
            far_below=item.mend,
            mark=_MARKS[item.group],
            spoken=f"{item.title}. {group_words(item.group)}. {item.sentence} {item.mend}",
        )

    # ---- going there -------------------------------------------------------------

    def go(self, row: int) -> None:
        """Go where the work is; a file that could not be read is shown in its folder."""
        item = self._seen[row]
        if item.place is not None:
            self.session.go_to(item.place)
        elif item.file is not None:
            self._open_folder(item.file if item.file.is_dir() else item.file.parent)

    def focus_first(self) -> None:
        """Put the focus on the work."""
        (self.list if self._seen else self.groups).setFocus()

    def hints(self) -> Sequence[KeyHint]:
        """Keys of the lists."""
        return (KeyHint("↑ ↓", tr("choose")), KeyHint(tr("Enter"), tr("go there")))


def _gather(situation: Situation, token: Token) -> tuple[Item, ...]:
    return gather(situation, token.check)


def _open_folder(folder: Path) -> None:
    QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder)))


def _nothing() -> EmptyPage:
    page = EmptyPage()
    words = tr(
        "Here you will find reviews that are due, drafts, results of the Protocol checks, "
        "approved protocols whose cards have changed, and files that could not be read."
    )
    page.say(tr("Nothing needs attention"), words)
    return page
