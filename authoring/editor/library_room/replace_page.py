"""Find and replace across the library: every match beforehand, before and after."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.i18n import tr, tr_n
from authoring.editor.library_room.empty import EmptyPage
from authoring.editor.library_room.page import LibraryPage
from authoring.editor.library_room.replace_form import ReplaceForm
from authoring.editor.library_room.replacing import (
    Key,
    Matches,
    Wish,
    approved_in,
    change_of,
    files_in,
    matches_of,
    replaced,
)
from authoring.editor.library_room.rows import Row, RowList
from authoring.editor.parts.labels import label, line
from authoring.editor.room import KeyHint
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.editor.workers import LatestTask, Token, sentence_of
from authoring.model.edits.replace import Match
from authoring.model.library import Library


class ReplacePage(LibraryPage):
    """The form on one side, the matches on the other; each can be left out."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self._matches: tuple[Match, ...] = ()
        self._keys: tuple[Key, ...] = ()
        self._wish = Wish()
        self._library = session.library
        self._left_out: set[Key] = set()
        self.form = ReplaceForm()
        self.find_field, self.with_field = self.form.find_field, self.form.with_field
        self.list = RowList(tr("Matches"), far=260)
        self.count = label(style=Type.SMALL, soft=True)
        self.all_button = QPushButton(tr("Tick all"))
        self.none_button = QPushButton(tr("Untick all"))
        self.stack = QStackedWidget()
        self.empty = EmptyPage()
        self.finding = LatestTask(_find, delay_ms=120, parent=self)
        self.replacing = LatestTask(_replace, delay_ms=0, parent=self)
        self._build()
        self._connect()
        self._show(Matches(session.library, self._wish))

    def _build(self) -> None:
        used = theme()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(used.px(16))
        self.form.setFixedWidth(used.px(290))
        layout.addWidget(self.form)
        sheet = QFrame()
        sheet.setProperty("panel", True)
        column = QVBoxLayout(sheet)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(0)
        head = QHBoxLayout()
        head.setContentsMargins(used.px(14), used.px(4), used.px(8), used.px(4))
        head.addWidget(self.count, 1)
        for button in (self.all_button, self.none_button):
            button.setProperty("quiet", True)
            button.setProperty("small", True)
            head.addWidget(button)
        column.addLayout(head)
        column.addWidget(line())
        self.stack.addWidget(self.list)
        self.stack.addWidget(self.empty)
        column.addWidget(self.stack, 1)
        layout.addWidget(sheet, 1)

    def _connect(self) -> None:
        self.form.changed.connect(self.ask)
        self.form.replace_wanted.connect(self.replace)
        self.finding.done.connect(self._show)
        self.finding.failed.connect(lambda error: self.count.setText(sentence_of(error)))
        self.replacing.done.connect(self._put)
        self.replacing.failed.connect(self._refuse)
        self.list.ticked.connect(self.tick)
        self.list.wanted.connect(self.go)
        self.all_button.clicked.connect(lambda _=False: self._tick_every(on=True))
        self.none_button.clicked.connect(lambda _=False: self._tick_every(on=False))

    # ---- finding -----------------------------------------------------------------

    def refresh(self, before: Library, after: Library) -> None:
        """Find anew in what the library is now."""
        self.ask()

    def ask(self) -> None:
        """Find what stands in the form, away from the window."""
        wish = self.form.wish
        if wish.pattern != self._wish.pattern:
            self._left_out = set()
        self.finding.ask((self.session.library, wish))

    def show_wish(self, wish: Wish) -> None:
        """Find these words."""
        self.form.show_wish(wish)
        self.with_field.setFocus()
        self.with_field.selectAll()

    def _show(self, found: Matches) -> None:
        row, matches, wish = self.list.current, found.matches, found.wish
        self._matches, self._wish, self._library = matches, wish, found.library
        self._keys = found.keys
        self.form.show_languages(list(found.languages))
        self.list.rows.show_rows(len(matches), self._row)
        self.list.choose(max(row, 0))
        self.stack.setCurrentIndex(0 if matches else 1)
        self._say_empty(wish.pattern)
        self._show_counts()

    def _say_empty(self, pattern: str) -> None:
        if pattern:
            title = tr("“{words}” stands nowhere here", words=pattern)
            words = tr("Try without “Whole words only”, or look in more places.")
        else:
            title = tr("Change a word everywhere at once")
            words = tr(
                "Type what to find and what to put there. Every place is shown before and after; "
                "untick those that should stay. One undo takes it all back."
            )
        self.empty.say(title, words)

    def _row(self, number: int) -> Row:
        match = self._matches[number]
        change = change_of(match, self._wish, self._library)
        ticked = self._keys[number] not in self._left_out
        state = tr("will change") if ticked else tr("stays")
        return Row(
            title=change.before,
            below=change.after,
            lead="→",
            far=change.file,
            far_below=change.what,
            checked=ticked,
            spoken=tr(
                "{file}, {what}, {state}. Before: {before} After: {after}",
                file=change.file,
                what=change.what,
                state=state,
                before=change.before.words,
                after=change.after.words,
            ),
        )

    # ---- ticking -----------------------------------------------------------------

    @property
    def ticked_matches(self) -> tuple[Match, ...]:
        """The matches that are to be replaced."""
        pairs = zip(self._matches, self._keys, strict=True)
        return tuple(match for match, key in pairs if key not in self._left_out)

    def tick(self, row: int) -> None:
        """Leave a match out, or take it in again."""
        key = self._keys[row]
        (self._left_out.discard if key in self._left_out else self._left_out.add)(key)
        self.list.rows.renew(row)
        self._show_counts()

    def _tick_every(self, *, on: bool) -> None:
        self._left_out = set() if on else set(self._keys)
        self.list.rows.renew_all()
        self._show_counts()

    def _show_counts(self) -> None:
        chosen = self.ticked_matches
        number = len(chosen)
        found = tr_n("{n} match", "{n} matches", len(self._matches))
        files = tr_n("in {n} file", "in {n} files", files_in(self._matches))
        left = len(self._matches) - number
        out = tr_n("{n} left out", "{n} left out", left) if left else ""
        said = ", ".join(part for part in (f"{found} {files}", out) if part)
        self.count.setText(said if self._matches else "")
        for button in (self.all_button, self.none_button):
            button.setVisible(bool(self._matches))
        self.form.button.setText(
            tr_n("Replace {n} match", "Replace {n} matches", number) if number else tr("Replace")
        )
        can = number > 0 and (self._wish.new != self._wish.pattern)
        self.form.button.setEnabled(can)
        approved = approved_in(chosen, self._library)
        warning = tr_n(
            "{n} approved protocol becomes a draft of its next version.",
            "{n} approved protocols become drafts of their next version.",
            approved,
        )
        self.form.warning.setText(warning if approved else "")

    # ---- replacing ---------------------------------------------------------------

    def replace(self) -> None:
        """Replace every ticked match, as one step of undo."""
        chosen = self.ticked_matches
        current = self._wish == self.form.wish and self._library is self.session.library
        if chosen and current and self.form.button.isEnabled():
            self.form.button.setEnabled(False)
            self.replacing.ask_now((self._library, chosen, self._wish))

    def _put(self, result: tuple[Library, Library, tuple[Match, ...], Wish]) -> None:
        before, after, chosen, wish = result
        made = self.session.document.edit(
            tr("Replace in library"),
            lambda now: after if now is before else replaced(now, chosen, wish),
        )
        if made:
            places = tr_n("Replaced {n} match", "Replaced {n} matches", len(chosen))
            files = tr_n("in {n} file", "in {n} files", files_in(chosen))
            self.session.tell(f"{places} {files}.", tr("Undo"), self.session.document.undo)
        self._show_counts()

    def _refuse(self, error: BaseException) -> None:
        self.session.tell(sentence_of(error))
        self._show_counts()

    # ---- going there -------------------------------------------------------------

    def go(self, row: int) -> None:
        """Show the place of a match."""
        match = self._matches[row]
        self.session.go_to(change_of(match, self._wish, self._library).place)

    def focus_first(self) -> None:
        """Put the focus on the words to find."""
        self.find_field.setFocus()
        self.find_field.selectAll()

    def hints(self) -> Sequence[KeyHint]:
        """Keys of the form or the matches."""
        if self.list.hasFocus():
            return (KeyHint(tr("Space"), tr("tick")), KeyHint(tr("Enter"), tr("go there")))
        return (KeyHint(tr("Enter"), tr("replace")), KeyHint(tr("Tab"), tr("next field")))


def _find(asked: tuple[Library, Wish], token: Token) -> Matches:
    return matches_of(*asked, token.check)


def _replace(
    asked: tuple[Library, tuple[Match, ...], Wish], _token: Token
) -> tuple[Library, Library, tuple[Match, ...], Wish]:
    library, matches, wish = asked
    return library, replaced(library, matches, wish), matches, wish
