"""What can be done on the ladder: add, remove, change the rung, walk."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import QObject, QPoint, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from authoring.editor.edit_words import refusal, told
from authoring.editor.i18n import tr
from authoring.editor.parts.gauge import rung_words
from authoring.editor.session import Session
from authoring.editor.workshop import edits
from authoring.editor.workshop.ladder_model import Side, side_of
from authoring.editor.workshop.removing import RemoveDialog, nearest
from authoring.editor.workshop.words import variant_name
from authoring.model.base import ModelError
from authoring.model.card import Card, Variant
from authoring.model.edits import ladder
from authoring.model.edits.library import remove_variant
from authoring.model.edits.outcome import Edited
from authoring.model.edits.uses import uses
from authoring.model.edits.variants import (
    add_variant,
    derive_variant,
    move_to_rung,
    reorder_on_rung,
)
from authoring.model.library import Library
from authoring.model.text import Text
from authoring.model.vocabulary import Mode

Chosen = Callable[[], tuple[Card, Variant | None] | None]


class LadderActions(QObject):
    """Edits of the ladder of the card that is open.

    Signals:
        goal(variant id): this variant should be shown now, with the focus on the ladder.
        removed(variant id): a variant is gone, and this is its nearest neighbour.
        added(variant id, source id): a new variant; source is "" for a blank one.
    """

    goal = Signal(str)
    removed = Signal(str)
    added = Signal(str, str)

    def __init__(self, session: Session, chosen: Chosen, window: QWidget) -> None:
        super().__init__(window)
        self._session, self._chosen, self._window = session, chosen, window
        self.menu: QMenu | None = None
        self.dialog: RemoveDialog | None = None

    # ---- adding ---------------------------------------------------------------

    def offer_adding(self, at: QPoint) -> None:
        """Offer variants made from the one that is chosen, and blank ones.

        Args:
            at: where to open the menu, in global coordinates.
        """
        found = self._chosen()
        if found is None:
            return
        card, variant = found
        if variant is None:
            self.add_blank(0, Side.MOVING)
            return
        menu = self._new_menu()
        side, rung = side_of(variant), variant.rung
        other = Side.MOVING if side is Side.HOLDING else Side.HOLDING
        name = variant_name(card, variant, self._session.text_language)
        self._head(menu, tr("A copy of “{name}”, with only the differences", name=name))
        for goal, words in (
            (rung + 1, tr("One rung harder: {rung}", rung=rung_words(rung + 1))),
            (rung - 1, tr("One rung easier: {rung}", rung=rung_words(rung - 1))),
            (rung, tr("An alternative on this rung")),
        ):
            self._offer(menu, words, partial(self.add_copy, variant.id, goal, side))
        held = (
            tr("Held instead of moved") if other is Side.HOLDING else tr("Moving instead of held")
        )
        self._offer(menu, held, lambda: self.add_copy(variant.id, rung, other))
        menu.addSeparator()
        for goal, words in (
            (rung + 1, tr("Blank, {rung}", rung=rung_words(rung + 1))),
            (rung, tr("Blank, {rung}", rung=rung_words(rung))),
            (rung - 1, tr("Blank, {rung}", rung=rung_words(rung - 1))),
        ):
            self._offer(menu, words, partial(self.add_blank, goal, side))
        menu.popup(at)

    def offer_adding_at(self, rung: int, side: Side, at: QPoint) -> None:
        """Offer what can stand in a free place."""
        found = self._chosen()
        if found is None:
            return
        card, variant = found
        if variant is None:
            self.add_blank(rung, side)
            return
        menu = self._new_menu()
        name = variant_name(card, variant, self._session.text_language)
        copy = tr("A copy of “{name}”, with only the differences", name=name)
        self._offer(menu, copy, lambda: self.add_copy(variant.id, rung, side))
        blank = tr("A blank hold") if side is Side.HOLDING else tr("A blank version")
        self._offer(menu, blank, lambda: self.add_blank(rung, side))
        menu.popup(at)

    def _new_menu(self) -> QMenu:
        if self.menu is not None:
            self.menu.deleteLater()
        self.menu = QMenu(self._window)
        return self.menu

    def offer_menu(self, commands: Sequence[QAction], at: QPoint) -> None:
        """Offer the room's commands for the chosen variant."""
        menu = self._new_menu()
        menu.addActions(commands)
        menu.popup(at)

    @staticmethod
    def _head(menu: QMenu, words: str) -> None:
        menu.addAction(words).setEnabled(False)

    @staticmethod
    def _offer(menu: QMenu, words: str, run: Callable[[], object]) -> None:
        action = menu.addAction(words)
        action.triggered.connect(lambda _checked=False: run())
        if menu.activeAction() is None:
            menu.setActiveAction(action)

    def add_copy(self, source: str, rung: int, side: Side) -> None:
        """Add a variant made of another."""
        found = self._chosen()
        card = None if found is None else found[0]
        old = None if card is None else card.variant(source)
        if card is None or old is None:
            return  # the menu that offered it stayed open while an undo took it away
        name = Text.plain(tr("{name}, copy", name=variant_name(card, old)))
        mode = old.mode
        if side is not side_of(old):
            mode = Mode.ISOMETRIC if side is Side.HOLDING else Mode.DYNAMIC
        self._add(
            tr("Add a copy"),
            lambda card: derive_variant(card, source=source, rung=rung, name=name, mode=mode),
            source,
        )

    def add_blank(self, rung: int, side: Side) -> None:
        """Add a variant with nothing but a name."""
        found = self._chosen()
        if found is None:
            return
        mode = Mode.ISOMETRIC if side is Side.HOLDING else Mode.DYNAMIC
        words = tr("New hold") if side is Side.HOLDING else tr("New variant")
        name = Text.plain(words) if found[0].variants else found[0].title
        self._add(
            tr("Add a variant"),
            lambda card: add_variant(card, rung=rung, mode=mode, name=name),
            "",
        )

    def _add(self, name: str, make: Callable[[Card], Edited[Card]], source: str) -> None:
        made: list[str] = []

        def change(card: Card) -> Card:
            edited = make(card)
            made.extend(edited.select)
            return edited.value

        if self._session.document.edit_card(name, self._session.card_id, change):
            self.added.emit(made[-1], source)

    # ---- removing -------------------------------------------------------------

    def remove(self) -> None:
        """Take the chosen variant out; where protocols use it, say so first."""
        found = self._chosen()
        if found is None or found[1] is None:
            return
        card, variant = found[0], found[1]
        used = uses(self._session.library, card.id, variant.id)
        if not used:
            self._remove(card, variant, "")
            return
        dialog = RemoveDialog(card, variant, used, self._window)
        dialog.confirmed.connect(lambda instead: self._remove(card, variant, instead))
        dialog.destroyed.connect(lambda: setattr(self, "dialog", None))
        self.dialog = dialog
        dialog.open()

    def _remove(self, card: Card, variant: Variant, instead: str) -> None:
        name = variant_name(card, variant, self._session.text_language)
        notes: list[str] = []

        def change(library: Library) -> Library:
            edited = remove_variant(
                library, card=card.id, variant=variant.id, instead=instead or None
            )
            notes.extend(told(edited.notes))
            return edited.value

        document = self._session.document
        if document.edit(tr("Remove “{name}”", name=name), change):
            said = " ".join([tr("“{name}” is removed.", name=name), *notes[:2]])
            self._session.tell(said, tr("Undo"), document.undo)
            others = nearest(card, variant)
            if others:
                self.removed.emit(others[0].id)

    # ---- rungs ----------------------------------------------------------------

    def change_rung(self, by: int) -> None:
        """Make the chosen variant stand some rungs higher or lower."""
        found = self._chosen()
        if found is not None and found[1] is not None:
            self.put_on_rung(found[1].id, found[1].rung + by)

    def put_on_rung(self, variant: str, rung: int) -> None:
        """Put a variant on another rung."""
        name = tr("Move to {rung}", rung=rung_words(rung))

        def change(card: Card) -> Card:
            return move_to_rung(card, variant=variant, rung=rung).value

        if self._session.document.edit_card(name, self._session.card_id, change):
            self.goal.emit(variant)

    def prefer(self, by: int) -> None:
        """Move the chosen variant among the alternatives of its rung."""
        found = self._chosen()
        if found is None or found[1] is None:
            return
        variant = found[1].id
        name = tr("Prefer it earlier") if by < 0 else tr("Prefer it later")

        def change(card: Card) -> Card:
            return reorder_on_rung(card, variant=variant, by=by).value

        if self._session.document.edit_card(name, self._session.card_id, change):
            self.goal.emit(variant)

    def write(self, new: Variant, name: str, merge_key: str) -> None:
        """Put an edited variant in its place; another kind of work brings its hold along."""
        card_id = self._session.card_id
        key = f"variant/{card_id}/{new.id}/{merge_key}" if merge_key else ""

        def change(card: Card) -> Card:
            old = ladder.variant_of(card, new.id)
            if new.mode is not old.mode:
                return edits.with_mode(card, new.id, new.mode)
            return edits.replaced(card, new)

        self._session.document.edit_card(name, card_id, change, merge_key=key)

    # ---- walking --------------------------------------------------------------

    def walk(self, way: ladder.Way) -> None:
        """Go to the next harder or easier variant of the same side."""
        self._walk(lambda card, v: ladder.next_variant(card, v, way=way, among=card.variants))

    def walk_to(self, side: Side) -> None:
        """Go to the moving or holding counterpart."""
        self._walk(lambda card, v: v if side_of(v) is side else ladder.counterpart(card, v))

    def _walk(self, find: Callable[[Card, Variant], Variant]) -> None:
        found = self._chosen()
        if found is None or found[1] is None:
            return
        try:
            self.goal.emit(find(found[0], found[1]).id)
        except ModelError as error:
            self._session.tell(refusal(error))
