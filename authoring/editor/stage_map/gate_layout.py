"""How the criteria of a border stand in the room there is: in columns, or as running words."""

from __future__ import annotations

from attrs import evolve, frozen
from PySide6.QtGui import QFont, QFontMetrics

from authoring.editor.i18n import tr
from authoring.editor.stage_map.wrapping import Run, cut, flow
from authoring.editor.theme import Theme, Type

PAD = 8
_INDENT = 22
_GAP = 3
_LINE = 16
_TOP = 10
_VALUE = 46

Criterion = tuple[str, str]


@frozen
class Criteria:
    """Criteria as (value, what is measured): those that lead on, and those that lead back."""

    move_on: tuple[Criterion, ...] = ()
    step_back: tuple[Criterion, ...] = ()


@frozen
class Row:
    """One criterion.

    Attributes:
        lines: its words; runs are placed from the leading edge of the row.
        value: a value that stands before them in a column of its own, "" for none.
        column: width of that column; 0 where words run on after the value.
        back: it leads back.
        first: it is the first that leads back, and bears the arrow.
        top: in pixels from the top of the border.
    """

    lines: tuple[tuple[Run, ...], ...]
    value: str
    column: int
    back: bool
    first: bool
    top: int = 0


@frozen
class Fonts:
    """The two fonts of a border, and the height of a line."""

    strong: QFont
    plain: QFont
    line: int

    @classmethod
    def of(cls, used: Theme) -> Fonts:
        """Those of a theme."""
        strong, plain = used.font(Type.STRONG), used.font(Type.SMALL)
        strong.setPixelSize(plain.pixelSize())
        return cls(strong, plain, used.px(_LINE))


def needed_height(criteria: Criteria, width: int, used: Theme) -> int:
    """Height at which nothing is cut."""
    return _top(used) + _height(_rows(criteria, width, used), used) + used.px(6)


def lay_rows(
    criteria: Criteria, brief: Criteria, width: int, height: int, used: Theme
) -> list[Row]:
    """The rows that fit, as whole as can be; those left out are counted in a last one.

    Args:
        criteria: in full, shown where the height allows it.
        brief: the same in fewer words, shown where it does not.
    """
    fonts = Fonts.of(used)
    room = height - _top(used) - used.px(2)
    least = fonts.line + used.px(_GAP)
    chosen = criteria
    if _height(_rows(criteria, width, used), used) > room:
        chosen = brief
        if _height(_rows(brief, width, used), used) > room:
            chosen = _fewer(brief, max(2, room // least))
    rows = _rows(chosen, width, used)
    counts = _share([len(row.lines) for row in rows], (room - least * len(rows)) // fonts.line)
    shown, top = [], _top(used)
    for row, count in zip(rows, counts, strict=True):
        kept = cut(list(row.lines), count, fonts.strong, fonts.plain, _room(row, width, used))
        shown.append(evolve(row, lines=tuple(kept), top=top))
        top += len(kept) * fonts.line + used.px(_GAP)
    return shown


def _share(wanted: list[int], spare: int) -> list[int]:
    """One line each, then one more for each that needs it, while there are any."""
    counts = [1] * len(wanted)
    grown = True
    while spare > 0 and grown:
        grown = False
        for index in sorted(range(len(wanted)), key=lambda index: wanted[index]):
            if spare > 0 and counts[index] < wanted[index]:
                counts[index] += 1
                spare -= 1
                grown = True
    return counts


def _fewer(criteria: Criteria, most: int) -> Criteria:
    """As many as there are lines for, and how many more there are."""
    move_on, back = criteria.move_on, criteria.step_back
    if len(back) > 1:
        value, what = back[0]
        back = ((value, tr("{what}, {n} more", what=what, n=len(back) - 1)),)
    rest = most - len(back)
    if len(move_on) > rest:
        more = tr("{n} more", n=len(move_on) - rest + 1)
        move_on = (*move_on[: rest - 1], ("", more))
    return Criteria(move_on, back)


def _top(used: Theme) -> int:
    """Where criteria begin, under the border's title."""
    return used.px(_TOP) + used.line_height(Type.SMALL) + used.px(4)


def _height(rows: list[Row], used: Theme) -> int:
    fonts = Fonts.of(used)
    return sum(len(row.lines) * fonts.line + used.px(_GAP) for row in rows)


def _room(row: Row, width: int, used: Theme) -> int:
    inset = used.px(_INDENT) if row.back else 0
    taken = row.column + used.px(6) if row.column else 0
    return width - 2 * used.px(PAD) - inset - taken


def _rows(criteria: Criteria, width: int, used: Theme) -> list[Row]:
    fonts = Fonts.of(used)
    column = _column(criteria.move_on, width, used, fonts)
    rows = []
    for value, what in criteria.move_on:
        if column:
            rows.append(Row(((Run(what, False, 0),),), value, column, back=False, first=False))
            continue
        across = width - 2 * used.px(PAD)
        lines = flow(value, what, fonts.strong, fonts.plain, across)
        rows.append(Row(tuple(lines), "", 0, back=False, first=False))
    for index, (value, what) in enumerate(criteria.step_back):
        across = width - 2 * used.px(PAD) - used.px(_INDENT)
        lines = flow(value, what, fonts.strong, fonts.plain, across)
        rows.append(Row(tuple(lines), "", 0, back=True, first=index == 0))
    return rows


def _column(criteria: tuple[Criterion, ...], width: int, used: Theme, fonts: Fonts) -> int:
    """Width of a column of values, where each criterion then fits one line; else 0."""
    if not all(value for value, _ in criteria):
        return 0
    values = [QFontMetrics(fonts.strong).horizontalAdvance(value) for value, _ in criteria]
    column = max([used.px(_VALUE), *values])
    room = width - 2 * used.px(PAD) - column - used.px(6)
    metrics = QFontMetrics(fonts.plain)
    return column if all(metrics.horizontalAdvance(what) <= room for _, what in criteria) else 0
