"""Reads what stands beside the work: rest, tempo, range, sides and limits.

Every reader returns None, and reads nothing, where its clause does not stand.
"""

from __future__ import annotations

from authoring.dosage.shorthand_amounts import (
    after_span,
    read_span,
    read_time,
    read_unit,
    value,
    whole_range,
)
from authoring.dosage.shorthand_errors import ShorthandError, near
from authoring.dosage.shorthand_lexer import Cursor
from authoring.dosage.shorthand_words import (
    JOINT,
    MOTION,
    REST_UNTIL,
    SPEED,
    TEMPO_PART,
    TIME,
    USUAL_MOTION,
)
from authoring.model.dose import AngleLimit, Rest
from authoring.model.load import IntRange
from authoring.model.sentence import say
from authoring.model.vocabulary import Speed

_AS_LONG = dict.fromkeys(("as long as set", "as long as the set", "as long as work"), 1.0)

_BETWEEN = ("-", "/", ":")
"""Signs between the parts of a tempo."""

TempoParts = dict[str, float | int | Speed]
"""Fields of a Tempo that one clause gives."""

# ---- rest -----------------------------------------------------------------------


def read_rest(cursor: Cursor) -> Rest | None:
    """ "rest 90 s", "90 s rest", "rest 1:1", "rest until ready", "no rest"."""
    if cursor.at("no") and cursor.at("rest", ahead=1):
        cursor.next()
        cursor.next()
        return Rest(seconds=IntRange(low=0))
    if cursor.number() and _rest_follows(cursor):
        found = Rest(seconds=read_time(cursor, least=0))
        cursor.take("rest")
        return found
    rest_days = cursor.at("day", "days", ahead=1)
    if not cursor.at("rest", "rests") or rest_days:
        return None
    cursor.next()
    cursor.take(":")
    return _rest_kind(cursor)


def _rest_follows(cursor: Cursor) -> bool:
    after = after_span(cursor, 0)
    return cursor.at(*TIME, ahead=after) and cursor.at("rest", ahead=after + 1)


def _rest_kind(cursor: Cursor) -> Rest:
    until = cursor.take_phrase(REST_UNTIL)
    if until is not None:
        return Rest(until=until)
    as_long = cursor.take_phrase(_AS_LONG)
    if as_long is not None:
        return Rest(times_work=as_long)
    if not cursor.number():
        guess = near(cursor.peek().key, dict.fromkeys(("until", "walk", "as"), ""))
        raise cursor.fault(
            say("The time of the rest is missing."),
            guess or say("Write such as 'rest 90 s', 'rest 1:1' or 'rest until ready'."),
        )
    if cursor.at(":", ahead=1) and cursor.number(2):
        return _ratio(cursor)
    return Rest(seconds=read_time(cursor, least=0))


def _ratio(cursor: Cursor) -> Rest:
    """Work to rest ("1:2" rests twice as long as the work took)."""
    work = cursor.next()
    cursor.next()
    rest = cursor.next()
    start, end = work.start, rest.end
    if cursor.at(*TIME) or (len(rest.text) == 2 and rest.text.isdigit() and int(rest.text) < 60):
        raise ShorthandError(
            say("This can be minutes and seconds, or work to rest."),
            start,
            end,
            say("Write the time with its unit, such as '90 s', or the ratio as '1:2'."),
        )
    if value(work) == 0:
        raise ShorthandError(
            say("Rest can't be compared with no work."),
            start,
            end,
            say("Write such as 'rest 1:2'."),
        )
    times = float(value(rest) if value(work) == 1 else value(rest) / value(work))
    if times > 20 or 0 < times < 0.01:
        raise ShorthandError(
            say("Rest is at most 20 times as long as the work, and at least a hundredth of it."),
            start,
            end,
            say("Write such as 'rest 1:2'."),
        )
    return Rest(times_work=times)


# ---- tempo ----------------------------------------------------------------------


def read_tempo(cursor: Cursor) -> TempoParts | None:
    """ "tempo 3-1-1-0", "lower 3 s", "3 s lower", "60 bpm", "slow"."""
    speed = cursor.take_phrase(SPEED)
    if speed is not None:
        return {"speed": speed}
    if cursor.take("tempo"):
        cursor.take(":")
        return _counted(cursor)
    if cursor.number():
        return _number_first(cursor)
    if cursor.at("pause"):
        return _pause(cursor)
    found = cursor.phrase(TEMPO_PART)
    if found is None:
        return None
    cursor.take_phrase(TEMPO_PART)
    return {found[1]: _tempo_seconds(cursor)}


def _number_first(cursor: Cursor) -> TempoParts | None:
    if cursor.at("bpm", ahead=1):
        token = cursor.peek()
        beats = whole_range(read_span(cursor)).low
        cursor.next()
        if not 10 <= beats <= 300:
            raise ShorthandError(
                say("A beat goes from 10 to 300 a minute."),
                token.start,
                token.end,
                say("Write such as '60 bpm'."),
            )
        return {"beats_per_minute": beats}
    part = cursor.phrase(TEMPO_PART, 2) if cursor.at(*TIME, ahead=1) else None
    if part is None:
        return None
    seconds = _tempo_seconds(cursor)
    cursor.take_phrase(TEMPO_PART)
    return {part[1]: seconds}


def _pause(cursor: Cursor) -> TempoParts:
    cursor.next()
    seconds = _tempo_seconds(cursor)
    for field, words in (("pause_low_s", ("bottom", "low")), ("pause_high_s", ("top", "high"))):
        if cursor.at(*words, ahead=1 if cursor.at("at") else 0):
            cursor.take("at")
            cursor.next()
            return {field: seconds}
    raise cursor.fault(
        say("It is not said where the pause is."), say("Write 'at bottom' or 'at top' after it.")
    )


def _tempo_seconds(cursor: Cursor) -> float:
    span = read_span(cursor)
    factor = read_unit(cursor, TIME, say("time"))
    if span.high is not None:
        raise ShorthandError(
            say("A tempo has one number for each part."),
            span.start,
            span.end,
            say("Write one number."),
        )
    return _part_seconds(float(value(span.low) * factor), span.start, span.end)


def _part_seconds(seconds: float, start: int, end: int) -> float:
    if seconds > 120:
        raise ShorthandError(
            say("A part of a movement takes at most 120 seconds."),
            start,
            end,
            say("Write fewer seconds."),
        )
    return seconds


def _counted(cursor: Cursor) -> TempoParts:
    """Lowering, pause, lifting, pause; "X" lifts as fast as possible ("3-1-X-0")."""
    start = cursor.start
    written: list[float | None] = []
    digits = cursor.peek().text
    run_together = digits.isdigit() and len(digits) in (3, 4) and not cursor.at(*_BETWEEN, ahead=1)
    if cursor.number() and run_together:
        cursor.next()
        written += [float(digit) for digit in digits]
    else:
        written.append(_tempo_part(cursor))
        while cursor.take(*_BETWEEN):
            written.append(_tempo_part(cursor))
    if len(written) not in (3, 4):
        raise ShorthandError(
            say("A tempo has three or four parts, and here are {n}.", n=len(written)),
            start,
            cursor.end,
            say("Write lowering, pause, lifting, pause, such as 'tempo 3-1-1-0'."),
        )
    fields = ("lowering_s", "pause_low_s", "lifting_s", "pause_high_s")
    found: TempoParts = {
        field: seconds
        for field, seconds in zip(fields, written, strict=False)
        if seconds is not None
    }
    if any(seconds is None for place, seconds in enumerate(written) if place != 2):
        raise ShorthandError(
            say("Only the third part of a tempo, lifting, can be 'X'."),
            start,
            cursor.end,
            say("Write seconds for the other parts, such as 'tempo 3-1-X-0'."),
        )
    if written[2] is None:
        found["speed"] = Speed.EXPLOSIVE
    return found


def _tempo_part(cursor: Cursor) -> float | None:
    if cursor.take("x"):
        return None
    if not cursor.number():
        raise cursor.fault(
            say("Seconds are missing in the tempo."),
            say("Write lowering, pause, lifting, pause, such as 'tempo 3-1-1-0'."),
        )
    token = cursor.next()
    return _part_seconds(float(value(token)), token.start, token.end)


# ---- range of movement --------------------------------------------------------------


def read_angle(cursor: Cursor) -> AngleLimit | None:
    """ "knee flexion 0-45 deg"; for knee and elbow the movement may be left out."""
    joint = cursor.phrase(JOINT)
    if joint is None:
        return None
    start = cursor.start
    cursor.take_phrase(JOINT)
    motion = cursor.take_phrase(MOTION) or USUAL_MOTION.get(joint[1])
    if motion is None:
        raise cursor.fault(
            say("The movement of the joint is missing."),
            near(cursor.peek().key, dict.fromkeys(MOTION, ""))
            or say("Write it, such as 'hip flexion 0-90 deg'."),
        )
    low = _angle(cursor)
    cursor.take("deg")
    if not cursor.take("-", "to"):
        raise cursor.fault(
            say("The other end of the range is missing."), say("Write such as 0-45 deg.")
        )
    high = _angle(cursor)
    if not cursor.take("deg", "degs", "degree", "degrees"):
        raise ShorthandError(
            say("The unit of the angle is missing."),
            cursor.end,
            cursor.end,
            say("Write 'deg' after it."),
        )
    if not (-60 <= low <= 200 and -60 <= high <= 200):
        raise ShorthandError(
            say("Angles go from -60 to 200 degrees."),
            start,
            cursor.end,
            say("Write smaller angles."),
        )
    return AngleLimit(joint=joint[1], motion=motion, from_deg=low, to_deg=high)


def _angle(cursor: Cursor) -> float:
    sign = -1 if cursor.take("-") else 1
    if not cursor.number():
        raise cursor.fault(say("An angle is missing here."), say("Write such as 0-45 deg."))
    return sign * float(value(cursor.next()))


# ---- limits -------------------------------------------------------------------------


def read_session_limit(cursor: Cursor) -> int | None:
    """ "max 20 min" or "up to 20 min", in minutes."""
    ahead = 2 if cursor.at("up") and cursor.at("to", ahead=1) else 1
    named = cursor.at("max") or ahead == 2
    if not (named and cursor.number(ahead) and cursor.at(*TIME, ahead=ahead + 1)):
        return None
    start = cursor.start
    while not cursor.number():
        cursor.next()
    seconds = read_time(cursor)
    if seconds.high is not None or seconds.low % 60 or not 60 <= seconds.low <= 480 * 60:
        raise ShorthandError(
            say("The limit of a session is 1 to 480 whole minutes."),
            start,
            cursor.end,
            say("Write such as 'max 20 min'."),
        )
    if cursor.at("session", ahead=1) and cursor.take("a", "per"):
        cursor.next()
    return seconds.low // 60


def read_least_sessions(cursor: Cursor) -> int | None:
    """ "at least 3 sessions" before a step up."""
    if not (cursor.at("at") and cursor.at("least", ahead=1) and cursor.number(2)):
        return None
    start = cursor.start
    cursor.next()
    cursor.next()
    span = read_span(cursor)
    if not cursor.take("sessions", "session"):
        raise cursor.fault(
            say("It is not said at least what."), say("Write such as 'at least 3 sessions'.")
        )
    number = whole_range(span, least=1)
    if number.high is not None or number.low > 200:
        raise ShorthandError(
            say("The least number of sessions is one number up to 200."),
            start,
            cursor.end,
            say("Write such as 'at least 3 sessions'."),
        )
    return number.low
