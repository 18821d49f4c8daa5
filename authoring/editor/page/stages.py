"""Ticks for the stages of a protocol."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.page.wish import stages_kept
from authoring.editor.parts.ticks import Tick
from authoring.editor.theme import theme


class StageTicks(QWidget):
    """The whole protocol, or some of its stages. Ticking one while all are on keeps that one.

    Signals:
        chosen(tuple): numbers of the stages, counted from 1; () for all of them.
    """

    chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Stages"))
        self.whole = Tick(tr("The whole protocol"))
        self.whole.clicked.connect(lambda: self._choose(()))
        self.ticks: list[Tick] = []
        self._numbers: tuple[int, ...] = ()
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setSpacing(theme().px(4))
        self._rows.addWidget(self.whole)

    def show_stages(self, names: Sequence[str], numbers: tuple[int, ...]) -> None:
        """Show stages by name; ``numbers`` are ticked, () means all of them."""
        while len(self.ticks) > len(names):
            self.ticks.pop().deleteLater()
        while len(self.ticks) < len(names):
            self._add()
        self._numbers = numbers
        self.whole.setChecked(not numbers)
        for number, (tick, name) in enumerate(zip(self.ticks, names, strict=True), 1):
            words = tr("Stage {n}", n=number)
            tick.setText(f"{number}  {name}" if name else words)
            tick.setAccessibleName(f"{words}, {name}" if name else words)
            tick.setChecked(number in numbers)
            tick.setVisible(len(names) > 1)

    def _add(self) -> None:
        tick = Tick("")
        number = len(self.ticks) + 1
        tick.clicked.connect(lambda: self._toggle(number))
        self.ticks.append(tick)
        self._rows.addWidget(tick)

    def _toggle(self, number: int) -> None:
        now = set(self._numbers) ^ {number}
        self._choose(stages_kept(tuple(now), len(self.ticks)))

    def _choose(self, numbers: tuple[int, ...]) -> None:
        self._numbers = numbers
        self.whole.setChecked(not numbers)
        for number, tick in enumerate(self.ticks, 1):
            tick.setChecked(number in numbers)
        self.chosen.emit(numbers)
