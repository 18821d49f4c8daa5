"""Writes a dose in shorthand, or says what of it the shorthand can't say."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.shorthand_errors import ShorthandError, UnsayableError
from authoring.dosage.shorthand_lexer import LONGEST
from authoring.dosage.shorthand_parser import DEEPEST, read_dose
from authoring.dosage.shorthand_words import SIDES, UNTIL, spelling
from authoring.dosage.shorthand_write_clauses import frequency, movement, rest, tempo
from authoring.dosage.shorthand_write_parts import Signs, load
from authoring.dosage.shorthand_write_work import done_once, work
from authoring.model.base import Node, evolve, fields
from authoring.model.dose import (
    Dose,
    DoseChange,
    Either,
    Holds,
    LeftOpen,
    Repetitions,
    SessionKind,
    WeekRow,
    Work,
)
from authoring.model.load import Load
from authoring.model.sentence import say
from authoring.model.vocabulary import IntervalRole, Sides, Until


def write(dose: Dose, signs: Signs) -> str:
    """The dose in shorthand; its sources and unknown fields stay with the caller.

    Raises:
        UnsayableError: something in the dose has no words in the shorthand.
    """
    plain = evolve(dose, sources=(), extra={})
    _no_unknown_fields(plain)
    text = _whole(plain, signs)
    if len(text) > LONGEST:
        raise UnsayableError(say("The dose is too long for the shorthand."))
    try:
        same = read_dose(text) == plain
    except ShorthandError:
        same = False
    if not same:
        raise UnsayableError(say("Words in this dose would be read as shorthand."))
    return text


def _no_unknown_fields(value: object) -> None:
    """Refuse what a newer version may have written into a part of the dose."""
    if isinstance(value, tuple):
        for item in value:
            _no_unknown_fields(item)
    elif isinstance(value, Node):
        if value.extra:
            raise UnsayableError(
                say("The shorthand can't hold fields that this version does not know.")
            )
        for attribute in fields(type(value)):
            _no_unknown_fields(getattr(value, attribute.name))


# ---- rows ---------------------------------------------------------------------------


def _whole(dose: Dose, signs: Signs) -> str:
    rows = [*map(_week, dose.weeks), *map(_session, dose.sessions)]
    implied = bool(rows) and rows[0][1].work == dose.work
    base = _base(dose, None if implied else dose.work, signs, 0)
    lines = [f"{label}: {_change(change, signs)}" for label, change in rows]
    return "; ".join([base, *lines] if base else lines)


def _week(row: WeekRow) -> tuple[str, DoseChange]:
    if row.variant is not None:
        raise UnsayableError(say("The shorthand can't change the variant in a week."))
    if row.to_week is None:
        return f"wk {row.from_week}+", row.change
    last = "" if row.to_week == row.from_week else f"-{row.to_week}"
    return f"wk {row.from_week}{last}", row.change


def _session(kind: SessionKind) -> tuple[str, DoseChange]:
    return kind.label.value, kind.change


def _change(change: DoseChange, signs: Signs) -> str:
    if change == DoseChange():
        return "same"
    if change.sides is not None:
        raise UnsayableError(say("The shorthand can't change the side in a week or session."))
    middle = [*_head(change.work, None, change.loads or (), signs, 0)]
    if change.loads == ():
        middle.append("no load")
    return _around(change.work, [*middle, *_beside(change, change.work, signs)], signs)


# ---- one line -------------------------------------------------------------------------


def _base(dose: Dose, shown: Work | None, signs: Signs, depth: int) -> str:
    middle = [*_head(shown, dose.sides, dose.loads, signs, depth), *_beside(dose, shown, signs)]
    if dose.session_limit_min is not None:
        middle.append(f"max {dose.session_limit_min}{signs.gap}min")
    if dose.minimum_sessions is not None:
        middle.append(f"at least {dose.minimum_sessions} sessions")
    return _around(shown, middle, signs)


def _around(shown: Work | None, middle: list[str], signs: Signs) -> str:
    before = done_once(shown, IntervalRole.WARM_UP, signs)
    after = done_once(shown, IntervalRole.COOL_DOWN, signs)
    return ", ".join([*before, *middle, *after])


def _head(
    shown: Work | None, sides: Sides | None, loads: tuple[Load, ...], signs: Signs, depth: int
) -> Iterator[str]:
    """The work, its side and its loads, run together where that stays clear."""
    beside = [] if sides is None else [spelling(SIDES, sides)]
    beside += [f"@ {load(one, signs)}" for one in loads]
    if isinstance(shown, Either):
        yield _choice(shown, signs, depth)
        yield from [" ".join(beside)] if beside else []
    elif isinstance(shown, LeftOpen):
        yield work(shown, signs)
        yield from [" ".join(beside)] if beside else []
    else:
        first = [] if shown is None else [work(shown, signs)]
        yield from [" ".join([*first, *beside])] if first or beside else []


def _beside(value: Dose | DoseChange, shown: Work | None, signs: Signs) -> Iterator[str]:
    """Rest, tempo, range and frequency, a clause each."""
    if isinstance(shown, Repetitions) and shown.last_set_until is not None:
        yield f"last set {_end_of_last(shown.last_set_until)}"
    if isinstance(shown, Holds) and shown.rest_between_holds is not None:
        yield f"{rest(shown.rest_between_holds, signs)} between holds"
    if value.rest is not None:
        yield rest(value.rest, signs)
    if value.tempo is not None:
        yield from tempo(value.tempo, signs)
    if value.range is not None:
        yield from movement(value.range, signs)
    if value.frequency is not None:
        yield from frequency(value.frequency, signs)


def _end_of_last(until: Until) -> str:
    if until is Until.COUNT:
        raise UnsayableError(
            say("The shorthand has no words for a last set that ends at its count.")
        )
    return spelling(UNTIL, until)


def _choice(value: Either, signs: Signs, depth: int) -> str:
    """The choices, all of them in brackets where one is more than its work."""
    texts = [_chosen(dose, signs, depth) for dose in value.doses]
    bare = all(
        "," not in text and dose == Dose(work=dose.work) and not isinstance(dose.work, Either)
        for text, dose in zip(texts, value.doses, strict=True)
    )
    if bare:
        return " or ".join(texts)
    if depth >= DEEPEST:
        raise UnsayableError(say("The shorthand can't say choices nested this deeply."))
    return " or ".join(f"({text})" for text in texts)


def _chosen(dose: Dose, signs: Signs, depth: int) -> str:
    if dose.weeks or dose.sessions:
        raise UnsayableError(
            say("The shorthand can't say a week or session table inside a choice.")
        )
    if dose.sources:
        raise UnsayableError(say("The shorthand can't hold the sources of one choice."))
    return _base(dose, dose.work, signs, depth + 1)
