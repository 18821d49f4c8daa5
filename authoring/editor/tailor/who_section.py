"""First questions: which protocols and cards, the label, the side."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.fields.choices import QuietCombo
from authoring.editor.parts.labels import ElidedLabel, label
from authoring.editor.parts.marks import Mark
from authoring.editor.session import Session
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.letters import Letters
from authoring.editor.tailor.section import Section
from authoring.editor.tailor.work import Work, library_of
from authoring.editor.theme import Type, theme
from authoring.model.base import evolve
from authoring.model.vocabulary import Side, Status
from authoring.tailoring.label import looks_like_identity

LONGEST_LABEL = 60


class Sources(Section):
    """Protocols and single cards that the plan is made of."""

    def __init__(self, session: Session, desk: Desk) -> None:
        super().__init__(desk)
        self._session = session
        self._known: tuple[object, ...] = ()
        self.protocol = QuietCombo()
        self.protocol.activated.connect(self._replace)
        self.more = QuietCombo()
        self.more.setAccessibleName(tr("Add a protocol or a card"))
        self.more.activated.connect(self._add)
        self.rows.addWidget(label(tr("Protocol"), Type.SMALL, soft=True, buddy=self.protocol))
        self.rows.addWidget(self.protocol)
        self._list = QWidget()
        self.rows.addWidget(self._list)
        self.rows.addWidget(self.more)
        for combo in (self.protocol, self.more):
            combo.setSizeAdjustPolicy(
                QuietCombo.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
            )
            combo.setMinimumContentsLength(12)

    def show_work(self) -> None:
        now = self.desk.work
        library = library_of(now, self._session.library)
        state = (library.protocols, library.cards, now.protocols, now.cards)
        if state == self._known:
            return
        self._known = state
        own = library.manifest.language
        self.protocol.clear()
        self.protocol.addItem(tr("No protocol"), "")
        self.more.clear()
        self.more.addItem(tr("Add a protocol or a card…"), "")
        for each in library.protocols.values():
            if each.status is not Status.RETIRED:
                words = each.title.best(own, each.language)
                self.protocol.addItem(words, each.id)
                if each.id not in now.protocols:
                    self.more.addItem(words, each.id)
        for card in sorted(library.cards.values(), key=lambda c: c.title.best(own, c.language)):
            if card.id not in now.cards:
                words = tr("Card: {title}", title=card.title.best(own, card.language))
                self.more.addItem(words, card.id)
        first = now.protocols[0] if now.protocols else ""
        self.protocol.setCurrentIndex(max(self.protocol.findData(first), 0))
        self.more.setCurrentIndex(0)
        self._show_others(now)

    def _show_others(self, now: Work) -> None:
        library = library_of(now, self._session.library)
        fresh = QWidget()
        box = QVBoxLayout(fresh)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(theme().px(4))
        for one in (*now.protocols[1:], *now.cards):
            found = library.protocols.get(one) or library.cards.get(one)
            if found is None:
                continue
            words = found.title.best(library.manifest.language, found.language)
            row = QHBoxLayout()
            row.addWidget(ElidedLabel(words), 1)
            button = QPushButton(tr("Remove"))
            button.setProperty("quiet", True)
            button.setAccessibleName(tr("Remove {name}", name=words))
            button.clicked.connect(lambda _=False, gone=one: self._remove(gone))
            row.addWidget(button)
            box.addLayout(row)
        self.rows.replaceWidget(self._list, fresh)
        self._list.deleteLater()
        self._list = fresh

    def _replace(self, index: int) -> None:
        chosen = str(self.protocol.itemData(index) or "")

        def change(now: Work) -> Work:
            others = tuple(one for one in now.protocols[1:] if one != chosen)
            kept = (chosen, *others) if chosen else others
            return evolve(now, protocols=kept, stages=(), choices=(), seen=())

        self.desk.edit(tr("Choose a protocol"), change)

    def _add(self, index: int) -> None:
        chosen = str(self.more.itemData(index) or "")
        if not chosen:
            return
        is_card = chosen in self._session.library.cards

        def change(now: Work) -> Work:
            if is_card:
                return evolve(now, cards=(*now.cards, chosen))
            return evolve(now, protocols=(*now.protocols, chosen))

        self.desk.edit(tr("Add to the plan"), change)

    def _remove(self, gone: str) -> None:
        def change(now: Work) -> Work:
            return evolve(
                now,
                protocols=tuple(one for one in now.protocols if one != gone),
                cards=tuple(one for one in now.cards if one != gone),
                stages=tuple(wish for wish in now.stages if wish.protocol != gone),
            )

        self.desk.edit(tr("Remove from the plan"), change)


class Who(Section):
    """The label, which is never a name, the clinician, and the side."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.rows.setSpacing(theme().px(12))
        self.label = QLineEdit()
        self.label.setMaxLength(LONGEST_LABEL)
        self.label.textEdited.connect(self._label)
        self.label.editingFinished.connect(desk.seal)
        self.label_row = FieldRow(
            tr("Label, no name"), self.label, tr("A label of your own; the plan keeps no name.")
        )
        self.rows.addWidget(self.label_row)
        self.clinician = QLineEdit()
        self.clinician.setMaxLength(200)
        self.clinician.editingFinished.connect(self._clinician)
        self.clinician_row = FieldRow(
            tr("Who decides"),
            self.clinician,
            tr("Your name or initials; kept with every choice, and remembered here."),
        )
        self.rows.addWidget(self.clinician_row)
        sides = ((Side.LEFT, tr("Left")), (Side.RIGHT, tr("Right")), (Side.BOTH, tr("Both")))
        self.side: Letters[Side] = Letters(tr("Affected side"), sides)
        self.side.chosen.connect(self._side)
        self.rows.addWidget(FieldRow(tr("Affected side"), self.side))

    def show_work(self) -> None:
        now = self.desk.work.presentation
        if self.label.text() != now.label:
            self.label.setText(now.label)
        warn = looks_like_identity(now.label)
        self.label_row.say(
            tr("This looks like a name or a number of identity; use a label of your own.")
            if warn
            else "",
            Mark.SHOULD,
        )
        if not self.clinician.hasFocus():
            self.clinician.setText(self.desk.clinician)
        self.clinician_row.say(
            "" if self.desk.clinician else tr("A plan that nobody decided is a draft."),
            Mark.SHOULD,
        )
        self.side.choose(None if now.side is Side.NONE else now.side)

    def ask_name(self) -> None:
        """Say that a choice needs a clinician, and wait for the name."""
        self.clinician_row.say(
            tr("Say who decides first: every choice is kept with a name."), Mark.MUST
        )
        self.clinician.setFocus()

    def _label(self, words: str) -> None:
        self.answer(tr("Edit label"), lambda p: evolve(p, label=words), "label")

    def _clinician(self) -> None:
        if self.clinician.text().strip() != self.desk.clinician:
            self.desk.clinician = self.clinician.text()

    def _side(self, side: Side) -> None:
        self.answer(tr("Affected side"), lambda p: evolve(p, side=side))
