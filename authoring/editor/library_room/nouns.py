"""Making, copying, deleting and opening cards and protocols, with a word about each."""

from __future__ import annotations

from authoring.checks.result import Subject
from authoring.editor.i18n import tr
from authoring.editor.ids import new_file_id
from authoring.editor.library_room.edits import (
    noun_of,
    with_copy,
    with_new_card,
    with_new_protocol,
    without_noun,
)
from authoring.editor.library_room.words import title_of
from authoring.editor.place import Place
from authoring.editor.session import Session
from authoring.model.card import Card
from authoring.model.edits.tree import path_of, path_text
from authoring.model.edits.uses import where_used


class NounActions:
    """What can be done with whole cards and protocols."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def open(self, noun_id: str, path: str = "") -> None:
        """Show a card in the workshop or a protocol on the stage map."""
        noun = noun_of(self._session.library, noun_id)
        if noun is not None:
            subject = Subject.CARD if isinstance(noun, Card) else Subject.PROTOCOL
            self._session.go_to(Place(subject, noun_id, path))

    def new_card(self, title: str = "") -> None:
        """Make a card and open it."""
        new_id, words = new_file_id(), title.strip() or tr("New exercise")
        made = self._session.document.edit(
            tr("New card"), lambda library: with_new_card(library, card_id=new_id, title=words)
        )
        if made:
            self.open(new_id)
            self._tell(tr("Made the card “{title}”.", title=words))

    def new_protocol(self, title: str = "") -> None:
        """Make a protocol of one stage and open it."""
        new_id, words = new_file_id(), title.strip() or tr("New protocol")
        made = self._session.document.edit(
            tr("New protocol"),
            lambda library: with_new_protocol(library, protocol_id=new_id, title=words),
        )
        if made:
            self.open(new_id)
            self._tell(tr("Made the protocol “{title}”.", title=words))

    def copy(self, noun_id: str) -> str:
        """Duplicate a card or protocol; id of the copy, "" where none was made."""
        noun = noun_of(self._session.library, noun_id)
        if noun is None:
            return ""
        title = title_of(noun, self._session.library)
        name = tr("Duplicate card") if isinstance(noun, Card) else tr("Duplicate protocol")
        copy_id = new_file_id()
        made = self._session.document.edit(
            name, lambda library: with_copy(library, noun_id=noun_id, copy_id=copy_id)
        )
        if made:
            self._tell(tr("Duplicated “{title}”.", title=title))
        return copy_id if made else ""

    def delete(self, noun_id: str) -> bool:
        """Delete a card that no protocol uses, or a protocol; whether it is gone."""
        library = self._session.library
        noun = noun_of(library, noun_id)
        if noun is None or self._is_used(noun_id):
            return False
        title = title_of(noun, library)
        if isinstance(noun, Card):
            name, said = tr("Delete card"), tr("Deleted the card “{title}”.", title=title)
        else:
            name, said = tr("Delete protocol"), tr("Deleted the protocol “{title}”.", title=title)
        made = self._session.document.edit(name, lambda now: without_noun(now, noun_id=noun_id))
        if made:
            self._tell(said)
        return made

    def _is_used(self, card_id: str) -> bool:
        """Whether protocols use a card; says which, and offers to go there."""
        library = self._session.library
        uses = where_used(library, card_id)
        if not uses:
            return False
        protocols = {use.protocol.id: use.protocol for use in uses}
        names = [f"“{title_of(protocol, library)}”" for protocol in protocols.values()]
        sentence = tr(
            "“{card}” stays: it is used in {protocols}. Put another card there first.",
            card=title_of(library.cards[card_id], library),
            protocols=_listed(names),
        )
        path = path_text(path_of(uses[0].protocol, uses[0].entry.id))
        place = Place(Subject.PROTOCOL, uses[0].protocol.id, path)
        self._session.tell(sentence, tr("Show"), lambda: self._session.go_to(place))
        return True

    def _tell(self, sentence: str) -> None:
        self._session.tell(sentence, tr("Undo"), self._session.document.undo)


def _listed(names: list[str], most: int = 3) -> str:
    if len(names) > most:
        first = ", ".join(names[:most])
        return tr("{names} and {n} more", names=first, n=len(names) - most)
    if len(names) < 2:
        return "".join(names)
    return tr("{names} and {last}", names=", ".join(names[:-1]), last=names[-1])
