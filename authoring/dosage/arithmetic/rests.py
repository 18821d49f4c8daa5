"""Seconds of rest between sets, holds and rounds."""

from __future__ import annotations

from math import ceil

from authoring.dosage.arithmetic.amounts import holds, sets
from authoring.dosage.arithmetic.assumptions import Assumptions, Ends
from authoring.dosage.arithmetic.figure import ZERO, Figure, Note, between, of_range
from authoring.model.dose import Dose, Holds, Intervals, LeftOpen, Rest, TotalRepetitions
from authoring.model.vocabulary import RestUntil


def seconds_of(rest: Rest | None, usual: Ends, work: Figure, assume: Assumptions) -> Figure:
    """Seconds of one rest.

    Args:
        usual: what is assumed where there is none.
        work: seconds of the work before it, for a rest that is a multiple of it.
    """
    if rest is None:
        return between(*usual, Note.REST)
    if rest.seconds is not None:
        return of_range(rest.seconds)
    if rest.times_work is not None:
        return work * rest.times_work
    if rest.until is RestUntil.OTHER_SIDE_DONE or rest.until is None:
        return work
    return between(*assume.until_s[rest.until], Note.REST_EVENT)


def less_one(count: Figure) -> Figure:
    """Gaps between so many."""
    high = None if count.high is None else max(count.high - 1, 0)
    return Figure(max(count.low - 1, 0), high, count.notes)


def a_share(whole: Figure, parts: Figure) -> Figure:
    """The whole parted into so many; the ends go together, as few parts make a small whole."""
    low = whole.low / max(parts.low, 1)
    if whole.high is None or parts.high is None:
        return Figure(low, whole.high, whole.notes)
    return Figure(low, max(low, whole.high / max(parts.high, 1)), whole.notes)


def inside_sets(dose: Dose, one_side: Figure, assume: Assumptions) -> Figure:
    """Rest between the holds of a set, of one side; nought for other work."""
    work = dose.work
    if not isinstance(work, Holds):
        return ZERO
    count, in_sets = holds(work), of_range(work.sets)
    high = None if count.high is None else max(count.high - work.sets.top, 0)
    gaps = Figure(max(count.low - work.sets.low, 0), high)
    if gaps.high == 0:
        return ZERO
    rest = work.rest_between_holds
    if rest is None and in_sets.high == 1:
        rest = dose.rest
    return gaps * seconds_of(rest, assume.hold_rest_s, a_share(one_side, count), assume)


def between_sets(dose: Dose, one_side: Figure, times: Figure, assume: Assumptions) -> Figure:
    """Rest between sets, bouts or rounds, none after the last.

    Where each side works in turn, the work of the other side counts as rest at the low end and
    each side rests on its own at the high end.

    Args:
        one_side: seconds of work of one side.
        times: how often it is done (1; 2 for each side).
    """
    work = dose.work
    if isinstance(work, Intervals):
        return _of_intervals(work, dose.rest, one_side, assume)
    if isinstance(work, LeftOpen):
        return ZERO
    count = _closed(work, assume) if isinstance(work, TotalRepetitions) else sets(work)
    gaps = less_one(count)
    if gaps.high == 0 and times.low < 2:
        return ZERO
    usual = assume.total_rest_s if isinstance(work, TotalRepetitions) else assume.set_rest_s
    each = a_share(one_side, count)
    rest = dose.rest
    if isinstance(work, Holds) and rest is None and work.holds.top == 1:
        rest = work.rest_between_holds
    share = _of_the_work(rest, times)
    if share is not None:
        return _relative(one_side, share, count, times)
    one = seconds_of(rest, usual, each, assume)
    if times.low < 2:
        return gaps * one
    return _in_turn(gaps, one, each)


def _of_the_work(rest: Rest | None, times: Figure) -> float | None:
    """How often as long as a set a rest is, or None where it has a time of its own.

    While the other side works, which counts already, nothing is added.
    """
    if rest is None:
        return None
    if rest.until is RestUntil.OTHER_SIDE_DONE:
        return 0.0 if times.low >= 2 else 1.0
    return rest.times_work


def _relative(one_side: Figure, times_work: float, count: Figure, times: Figure) -> Figure:
    """Rest as a share of the work: all sets but the last have it."""
    fewest = max(count.low, 1)
    low = (fewest - 1) / fewest
    if count.high is None or one_side.high is None:
        return Figure(one_side.low * low * times_work, None, one_side.notes | count.notes)
    most = max(count.high, 1)
    high = (most - 1) / most
    if times.low >= 2:
        low = low * max(0.0, times_work - 1) / times_work if times_work else 0.0
        high = (2 * most - 1) / most if most > 1 else 0.0
    return one_side * Figure(low * times_work, high * times_work, count.notes)


def _closed(work: TotalRepetitions, assume: Assumptions) -> Figure:
    """Sets on the way to a total, an upper end assumed where they are open."""
    count = sets(work)
    if count.known:
        return count
    return Figure(count.low, max(1, ceil(work.total.top / assume.least_on_the_way)), count.notes)


def _in_turn(gaps: Figure, one: Figure, each: Figure) -> Figure:
    """Both sides in turn: least with the other side's work as rest, most without."""
    low = 0.0 if each.high is None else gaps.low * max(0.0, one.low - each.high)
    if gaps.high is None or one.high is None:
        return Figure(low, None, gaps.notes | one.notes)
    pauses = 2 * gaps.high + 1 if gaps.high else 0
    return Figure(low, pauses * one.high, (gaps.notes | one.notes) if pauses else frozenset())


def _of_intervals(work: Intervals, rest: Rest | None, each: Figure, assume: Assumptions) -> Figure:
    """Rest of intervals: what is given only, as recovery is one of their parts."""
    in_sets, rounds = of_range(work.sets), of_range(work.rounds)
    one_round = a_share(each, in_sets * rounds)
    found = ZERO
    if rest is not None:
        found = found + in_sets * less_one(rounds) * seconds_of(rest, (0, 0), one_round, assume)
    if work.rest_between_sets is not None:
        one_set = a_share(each, in_sets)
        between_them = seconds_of(work.rest_between_sets, (0, 0), one_set, assume)
        found = found + less_one(in_sets) * between_them
    return found
