"""The chosen card or protocol at a glance, and what can be done with it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from authoring.checks.result import Strength, Subject
from authoring.editor.i18n import tr, tr_n
from authoring.editor.library_room.describing import Description, UsedIn, describe
from authoring.editor.parts.labels import label, line
from authoring.editor.parts.marks import Mark, MarkView, mark_of_strength, mark_words
from authoring.editor.protocol_checks import today
from authoring.editor.search.pieces import Noun
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.model.card import Card


class _Link(QPushButton):
    """A link that ends in "…" where it is too long for its place."""

    def __init__(self, words: str) -> None:
        super().__init__(words)
        self._words = words
        self.setProperty("link", True)
        self.setToolTip(words)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        elide = Qt.TextElideMode.ElideRight
        self.setText(self.fontMetrics().elidedText(self._words, elide, self.width()))


class Preview(QFrame):
    """A panel about one card or protocol.

    Signals:
        open_wanted(), copy_wanted(), delete_wanted()
        place_wanted(Place): a use of the card.
    """

    open_wanted = Signal()
    copy_wanted = Signal()
    delete_wanted = Signal()
    place_wanted = Signal(object)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._noun: Noun | None = None
        self.setProperty("panel", True)
        self.setProperty("pane", True)
        self.open_button = QPushButton(tr("Open"))
        self.open_button.setProperty("main", True)
        self.copy_button = QPushButton(tr("Duplicate"))
        self.delete_button = QPushButton(tr("Delete"))
        self.open_button.clicked.connect(self.open_wanted)
        self.copy_button.clicked.connect(self.copy_wanted)
        self.delete_button.clicked.connect(self.delete_wanted)
        self._area = QScrollArea()
        self._area.setWidgetResizable(True)
        self._area.setFrameShape(QFrame.Shape.NoFrame)
        self._area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._build()
        session.checks.changed.connect(self._on_checks)

    def _build(self) -> None:
        used = theme()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.setSpacing(0)
        layout.addWidget(self._area, 1)
        layout.addWidget(line())
        row = QHBoxLayout()
        row.setContentsMargins(used.px(12), used.px(12), used.px(12), used.px(12))
        row.setSpacing(used.px(8))
        row.addWidget(self.open_button, 1)
        row.addWidget(self.copy_button)
        row.addWidget(self.delete_button)
        layout.addLayout(row)

    def show_noun(self, noun: Noun | None) -> None:
        """Show a card or protocol; None shows that nothing is chosen."""
        self._noun = noun
        self.set_able(able=noun is not None)
        self._area.setWidget(self._page(noun))

    def set_able(self, *, able: bool) -> None:
        """Switch the buttons on or off."""
        for button in (self.open_button, self.copy_button, self.delete_button):
            button.setEnabled(able)

    def _on_checks(self) -> None:
        if self.isVisible():
            self.show_noun(self._noun)

    # ---- the page ----------------------------------------------------------------

    def _page(self, noun: Noun | None) -> QWidget:
        used = theme()
        page = QWidget()
        page.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        layout = QVBoxLayout(page)
        layout.setContentsMargins(used.px(16), used.px(12), used.px(16), used.px(12))
        layout.setSpacing(used.px(8))
        if noun is None:
            words = tr("Choose a row to see it here.")
            layout.addWidget(label(words, soft=True, wrap=True))
            self._area.setAccessibleName(words)
        else:
            about = describe(noun, self._session.library, today())
            self._area.setAccessibleName(about.title)
            self._head(layout, about)
            layout.addLayout(_facts(about))
            layout.addWidget(line())
            self._checks(layout, noun)
            if isinstance(noun, Card):
                layout.addWidget(line())
                self._uses(layout, about)
        layout.addStretch(1)
        return page

    def _head(self, layout: QVBoxLayout, about: Description) -> None:
        layout.addWidget(label(about.title, Type.HEADING, wrap=True))
        if about.other:
            layout.addWidget(label(about.other, Type.BODY, soft=True, wrap=True))
        if about.summary:
            layout.addWidget(label(about.summary, Type.BODY, wrap=True))

    def _checks(self, layout: QVBoxLayout, noun: Noun) -> None:
        layout.addWidget(label(tr("Protocol checks"), Type.STRONG))
        subject = Subject.CARD if isinstance(noun, Card) else Subject.PROTOCOL
        results = self._session.checks.about(subject, noun.id)
        if not results and self._session.checks.task.is_busy:
            layout.addWidget(label(tr("Being checked …"), soft=True))
        elif not results:
            layout.addWidget(_marked(Mark.GOOD, tr("Nothing to say.")))
        for strength in Strength:
            number = sum(result.strength is strength for result in results)
            if number:
                mark = mark_of_strength(strength)
                words = tr("{n} {strength}", n=number, strength=mark_words(mark).lower())
                layout.addWidget(_marked(mark, words))

    def _uses(self, layout: QVBoxLayout, about: Description) -> None:
        layout.addWidget(label(tr("Where used"), Type.STRONG))
        if not about.uses:
            layout.addWidget(label(tr("In no protocol yet."), soft=True, wrap=True))
        for use in about.uses:
            pair = QVBoxLayout()
            pair.setSpacing(0)
            pair.addWidget(self._use_button(use))
            pair.addWidget(label(use.where, Type.SMALL, soft=True, wrap=True))
            layout.addLayout(pair)
        if about.more_uses:
            more = tr_n("And in {n} more protocol", "And in {n} more protocols", about.more_uses)
            layout.addWidget(label(more, Type.SMALL, soft=True))

    def _use_button(self, use: UsedIn) -> QPushButton:
        button = _Link(use.words)
        button.setAccessibleName(
            tr("Go to {protocol}, {where}", protocol=use.words, where=use.where)
        )
        button.clicked.connect(lambda _=False, place=use.place: self.place_wanted.emit(place))
        return button


def _facts(about: Description) -> QGridLayout:
    used = theme()
    grid = QGridLayout()
    grid.setHorizontalSpacing(used.px(12))
    grid.setVerticalSpacing(used.px(4))
    grid.setColumnStretch(1, 1)
    for row, fact in enumerate(about.facts):
        grid.addWidget(label(fact.name, Type.SMALL, soft=True), row, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(label(fact.words, Type.ENTRY, wrap=True), row, 1)
    return grid


def _marked(mark: Mark, words: str) -> QWidget:
    row = QWidget()
    layout = QHBoxLayout(row)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(theme().px(8))
    layout.addWidget(MarkView(mark, size=14))
    layout.addWidget(label(words, Type.BODY), 1)
    return row
