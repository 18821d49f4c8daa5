"""The middle: the variant that is written, or the whole card."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QStackedWidget, QVBoxLayout, QWidget

from authoring.checks.result import CheckResult
from authoring.editor.form_context import FormContext, Root
from authoring.editor.i18n import tr
from authoring.editor.parts.segmented import Segmented
from authoring.editor.place import is_within, steps
from authoring.editor.session import Session
from authoring.editor.theme import theme
from authoring.editor.thumbnails import Thumbnails
from authoring.editor.workshop.card_form import CardForm
from authoring.editor.workshop.photo_intake import sources_of
from authoring.editor.workshop.reading import PlacedWord
from authoring.editor.workshop.reading_section import ReadingSection
from authoring.editor.workshop.variant_form import VariantForm, teaching
from authoring.model.base import evolve
from authoring.model.card import Card, Variant

VARIANT, CARD = "variant", "card"
_ROOM_FOR_PLATE = 470


class _Scroll(QScrollArea):
    """Scrolls up and down alone, and follows the focus."""

    def __init__(self) -> None:
        super().__init__()
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def show_inside(self, inside: QWidget) -> None:
        """Show another widget; the old one is gone."""
        holder = QWidget()
        layout = QVBoxLayout(holder)
        gap = theme().px(16)
        layout.setContentsMargins(gap + theme().px(4), theme().px(4), gap, gap)
        layout.addWidget(inside)
        self.setWidget(holder)


class OpenCard(FormContext):
    """The surroundings of whichever card is open."""

    def root(self) -> Root:
        """The card that is open."""
        return self.session.card


class FormPanel(QFrame):
    """The variant's form and the card's, one in sight.

    Signals:
        variant_edited(variant, name, merge_key), card_edited(card, name, merge_key)
        ended(): the user left a field.
        photos_wanted(): choose photos from the disk.
        photos_given(sources): photos were dropped here.
        comparing_ended(): the strip of differences was closed.
    """

    variant_edited = Signal(object, str, str)
    card_edited = Signal(object, str, str)
    ended = Signal()
    photos_wanted = Signal()
    photos_given = Signal(object)
    comparing_ended = Signal()

    def __init__(
        self, session: Session, thumbnails: Thumbnails, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._session, self._thumbnails = session, thumbnails
        self.setProperty("panel", True)
        self.setProperty("pane", True)
        self.setAcceptDrops(True)
        self._card: Card | None = None
        self._languages = ("", "")
        self._results: tuple[CheckResult, ...] = ()
        self.which: Segmented[str] = Segmented(
            tr("What is edited"),
            [(VARIANT, tr("This variant")), (CARD, tr("The whole card"))],
            VARIANT,
        )
        self.which.chosen.connect(self._show_which)
        self._stack = QStackedWidget()
        self._variant_scroll, self._card_scroll = _Scroll(), _Scroll()
        self._stack.addWidget(self._variant_scroll)
        self._stack.addWidget(self._card_scroll)
        head = QVBoxLayout()
        gap = theme().px(16)
        head.setContentsMargins(gap + theme().px(4), gap, gap, theme().px(12))
        head.addWidget(self.which, 0, Qt.AlignmentFlag.AlignLeading)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.setSpacing(0)
        layout.addLayout(head)
        layout.addWidget(self._stack, 1)
        self.form: VariantForm | None = None
        self.card_form: CardForm | None = None

    # ---- showing --------------------------------------------------------------

    def show_card(self, card: Card, variant: Variant | None, source: Variant | None) -> None:
        """Show a card and the variant that is written.

        Args:
            source: the variant to compare it with, None for none.
        """
        language = self._session.text_language
        # A form is made for the languages of its texts; another card of the same is shown in it.
        other = self._languages != (card.language, language)
        if other or self._card is None or self._card.id != card.id:
            self.card_form = None
            self._card_scroll.show_inside(QWidget())
        self._card, self._languages = card, (card.language, language)
        if other:
            self.form = None
        if variant is None and (self.form is not None or other):
            self.form = None
            self._variant_scroll.show_inside(teaching())
        if variant is not None:
            if self.form is None:
                self._build_form(card)
            self._form().show_variant(card, variant, source)
        if self.card_form is not None:
            self.card_form.show_value(card)
        elif self.which.value == CARD:
            self._build_card_form(card)

    def _form(self) -> VariantForm:
        assert self.form is not None  # noqa: S101 - narrows the type
        return self.form

    def _build_form(self, card: Card) -> None:
        form = VariantForm(OpenCard.of_card(self._session, card.id), self._thumbnails)
        form.edited.connect(self.variant_edited)
        form.ended.connect(self.ended)
        form.photos_wanted.connect(self.photos_wanted)
        form.comparing_ended.connect(self.comparing_ended)
        self.form = form
        self._variant_scroll.show_inside(form)
        self._fit()

    def _build_card_form(self, card: Card) -> None:
        context = FormContext.of_card(self._session, card.id)
        form = CardForm(card, context)
        form.edited.connect(self._on_card)
        form.ended.connect(self.ended)
        self.card_form = form
        form.show_checks(self._results)
        self._card_scroll.show_inside(form)

    def _on_card(self, new: Card, name: str, key: str) -> None:
        # The ladder has a view of its own, and may have changed since the form was shown.
        if self._card is not None:
            self.card_edited.emit(evolve(new, variants=self._card.variants), name, key)

    def _show_which(self, which: str) -> None:
        if which == CARD and self.card_form is None and self._card is not None:
            self._build_card_form(self._card)
        self._stack.setCurrentIndex(0 if which == VARIANT else 1)

    def show_part(self, which: str) -> None:
        """Show the variant or the whole card."""
        self.which.choose(which)
        self._show_which(which)

    def show_checks(self, results: Sequence[CheckResult]) -> None:
        """Put the results about the card under their fields."""
        self._results = tuple(results)
        if self.form is not None:
            self.form.show_checks(self._results)
        if self.card_form is not None:
            of_card = [r for r in self._results if not is_within(r.path, "variants")]
            self.card_form.show_checks(of_card)

    # ---- focus ------------------------------------------------------------------

    def focus_path(self, path: str) -> None:
        """Put the focus on a place of the card; a variant's must be the one that is shown."""
        way = steps(path)
        if way and way[0] == "variants":
            self.show_part(VARIANT)
            if self.form is not None:
                self.form.focus_path(path.partition("].")[2])
        else:
            self.show_part(CARD)
            if self.card_form is not None:
                self.card_form.focus_path(path)
        # Rows that have just been opened have no place yet.
        QTimer.singleShot(0, self.follow_focus)

    def focus_name(self) -> None:
        """Put the focus on the variant's name, all of it selected."""
        self.show_part(VARIANT)
        if self.form is not None:
            self.form.focus_name()
            QTimer.singleShot(0, self.follow_focus)

    def word_at_focus(self, words: Sequence[PlacedWord]) -> PlacedWord | None:
        """The first usable word of the text that has the focus, or None."""
        if self.form is None or not self.form.isVisible():
            return None
        path = self.form.focused_path()
        usable = (w for w in words if ReadingSection.has_plain_words(w))
        return next((w for w in usable if path and w.path == path), None)

    def follow_focus(self) -> None:
        """Scroll to what has the focus."""
        focus = self.focusWidget()
        scroll = self._variant_scroll if self._stack.currentIndex() == 0 else self._card_scroll
        if focus is not None and focus.isVisible() and scroll.isAncestorOf(focus):
            scroll.ensureWidgetVisible(focus, theme().px(16), theme().px(80))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """Leave the large plate out where the fields need the room."""
        if self.form is not None:
            self.form.show_plate(self.width() >= theme().px(_ROOM_FOR_PLATE))

    # ---- keys and drops -----------------------------------------------------------

    def event(self, event: QEvent) -> bool:
        """Keep the keys that move items of lists from moving the whole variant."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            alt = event.modifiers() & Qt.KeyboardModifier.AltModifier
            if event.key() == Qt.Key.Key_Delete or (
                alt and event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down)
            ):
                event.accept()
                return True
        return super().event(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if sources_of(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        sources = sources_of(event.mimeData())
        if sources:
            event.acceptProposedAction()
            self.photos_given.emit(sources)
