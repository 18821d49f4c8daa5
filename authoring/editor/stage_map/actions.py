"""What can be done on the map: named edits of the protocol, each one step of undo."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from authoring.dosage.clip_text import as_text
from authoring.editor.edit_words import told
from authoring.editor.i18n import tr, tr_n
from authoring.editor.session import Session
from authoring.editor.stage_map.clipboard import clip_data, clip_of
from authoring.handout.catalogue import load_phrases
from authoring.model.card import Card
from authoring.model.dose import Dose
from authoring.model.edits.blocks import group_entries, ungroup_block
from authoring.model.edits.choices import leave_choice, make_choice
from authoring.model.edits.clip import clip_entries, clip_stages
from authoring.model.edits.copying import paste_entries, paste_stages
from authoring.model.edits.entries import (
    add_card_to_stage,
    continue_entry,
    duplicate_entry,
    link_entry,
    move_entry,
    move_entry_by,
    move_entry_to_stage,
    remove_entry,
    set_entry,
)
from authoring.model.edits.ladder import Way
from authoring.model.edits.outcome import Edited
from authoring.model.edits.places import entry_at, entry_of, stage_at
from authoring.model.edits.stages import add_stage, duplicate_stage, move_stage, remove_stage
from authoring.model.edits.starts import set_start, step_start, switch_hold
from authoring.model.library import Library
from authoring.model.load import IntRange
from authoring.model.protocol import Protocol
from authoring.model.text import Text

Make = Callable[[Protocol], Edited[Protocol]]


class MapActions(QObject):
    """Edits of the protocol that the window is at.

    Signals:
        select_wanted(id): what an edit added or moved should be selected.
    """

    select_wanted = Signal(str)

    def __init__(self, session: Session, parent: QObject) -> None:
        super().__init__(parent)
        self._session = session

    def _card_of(self, entry_id: str) -> Card | None:
        protocol = self._session.protocol
        if protocol is None:
            return None
        return self._session.library.cards.get(entry_of(protocol, entry_id).card)

    def apply(self, name: str, make: Make) -> None:
        """Make one named edit, select what it made, and tell what changed besides."""
        made: list[Edited[Protocol]] = []

        def change(protocol: Protocol) -> Protocol:
            made.append(make(protocol))
            return made[-1].value

        if self._session.document.edit_protocol(name, self._session.protocol_id, change):
            self._after(made[-1])

    def _after(self, edited: Edited[Protocol] | Edited[Library]) -> None:
        if edited.select:
            self.select_wanted.emit(edited.select[0])
        if edited.notes:
            words = " ".join(told(edited.notes))
            self._session.tell(words, tr("Undo"), self._session.document.undo)

    # ---- entries --------------------------------------------------------------------

    def add(self, card_id: str, stage_id: str) -> None:
        """Add a card to a stage."""
        card = self._session.library.cards[card_id]
        self.apply(tr("Add exercise"), lambda p: add_card_to_stage(p, card=card, stage=stage_id))

    def duplicate(self, entry_id: str) -> None:
        """Copy an entry beside itself."""
        self.apply(tr("Duplicate exercise"), lambda p: duplicate_entry(p, entry=entry_id))

    def carry_on(self, entry_id: str) -> None:
        """Carry an entry on into the next stage."""
        self.apply(tr("Carry exercise on"), lambda p: continue_entry(p, entry=entry_id))

    def remove(self, entry_id: str) -> None:
        """Take an entry out; undo brings it back."""
        self.apply(tr("Remove exercise"), lambda p: remove_entry(p, entry=entry_id))
        self._session.tell(tr("Exercise removed."), tr("Undo"), self._session.document.undo)

    def move_to_stage(self, entry_id: str, by: int) -> None:
        """Move an entry a stage on (1) or back (-1)."""
        self.apply(tr("Move exercise"), lambda p: move_entry_to_stage(p, entry=entry_id, by=by))

    def move_within(self, entry_id: str, by: int) -> None:
        """Move an entry down (1) or up (-1) the order of its stage."""
        self.apply(tr("Move exercise"), lambda p: move_entry_by(p, entry=entry_id, by=by))

    def drop(self, entry_id: str, stage: int, near: str) -> None:
        """Move an entry to a stage, before the entry ``near`` where that is in it."""

        def make(protocol: Protocol) -> Edited[Protocol]:
            here = entry_at(protocol, entry_id)
            if near and near != entry_id and entry_at(protocol, near).stage == stage:
                place = entry_at(protocol, near)
                block = protocol.stages[stage].blocks[place.block].id
                same = (here.stage, here.block) == (stage, place.block)
                index = place.entry - (1 if same and here.entry < place.entry else 0)
                return move_entry(protocol, entry=entry_id, block=block, index=index)
            return move_entry_to_stage(protocol, entry=entry_id, by=stage - here.stage)

        self.apply(tr("Move exercise"), make)

    def step(self, entry_id: str, way: Way) -> None:
        """Start an entry one rung harder or easier."""
        card = self._card_of(entry_id)
        name = tr("Start harder") if way is Way.HARDER else tr("Start easier")
        if card is not None:
            self.apply(name, lambda p: step_start(p, entry=entry_id, card=card, way=way))

    def switch_hold(self, entry_id: str) -> None:
        """Start an entry with its hold, or its moving variant."""
        card = self._card_of(entry_id)
        if card is not None:
            self.apply(
                tr("Switch moving and holding"),
                lambda p: switch_hold(p, entry=entry_id, card=card),
            )

    def choose_variant(self, entry_id: str, variant_id: str) -> None:
        """Start an entry with a variant."""
        card = self._card_of(entry_id)
        if card is not None:
            self.apply(
                tr("Choose variant"),
                lambda p: set_start(p, entry=entry_id, card=card, variant=variant_id),
            )

    def set_dose(self, entry_id: str, dose: Dose | None) -> None:
        """Give an entry a dose, or none of its own."""
        self.apply(tr("Edit dose"), lambda p: set_entry(p, entry=entry_id, dose=dose))

    def build_on(self, entry_id: str, base: str | None) -> None:
        """Let an entry build on an earlier one, or on none."""
        name = tr("Link exercises") if base else tr("Unlink exercise")
        self.apply(name, lambda p: link_entry(p, entry=entry_id, on=base))

    def either_or(self, entry_id: str, other: str) -> None:
        """Make an either/or choice of two entries, or leave the one there is."""
        protocol = self._session.protocol
        if protocol is not None and entry_of(protocol, entry_id).choice is not None:
            self.apply(tr("Leave either/or"), lambda p: leave_choice(p, entry=entry_id))
        elif other:
            self.apply(tr("Make either/or"), lambda p: make_choice(p, entries=(other, entry_id)))

    # ---- blocks ---------------------------------------------------------------------

    def circuit(self, entry_ids: tuple[str, ...], rounds: int = 3) -> None:
        """Put entries of one block into a circuit."""
        self.apply(
            tr("Make a circuit"),
            lambda p: group_entries(p, entries=entry_ids, rounds=IntRange(low=rounds)),
        )

    def no_circuit(self, block_id: str) -> None:
        """Take a circuit apart."""
        self.apply(tr("Take the circuit apart"), lambda p: ungroup_block(p, block=block_id))

    # ---- stages ---------------------------------------------------------------------

    def add_stage(self) -> None:
        """Add an empty stage at the end."""
        self.apply(tr("Add stage"), lambda p: add_stage(p, name=Text.plain(tr("New stage"))))

    def duplicate_stage(self, stage_id: str) -> None:
        """Copy a stage after itself; each exercise builds on the one it was copied from."""
        self.apply(tr("Duplicate stage"), lambda p: duplicate_stage(p, stage=stage_id))

    def move_stage(self, stage_id: str, by: int) -> None:
        """Move a stage on (1) or back (-1)."""

        def make(protocol: Protocol) -> Edited[Protocol]:
            return move_stage(protocol, stage=stage_id, to=stage_at(protocol, stage_id) + by)

        self.apply(tr("Move stage"), make)

    def remove_stage(self, stage_id: str) -> None:
        """Take a stage out; undo brings it back."""
        self.apply(tr("Remove stage"), lambda p: remove_stage(p, stage=stage_id))
        self._session.tell(tr("Stage removed."), tr("Undo"), self._session.document.undo)

    # ---- clipboard ------------------------------------------------------------------

    def copy(self, kind: str, ids: tuple[str, ...]) -> None:
        """Copy entries or a stage: for another library, and as text for other programs."""
        library, protocol = self._session.library, self._session.protocol_id
        ids = _still_there(self._session.protocol, kind, ids)
        if not ids:
            return
        if kind == "stage":
            clip = clip_stages(library, protocol=protocol, stages=ids)
        else:
            clip = clip_entries(library, protocol=protocol, entries=ids)
        data = clip_data(clip, as_text(clip, load_phrases("en")))
        QGuiApplication.clipboard().setMimeData(data)
        self._session.tell(tr_n("{n} copied.", "{n} copied.", len(ids)))

    def paste(self, block_id: str) -> None:
        """Paste entries into a block, or stages at the end."""
        clip = clip_of(QGuiApplication.clipboard().mimeData())
        if clip is None:
            self._session.tell(tr("There is nothing on the clipboard that fits here."))
            return
        protocol = self._session.protocol_id
        made: list[Edited[Library]] = []

        def change(library: Library) -> Library:
            if clip.stages:
                made.append(paste_stages(library, clip, protocol=protocol))
            else:
                made.append(paste_entries(library, clip, protocol=protocol, block=block_id))
            return made[-1].value

        if self._session.document.edit(tr("Paste"), change):
            self._after(made[-1])


def _still_there(protocol: Protocol | None, kind: str, ids: tuple[str, ...]) -> tuple[str, ...]:
    """Those that no undo took away since they were selected."""
    if protocol is None:
        return ()
    there = {noun.id for noun in (protocol.stages if kind == "stage" else protocol.entries())}
    return tuple(one for one in ids if one in there)
