"""The right column: can patients read this, what does it touch, is it fresh?"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from authoring.checks.result import CheckResult, Subject
from authoring.editor.i18n import day_words, tr, tr_n
from authoring.editor.parts.labels import label, status_words
from authoring.editor.parts.marks import Mark, mark_of_strength
from authoring.editor.place import Place
from authoring.editor.sentences import said
from authoring.editor.theme import Type, theme
from authoring.editor.workshop.link_line import LinkLine
from authoring.editor.workshop.reading_section import ReadingSection
from authoring.editor.workshop.section import Section
from authoring.editor.workshop.where import Reach, UseLine, days_overdue, newest_reference
from authoring.model.card import Card

_MOST_LINES = 12


class SidePanel(QScrollArea):
    """The right column.

    Signals:
        place_wanted(Place): show a place.
    """

    place_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setProperty("pane", True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(tr("About this card"))
        self.reading = ReadingSection()
        self.uses = Section(tr("Where used"))
        self.changes = Section(tr("What an edit will change"))
        self.fresh = Section(tr("Kept fresh"))
        self.checks = Section(tr("Protocol checks"))
        inside = QWidget()
        layout = QVBoxLayout(inside)
        layout.setContentsMargins(0, 0, theme().px(8), theme().px(12))
        layout.setSpacing(theme().px(12))
        for part in (self.reading, self.uses, self.changes, self.fresh, self.checks):
            layout.addWidget(part)
        layout.addStretch(1)
        self.setWidget(inside)
        self._reach: Reach | None = None
        self._fresh: tuple[object, ...] = ()
        self._results: tuple[CheckResult, ...] | None = None

    # ---- use ------------------------------------------------------------------

    def show_reach(self, reach: Reach) -> None:
        """Show where the card is used, and what an edit changes there."""
        if reach == self._reach:
            return
        self._reach = reach
        self._show_uses(reach)
        self._show_changes(reach)

    def _show_uses(self, reach: Reach) -> None:
        self.uses.clear()
        if not reach.lines:
            self.uses.say(tr("In no protocol yet."), soft=True)
        groups: dict[str, list[UseLine]] = {}
        for use in reach.lines[:_MOST_LINES]:
            groups.setdefault(use.protocol_id, []).append(use)
        for lines in groups.values():
            self.uses.add(self._uses_of_one(lines))
        more = len(reach.lines) - _MOST_LINES
        if more > 0:
            self.uses.say(tr_n("{n} more exercise", "{n} more exercises", more), soft=True)

    def _uses_of_one(self, lines: Sequence[UseLine]) -> QWidget:
        group = QWidget()
        layout = QVBoxLayout(group)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        first = lines[0]
        status = status_words(first.status)
        layout.addWidget(label(first.title, Type.STRONG, wrap=True))
        layout.addWidget(label(status, Type.SMALL, soft=True))
        for use in lines:
            words = use_words(use)
            row = LinkLine(words, f"{use.title}: {words}. {status}", Type.SMALL)
            row.clicked.connect(
                lambda _=False, at=use: self.place_wanted.emit(
                    Place(Subject.PROTOCOL, at.protocol_id, at.path)
                )
            )
            layout.addWidget(row)
        return group

    def _show_changes(self, reach: Reach) -> None:
        self.changes.clear()
        count = len(reach.approved)
        if count:
            self.changes.say(
                tr_n(
                    "{n} approved protocol will ask for a fresh look.",
                    "{n} approved protocols will ask for a fresh look.",
                    count,
                )
            )
            self.changes.say(tr("Versions approved before keep the card as it was."), soft=True)
        elif reach.lines:
            self.changes.say(tr("No approved protocol uses this card."))
        else:
            self.changes.say(tr("Nothing but this card."))
        if reach.touched:
            titles = ", ".join(reach.touched)
            self.changes.say(tr("Not saved yet, and changes {titles}.", titles=titles))

    # ---- freshness ------------------------------------------------------------

    def show_card(self, card: Card, today: dt.date) -> None:
        """Show who looks after the card, and how fresh it is."""
        state = (card.owner, card.review_due, card.references, today)
        if state == self._fresh:
            return
        self._fresh = state
        self.fresh.clear()
        self.fresh.say(
            tr("Owner: {name}", name=card.owner) if card.owner else tr("Nobody looks after it.")
        )
        self._show_due(card, today)
        count, newest = len(card.references), newest_reference(card)
        words = tr_n("{n} reference", "{n} references", count)
        if newest is not None:
            words = tr("{references}, newest {year}", references=words, year=newest)
        self.fresh.say(words)

    def _show_due(self, card: Card, today: dt.date) -> None:
        if card.review_due is None:
            self.fresh.say(tr("No day set for a review."))
            return
        due = day_words(card.review_due)
        late = days_overdue(card, today)
        if late > 0:
            self.fresh.say(tr("Review was due {day}.", day=due), mark=Mark.SHOULD)
        else:
            self.fresh.say(tr("Review due {day}", day=due))

    # ---- checks ---------------------------------------------------------------

    def show_checks(self, results: Sequence[CheckResult]) -> None:
        """List the Protocol checks about the card."""
        found = tuple(results)
        if found == self._results:
            return
        self._results = found
        self.checks.clear()
        if not found:
            self.checks.say(tr("Nothing to mend on this card."), mark=Mark.GOOD)
        for result in found[:_MOST_LINES]:
            self.checks.say(said(result.sentence), mark=mark_of_strength(result.strength))
            words, how = said(result.sentence), said(result.mend)
            mend = LinkLine(how, f"{words} {how}", Type.SMALL)
            mend.clicked.connect(lambda _=False, at=result: self.place_wanted.emit(Place.of(at)))
            self.checks.add(mend)
        more = len(found) - _MOST_LINES
        if more > 0:
            self.checks.say(tr_n("{n} more check", "{n} more checks", more), soft=True)


def use_words(use: UseLine) -> str:
    """Where an exercise stands, and what the variant is to it."""
    where = tr("Stage {stage}, exercise {n}", stage=use.stage, n=use.number)
    if use.starts:
        return tr("{where}: starts with this", where=where)
    if use.may_use:
        return tr("{where}: may use this", where=where)
    return tr("{where}: other variants", where=where)
