"""What can be done with whole cards: choose, begin, write, put plain words in."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from authoring.editor.i18n import tr
from authoring.editor.ids import new_file_id
from authoring.editor.library_edits import with_card
from authoring.editor.session import Session
from authoring.editor.workshop import edits
from authoring.editor.workshop.card_chooser import CardChooser, card_lines
from authoring.editor.workshop.reading import PlacedWord
from authoring.model.card import Card
from authoring.model.edits.cards import new_card
from authoring.model.library import Library
from authoring.model.text import Text


class CardActions(QObject):
    """Edits of the card that is open, and the way to other ones.

    Signals:
        begun(card id): a new card is open.
    """

    begun = Signal(str)

    def __init__(self, session: Session, window: QWidget) -> None:
        super().__init__(window)
        self._session, self._window = session, window
        self.chooser: CardChooser | None = None

    def choose(self) -> None:
        """Offer the cards of the library."""
        if self.chooser is None:
            self.chooser = CardChooser(self._window)
            self.chooser.chosen.connect(self._session.choose_card)
            self.chooser.new_wanted.connect(self.begin)
        lines = card_lines(self._session.library, self._session.text_language)
        self.chooser.open_over(lines, self._session.card_id)

    def begin(self, title: str) -> None:
        """Begin a card.

        Args:
            title: its title; "" for one that says that it is new.
        """
        card_id = new_file_id()
        words = Text.plain(title or tr("New exercise"))

        def change(library: Library) -> Library:
            made = new_card(
                card_id=card_id,
                title=words,
                language=library.manifest.language,
                slugs={card.slug for card in library.cards.values()},
            )
            return with_card(library, made)

        name = tr("New card “{title}”", title=words.best("", ""))
        if self._session.document.edit(name, change):
            self._session.choose_card(card_id)
            self.begun.emit(card_id)

    def write(self, new: Card, name: str, merge_key: str) -> None:
        """Put an edited card in its place; another language or slug included."""
        key = f"card/{new.id}/{merge_key}" if merge_key else ""
        self._session.document.edit_card(name, new.id, lambda _old: new, merge_key=key)

    def use_words(self, word: PlacedWord) -> None:
        """Put the plain words in the place of the hard ones."""
        name = tr("Use “{plain}”", plain=word.instead)
        self._session.document.edit_card(
            name,
            self._session.card_id,
            lambda card: edits.with_word_changed(
                card, word.path, word.found.word, word.found.start, word.instead
            ),
        )
