"""The room's three panes over their title row: ladder, form, what it touches."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from authoring.checks.result import CheckResult
from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.protocol_checks import today
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.editor.thumbnails import Thumbnails, shown_on_plate
from authoring.editor.workshop.form_panel import FormPanel
from authoring.editor.workshop.ladder_load import NO_LOAD, LoadFace, load_face
from authoring.editor.workshop.ladder_view import LadderView
from authoring.editor.workshop.measuring import Measured
from authoring.editor.workshop.side_panel import SidePanel
from authoring.editor.workshop.title_row import TitleRow
from authoring.editor.workshop.words import checks_by_variant, face_of
from authoring.model.card import Card, Variant

_THUMB = 62


class LadderPane(QFrame):
    """The ladder in a scroll area, and a line that teaches how to read it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("gate", True)
        self.setProperty("pane", True)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.ladder = LadderView()
        self.setFocusProxy(self.ladder)
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setWidget(self.ladder)
        self.note = label(style=Type.SMALL, soft=True, wrap=True)
        self.loads = label(style=Type.SMALL, wrap=True)
        self.loads.hide()
        self._card = ""
        layout = QVBoxLayout(self)
        gap = theme().px(12)
        layout.setContentsMargins(gap, theme().px(8), gap, gap)
        layout.setSpacing(theme().px(8))
        layout.addWidget(self.area, 1)
        layout.addWidget(self.note)
        layout.addWidget(self.loads)

    def say(self, card: Card) -> None:
        """Teach by what the ladder has."""
        if card.id != self._card:
            self._card = card.id
            self.show_loads(NO_LOAD)  # those of another card; its own come from a worker
        rungs = {variant.rung for variant in card.variants}
        if not rungs:
            words = tr("Begin on rung 0: the exercise as the card is named.")
        elif 0 not in rungs:
            words = tr("Nothing is on rung 0, the exercise as the card is named.")
        elif len(rungs) == 1:
            words = tr("Add an easier and a harder one, so that a patient can be met half way.")
        else:
            words = tr("Harder stands higher. 0 is the exercise as the card is named.")
        self.note.setText(words)

    def show_loads(self, face: LoadFace) -> None:
        """Show the ladder's load against rung 0; nothing where nothing can be compared."""
        self.ladder.show_loads(face.rungs)
        self.loads.setText(face.note)
        self.loads.setVisible(bool(face.note))


class Workbench(QWidget):
    """Draws one card."""

    def __init__(
        self, session: Session, thumbnails: Thumbnails, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._session, self._thumbnails = session, thumbnails
        self._shown: tuple[Card, Variant | None] | None = None
        thumbnails.drawn.connect(self._show_drawn)
        used = theme()
        self.title_row = TitleRow()
        self.pane = LadderPane()
        self.ladder = self.pane.ladder
        self.form = FormPanel(session, thumbnails)
        self.side = SidePanel()
        self.pane.setMinimumWidth(used.px(300))
        self.form.setMinimumWidth(used.px(380))
        self.side.setMinimumWidth(used.px(230))
        self.side.setMaximumWidth(used.px(480))
        self.form.setMaximumWidth(used.px(1200))
        self.pane.setMaximumWidth(used.px(860))
        panes = QHBoxLayout()
        panes.setSpacing(used.px(20))
        panes.addWidget(self.pane, 47)
        panes.addWidget(self.form, 52)
        panes.addWidget(self.side, 28)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(used.px(24), used.px(12), used.px(24), used.px(8))
        layout.setSpacing(used.px(12))
        layout.addWidget(self.title_row)
        layout.addLayout(panes, 1)

    def show_card(
        self,
        card: Card,
        variant: Variant | None,
        source: Variant | None,
        results: Sequence[CheckResult],
    ) -> None:
        """Show a card.

        Args:
            variant: the one that is written.
            source: the one to compare it with.
            results: the Protocol checks about the card.
        """
        self._shown = card, variant
        self.title_row.show_card(card, self._session.text_language)
        self._show_ladder(card, variant, results)
        self.form.show_card(card, variant, source)
        self.form.show_checks(results)
        self.side.show_card(card, today())
        self.side.show_checks(results)

    def _show_drawn(self) -> None:
        """Show the pictures that have been drawn meanwhile."""
        if self._shown is None or not self.isVisible():
            return
        card, variant = self._shown
        side = theme().px(_THUMB)
        self.ladder.show_pictures(
            {one.id: self._thumbnails.of(shown_on_plate(one), side) for one in card.variants}
        )
        if self.form.form is not None and variant is not None:
            self.form.form.show_pictures(variant)

    def show_checks(
        self, card: Card, variant: Variant | None, results: Sequence[CheckResult]
    ) -> None:
        """Show other results of the checks."""
        self._show_ladder(card, variant, results)
        self.form.show_checks(results)
        self.side.show_checks(results)

    def _show_ladder(
        self, card: Card, variant: Variant | None, results: Sequence[CheckResult]
    ) -> None:
        about = checks_by_variant(tuple(results))
        language = self._session.text_language
        faces = {
            one.id: face_of(card, one, language, about.get(index, ()))
            for index, one in enumerate(card.variants)
        }
        side = theme().px(_THUMB)
        pictures = {one.id: self._thumbnails.of(shown_on_plate(one), side) for one in card.variants}
        selected = variant.id if variant is not None else ""
        self.ladder.show_card(card, faces, pictures, selected)
        self.pane.say(card)

    def show_measured(self, measured: Measured) -> None:
        """Show how the card reads, and what it touches."""
        self.side.reading.show_reading(measured.reading)
        self.side.show_reach(measured.reach)
        self.pane.show_loads(load_face(measured.weighed))

    def focus_ladder(self) -> None:
        """Put the focus on the ladder, and scroll there."""
        self.ladder.focus_selected()
        focus = self.ladder.focusWidget()
        if focus is not None:
            self.pane.area.ensureWidgetVisible(focus, 0, theme().px(40))
