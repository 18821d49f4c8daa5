"""The dictionaries of one window: read on a thread, then at hand."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QObject, Signal

from authoring.editor.session import Session
from authoring.editor.spelling.dictionaries import Dictionary, load
from authoring.editor.spelling.words import Speller
from authoring.editor.workers import LatestTask, Token

Loaded = Mapping[str, Dictionary | None]


class Shelf(QObject):
    """Gives out dictionaries; one for each session, see :func:`shelf_of`.

    Signals:
        arrived(language): a dictionary was read, or found not to be there.
        accepted_changed(): the clinic's own words changed.
        suggested(language, word, words): what may have been meant.
    """

    arrived = Signal(str)
    accepted_changed = Signal()
    suggested = Signal(str, str, object)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        self._loaded: dict[str, Dictionary | None] = {}
        self._wanted: set[str] = set()
        self._spellers: dict[str, Speller] = {}
        self._reading = LatestTask(_read, delay_ms=0, parent=self)
        self._reading.done.connect(self._take)
        self._suggesting = LatestTask(_suggest, delay_ms=0, parent=self)
        self._suggesting.done.connect(lambda result: self.suggested.emit(*result))
        session.document.changed.connect(self._on_change)

    def has_looked(self, language: str) -> bool:
        """Whether it is known if there is a dictionary for a language."""
        return language in self._loaded

    def dictionary(self, language: str) -> Dictionary | None:
        """The dictionary, or None: there is none, or it is being read and will arrive."""
        if language not in self._loaded and language not in self._wanted:
            self._wanted.add(language)
            self._reading.ask_now(frozenset(self._wanted))
        return self._loaded.get(language)

    def speller(self, language: str) -> Speller | None:
        """The dictionary with the clinic's own words; None as for :meth:`dictionary`."""
        dictionary = self.dictionary(language)
        if dictionary is None:
            return None
        if language not in self._spellers:
            accepted = self._session.library.manifest.clinic_words
            self._spellers[language] = Speller(dictionary, accepted)
        return self._spellers[language]

    def suggest(self, language: str, word: str) -> None:
        """Ask for words that may have been meant; they come as ``suggested``."""
        dictionary = self._loaded.get(language)
        if dictionary is not None:
            self._suggesting.ask_now((language, word, dictionary))

    def _take(self, loaded: Loaded) -> None:
        for language, dictionary in loaded.items():
            self._wanted.discard(language)
            if language not in self._loaded:
                self._loaded[language] = dictionary
                self.arrived.emit(language)

    def _on_change(self, before: object, after: object) -> None:
        old, new = (getattr(one, "manifest", None) for one in (before, after))
        if getattr(old, "clinic_words", ()) != getattr(new, "clinic_words", ()):
            self._spellers = {}
            self.accepted_changed.emit()


def _read(languages: frozenset[str], token: Token) -> Loaded:
    loaded = {}
    for language in sorted(languages):
        token.check()
        loaded[language] = load(language)
    return loaded


def _suggest(asked: tuple[str, str, Dictionary], _token: Token) -> tuple[str, str, tuple[str, ...]]:
    language, word, dictionary = asked
    return language, word, dictionary.suggest(word)


def shelf_of(session: Session) -> Shelf:
    """The shelf of a session, made at the first call."""
    found = session.findChild(Shelf)
    return found if isinstance(found, Shelf) else Shelf(session)
