"""Rest in plain words: between holds, after each set or round, at the end."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.phrases import Phrases
from authoring.dosage.quantities import rest_time
from authoring.model.dose import Distance, Duration, Holds, Intervals, Repetitions, Rest, Work


def rest_sentences(phrases: Phrases, work: Work, rest: Rest | None) -> Iterator[str]:
    """Sentences on the rest of a dose, and on that between holds or sets of rounds."""
    if isinstance(work, Intervals) and work.rest_between_sets is not None:
        yield rest_sentence(phrases, "after_set", work.rest_between_sets)
    if isinstance(work, Holds):
        yield from _of_holds(phrases, work, rest)
    elif rest is not None:
        yield rest_sentence(phrases, _place(work), rest)


def _of_holds(phrases: Phrases, work: Holds, rest: Rest | None) -> Iterator[str]:
    """Rest between holds and between sets; with one hold a set, both are the same."""
    between = work.rest_between_holds
    if work.holds.top == 1 and work.sets.top > 1 and not work.holds_by_set:
        between, rest = rest or between, None
    if between is None and work.sets.top == 1 and work.holds.top > 1:
        between, rest = rest, None
    if between is not None:
        yield rest_sentence(phrases, "between", between)
    if rest is not None:
        yield rest_sentence(phrases, "at_end" if work.sets.top == 1 else "after_set", rest)


def _place(work: Work) -> str:
    """Key of the sentence on rest: after each set or round, or after all where there is one."""
    match work:
        case Duration(bouts=times) | Distance(bouts=times) | Intervals(rounds=times):
            return "at_end" if times.top == 1 else "between_rounds"
        case Repetitions(sets=times):
            return "at_end" if times.top == 1 else "after_set"
    return "after_set"


def rest_sentence(phrases: Phrases, when: str, rest: Rest) -> str:
    """One sentence on a rest.

    Args:
        when: "between", "between_rounds", "after_set" or "at_end".
    """
    if rest.until is not None:
        return phrases.say(f"rest.until.{rest.until}")
    if rest.times_work == 0 or (rest.seconds and rest.seconds.top == 0):
        return phrases.say("rest.none")
    if rest.times_work is not None:
        return _relative(phrases, rest.times_work)
    return phrases.say(f"rest.{when}", time=rest_time(phrases, rest))


def _relative(phrases: Phrases, times: float) -> str:
    if times in (1, 0.5):
        return phrases.say("rest.as_long" if times == 1 else "rest.half_as_long")
    return phrases.say("rest.times_work", n=phrases.number(times))
