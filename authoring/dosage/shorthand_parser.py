"""Reads a whole dose from shorthand: clauses, choices and rows."""

from __future__ import annotations

from typing import Any

from authoring.dosage.shorthand_amounts import Span, read_span, whole_range
from authoring.dosage.shorthand_clause import read_clause
from authoring.dosage.shorthand_draft import Draft
from authoring.dosage.shorthand_errors import ShorthandError
from authoring.dosage.shorthand_lexer import Cursor, Kind, Token
from authoring.dosage.shorthand_words import SESSION, WEEK
from authoring.model.base import ModelError
from authoring.model.dose import Dose, DoseChange, Either, SessionKind, WeekRow, Work
from authoring.model.sentence import say

DEEPEST = 3
"""Brackets within brackets."""

_MOST_CHOICES = 6
_MOST_WEEK = 520


def read_dose(text: str) -> Dose:
    """The dose that a text in shorthand stands for.

    Raises:
        ShorthandError: it is no dose; where and why, and how to mend it.
    """
    cursor = Cursor(text)
    if cursor.done():
        raise ShorthandError(
            say("The dose is empty."), 0, len(text), say("Write such as '3 x 8-12'.")
        )
    draft = Draft()
    _read_segment(cursor, draft, 0)
    while cursor.at(";") and not _label_ahead(cursor, 1):
        cursor.next()
        _read_clauses(cursor, draft)
    weeks, sessions = _read_rows(cursor)
    if not cursor.done():
        raise _left_over(cursor)
    work = draft.whole_work()
    if work is None:
        first = weeks[0].change.work if weeks else sessions[0].change.work if sessions else None
        work = _needed(first, 0, len(text))
    rows: dict[str, Any] = {"weeks": tuple(weeks), "sessions": tuple(sessions)}
    return draft.dose(work, 0, len(text), **rows)


def _needed(work: Work | None, start: int, end: int) -> Work:
    if work is not None:
        return work
    raise ShorthandError(
        say("The dose has no sets, time or distance."),
        start,
        end,
        say("Start with the work, such as '3 x 8-12', '5 x 45 s hold' or '10 min'."),
    )


def _left_over(cursor: Cursor) -> ShorthandError:
    if cursor.at(")"):
        return cursor.fault(say("This bracket closes nothing."), say("Leave it out."))
    return cursor.fault(
        say("After ';' only rows may follow here."),
        say("Start each row with its weeks, such as 'wk 3-4:', or join the clause with a comma."),
    )


# ---- clauses of one segment ---------------------------------------------------------


def _read_segment(cursor: Cursor, draft: Draft, depth: int) -> None:
    chooser = _choice_ahead(cursor)
    if chooser is not None:
        start = cursor.start
        draft.work = _read_choice(cursor, depth, chooser)
        draft.given(say("the work"), start, cursor.end)
    _read_clauses(cursor, draft)


def _read_clauses(cursor: Cursor, draft: Draft) -> None:
    while not (cursor.done() or cursor.at(")", ";") or _label_ahead(cursor, 0)):
        if cursor.take(",", "with", "and", "&"):
            continue
        if cursor.at("or"):
            raise _unclear_choice(cursor.peek())
        if cursor.at("("):
            raise cursor.fault(
                say("Brackets hold choices joined by 'or', or intervals after 'x'."),
                say("Leave the brackets out."),
            )
        read_clause(cursor, draft)


# ---- choices --------------------------------------------------------------------------


def _unclear_choice(token: Token) -> ShorthandError:
    return ShorthandError(
        say("It is not clear what 'or' chooses between."),
        token.start,
        token.end,
        say("Put each whole choice in brackets, such as (3 x 10, rest 60 s) or (5 x 30 s hold)."),
    )


def _choice_ahead(cursor: Cursor) -> Token | None:
    """The first "or" of this segment outside brackets, or None."""
    ahead = depth = 0
    while (token := cursor.peek(ahead)).kind is not Kind.END:
        depth += (token.key == "(") - (token.key == ")")
        if depth < 0 or token.key == ";" or (depth == 0 and _label_ahead(cursor, ahead)):
            return None
        if depth == 0 and cursor.at("or", ahead=ahead):
            return token
        ahead += 1
    return None


def _read_choice(cursor: Cursor, depth: int, chooser: Token) -> Work:
    start = cursor.start
    doses: list[Dose] = []
    while True:
        if cursor.at("("):
            doses.append(_bracketed(cursor, depth))
        else:
            doses.append(_bare(cursor))
        if not cursor.take("or"):
            break
    if len(doses) < 2:
        raise _unclear_choice(chooser)
    if len(doses) > _MOST_CHOICES:
        raise ShorthandError(
            say("A dose offers at most {most} choices.", most=_MOST_CHOICES),
            start,
            cursor.end,
            say("Leave some out."),
        )
    return Either(doses=tuple(doses))


def _bracketed(cursor: Cursor, depth: int) -> Dose:
    if depth >= DEEPEST:
        raise cursor.fault(say("The brackets are nested too deeply."), say("Use the forms."))
    opened = cursor.next()
    draft = Draft()
    start = cursor.start
    _read_segment(cursor, draft, depth + 1)
    end = cursor.end
    if not cursor.take(")"):
        raise cursor.fault(
            say("The bracket is not closed."), say("Write ')' after the choice."), opened
        )
    return draft.dose(_needed(draft.whole_work(), start, max(start, end)), start, end)


def _bare(cursor: Cursor) -> Dose:
    """A choice without brackets: it ends at the first comma."""
    start, place = cursor.start, cursor.place
    if cursor.number():
        read_span(cursor)
        if cursor.done() or cursor.at("or", ",", ";", ")"):
            raise ShorthandError(
                say("This choice is only a number."),
                start,
                cursor.end,
                say("Write a range, such as 8-10, or whole doses on both sides of 'or'."),
            )
        cursor.place = place
    draft = Draft()
    while not (cursor.done() or cursor.at("or", ",", ";", ")")):
        read_clause(cursor, draft)
    end = max(start, cursor.end)
    return draft.dose(_needed(draft.whole_work(), start, end), start, end)


# ---- rows -----------------------------------------------------------------------------


def _label_ahead(cursor: Cursor, ahead: int) -> bool:
    """Whether a row of weeks or a kind of session starts there."""
    if cursor.at("from", ahead=ahead):
        ahead += 1
    weeks = cursor.at(*WEEK, ahead=ahead) and cursor.number(ahead + 1)
    return weeks or (cursor.at(*SESSION, ahead=ahead) and cursor.at(":", ahead=ahead + 1))


def _read_rows(cursor: Cursor) -> tuple[list[WeekRow], list[SessionKind]]:
    weeks: list[WeekRow] = []
    sessions: list[SessionKind] = []
    while _label_ahead(cursor, 1 if cursor.at(";") else 0):
        cursor.take(";")
        start = cursor.start
        if cursor.at(*SESSION):
            label = SESSION[cursor.next().key]
            cursor.next()
            sessions.append(SessionKind(label=label, change=_row(cursor)))
        else:
            weeks.append(_week_row(cursor, weeks[-1] if weeks else None))
        if len(weeks) > 60 or len(sessions) > 4:
            raise ShorthandError(
                say("The dose has too many rows."),
                start,
                cursor.end,
                say("Write at most 60 rows of weeks and 4 kinds of session."),
            )
        if cursor.at(";") and cursor.peek(1).kind is Kind.END:
            cursor.next()
    return weeks, sessions


def _row(cursor: Cursor) -> DoseChange:
    start = cursor.start
    if cursor.take("same"):
        return DoseChange()
    draft = Draft()
    _read_segment(cursor, draft, 0)
    end = cursor.end
    if end <= start:
        raise ShorthandError(
            say("The row is empty."), start, start, say("Write what changes in it, or 'same'.")
        )
    return draft.change(start, end)


def _week_row(cursor: Cursor, before: WeekRow | None) -> WeekRow:
    start = cursor.start
    first, last = _weeks(cursor)
    end = cursor.end
    if before is not None and (before.to_week is None or first <= before.to_week):
        raise ShorthandError(
            say("The weeks of this row overlap those of the row before."),
            start,
            end,
            say("Let each row start after the last week of the row before."),
        )
    if not cursor.take(":"):
        raise ShorthandError(
            say("The colon after the weeks is missing."),
            end,
            end,
            say("Write such as 'wk 1-2: 3 x 8'."),
        )
    change = _row(cursor)
    try:
        return WeekRow(from_week=first, to_week=last, change=change)
    except ModelError as error:
        raise ShorthandError(error.sentence, start, end, say("Change the weeks.")) from error


def _weeks(cursor: Cursor) -> tuple[int, int | None]:
    opens = cursor.take("from")
    cursor.next()
    start = cursor.start
    if cursor.at("+", ahead=1):
        number = cursor.next()
        cursor.next()
        weeks = whole_range(Span(number))
        opens = True
    else:
        weeks = whole_range(read_span(cursor))
        opens = cursor.take("on", "onwards", "onward") or opens
    if not 1 <= weeks.low <= weeks.top <= _MOST_WEEK:
        raise ShorthandError(
            say("Weeks go from 1 to {most}.", most=_MOST_WEEK),
            start,
            cursor.end,
            say("Write such as 'wk 1-2:'."),
        )
    return weeks.low, None if opens and weeks.high is None else weeks.top
