"""Words and kit: the library's terms, by kind, each in a form."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr, tr_n
from authoring.editor.library_room.edits import with_edited_term, without_term
from authoring.editor.library_room.faces import Line
from authoring.editor.library_room.page import LibraryPage
from authoring.editor.library_room.rows import Row, RowList
from authoring.editor.library_room.steering import Steering
from authoring.editor.library_room.terms import fitting, new_term, one_line, uses_of_terms
from authoring.editor.library_room.words import TERM_KINDS
from authoring.editor.parts.labels import label, line
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.place import steps
from authoring.editor.room import KeyHint
from authoring.editor.search.pieces import TermKey
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.editor.workers import LatestTask, Token
from authoring.model.base import Node
from authoring.model.library import Library, Term
from authoring.model.vocabulary import TermKind

_FIELDS = ("name", "patient_name", "also", "broader", "needs_caution", "side_lying", "codes")
_DEMANDING = {
    "needs_caution": (TermKind.DEMAND,),
    "side_lying": (TermKind.DEMAND, TermKind.POSITION),
}


class TermsPage(LibraryPage):
    """Kinds, terms of the chosen kind, and the chosen term in a form."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self._kind = next(iter(TERM_KINDS))
        self._terms: tuple[Term, ...] = ()
        self._uses: Mapping[TermKey, int] = {}
        self._term: Term | None = None
        self.form: NodeForm | None = None
        self.kinds = RowList(tr("Kinds of words"), low=True, far=48)
        self.list = RowList(tr("Terms"), far=110)
        self.field = QLineEdit()
        self.field.setPlaceholderText(tr("Find or add by name"))
        self.field.setAccessibleName(tr("Find or add a term by name"))
        self.add_button = QPushButton()
        self.remove_button = QPushButton(tr("Delete"))
        self.used = label(style=Type.SMALL, soft=True, wrap=True)
        self.stack = QStackedWidget()
        self.area = QScrollArea()
        self.area.setAccessibleName(tr("Words and kit"))
        self._empty = label(soft=True, wrap=True)
        self.task = LatestTask(_count, delay_ms=200, parent=self)
        self._build()
        self._connect()

    def _build(self) -> None:
        used = theme()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(used.px(16))
        self.kinds.setMinimumWidth(0)
        layout.addWidget(_sheet(self.kinds, used.px(200)))
        layout.addWidget(self._middle(), 3)
        layout.addWidget(self._side(), 4)

    def _middle(self) -> QWidget:
        used = theme()
        sheet = QFrame()
        sheet.setProperty("panel", True)
        column = QVBoxLayout(sheet)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(0)
        head = QHBoxLayout()
        head.setContentsMargins(used.px(12), used.px(12), used.px(12), used.px(8))
        head.setSpacing(used.px(8))
        head.addWidget(self.field, 1)
        head.addWidget(self.add_button)
        column.addLayout(head)
        column.addWidget(line())
        self.stack.addWidget(self.list)
        page = QWidget()
        inside = QVBoxLayout(page)
        inside.setContentsMargins(used.px(16), used.px(16), used.px(16), used.px(16))
        inside.addWidget(self._empty)
        inside.addStretch(1)
        self.stack.addWidget(page)
        column.addWidget(self.stack, 1)
        return sheet

    def _side(self) -> QWidget:
        used = theme()
        sheet = QFrame()
        sheet.setProperty("panel", True)
        sheet.setProperty("pane", True)
        column = QVBoxLayout(sheet)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(0)
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        column.addWidget(self.area, 1)
        column.addWidget(line())
        foot = QHBoxLayout()
        foot.setContentsMargins(used.px(16), used.px(8), used.px(12), used.px(8))
        foot.addWidget(self.used, 1)
        foot.addWidget(self.remove_button)
        column.addLayout(foot)
        return sheet

    def _connect(self) -> None:
        self.kinds.shown.connect(self._show_kind)
        self.kinds.wanted.connect(lambda _row: self.list.setFocus())
        self.list.shown.connect(self._show_term)
        self.list.wanted.connect(lambda _row: self._enter_form())
        self.field.textChanged.connect(lambda _words: self._show_terms())
        self.field.returnPressed.connect(self._on_enter)
        self._steering = Steering(self.field, self.list)
        self.add_button.clicked.connect(self.add)
        self.remove_button.clicked.connect(self.remove)
        self.task.done.connect(self._take_uses)

    # ---- showing -----------------------------------------------------------------

    def refresh(self, before: Library, after: Library) -> None:
        """Show the terms as they are."""
        if self.kinds.rows.rowCount() != len(TERM_KINDS):
            self.kinds.rows.show_rows(len(TERM_KINDS), self._kind_row)
            self.kinds.choose(0)
        self.kinds.rows.renew_all()
        if before is after or before.manifest is not after.manifest:
            self._show_terms()
        self.task.ask(after)

    def _kind_row(self, row: int) -> Row:
        kind = list(TERM_KINDS)[row]
        number = sum(term.kind is kind for term in self.session.library.manifest.terms)
        words = tr(TERM_KINDS[kind][0])
        return Row(Line(words), far=str(number), spoken=f"{words}, {number}")

    def _show_kind(self, row: int) -> None:
        if row >= 0:
            self._kind = list(TERM_KINDS)[row]
            self.field.clear()
            self._show_terms()

    def _show_terms(self) -> None:
        words = self.field.text().strip()
        kept = self._term.id if self._term is not None and self._term.kind is self._kind else ""
        self._terms = fitting(self.session.library, self._kind, words)
        one = tr(TERM_KINDS[self._kind][1])
        same = any(_name(term, self.session.library).casefold() == words.casefold()
                   for term in self._terms)  # fmt: skip
        self.add_button.setText(tr("Add"))
        self.add_button.setEnabled(bool(words) and not same)
        self.add_button.setAccessibleName(tr("Add a {kind} of this name", kind=one))
        self.list.rows.show_rows(len(self._terms), self._term_row)
        ids = [term.id for term in self._terms]
        self.stack.setCurrentIndex(0 if ids else 1)
        if ids:
            self.list.choose(ids.index(kept) if kept in ids else 0)
            self._show_term(self.list.current)
        else:
            self._show_term(-1)
            self._empty.setText(self._empty_words(words, one))

    def _empty_words(self, words: str, one: str) -> str:
        if words:
            return tr(
                "No {kind} is called “{words}”. Press Enter to add it.", kind=one, words=words
            )
        return tr(
            "Nothing here yet. Type a name above and press Enter. Cards and protocols pick from "
            "these words, so that everybody means the same."
        )

    def _term_row(self, row: int) -> Row:
        term = self._terms[row]
        number = self._uses.get((term.kind.value, term.id), 0)
        far = tr_n("in {n} file", "in {n} files", number) if number else tr("not used")
        own = self.session.library.manifest.language
        return Row(Line(_name(term, self.session.library)), Line(one_line(term, own)), far=far)

    def _take_uses(self, uses: Mapping[TermKey, int]) -> None:
        self._uses = uses
        self.list.rows.renew_all()
        self._show_used()

    # ---- the form ----------------------------------------------------------------

    def _show_term(self, row: int) -> None:
        before, self._term = self._term, self._terms[row] if 0 <= row < len(self._terms) else None
        term = self._term
        self.remove_button.setEnabled(term is not None)
        self._show_used()
        if term is None:
            self.form = None
            self.area.setWidget(QWidget())
        elif self.form is not None and before is not None and before.kind is term.kind:
            self.form.show_value(term)
        else:
            self.area.setWidget(self._new_form(term))
        self.moved.emit()

    def _new_form(self, term: Term) -> QWidget:
        used = theme()
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(used.px(16), used.px(12), used.px(16), used.px(12))
        wanted = [name for name in _FIELDS if term.kind in _DEMANDING.get(name, (term.kind,))]
        self.form = NodeForm(Term, term, FormContext.of_library(self.session), only=wanted)
        self.form.edited.connect(self._edit)
        self.form.ended.connect(self.session.document.seal)
        column.addWidget(self.form)
        column.addStretch(1)
        return page

    def _show_used(self) -> None:
        term = self._term
        if term is None:
            self.used.setText("")
            return
        number = self._uses.get((term.kind.value, term.id), 0)
        said = tr_n("Used in {n} card or protocol.", "Used in {n} cards and protocols.", number)
        self.used.setText(said if number else tr("Not used yet."))

    def _edit(self, term: Node, name: str, merge_key: str) -> None:
        if isinstance(term, Term):
            key = f"{term.kind}/{term.id}/{merge_key}" if merge_key else ""
            self._term = term
            self.session.document.edit(
                name, lambda library: with_edited_term(library, term), merge_key=key
            )

    # ---- adding and removing ---------------------------------------------------------

    def _on_enter(self) -> None:
        if self.add_button.isEnabled() and not self._terms:
            self.add()
        else:
            self._enter_form()

    def _enter_form(self) -> None:
        if self.form is not None:
            self.form.focus_first()

    def add(self) -> None:
        """Add a term of the name in the field."""
        words = self.field.text().strip()
        if not words:
            return
        term = new_term(self.session.library, self._kind, words)
        name = tr("Add the term “{words}”", words=words)
        if self.session.document.edit(name, lambda library: with_edited_term(library, term)):
            self._term = term
            self.field.clear()
            self._enter_form()

    def remove(self) -> None:
        """Delete the chosen term where nothing uses it."""
        term, document = self._term, self.session.document
        if term is None:
            return
        words = _name(term, self.session.library)
        number = uses_of_terms(self.session.library).get((term.kind.value, term.id), 0)
        if number:
            said = tr_n(
                "“{term}” stays: {n} card or protocol uses it.",
                "“{term}” stays: {n} cards and protocols use it.",
                number,
                term=words,
            )
            self.session.tell(said)
            return
        name = tr("Delete the term “{words}”", words=words)
        made = document.edit(
            name, lambda library: without_term(library, kind=term.kind, term_id=term.id)
        )
        if made:
            self.session.tell(tr("Deleted “{term}”.", term=words), tr("Undo"), document.undo)

    # ---- the room ----------------------------------------------------------------

    def show_path(self, path: str) -> None:
        """Show the term that a place of the library's record is about."""
        way = steps(path)
        terms = self.session.library.manifest.terms
        if len(way) < 2 or way[0] != "terms" or not isinstance(way[1], int) or way[1] >= len(terms):
            return
        term = terms[way[1]]
        self.kinds.choose(list(TERM_KINDS).index(term.kind))
        self.list.choose([one.id for one in self._terms].index(term.id))
        if self.form is not None:
            self.form.focus_path(".".join(str(step) for step in way[2:3]))

    def focus_first(self) -> None:
        """Put the focus on the field."""
        self.field.setFocus()

    def hints(self) -> Sequence[KeyHint]:
        """Keys of the field and the lists."""
        return (
            KeyHint("↑ ↓", tr("choose")),
            KeyHint(tr("Enter"), tr("edit, or add a new name")),
        )


def _count(library: Library, token: Token) -> Mapping[TermKey, int]:
    return uses_of_terms(library, token.check)


def _name(term: Term, library: Library) -> str:
    own = library.manifest.language
    return term.name.best(own, own)


def _sheet(inner: QWidget, width: int) -> QWidget:
    sheet = QFrame()
    sheet.setProperty("panel", True)
    sheet.setFixedWidth(width)
    column = QVBoxLayout(sheet)
    column.setContentsMargins(1, 1, 1, 1)
    column.addWidget(inner)
    return sheet
