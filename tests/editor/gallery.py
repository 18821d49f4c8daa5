"""A page of all parts, to look at: ``python -m tests.editor.gallery FOLDER``."""

from __future__ import annotations

import os
import sys
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from authoring.editor import theme as themes
from authoring.editor.focus_ring import FocusRing
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.fields.choices import ChoiceField, SeveralField
from authoring.editor.parts.fields.dose_line import DoseLine
from authoring.editor.parts.fields.lines import IntRangeField, WholeField
from authoring.editor.parts.fields.list_field import ListField
from authoring.editor.parts.fields.picks import Option, PicksField
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.gauge import RungGauge, rung_words
from authoring.editor.parts.icons import IconView, as_icon, icon_of_mode, mode_words
from authoring.editor.parts.key_line import KeyLine
from authoring.editor.parts.labels import KeyCap, StatusTag, label, line
from authoring.editor.parts.marks import Mark, MarkView, mark_words
from authoring.editor.parts.segmented import Segmented
from authoring.editor.room import KeyHint
from authoring.editor.style_sheet import style_sheet
from authoring.editor.theme import Type, theme
from authoring.model.base import Fact
from authoring.model.load import IntRange
from authoring.model.text import Text
from authoring.model.vocabulary import Mode, Region, Sides, Status

COLOURS = [
    "ink",
    "soft",
    "accent",
    "fill",
    "edge",
    "focus",
    "stop",
    "care",
    "note",
    "good",
    "sheet",
    "ground",
    "gate",
    "wash",
    "rule",
]


class Swatch(QWidget):
    def __init__(self, token: str) -> None:
        super().__init__()
        self._token = token
        self.setFixedSize(theme().px(32), theme().px(32))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(theme().colour("edge"))
        painter.setBrush(theme().colour(self._token))
        painter.drawRoundedRect(self.rect().adjusted(0, 0, -1, -1), 4, 4)
        painter.end()


def row(*widgets: QWidget, gap: int = 12) -> QWidget:
    made = QWidget()
    layout = QHBoxLayout(made)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(theme().px(gap))
    for widget in widgets:
        layout.addWidget(widget)
    layout.addStretch(1)
    return made


def beside(mark: QWidget, words: str) -> QWidget:
    return row(mark, label(words, Type.SMALL), gap=6)


def section(title: str, *parts: QWidget) -> QWidget:
    made = QWidget()
    layout = QVBoxLayout(made)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(theme().px(8))
    layout.addWidget(label(title, Type.HEADING))
    for part in parts:
        layout.addWidget(part)
    layout.addStretch(1)
    return made


def type_section() -> QWidget:
    samples = {
        Type.DISPLAY: "Stage 3, grade 7",
        Type.TITLE: "Lateral ankle sprain",
        Type.HEADING: "Load and balance",
        Type.STRONG: "One-leg heel raise",
        Type.BODY: "3 × 10–12, each leg",
        Type.SMALL: "Saved 10:42",
    }
    return section("Type", *(label(words, style) for style, words in samples.items()))


def colour_section() -> QWidget:
    grid = QWidget()
    layout = QGridLayout(grid)
    layout.setContentsMargins(0, 0, 0, 0)
    for index, token in enumerate(COLOURS):
        layout.addWidget(beside(Swatch(token), token), index // 5, index % 5)
    return section("Colour", grid)


def control_section() -> tuple[QWidget, QWidget]:
    main = QPushButton("Print")
    main.setProperty("main", True)
    focus = QPushButton("Handout")
    off = QPushButton("Off")
    off.setEnabled(False)
    quiet = QPushButton("Quiet")
    quiet.setProperty("quiet", True)
    link = QPushButton("A link")
    link.setProperty("link", True)
    segments = Segmented(
        "Kind", [(m, mode_words(m), as_icon(icon_of_mode(m))) for m in list(Mode)[:3]], Mode.DYNAMIC
    )
    buttons = row(main, focus, off, quiet, link)
    tags = row(*(StatusTag(status) for status in Status), KeyCap("Ctrl F"), KeyCap("Alt →"))
    return section("Controls", buttons, row(segments), tags), focus


def mark_section() -> QWidget:
    cautions = [beside(MarkView(m), mark_words(m)) for m in (Mark.STOP, Mark.CARE, Mark.NOTE)]
    checks = [beside(MarkView(m), mark_words(m)) for m in (Mark.MUST, Mark.SHOULD, Mark.MAY)]
    good = beside(MarkView(Mark.GOOD), mark_words(Mark.GOOD))
    grid = QWidget()
    layout = QGridLayout(grid)
    layout.setContentsMargins(0, 0, 0, 0)
    for index, mode in enumerate(Mode):
        icon = IconView(icon_of_mode(mode), mode_words(mode))
        layout.addWidget(beside(icon, mode_words(mode)), index // 3, index % 3)
    gauges = row(
        beside(RungGauge(range(-2, 4), 0), rung_words(0)),
        beside(RungGauge(range(-2, 4), 1), rung_words(1)),
        beside(RungGauge(range(-2, 4), -1, was=1), rung_words(-1)),
        beside(RungGauge((-3, 0, 1), -3), rung_words(-3)),
    )
    return section("Marks, icons, gauges", row(*cautions), row(*checks, good), grid, gauges)


def field_section() -> QWidget:
    sets = WholeField(Fact("", low=1, high=50))
    sets.show_value(12)
    wrong = FieldRow("Sets", sets)
    wrong.say("Most plans use 1 to 6 sets.", Mark.MUST)
    reps = IntRangeField()
    reps.show_value(IntRange(low=8, high=12))
    side = ChoiceField(Sides, optional=True)
    side.show_value(Sides.EACH)
    title = TextField("en", "fr")
    title.show_value(Text({"en": "Heel raise", "de": "Fersenheben"}))
    dose = DoseLine()
    dose.setText("3 x 8-12, rest 9o s")
    dose._read(dose.text())
    kit = [Option("chair", "Chair"), Option("step", "Step")]
    picks = PicksField(lambda: kit)
    picks.show_value(("chair", "step"))
    steps = ListField(lambda: TextField("en"), lambda: Text.plain(""))
    steps.show_value((Text.plain("Push up onto your toes."), Text.plain("Lower slowly.")))
    dose_row = FieldRow("Dose", dose)
    dose_row.say(str(dose.problem))
    left = QVBoxLayout()
    for part in (wrong, FieldRow("Repetitions", reps), FieldRow("Sides", side)):
        left.addWidget(part)
    left.addWidget(FieldRow("Title", title, "Name of the exercise.", show_help=True))
    left.addStretch(1)
    right = QVBoxLayout()
    for part in (dose_row, FieldRow("Kit", picks), FieldRow("Steps", steps)):
        right.addWidget(part)
    right.addStretch(1)
    both = QWidget()
    columns = QHBoxLayout(both)
    columns.setContentsMargins(0, 0, 0, 0)
    columns.setSpacing(theme().px(24))
    columns.addLayout(left, 1)
    columns.addLayout(right, 1)
    regions = SeveralField(Region)
    regions.show_value((Region.KNEE, Region.HIP))
    return section("Fields", both)


def page() -> tuple[QWidget, QWidget]:
    """The page, and what should have the focus on it."""
    made = QWidget()
    made.setObjectName("ground")
    outer = QVBoxLayout(made)
    outer.setContentsMargins(0, 0, 0, 0)
    body = QGridLayout()
    side = theme().px(24)
    body.setContentsMargins(side, theme().px(12), side, theme().px(8))
    body.setHorizontalSpacing(theme().px(24))
    body.setVerticalSpacing(theme().px(8))
    controls, focus = control_section()
    body.addWidget(type_section(), 0, 0)
    body.addWidget(colour_section(), 0, 1)
    body.addWidget(line(), 1, 0, 1, 2)
    body.addWidget(controls, 2, 0)
    body.addWidget(mark_section(), 2, 1, 2, 1)
    body.addWidget(line(), 4, 0, 1, 2)
    body.addWidget(field_section(), 5, 0, 1, 2)
    outer.addLayout(body, 1)
    keys = KeyLine()
    keys.show_hints([KeyHint("Enter", "open the card"), KeyHint("D", "dose")])
    keys.show_state("Saved 10:42 to the clinic's shared folder")
    outer.addWidget(keys)
    return made, focus


LOOKS = {
    "light": ("light", 1.0, False),
    "dark": ("dark", 1.0, False),
    "contrast": ("contrast", 1.0, False),
    "large": ("light", 1.3, False),
    "rtl": ("light", 1.0, True),
}


def main(folder: Path) -> None:
    app = QApplication([])
    app.setStyle("Fusion")
    themes.load_fonts()
    ring = FocusRing(app)
    for name, (colours, scale, rtl) in LOOKS.items():
        used = themes.choose(themes.ThemeName(colours), scale)
        app.setFont(used.font(Type.BODY))
        app.setPalette(themes.palette(used))
        app.setStyleSheet(style_sheet(used))
        direction = Qt.LayoutDirection.RightToLeft if rtl else Qt.LayoutDirection.LeftToRight
        app.setLayoutDirection(direction)
        made, focus = page()
        made.resize(1366, max(768, made.sizeHint().height()))
        made.show()
        made.activateWindow()
        focus.setFocus()
        QTest.qWait(100)
        made.grab().save(str(folder / f"parts-{name}.png"))
        made.close()
    ring.deleteLater()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
