"""What one window is about: its document, what is chosen in it, and who runs beside it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from attrs import frozen
from PySide6.QtCore import QObject, QTimer, Signal

from authoring.checks.result import Subject
from authoring.editor.document import Document
from authoring.editor.i18n import tr
from authoring.editor.messages import Messages
from authoring.editor.place import Place
from authoring.editor.protocol_checks import Judge, ProtocolChecks
from authoring.editor.settings import Settings
from authoring.editor.storage import Storage
from authoring.editor.thumbnails import Thumbnails
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.protocol import Protocol


@frozen
class Selection:
    """What is selected: inner ids of one kind ("entry", "stage", "variant", "criterion").

    The empty selection has the kind "".
    """

    kind: str = ""
    ids: tuple[str, ...] = ()


NOTHING = Selection()


class Session(QObject):
    """One window's document, its current protocol and card, its selection and its helpers.

    Signals:
        protocol_chosen(id), card_chosen(id), pose_chosen(id): "" for none.
        selection_changed(Selection)
        text_language_changed(tag): language in which texts are edited.
        place_asked(Place): somebody wants to see a place; the shell opens its room.
        room_asked(key): somebody wants a room.
    """

    protocol_chosen = Signal(str)
    card_chosen = Signal(str)
    pose_chosen = Signal(str)
    selection_changed = Signal(object)
    text_language_changed = Signal(str)
    place_asked = Signal(object)
    room_asked = Signal(str)

    def __init__(
        self,
        document: Document,
        settings: Settings,
        *,
        judge: Judge | None = None,
        data: Path | None = None,
        parent: QObject | None = None,
    ) -> None:
        """Args:
        judge: the checks to run; None for all of them.
        data: where recovery files are kept; None for the user's data folder.
        """
        super().__init__(parent)
        self.document = document
        self.settings = settings
        self.messages = Messages(self)
        self.storage = Storage(document, data, self)
        self.checks = ProtocolChecks(document, judge, self)
        self.thumbnails = Thumbnails(document, self)
        self._protocol_id = next(iter(document.library.protocols), "")
        self._card_id = next(iter(document.library.cards), "")
        self._pose_id = ""
        self._selection = NOTHING
        self._text_language = ""
        document.changed.connect(self._keep_what_is_left)
        document.refused.connect(self.messages.tell)
        document.reopened.connect(self._tell_reopened)

    # ---- what is chosen -------------------------------------------------------

    @property
    def library(self) -> Library:
        """The document's value as it stands now."""
        return self.document.library

    @property
    def protocol_id(self) -> str:
        """Id of the protocol being worked on, "" for none."""
        return self._protocol_id

    @property
    def protocol(self) -> Protocol | None:
        """The protocol being worked on."""
        return self.library.protocols.get(self._protocol_id)

    @property
    def card_id(self) -> str:
        """Id of the card being worked on, "" for none."""
        return self._card_id

    @property
    def card(self) -> Card | None:
        """The card being worked on."""
        return self.library.cards.get(self._card_id)

    @property
    def pose_id(self) -> str:
        """Id of the pose being worked on, the library's or the program's; "" for none."""
        return self._pose_id

    @property
    def selection(self) -> Selection:
        """What is selected."""
        return self._selection

    @property
    def text_language(self) -> str:
        """Language in which texts are edited; "" for each file's own."""
        return self._text_language

    def choose_protocol(self, protocol_id: str) -> None:
        """Work on a protocol; "" for none."""
        if protocol_id != self._protocol_id:
            self._protocol_id = protocol_id
            self.select(NOTHING)
            self.protocol_chosen.emit(protocol_id)

    def choose_card(self, card_id: str) -> None:
        """Work on a card; "" for none."""
        if card_id != self._card_id:
            self._card_id = card_id
            self.card_chosen.emit(card_id)

    def choose_pose(self, pose_id: str) -> None:
        """Work on a pose; "" for none."""
        if pose_id != self._pose_id:
            self._pose_id = pose_id
            self.pose_chosen.emit(pose_id)

    def select(self, selection: Selection) -> None:
        """Select something, or :data:`NOTHING`."""
        if selection != self._selection:
            self._selection = selection
            self.selection_changed.emit(selection)

    def edit_texts_in(self, language: str) -> None:
        """Edit texts in a language from now on; "" for each file's own."""
        if language != self._text_language:
            self._text_language = language
            self.text_language_changed.emit(language)

    def _keep_what_is_left(self, _before: Library, after: Library) -> None:
        if self._protocol_id not in after.protocols:
            self.choose_protocol(next(iter(after.protocols), ""))
        if self._card_id not in after.cards:
            self.choose_card(next(iter(after.cards), ""))

    def _tell_reopened(self, protocol_id: str) -> None:
        version = self.library.protocols[protocol_id].version
        words = tr(
            "This protocol was approved. Your change made it a draft, version {version}; what "
            "was approved stays in the history.",
            version=version,
        )
        # After what the edit itself has to say, so that this is what stays to be read.
        QTimer.singleShot(0, lambda: self.messages.tell(words, tr("Undo"), self.document.undo))

    # ---- asking the shell -----------------------------------------------------

    def go_to(self, place: Place) -> None:
        """Show a place: its file is chosen, its room opened and the place shown there."""
        if place.subject is Subject.PROTOCOL and place.subject_id in self.library.protocols:
            self.choose_protocol(place.subject_id)
        elif place.subject is Subject.CARD and place.subject_id in self.library.cards:
            self.choose_card(place.subject_id)
        self.place_asked.emit(place)

    def open_room(self, key: str) -> None:
        """Show a room by its key ("protocols", "cards", "handouts", "library", "clinic")."""
        self.room_asked.emit(key)

    def tell(
        self, sentence: str, action_name: str = "", action: Callable[[], object] | None = None
    ) -> None:
        """Say one quiet sentence, with at most one thing to do about it."""
        self.messages.tell(sentence, action_name, action)
