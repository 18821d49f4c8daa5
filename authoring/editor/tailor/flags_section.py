"""Red flags: each is asked and answered by itself."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from authoring.editor.i18n import tr, tr_n
from authoring.editor.parts.field_row import FaultLine
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark
from authoring.editor.session import Session
from authoring.editor.tailor.answers import Asked, answer_of, flags_of, with_answer
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.letters import Letters
from authoring.editor.tailor.section import Section
from authoring.editor.tailor.work import library_of
from authoring.editor.theme import Type, theme
from authoring.model.vocabulary import Answer


class FlagRow(QWidget):
    """A question, its three answers, and what to do where it is yes."""

    def __init__(self, asked: Asked, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.asked = asked
        own = asked.protocol.language
        question = asked.flag.question.best(own, own)
        answers = (
            (Answer.NO, tr("No")),
            (Answer.YES, tr("Yes")),
            (Answer.NOT_ASKED, tr("Not asked")),
        )
        self.answers: Letters[Answer] = Letters(question, answers)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, theme().px(4))
        layout.setSpacing(theme().px(4))
        layout.addWidget(label(question, Type.SMALL, wrap=True))
        row = QHBoxLayout()
        row.addWidget(self.answers)
        row.addStretch(1)
        layout.addLayout(row)
        self.action = FaultLine()
        layout.addWidget(self.action)

    def show_answer(self, answer: Answer) -> None:
        """Show an answer; a yes shows what the protocol says to do."""
        self.answers.choose(answer)
        own = self.asked.protocol.language
        words = self.asked.flag.action.best(own, own) if answer is Answer.YES else ""
        self.action.say(words, Mark.STOP)
        self.answers.setAccessibleDescription(words)


class Flags(Section):
    """All red flags of the chosen protocols, one below the other."""

    def __init__(self, session: Session, desk: Desk) -> None:
        super().__init__(desk, tr("Red flags"))
        self._session = session
        self._known: tuple[Asked, ...] = ()
        self.flag_rows: list[FlagRow] = []
        self.count = label(style=Type.SMALL, soft=True, wrap=True)
        self.rows.addWidget(self.count)

    def show_work(self) -> None:
        now = self.desk.work
        library = library_of(now, self._session.library)
        used = [library.protocols[one] for one in now.protocols if one in library.protocols]
        asked = flags_of(used)
        if asked != self._known:
            self._build(asked)
        left = 0
        for row in self.flag_rows:
            answer = answer_of(now.presentation, row.asked)
            row.show_answer(answer)
            left += answer is Answer.NOT_ASKED
        self.setVisible(bool(asked))
        self.count.setText(
            tr_n(
                "{n} not asked yet; it blocks the print.",
                "{n} not asked yet; they block the print.",
                left,
            )
            if left
            else tr("Every one was asked.")
        )

    def _build(self, asked: tuple[Asked, ...]) -> None:
        self._known = asked
        for row in self.flag_rows:
            self.rows.removeWidget(row)
            row.deleteLater()
        self.flag_rows = []
        for one in asked:
            row = FlagRow(one)
            row.answers.chosen.connect(lambda answer, one=one: self._answer(one, answer))
            index = len(self.flag_rows)
            row.answers.typed.connect(
                lambda index=index: self._next(index), Qt.ConnectionType.QueuedConnection
            )
            self.rows.addWidget(row)
            self.flag_rows.append(row)

    def _answer(self, asked: Asked, answer: Answer) -> None:
        self.answer(tr("Answer a red flag"), lambda p: with_answer(p, asked, answer))

    def _next(self, index: int) -> None:
        """Typing a letter goes on to the next question."""
        if index + 1 < len(self.flag_rows):
            following = self.flag_rows[index + 1].answers
            following.button(following.value or Answer.NOT_ASKED).setFocus()
