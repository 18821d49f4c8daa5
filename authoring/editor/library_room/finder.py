"""Searches away from the window: the index follows the library, the latest query wins."""

from __future__ import annotations

import time

from PySide6.QtCore import QObject, Signal

from authoring.editor.search.index import Found, Query, SearchIndex
from authoring.editor.search.pieces import Noun
from authoring.editor.session import Session
from authoring.editor.workers import LatestTask, Token
from authoring.model.library import Library

_EARLY_S = 0.3
"""While a large library is still being read, what is found so far is told this often."""


class Finder(QObject):
    """Answers the queries of one window; see :func:`finder_of`.

    Signals:
        found(Found, Library): the answer to the latest query, and the library it is about.
        failed(error): the search itself failed.
        found_early(Found, Library): what the latest query finds in what is read so far.
        progressed(done, of): cards and protocols being read.
    """

    found = Signal(object, object)
    found_early = Signal(object, object)
    failed = Signal(object)
    progressed = Signal(int, int)
    _early = Signal(object, object, object)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        self._index = SearchIndex()
        self._is_ready = False
        self.task = LatestTask(self._work, delay_ms=20, parent=self)
        self.task.done.connect(self._take)
        self.task.failed.connect(self.failed)
        self.task.progressed.connect(self.progressed)
        self._early.connect(self._take_early)

    @property
    def is_ready(self) -> bool:
        """Whether a search was answered already, so that the next takes milliseconds."""
        return self._is_ready

    def ask(self, query: Query) -> None:
        """Search the library as it stands."""
        self.task.ask((self._session.library, query))

    def _work(self, asked: tuple[Library, Query], token: Token) -> tuple[Found, Library]:
        library, query = asked
        told = time.monotonic()

        def step(done: int, of: int) -> None:
            nonlocal told
            token.step(done, of)
            if query.words and time.monotonic() - told > _EARLY_S:
                self._early.emit(self._index.find(query), library, token)
                told = time.monotonic()

        self._index.update(library, step)
        token.check()
        return self._index.find(query), library

    def _take_early(self, found: Found, library: Library, token: Token) -> None:
        if found.ids and not token.is_stopped:
            self.found_early.emit(found, library)

    def _take(self, result: tuple[Found, Library]) -> None:
        self._is_ready = True
        self.found.emit(*result)


def finder_of(session: Session) -> Finder:
    """The finder of a session, made at the first call; it outlives the room."""
    known = session.findChild(Finder)
    return known if isinstance(known, Finder) else Finder(session)


def by_title(library: Library) -> Found:
    """Everything by title, to show before the index is there."""
    nouns: list[Noun] = [*library.cards.values(), *library.protocols.values()]
    nouns.sort(key=lambda noun: noun.title.best(noun.language, noun.language).casefold())
    return Found(tuple(noun.id for noun in nouns), of=len(nouns))
