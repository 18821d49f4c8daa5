"""The library room: its pages, and the keys that lead to them."""

from __future__ import annotations

import importlib
from collections.abc import Callable, Sequence

from attrs import frozen
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from authoring.checks.result import Subject
from authoring.editor.i18n import mark, tr
from authoring.editor.library_room.find_page import FindPage
from authoring.editor.library_room.nouns import NounActions
from authoring.editor.library_room.page import LibraryPage
from authoring.editor.library_room.replace_page import ReplacePage
from authoring.editor.library_room.replacing import Wish
from authoring.editor.parts.segmented import Segmented
from authoring.editor.room import KeyHint, Room
from authoring.editor.session import Session
from authoring.editor.theme import theme
from authoring.model.library import Library


@frozen
class PageEntry:
    """A page before it is made.

    Attributes:
        key: stable name.
        name: English name on its button.
        module, cls: where its class is.
    """

    key: str
    name: str
    module: str
    cls: str

    def make(self, session: Session) -> LibraryPage:
        """The page itself."""
        module = importlib.import_module(f"authoring.editor.library_room.{self.module}")
        made = getattr(module, self.cls)(session)
        if not isinstance(made, LibraryPage):
            raise TypeError(f"{self.module}.{self.cls} is no LibraryPage")
        return made


FIND, ATTENTION, REPLACE, SPELLING, WORDS = "find", "attention", "replace", "spelling", "words"
PAGES = (
    PageEntry(FIND, mark("Find"), "find_page", "FindPage"),
    PageEntry(ATTENTION, mark("Needs attention"), "attention_page", "AttentionPage"),
    PageEntry(REPLACE, mark("Find and replace"), "replace_page", "ReplacePage"),
    PageEntry(SPELLING, mark("Spelling"), "spelling_page", "SpellingPage"),
    PageEntry(WORDS, mark("Words and kit"), "terms_page", "TermsPage"),
)
_KEPT_PAGE = "library_room/page"


class LibraryRoom(Room):
    """Everything in the library, a page for each kind of work on it."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.nouns = NounActions(session)
        self._pages: dict[str, LibraryPage] = {}
        self._shown: dict[str, Library] = {}
        kept = session.settings.kept(_KEPT_PAGE, FIND)
        self.key = kept if kept in {entry.key for entry in PAGES} else FIND
        choices = [(entry.key, tr(entry.name)) for entry in PAGES]
        self.pages = Segmented(tr("Library"), choices, self.key)
        self.card_button = QPushButton(tr("New card"))
        self.protocol_button = QPushButton(tr("New protocol"))
        self.stack = QStackedWidget()
        self._build()
        self._add_commands()

    def _build(self) -> None:
        used = theme()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(used.px(24), used.px(12), used.px(24), used.px(16))
        layout.setSpacing(used.px(12))
        head = QHBoxLayout()
        head.setSpacing(used.px(8))
        head.addWidget(self.pages)
        head.addStretch(1)
        head.addWidget(self.card_button)
        head.addWidget(self.protocol_button)
        layout.addLayout(head)
        layout.addWidget(self.stack, 1)
        self.pages.chosen.connect(self.show_page)
        self.card_button.clicked.connect(lambda _=False: self.nouns.new_card())
        self.protocol_button.clicked.connect(lambda _=False: self.nouns.new_protocol())

    def _add_commands(self) -> None:
        add = self.add_command
        add(tr("Find in the library"), self._opener(FIND), keys="Ctrl+Shift+F")
        for number, entry in enumerate(PAGES[1:], 2):
            keys = [f"Alt+{number}", *(["Ctrl+H"] if entry.key == REPLACE else [])]
            add(tr(entry.name), self._opener(entry.key), keys=keys)
        add(tr("New card"), self.nouns.new_card, keys="Ins")
        add(tr("New protocol"), self.nouns.new_protocol, keys="Ctrl+Shift+P")
        add(tr("Duplicate"), self._on_find(FindPage.copy), keys="Ctrl+D")
        add(tr("Delete"), self._on_find(FindPage.delete), keys="Del")

    def _opener(self, key: str) -> Callable[[], object]:
        return lambda: self.open_page(key)

    def _on_find(self, run: Callable[[FindPage], None]) -> Callable[[], None]:
        def act() -> None:
            page = self._pages.get(self.key)
            if isinstance(page, FindPage) and not _is_typing(self.focusWidget()):
                run(page)

        return act

    # ---- pages -------------------------------------------------------------------

    @property
    def page(self) -> LibraryPage:
        """The page that is shown; it is made at the first call."""
        if self.key not in self._pages:
            entry = next(entry for entry in PAGES if entry.key == self.key)
            made = entry.make(self.session)
            made.moved.connect(self.key_hints_changed)
            made.counted.connect(lambda count, key=entry.key: self._count(key, count))
            made.replace_wanted.connect(self.replace)
            self._pages[self.key] = made
            self.stack.addWidget(made)
        return self._pages[self.key]

    def show_page(self, key: str) -> None:
        """Show a page; the focus stays where it is."""
        self.key = key
        self.pages.choose(key)
        self.session.settings.keep(_KEPT_PAGE, key)
        self.stack.setCurrentWidget(self.page)
        self._refresh_page()
        self.key_hints_changed.emit()

    def open_page(self, key: str) -> LibraryPage:
        """Show a page and put the focus on it."""
        self.show_page(key)
        self.page.focus_first()
        return self.page

    def replace(self, wish: Wish) -> None:
        """Show the places of some words, with what they would become."""
        page = self.open_page(REPLACE)
        if isinstance(page, ReplacePage):
            page.show_wish(wish)

    def _refresh_page(self) -> None:
        after = self.session.library
        before = self._shown.get(self.key)
        if before is not after:
            self._shown[self.key] = after
            self.page.refresh(after if before is None else before, after)

    def _count(self, key: str, count: str) -> None:
        name = next(tr(entry.name) for entry in PAGES if entry.key == key)
        self.pages.say(key, f"{name}  {count}" if count else name)

    # ---- the room ----------------------------------------------------------------

    def title(self) -> str:
        """The name of the page."""
        return tr("Library")

    def key_hints(self) -> Sequence[KeyHint]:
        """Those of the page, then those of the room."""
        return (
            *self.page.hints(),
            KeyHint("Ctrl ⇧ F", tr("find")),
            KeyHint("Ins", tr("new card")),
            KeyHint("F6", tr("next pane")),
        )

    def refresh(self, before: Library, after: Library) -> None:
        """Draw the page that is seen."""
        if self.stack.currentWidget() is not self.page:
            self.stack.setCurrentWidget(self.page)
        self._refresh_page()

    def focus_first(self) -> None:
        """Put the focus on the page's main part."""
        self.page.focus_first()

    def show_place(self, subject: Subject, subject_id: str, path: str) -> None:
        """Show a term, for a check about the library's record."""
        if subject is Subject.LIBRARY:
            page = self.open_page(WORDS)
            show = getattr(page, "show_path", None)
            if callable(show):
                show(path)


def _is_typing(widget: QWidget | None) -> bool:
    return isinstance(widget, QLineEdit | QPlainTextEdit)
