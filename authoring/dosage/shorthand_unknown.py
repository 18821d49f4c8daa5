"""What is said of dose shorthand that is not understood, with the likely meaning."""

from __future__ import annotations

from authoring.dosage.shorthand_amounts import after_span, unknown_unit
from authoring.dosage.shorthand_errors import ShorthandError, near
from authoring.dosage.shorthand_lexer import Cursor, Kind
from authoring.dosage.shorthand_words import (
    EXTENT,
    FREQUENCY,
    JOINT,
    MISREAD,
    OPEN,
    PACE,
    ROLE,
    SESSION,
    SETTING,
    SIDES,
    SPEED,
    TEMPO_PART,
    TIME,
    UNTIL,
)
from authoring.model.dose import Distance, Duration, Work
from authoring.model.sentence import Sentence, say

_PHRASES = tuple(
    words
    for table in (EXTENT, FREQUENCY, JOINT, OPEN, PACE, ROLE, SIDES, SPEED, TEMPO_PART, UNTIL)
    for words in table
)


def _known_words() -> dict[str, str]:
    words = {*_PHRASES, *SESSION, *SETTING}
    singles = {phrase.split()[0] for phrase in words} | {
        *("rest", "tempo", "hold", "total", "reps", "sets", "steps", "hops", "jumps", "contacts"),
        *("kg", "min", "sec", "rpe", "rir", "band", "wk", "warm-up", "cool-down"),
    }
    return dict.fromkeys(sorted(word for word in singles if len(word) > 1), "")


_KNOWN = _known_words()


def misread(cursor: Cursor, length: int, said: tuple[Sentence, Sentence]) -> ShorthandError:
    """The error for a phrase of MISREAD that is ``length`` tokens long."""
    sentence, mend = said
    return ShorthandError(sentence, cursor.start, cursor.peek(length - 1).end, mend)


def _half_phrase(cursor: Cursor) -> ShorthandError:
    """A known word whose phrase goes wrong after it ("full rnge")."""
    token, after = cursor.peek(), cursor.peek(1)
    whole = f"{token.key} {after.key}" if after.kind is Kind.WORD else token.key
    longer = [words for words in _PHRASES if words.startswith(f"{token.key} ")]
    guess = near(whole, dict.fromkeys(longer, ""), 0.6)
    end = after.end if after.kind is Kind.WORD else token.end
    said = cursor.text[token.start : end]
    return ShorthandError(
        say("'{said}' is not understood here.", said=said[:60]),
        token.start,
        end,
        guess or say("Leave it out, or use the forms."),
    )


def unknown(cursor: Cursor, work: Work | None) -> ShorthandError:
    """What is wrong with what stands at the cursor, where no clause can be read.

    Args:
        work: the work that was read before, if any was.
    """
    twice = cursor.phrase(MISREAD)
    if twice is not None:
        return misread(cursor, *twice)
    if cursor.number():
        return _stray_number(cursor)
    if cursor.at("x"):
        return cursor.fault(
            say("The number before 'x' is missing."), say("Write such as '3 x 10'.")
        )
    unit = unknown_unit(cursor) if cursor.place and cursor.number(-1) else None
    return unit or _unknown_word(cursor, work)


def _unknown_word(cursor: Cursor, work: Work | None) -> ShorthandError:
    token = cursor.peek()
    name = f"'{token.text[:30]}'"
    if token.kind is Kind.SIGN:
        return cursor.fault(
            say("The sign {name} has no meaning here.", name=name), say("Leave it out.")
        )
    if token.key in _KNOWN:
        return _half_phrase(cursor)
    mend = near(token.key, _KNOWN) if len(token.key) > 1 else None
    if not mend and isinstance(work, Duration | Distance):
        mend = say("Leave it out, or write intervals, such as 6 x (1 min run / 2 min walk).")
    return cursor.fault(
        say("{name} is not understood here.", name=name),
        mend or say("Leave it out, or use the forms."),
    )


def _stray_number(cursor: Cursor) -> ShorthandError:
    ahead = after_span(cursor, 0)
    start, end = cursor.start, cursor.peek(ahead - 1).end
    after, then = cursor.peek(ahead), cursor.peek(ahead + 1)
    if after.key in TIME and then.kind is Kind.WORD:
        return cursor.fault(
            say("'{text}' is not understood after a time.", text=then.text[:30]),
            near(then.key, {"rest": "", "hold": "", "lower": "", "lift": ""})
            or say("Write such as '90 s rest' or '5 s hold'."),
            then,
        )
    if after.key == "/" and then.text in ("7", "52", "12"):
        return ShorthandError(
            say("This can be two sets, or days, weeks or months."),
            start,
            then.end,
            say("Write days a week such as '3/wk'."),
        )
    if after.key == "times" or (after.key == "x" and then.kind is not Kind.NUMBER):
        return ShorthandError(
            say("It is not said how often these times come."),
            start,
            after.end,
            say("Write such as '2 times a day' or '3/wk'."),
        )
    if after.key == "-":
        return ShorthandError(
            say("A range has two ends, and here are more."),
            start,
            then.end,
            say("For a tempo write 'tempo 3-1-1-0'."),
        )
    if after.kind is Kind.END or after.key in (",", ";", ")", "/"):
        return ShorthandError(
            say("It is not said what this number is."),
            start,
            end,
            say("Write such as '3/wk', '90 s rest' or '@ 3 kg'."),
        )
    return ShorthandError(
        say("A dose has only one amount of work."),
        start,
        end,
        say("Join two choices with 'or', or write a row for each week, such as 'wk 3-4: 3 x 10'."),
    )
