"""Words on lines: how they break, and what is cut where there are too few lines."""

from __future__ import annotations

from attrs import evolve, frozen
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetrics

_CUT = Qt.TextElideMode.ElideRight


@frozen
class Run:
    """Words of one font on a line; ``left`` is their distance from the line's beginning."""

    words: str
    strong: bool
    left: int


def wrap(words: str, font: QFont, width: int, most: int = 2) -> list[str]:
    """Words on at most so many lines, the last cut short where they are longer."""
    runs = flow("", words, font, font, width)
    lines = [line[0].words for line in runs]
    if len(lines) > most:
        lines = [*lines[: most - 1], " ".join(lines[most - 1 :])]
    metrics = QFontMetrics(font)
    return [metrics.elidedText(line, _CUT, width) for line in lines]


def flow(value: str, words: str, strong: QFont, plain: QFont, width: int) -> list[tuple[Run, ...]]:
    """A value in strong type with words after it, broken into lines between words."""
    metrics = QFontMetrics(plain)
    gap = metrics.horizontalAdvance(" ")
    taken = QFontMetrics(strong).horizontalAdvance(value) + gap if value else 0
    lines: list[list[Run]] = [[Run(value, True, 0)] if value else []]
    start, current = taken, ""
    for word in words.split():
        grown = f"{current} {word}" if current else word
        if start + metrics.horizontalAdvance(grown) <= width or not (current or start):
            current = grown
            continue
        if current:
            lines[-1].append(Run(current, False, start))
        lines.append([])
        start, current = 0, word
    if current or not lines[-1]:
        lines[-1].append(Run(current, False, start))
    return [tuple(line) for line in lines]


def cut(
    lines: list[tuple[Run, ...]], most: int, strong: QFont, plain: QFont, width: int
) -> list[tuple[Run, ...]]:
    """At most so many lines, the last ending in an ellipsis where words are left out."""
    metrics = QFontMetrics(plain)
    if len(lines) > most:
        *head, last = lines[most - 1]
        rest = " ".join(run.words for line in lines[most:] for run in line)
        joined = Run(f"{'' if last.strong else last.words} {rest}".strip(), False, last.left)
        if last.strong:  # a value that left no room for a whole word beside it
            head, joined = [last], evolve(joined, left=_after(last, strong))
        lines = [*lines[: most - 1], (*head, joined)]
    shown = []
    for line in lines:
        *head, last = line
        short = metrics.elidedText(last.words, _CUT, max(0, width - last.left))
        shown.append((*head, last if last.strong else Run(short, False, last.left)))
    return shown


def _after(run: Run, font: QFont) -> int:
    metrics = QFontMetrics(font)
    return run.left + metrics.horizontalAdvance(run.words) + metrics.horizontalAdvance(" ")
