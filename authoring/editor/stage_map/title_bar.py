"""The head of the room: which protocol, its status, and what to do with all of it."""

from __future__ import annotations

import uuid

from PySide6.QtCore import QPoint, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from authoring.editor.i18n import day_words, tr
from authoring.editor.library_edits import with_protocol
from authoring.editor.parts.labels import ElidedLabel, StatusTag
from authoring.editor.session import Session
from authoring.editor.stage_map.in_place import Pick, PickPopup
from authoring.editor.theme import Type, theme
from authoring.model.edits.naming import fresh_id
from authoring.model.edits.stages import add_stage
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import Status


class TitleBar(QWidget):
    """Title, status, version and review; a choice of protocols.

    Signals:
        about_wanted(): the user wants the protocol's own fields.
        begun(): a new protocol stands there, and wants a title.
    """

    about_wanted = Signal()
    begun = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.popup: PickPopup | None = None
        self.title = ElidedLabel(style=Type.TITLE)
        self.status = StatusTag(Status.DRAFT)
        self.soft = ElidedLabel(soft=True)
        self.about = self._button(tr("About"), self.about_wanted.emit)
        self.others = self._button(tr("Other protocols"), self.choose)
        self.handout = self._button(tr("Handout"), lambda: session.open_room("handouts"))
        self.handout.setProperty("main", True)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(12))
        for part in (self.title, self.status, self.soft):
            layout.addWidget(part)
        layout.addStretch(1)
        for button in (self.others, self.about, self.handout):
            layout.addWidget(button)

    @staticmethod
    def _button(name: str, run: object) -> QPushButton:
        button = QPushButton(name)
        if callable(run):
            button.clicked.connect(lambda _checked=False: run())
        return button

    def refresh(self) -> None:
        """Show the protocol as it is."""
        protocol = self._session.protocol
        for part in (self.status, self.soft, self.about, self.handout):
            part.setVisible(protocol is not None)
        if protocol is None:
            self.title.setText(tr("Protocols"))
            return
        self.title.setText(self._words(protocol.title, protocol.language) or tr("No title"))
        self.status.show_status(protocol.status)
        parts = [tr("Version {version}", version=protocol.version)]
        if protocol.review_due is not None:
            parts.append(tr("review due {day}", day=day_words(protocol.review_due)))
        self.soft.setText(", ".join(parts))
        self._share()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share()

    def _share(self) -> None:
        """Give the title its room first; what is left is for version and review."""
        gap = theme().px(12)
        fixed = (self.status, self.others, self.about, self.handout)
        taken = sum(part.sizeHint().width() + gap for part in fixed if not part.isHidden())
        left = self.width() - taken - self.title.sizeHint().width() - 2 * gap
        self.soft.setMaximumWidth(max(0, left))

    def _words(self, text: Text, own: str) -> str:
        return text.best(self._session.text_language or own, own)

    def choose(self) -> None:
        """Choose another protocol."""
        picks = [
            Pick(key, self._words(protocol.title, protocol.language), protocol.version)
            for key, protocol in self._session.library.protocols.items()
        ]
        picks.append(Pick("new", tr("New protocol")))
        self.popup = PickPopup(tr("Which protocol?"), picks, self)
        self.popup.picked.connect(self._chosen)
        self.popup.open_at(self.others.mapToGlobal(QPoint(0, self.others.height() + 4)))

    def _chosen(self, key: str) -> None:
        if key == "new":
            self.new_protocol()
        else:
            self._session.choose_protocol(key)

    def new_protocol(self) -> None:
        """Begin a protocol with one empty stage, and open its fields."""
        library = self._session.library
        taken = {protocol.slug for protocol in library.protocols.values()}
        made = Protocol(
            id=str(uuid.uuid4()),
            slug=fresh_id("new-protocol", taken=taken),
            language=library.manifest.language,
            title=Text.plain(tr("New protocol")),
        )
        begun = add_stage(made, name=Text.plain(tr("First stage"))).value
        if self._session.document.edit(tr("New protocol"), lambda lib: with_protocol(lib, begun)):
            self._session.choose_protocol(begun.id)
            self.begun.emit()
