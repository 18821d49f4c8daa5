"""The right column's first part: can patients read this?"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from authoring.checks.language import NotForLanguage
from authoring.checks.plain_words import Basis
from authoring.checks.readability import MIN_WORDS, Reading, ReadingGrade, TooShort
from authoring.editor.i18n import tr, tr_n
from authoring.editor.parts.labels import KeyCap, label
from authoring.editor.place import steps
from authoring.editor.theme import Type, theme
from authoring.editor.workshop.gauge_of_grade import GradeScale
from authoring.editor.workshop.link_line import LinkLine
from authoring.editor.workshop.reading import CardReading, PlacedWord
from authoring.editor.workshop.section import Section

_MOST_WORDS = 6


def place_words(path: str) -> str:
    """A place in a variant in words: ``variants[2].steps[0]`` is "Step 1"."""
    way = [step for step in steps(path) if step != "variants"]
    if way and isinstance(way[0], int):
        way = way[1:]
    first = way[0] if way else ""
    number = way[1] + 1 if len(way) > 1 and isinstance(way[1], int) else 0
    return {
        "start": tr("Start"),
        "steps": tr("Step {n}", n=number),
        "cues": tr("Cue {n}", n=number),
        "breathing": tr("Breathing"),
        "in_short": tr("In short"),
        "hold": tr("Stands in for"),
        "cautions": tr("Caution {n}", n=number),
        "purpose": tr("Purpose"),
    }.get(str(first), "")


def word_sentence(word: PlacedWord) -> str:
    """What is said about a hard word, with plain words where there are some."""
    hard = word.found.word
    if word.found.basis is Basis.VAGUE:
        return tr("“{word}” is too vague. Say {what}.", word=hard, what=word.found.suggestion)
    if word.instead:
        return tr("“{word}” may be hard. Try “{plain}”.", word=hard, plain=word.instead)
    return tr("“{word}” may be hard. Can it be said in shorter words?", word=hard)


def grade_words(reading: ReadingGrade) -> str:
    """A grade in whole school years, never below the first."""
    return tr("Grade {n}", n=max(1, round(reading.grade)))


class ReadingSection(Section):
    """Grade, scale, and the hard words of the variant.

    Signals:
        place_wanted(path): show the text at this place of the card.
        use_wanted(PlacedWord): put the plain words in.
    """

    place_wanted = Signal(str)
    use_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(tr("Reading"), ruled=False, parent=parent)
        self.words: tuple[PlacedWord, ...] = ()
        self._shown: CardReading | None = None
        self.grade = label(style=Type.DISPLAY)
        self.of_what = label(soft=True, wrap=True)
        self.scale = GradeScale()
        self.below = label(style=Type.SMALL, soft=True, wrap=True)
        row = QHBoxLayout()
        row.setSpacing(theme().px(8))
        row.addWidget(self.grade)
        row.addWidget(self.of_what, 1, Qt.AlignmentFlag.AlignBottom)
        self.head.addLayout(row)
        self.head.addWidget(self.scale)
        self.head.addWidget(self.below)
        self.wait()

    def wait(self) -> None:
        """Say that nothing is measured yet."""
        self.grade.setText("–")
        self.of_what.setText(tr("measuring"))
        self.scale.show_grade(None)
        self.below.hide()

    def show_reading(self, reading: CardReading) -> None:
        """Show what was measured."""
        if reading == self._shown:
            return
        self._shown = reading
        self._show_grades(reading)
        self.words = reading.words
        self.clear()
        last = ""
        for index, word in enumerate(self.usable_first()[:_MOST_WORDS]):
            self.add(self._word_row(word, first=index == 0, same_place=word.path == last))
            last = word.path
        more = len(self.words) - _MOST_WORDS
        if more > 0:
            self.say(tr_n("{n} more hard word", "{n} more hard words", more), soft=True)
        if reading.others:
            words = tr_n(
                "{n} hard word in the rest of the card",
                "{n} hard words in the rest of the card",
                reading.others,
            )
            self.say(words, soft=True)

    def usable_first(self) -> list[PlacedWord]:
        """The hard words, those with plain words to put in before the others."""
        return sorted(self.words, key=lambda word: not self.has_plain_words(word))

    def first_usable(self) -> PlacedWord | None:
        """The first hard word that has plain words to put in."""
        return next((w for w in self.words if self.has_plain_words(w)), None)

    @staticmethod
    def has_plain_words(word: PlacedWord) -> bool:
        """Whether plain words can be put in as they are."""
        return bool(word.instead) and word.found.basis is not Basis.VAGUE

    def _show_grades(self, reading: CardReading) -> None:
        mine, whole = reading.variant, reading.card
        if isinstance(mine, ReadingGrade):
            self._show_grade(mine, tr("for this variant"))
            self._below(_card_line(whole))
        elif isinstance(whole, ReadingGrade):
            self._show_grade(whole, tr("for the whole card"))
            self._below(_short_line(mine))
        else:
            self.grade.setText("–")
            self.scale.show_grade(None)
            self.of_what.setText(_why_not(whole))
            self._below("")

    def _show_grade(self, reading: ReadingGrade, of_what: str) -> None:
        self.grade.setText(grade_words(reading))
        # The formulas go below the first school year for very plain texts.
        below = tr("or below, {of_what}", of_what=of_what)
        self.of_what.setText(below if round(reading.grade) < 1 else of_what)
        self.scale.show_grade(reading.grade)

    def _below(self, words: str) -> None:
        self.below.setText(words)
        self.below.setVisible(bool(words))

    def _word_row(self, word: PlacedWord, *, first: bool, same_place: bool) -> QWidget:
        row = QWidget()
        layout = QVBoxLayout(row)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        sentence = word_sentence(word)
        if not same_place:
            place = LinkLine(place_words(word.path), f"{place_words(word.path)}: {sentence}")
            place.clicked.connect(lambda: self.place_wanted.emit(word.path))
            layout.addWidget(place, 0, Qt.AlignmentFlag.AlignLeading)
        layout.addWidget(label(sentence, wrap=True))
        if self.has_plain_words(word):
            use = LinkLine(tr("Use this"), tr("Use “{plain}”", plain=word.instead), Type.SMALL)
            use.clicked.connect(lambda: self.use_wanted.emit(word))
            keys = QHBoxLayout()
            keys.setSpacing(theme().px(8))
            use.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
            keys.addWidget(use)
            if first:
                keys.addWidget(KeyCap("Alt U"))
            keys.addStretch(1)
            layout.addLayout(keys)
        return row


def _card_line(whole: Reading) -> str:
    if isinstance(whole, ReadingGrade):
        return tr("{grade} for the whole card.", grade=grade_words(whole))
    return ""


def _short_line(mine: Reading | None) -> str:
    if not isinstance(mine, TooShort):
        return ""
    words = mine.counts.words
    return tr_n(
        "This variant has {n} word; a grade of its own needs {least}.",
        "This variant has {n} words; a grade of its own needs {least}.",
        words,
        least=MIN_WORDS,
    )


def _why_not(whole: Reading) -> str:
    if isinstance(whole, NotForLanguage):
        return tr("The grades are made for English; this card is in {tag}.", tag=whole.language)
    words = whole.counts.words if isinstance(whole, TooShort) else 0
    return tr_n(
        "{n} word so far; a grade needs {least}.",
        "{n} words so far; a grade needs {least}.",
        words,
        least=MIN_WORDS,
    )
