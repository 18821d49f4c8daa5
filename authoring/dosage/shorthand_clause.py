"""Reads one clause of dose shorthand into a draft, whichever clause it is."""

from __future__ import annotations

from collections.abc import Callable

from authoring.dosage.shorthand_amounts import after_span, read_figures, seconds_of
from authoring.dosage.shorthand_clauses import (
    read_angle,
    read_least_sessions,
    read_rest,
    read_session_limit,
    read_tempo,
)
from authoring.dosage.shorthand_draft import Draft
from authoring.dosage.shorthand_intervals import read_part
from authoring.dosage.shorthand_lexer import Cursor
from authoring.dosage.shorthand_loads import load_starts, read_load
from authoring.dosage.shorthand_multiple import read_multiple
from authoring.dosage.shorthand_often import read_often
from authoring.dosage.shorthand_unknown import misread, unknown
from authoring.dosage.shorthand_words import (
    EXTENT,
    MISREAD,
    OPEN,
    ROLE,
    SIDES,
    TIME,
    UNTIL,
)
from authoring.dosage.shorthand_work import (
    held,
    read_hold,
    read_total,
    read_until,
    read_work,
)
from authoring.model.base import evolve
from authoring.model.dose import Holds, LeftOpen, Repetitions, TotalRepetitions
from authoring.model.sentence import say
from authoring.model.text import Text
from authoring.model.vocabulary import Until


def read_clause(cursor: Cursor, draft: Draft) -> None:
    """Read the clause at the cursor into a draft.

    Raises:
        ShorthandError: no clause stands there, or one that can't be.
    """
    twice = cursor.phrase(MISREAD)
    if twice is not None and twice[0] > 1:
        raise misread(cursor, *twice)
    for reader in _READERS:
        if reader(cursor, draft):
            return
    raise unknown(cursor, draft.work)


# ---- beside the work --------------------------------------------------------------


def _rest(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    rest = read_rest(cursor)
    if rest is None:
        return False
    between = cursor.take("between")
    if between and cursor.take("holds", "hold"):
        draft.given(say("the rest between holds"), start, cursor.end)
        draft.between = rest
        return True
    if between and not cursor.take("sets", "bouts", "rounds"):
        raise cursor.fault(
            say("It is not said between what."), say("Write 'between sets' or 'between holds'.")
        )
    draft.given(say("the rest"), start, cursor.end)
    draft.rest = rest
    return True


def _last_set(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    if not (cursor.at("last") and cursor.at("set", ahead=1) and cursor.phrase(UNTIL, 2)):
        return False
    cursor.next()
    cursor.next()
    draft.last_set = cursor.take_phrase(UNTIL)
    draft.given(say("the last set"), start, cursor.end)
    return True


def _often(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    often = read_often(cursor)
    if often is None:
        return False
    field, number = often
    draft.given(_OFTEN[field], start, cursor.end)
    draft.often[field] = number
    return True


_OFTEN = {
    "times_per_day": say("times a day"),
    "every_hours": say("the number of hours"),
    "days_per_week": say("days a week"),
    "every_days": say("the number of days"),
    "rest_days": say("the number of rest days"),
    "most_days_running": say("the number of days running"),
}


def _limits(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    minutes = read_session_limit(cursor)
    if minutes is not None:
        draft.given(say("the limit of a session"), start, cursor.end)
        draft.session_limit_min = minutes
        return True
    sessions = read_least_sessions(cursor)
    if sessions is None:
        return False
    draft.given(say("the least number of sessions"), start, cursor.end)
    draft.minimum_sessions = sessions
    return True


def _range(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    extent = cursor.take_phrase(EXTENT)
    if extent is not None:
        draft.given(say("the range"), start, cursor.end)
        draft.extent = extent
        return True
    angle = read_angle(cursor)
    if angle is None:
        return False
    draft.given(say("an angle"), start, cursor.end, again=True)
    draft.angles.append(angle)
    return True


def _tempo(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    parts = read_tempo(cursor)
    if parts is None:
        return False
    for field, value in parts.items():
        draft.given(_TEMPO[field], start, cursor.end)
        draft.tempo[field] = value
    return True


_TEMPO = {
    "lowering_s": say("the time to lower"),
    "pause_low_s": say("the pause at the bottom"),
    "lifting_s": say("the time to lift"),
    "pause_high_s": say("the pause at the top"),
    "beats_per_minute": say("the beat"),
    "speed": say("the speed"),
}


def _sides(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    sides = cursor.take_phrase(SIDES)
    if sides is None:
        return False
    draft.given(say("the side"), start, cursor.end)
    draft.sides = sides
    return True


def _loads(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    if cursor.at("no", "without") and cursor.at("load", ahead=1):
        cursor.next()
        cursor.next()
        draft.no_load = True
        draft.given(say("a load"), start, cursor.end)
        return True
    if not cursor.take("@") and not load_starts(cursor):
        return False
    load = read_load(cursor)
    draft.given(say("a load"), start, cursor.end, again=not draft.no_load)
    draft.loads.append(load)
    return True


def _once(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    role = cursor.take_phrase(ROLE)
    if role is None:
        return False
    cursor.take(":")
    draft.once.append(evolve(read_part(cursor, role), role=role))
    draft.given(say("a warm-up or cool-down"), start, cursor.end, again=True)
    return True


# ---- the work -------------------------------------------------------------------------


def _work(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    if draft.work is not None:
        return _change_work(cursor, draft)
    if cursor.number():
        draft.work = read_work(cursor, read_figures(cursor))
    elif cursor.take("hold", "holds"):
        draft.work = read_hold(cursor, None)
    elif cursor.at("total") or (cursor.at("to") and cursor.number(1)):
        cursor.next()
        draft.work = read_total(cursor)
    else:
        return _worded_work(cursor, draft)
    draft.given(say("the work"), start, cursor.end)
    return True


def _worded_work(cursor: Cursor, draft: Draft) -> bool:
    start = cursor.start
    until = cursor.take_phrase(UNTIL)
    if until is not None:
        draft.work = read_until(cursor, until)
        draft.given(say("the work"), start, cursor.end)
        return True
    decided_by = cursor.take_phrase(OPEN)
    if decided_by is None:
        return False
    words = None
    if cursor.take(":"):
        words = cursor.free_words()
        if not words:
            raise cursor.fault(
                say("Words are missing here."), say("Write how the dose is decided.")
            )
    draft.work = LeftOpen(decided_by=decided_by, words=Text.plain(words) if words else None)
    draft.given(say("the work"), start, cursor.end)
    return True


def _change_work(cursor: Cursor, draft: Draft) -> bool:
    """A clause that says more of repetitions already read ("hold 5 s", "quality")."""
    work, start = draft.work, cursor.start
    if cursor.take("hold", "holds"):
        draft.work = read_hold(cursor, work)
        return True
    if work is not None and cursor.number() and _hold_follows(cursor):
        seconds = seconds_of(cursor, read_figures(cursor))
        cursor.next()
        draft.work = held(work, seconds, start, cursor.end)
        return True
    more = read_multiple(cursor, work, cursor.text[slice(*draft.places["the work"])])
    if more is not None:
        draft.work = more
        draft.places["the work"] = (draft.places["the work"][0], cursor.end)
        return True
    if isinstance(work, Repetitions | Holds | TotalRepetitions) and cursor.phrase(UNTIL):
        if work.until not in (Until.COUNT, Until.QUALITY) or "the end of a set" in draft.places:
            raise cursor.fault(say("The end of a set is given twice."), say("Leave one out."))
        until = cursor.take_phrase(UNTIL) or work.until
        draft.given(say("the end of a set"), start, cursor.end)
        draft.work = evolve(work, until=until)
        return True
    return False


def _hold_follows(cursor: Cursor) -> bool:
    after = after_span(cursor, 0)
    return cursor.at(*TIME, ahead=after) and cursor.at("hold", "holds", ahead=after + 1)


_READERS: tuple[Callable[[Cursor, Draft], bool], ...] = (
    _rest,
    _last_set,
    _often,
    _limits,
    _range,
    _tempo,
    _sides,
    _once,
    _loads,
    _work,
)
