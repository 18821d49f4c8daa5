"""The card workshop: write one variant while seeing its neighbours."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPoint
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from authoring.checks.result import Subject
from authoring.editor.i18n import tr
from authoring.editor.place import steps
from authoring.editor.room import KeyHint, Room
from authoring.editor.session import Selection, Session
from authoring.editor.workers import LatestTask
from authoring.editor.workshop.card_actions import CardActions
from authoring.editor.workshop.clip_actions import ClipActions
from authoring.editor.workshop.empty import NoCards
from authoring.editor.workshop.ladder_actions import LadderActions
from authoring.editor.workshop.ladder_model import Side
from authoring.editor.workshop.measuring import Measured, Question, measure
from authoring.editor.workshop.photo_actions import PhotoActions
from authoring.editor.workshop.room_commands import add_commands, form_hints, ladder_hints
from authoring.editor.workshop.words import card_title
from authoring.editor.workshop.workbench import Workbench
from authoring.model.card import Card, Variant
from authoring.model.edits.ladder import first_variant
from authoring.model.library import Library

_VARIANT = "variant"


class WorkshopRoom(Room):
    """The room itself: it knows the session, and its parts draw."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self._made_from: dict[str, str] = {}
        self._stale = True
        self._shown = ""
        self.bench = Workbench(session, session.thumbnails)
        self.empty = NoCards()
        self._stack = QStackedWidget()
        self._stack.addWidget(self.bench)
        self._stack.addWidget(self.empty)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._stack)
        self.on_ladder = LadderActions(session, self.chosen, self)
        self.on_cards = CardActions(session, self)
        self.on_photos = PhotoActions(session, self.chosen, self)
        self.on_clips = ClipActions(session, self.chosen, self.on_photos, self)
        self.measuring = LatestTask(measure, delay_ms=200, parent=self)
        add_commands(self)
        self._connect()

    def _connect(self) -> None:
        bench, ladder, form = self.bench, self.bench.ladder, self.bench.form
        ladder.chosen.connect(self.choose_variant)
        ladder.opened.connect(self._open_variant)
        ladder.moved.connect(self.on_ladder.put_on_rung)
        ladder.add_wanted.connect(self._offer_free_place)
        ladder.menu_wanted.connect(self._offer_menu)
        form.variant_edited.connect(self.on_ladder.write)
        form.card_edited.connect(self.on_cards.write)
        form.ended.connect(self.session.document.seal)
        form.photos_wanted.connect(self.on_photos.choose)
        form.photos_given.connect(self.on_photos.take)
        form.comparing_ended.connect(self._end_comparing)
        bench.side.place_wanted.connect(self.session.go_to)
        bench.side.reading.place_wanted.connect(self._show_path)
        bench.side.reading.use_wanted.connect(self.on_cards.use_words)
        bench.title_row.choosing.connect(self.on_cards.choose)
        bench.title_row.adding.connect(self.offer_adding)
        self.empty.new_wanted.connect(lambda: self.on_cards.begin(""))
        self.on_cards.begun.connect(lambda _id: bench.form.focus_name())
        self.on_ladder.goal.connect(self._go_to_variant)
        self.on_ladder.removed.connect(self._go_to_neighbour)
        self.on_ladder.added.connect(self._show_new)
        self.on_photos.intake.added.connect(self._show_new_picture)
        self.on_clips.pasted.connect(self._go_to_variant)
        self.measuring.done.connect(self._take_measured)
        # Methods, no lambdas: Qt lets go of a method when the room goes.
        self.session.card_chosen.connect(self._draw)
        self.session.selection_changed.connect(self._draw)
        self.session.text_language_changed.connect(self._draw)
        self.session.checks.changed.connect(self._show_checks)

    # ---- what is shown --------------------------------------------------------

    def title(self) -> str:
        """The card's title."""
        card = self.session.card
        return "" if card is None else card_title(card, self.session.text_language)

    def chosen(self) -> tuple[Card, Variant | None] | None:
        """The card that is open and the variant that is written, or None without a card."""
        card = self.session.card
        if card is None:
            return None
        selection = self.session.selection
        wanted = selection.ids[0] if selection.kind == _VARIANT and selection.ids else ""
        # Without a choice the one in sight stays, whatever it has become by an edit.
        variant = card.variant(wanted) or card.variant(self._shown)
        if variant is None and card.variants:
            variant = first_variant(card)
        return card, variant

    def refresh(self, before: Library, after: Library) -> None:
        """Draw the card, and measure it anew."""
        self._draw()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._stale:
            self._draw()

    def _draw(self, _what: object = None) -> None:
        self._stale = not self.isVisible()
        if self._stale:
            return
        found = self.chosen()
        self._stack.setCurrentWidget(self.empty if found is None else self.bench)
        if found is None:
            self.measuring.cancel()
            return
        card, variant = found
        key = self._shown = variant.id if variant is not None else ""
        source = card.variant(self._made_from.get(key, ""))
        results = self.session.checks.about(Subject.CARD, card.id)
        self.bench.show_card(card, variant, source, results)
        on_disk = self.session.document.on_disk
        self.measuring.ask(Question(self.session.library, on_disk, card.id, key))

    def _take_measured(self, measured: Measured) -> None:
        if measured.card == self.session.card_id:
            self.bench.show_measured(measured)

    def _show_checks(self) -> None:
        found = self.chosen()
        if found is not None and self.isVisible():
            results = self.session.checks.about(Subject.CARD, found[0].id)
            self.bench.show_checks(*found, results)

    def key_hints(self) -> Sequence[KeyHint]:
        """Keys for the ladder or for the form."""
        return ladder_hints() if self.bench.ladder.focused_spot() is not None else form_hints()

    def focus_first(self) -> None:
        """Put the focus on the ladder."""
        if self.session.card is None:
            self.empty.new_button.setFocus()
        else:
            self.bench.focus_ladder()

    def show_place(self, subject: Subject, subject_id: str, path: str) -> None:
        """Show a place of a card."""
        if subject is Subject.CARD and subject_id in self.session.library.cards:
            self.session.choose_card(subject_id)
            if path:
                self._show_path(path)

    def _show_path(self, path: str) -> None:
        way, found = steps(path), self.chosen()
        if found is None:
            return
        index = way[1] if way[:1] == ("variants",) and len(way) > 1 else None
        if isinstance(index, int) and index < len(found[0].variants):
            self.choose_variant(found[0].variants[index].id)
        self.bench.form.focus_path(path)

    # ---- going to variants ----------------------------------------------------

    def choose_variant(self, variant_id: str) -> None:
        """Write this variant from now on."""
        self.session.select(Selection(_VARIANT, (variant_id,)))

    def _go_to_variant(self, variant_id: str) -> None:
        in_form = self.bench.form.isAncestorOf(self.focusWidget() or self)
        self.choose_variant(variant_id)
        if not in_form:
            self.bench.focus_ladder()

    def _go_to_neighbour(self, variant_id: str) -> None:
        self.choose_variant(variant_id)
        self.bench.focus_ladder()

    def walk_across(self, ahead: bool) -> None:
        """Go to the side that the arrow points to on the screen."""
        holding = ahead != self.isRightToLeft()
        self.on_ladder.walk_to(Side.HOLDING if holding else Side.MOVING)

    def _open_variant(self, variant_id: str) -> None:
        self.choose_variant(variant_id)
        self.bench.form.focus_path("variants[0].name")

    def _show_new(self, variant_id: str, source: str) -> None:
        if source:
            self._made_from[variant_id] = source
        self.choose_variant(variant_id)
        self._draw()
        self.bench.form.focus_name()

    def _end_comparing(self) -> None:
        found = self.chosen()
        if found is not None and found[1] is not None:
            self._made_from.pop(found[1].id, None)
            self._draw()

    def _show_new_picture(self, variant_id: str) -> None:
        found = self.chosen()
        if found is not None and found[1] is not None and found[1].id == variant_id:
            self.bench.form.focus_path(f"variants[0].pictures[{len(found[1].pictures) - 1}]")

    # ---- offers ---------------------------------------------------------------

    def offer_adding(self) -> None:
        """Offer copies and blanks under the button for it."""
        button = self.bench.title_row.add_button
        self.on_ladder.offer_adding(button.mapToGlobal(button.rect().bottomLeft()))

    def _offer_free_place(self, rung: int, side: Side) -> None:
        cell = self.bench.ladder.free_cell(rung, side)
        at = cell.mapToGlobal(cell.rect().center()) if cell is not None else QPoint()
        self.on_ladder.offer_adding_at(rung, side, at)

    def _offer_menu(self, variant_id: str, at: QPoint) -> None:
        self.choose_variant(variant_id)
        self.on_ladder.offer_menu(self.actions(), at)

    def use_first_words(self) -> None:
        """Put in the plain words for the first hard ones, those of the focused text before."""
        reading = self.bench.side.reading
        word = self.bench.form.word_at_focus(reading.usable_first()) or reading.first_usable()
        if word is None:
            self.session.tell(tr("There are no plain words to put in here."))
        else:
            self.on_cards.use_words(word)
