"""A dose in plain words, as a patient reads it ("3 sets of 12").

One headline, as large as the exercise's name, and whole sentences below it for side,
rest, load, speed, range and frequency. No sum is left to the reader.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from authoring.dosage.frequency_words import (
    frequency_phrase,
    frequency_sentences,
    rest_day_sentences,
    week_label,
)
from authoring.dosage.load_words import load_sentences
from authoring.dosage.movement_words import range_sentences, tempo_sentences
from authoring.dosage.phrases import Phrases
from authoring.dosage.quantities import (
    count_phrase,
    distance_phrase,
    seconds_phrase,
)
from authoring.dosage.rest_words import rest_sentence, rest_sentences
from authoring.model.base import evolve
from authoring.model.dose import (
    Distance,
    Dose,
    DoseChange,
    Duration,
    Either,
    Holds,
    Interval,
    Intervals,
    LeftOpen,
    Repetitions,
    SessionKind,
    TotalRepetitions,
    WeekRow,
    Work,
)
from authoring.model.load import IntRange
from authoring.model.text import Text
from authoring.model.vocabulary import IntervalRole, Sides, Until

_AFFECTED = frozenset({Sides.AFFECTED, Sides.OTHER, Sides.AFFECTED_THEN_OTHER})


class DoseWords:
    """Words for doses in one language.

    Args:
        phrases: catalogue of the language.
        own: language of plain strings in the file that holds the doses.
        limb: "leg", "arm" or "body": what a side is called.
        side: "left", "right" or "both": the affected side; "" where it is not known.
        variants: names of the card's variants by id, for week tables that change the variant.
    """

    def __init__(
        self,
        phrases: Phrases,
        own: str,
        limb: str = "body",
        side: str = "",
        variants: Mapping[str, str] | None = None,
    ) -> None:
        self._phrases = phrases
        self._own = own
        self._limb = limb
        self._side = side
        self._variants = variants or {}

    def text(self, text: Text) -> str:
        """Words of a text in this language, else in the file's own."""
        return text.best(self._phrases.language, self._own)

    # ---- headline ------------------------------------------------------------

    def headline(self, dose: Dose) -> str:
        """The work in one phrase ("4 holds of 30 seconds")."""
        return self.work(dose.work)

    def work(self, work: Work) -> str:  # noqa: PLR0911  (one line a kind)
        """The work in one phrase."""
        match work:
            case Repetitions():
                return self._with_last_set(work, self._repetitions(work))
            case TotalRepetitions():
                total = count_phrase(self._phrases, work.counting, work.total, bare=True)
                return self._phrases.say("dose.total", total=total)
            case Holds():
                return self._holds(work)
            case Duration():
                return self._bouts(work.bouts, seconds_phrase(self._phrases, work.seconds))
            case Distance():
                return self._bouts(work.bouts, distance_phrase(self._phrases, work.metres))
            case Intervals():
                return self._intervals(work)
            case Either():
                return self._phrases.listed([self.headline(dose) for dose in work.doses], "or")
            case LeftOpen():
                return self._phrases.say(f"dose.open.{work.decided_by}")

    def _sets(self, sets: IntRange) -> str:
        return self._phrases.count("unit.set", sets.top, n=self._phrases.span(sets.low, sets.high))

    def _repetitions(self, work: Repetitions) -> str:
        say = self._phrases.say
        if not work.reps:
            return self._phrases.count(
                f"dose.sets_until.{work.until}", work.sets.top, sets=self._sets(work.sets)
            )
        counts = [count_phrase(self._phrases, work.counting, reps, bare=True) for reps in work.reps]
        if len(counts) > 1:
            return self._one_after_another(work, counts)
        if work.until is Until.GOOD_FORM:
            most = count_phrase(
                self._phrases, work.counting, IntRange(low=work.reps[0].top), bare=True
            )
            return say("dose.good_form_cap", sets=self._sets(work.sets), most=most)
        if work.sets.top == 1:
            return count_phrase(self._phrases, work.counting, work.reps[0], bare=False)
        return say("dose.sets_of", sets=self._sets(work.sets), count=counts[0])

    def _with_last_set(self, work: Repetitions, line: str) -> str:
        """The line and what ends the last set, where that is another thing than a count."""
        last = work.last_set_until
        if last is None or last in (Until.COUNT, work.until):
            return line
        return self._phrases.say(f"dose.last_set.{last}", dose=line)

    def _one_after_another(self, work: Repetitions, counts: list[str]) -> str:
        numbers = [self._phrases.span(reps.low, reps.high) for reps in work.reps[:-1]]
        line = self._phrases.say("list.then", first="", last="").join([*numbers, counts[-1]])
        if work.sets.low == work.sets.top:
            return line[:1].upper() + line[1:]
        return self._phrases.say("dose.intervals", rounds=self._sets(work.sets), parts=line)

    def _holds(self, work: Holds) -> str:
        say, phrases = self._phrases.say, self._phrases
        if work.holds.top == 1 and work.sets.top > 1 and not work.holds_by_set:
            # "3 holds", not "3 sets of 1 hold".
            work = evolve(work, holds=work.sets, sets=IntRange(low=1))
        by_set = work.holds_by_set or (work.holds,)
        numbers = [phrases.span(each.low, each.high) for each in by_set]
        then = say("list.then", first="", last="")
        holds = phrases.count("unit.hold", by_set[-1].top, n=then.join(numbers))
        if not work.hold_s:
            line = phrases.count(f"dose.holds_until.{work.until}", work.holds.top, holds=holds)
        elif len(work.hold_s) > 1:
            times = [phrases.span(hold.low, hold.high) for hold in work.hold_s[:-1]]
            last = seconds_phrase(phrases, work.hold_s[-1])
            times_line = then.join([*times, last])
            line = say("dose.holds_each", holds=holds, times=times_line)
        else:
            line = say("dose.holds_of", holds=holds, time=seconds_phrase(phrases, work.hold_s[0]))
        if work.sets.top == 1 or work.holds_by_set:
            return line
        return say("dose.sets_of", sets=self._sets(work.sets), count=line)

    def _bouts(self, bouts: IntRange, amount: str) -> str:
        if bouts.top == 1:
            return amount
        times = self._phrases.count(
            "unit.round", bouts.top, n=self._phrases.span(bouts.low, bouts.high)
        )
        return self._phrases.say("dose.sets_of", sets=times, count=amount)

    def _intervals(self, work: Intervals) -> str:
        parts = [
            part for part in work.parts if part.role in (IntervalRole.WORK, IntervalRole.RECOVER)
        ]
        shown = parts or list(work.parts)
        line = self._phrases.say("list.then", first="", last="").join(map(self._interval, shown))
        rounds = self._phrases.count(
            "unit.round", work.rounds.top, n=self._phrases.span(work.rounds.low, work.rounds.high)
        )
        if work.sets.top > 1:
            sets = self._sets(work.sets)
            once = work.rounds.top == 1
            rounds = sets if once else self._phrases.say("dose.sets_of", sets=sets, count=rounds)
        elif work.rounds.top == 1:
            return line[:1].upper() + line[1:]
        return self._phrases.say("dose.intervals", rounds=rounds, parts=line)

    def _interval(self, part: Interval) -> str:
        amount = (
            seconds_phrase(self._phrases, part.seconds)
            if part.seconds
            else distance_phrase(self._phrases, part.metres)
            if part.metres
            else ""
        )
        return self._phrases.say("dose.interval", activity=self.text(part.activity), amount=amount)

    # ---- sentences below -------------------------------------------------------

    def details(self, dose: Dose, sides: Sides | None = None) -> tuple[str, ...]:
        """Whole sentences on side, rest, load, speed, range and frequency.

        ``sides`` counts where the dose does not say which side works.
        """
        found = [
            *self._side_sentence(dose.sides or sides),
            *self._work_sentences(dose.work),
            *rest_sentences(self._phrases, dose.work, dose.rest),
            *load_sentences(self._phrases, dose.loads, self._own),
            *tempo_sentences(self._phrases, dose.tempo),
            *range_sentences(self._phrases, dose.range),
            *frequency_sentences(self._phrases, dose.frequency),
        ]
        if dose.session_limit_min:
            found.append(self._phrases.count("detail.session_limit", dose.session_limit_min))
        found += [self._session(dose, kind) for kind in dose.sessions]
        return tuple(found)

    def _side_sentence(self, sides: Sides | None) -> Iterator[str]:
        if sides is None or sides is Sides.BOTH_TOGETHER:
            return
        if self._side == "both" and sides in _AFFECTED:
            sides = Sides.EACH
        if not self._side or sides not in _AFFECTED:
            yield self._phrases.say(f"side.{sides}.{self._limb}")
            return
        away = "left" if self._side == "right" else "right"
        here = away if sides is Sides.OTHER else self._side
        if sides is Sides.AFFECTED_THEN_OTHER:
            yield self._phrases.say(f"side.{here}_then_{away}.{self._limb}")
        else:
            yield self._phrases.say(f"side.{here}.{self._limb}")

    def _work_sentences(self, work: Work) -> Iterator[str]:
        say = self._phrases.say
        match work:
            case Repetitions(reps=reps, until=until) if reps:
                yield from self._end_of_set(until, capped=len(reps) == 1)
            case TotalRepetitions(until=until):
                yield from self._end_of_set(until, capped=False)
            case Holds(until=Until.QUALITY | Until.GOOD_FORM, hold_s=hold_s) if hold_s:
                yield say("detail.quality_hold")
            case Holds(until=Until.FATIGUE, hold_s=hold_s) if hold_s:
                yield say("detail.fatigue_hold")
            case Intervals():
                yield from self._interval_sentences(work)
            case LeftOpen() if work.words:
                yield self.text(work.words)
            case Either():
                yield from self._either_sentences(work)
        if isinstance(work, TotalRepetitions):
            if work.most_sets:
                yield self._phrases.count("detail.split_up_to", work.most_sets)
            else:
                yield say("detail.split")

    def _end_of_set(self, until: Until, *, capped: bool) -> Iterator[str]:
        """What ends a set; the headline says it already where good form has a cap."""
        if until is Until.QUALITY or (until is Until.GOOD_FORM and not capped):
            yield self._phrases.say("detail.quality")
        elif until is Until.FATIGUE:
            yield self._phrases.say("detail.fatigue_set")

    def _either_sentences(self, work: Either) -> Iterator[str]:
        for dose in work.doses:
            below = [*self.details(dose), *(f"{when}: {what}." for when, what in self.weeks(dose))]
            if below:
                yield self._phrases.say(
                    "detail.for", what=self.headline(dose), rest=" ".join(below)
                )

    def _interval_sentences(self, work: Intervals) -> Iterator[str]:
        for part in work.parts:
            if part.role is IntervalRole.WARM_UP:
                yield self._phrases.say("detail.warm_up", what=self._interval(part))
            elif part.role is IntervalRole.COOL_DOWN:
                yield self._phrases.say("detail.cool_down", what=self._interval(part))
            if part.loads:
                sentences = load_sentences(self._phrases, part.loads, self._own)
                activity = self.text(part.activity)
                yield self._phrases.say(
                    "detail.for", what=activity[:1].upper() + activity[1:], rest=" ".join(sentences)
                )

    # ---- weeks and kinds of session ----------------------------------------------------

    def changed(self, dose: Dose, change: DoseChange) -> str:
        """The headline of a changed dose and what else differs, as one line."""
        head = self.work(change.work or dose.work)
        below = [
            *self._differences(dose, change),
            *frequency_sentences(self._phrases, change.frequency),
        ]
        return (
            self._phrases.say("dose.with_details", dose=head, rest=" ".join(below))
            if below
            else head
        )

    def _differences(self, dose: Dose, change: DoseChange) -> Iterator[str]:
        """Sentences on all that a change names, its frequency apart."""
        work = change.work or dose.work
        yield from self._side_sentence(change.sides)
        if change.work is not None:
            before = [
                *self._work_sentences(dose.work),
                *rest_sentences(self._phrases, dose.work, None),
            ]
            after = [*self._work_sentences(work), *rest_sentences(self._phrases, work, None)]
            yield from (sentence for sentence in after if sentence not in before)
        yield from load_sentences(self._phrases, change.loads or (), self._own)
        if change.rest is not None:
            between = work.rest_between_holds if isinstance(work, Holds) else None
            known = rest_sentence(self._phrases, "between", between) if between else ""
            rests = rest_sentences(self._phrases, work, change.rest)
            yield from (sentence for sentence in rests if sentence != known)
        yield from tempo_sentences(self._phrases, change.tempo)
        yield from range_sentences(self._phrases, change.range)

    def weeks(self, dose: Dose) -> tuple[tuple[str, str], ...]:
        """Week table: label of the weeks and dose in them."""
        return tuple(
            (week_label(self._phrases, row.from_week, row.to_week), self._row(dose, row))
            for row in dose.weeks
        )

    def _row(self, dose: Dose, row: WeekRow) -> str:
        line = self.changed(dose, row.change)
        name = self._variants.get(row.variant or "", "").rstrip(".")
        return self._phrases.say("dose.with_details", dose=name, rest=line) if name else line

    def _session(self, dose: Dose, kind: SessionKind) -> str:
        """One kind of session: work and frequency first, then all else that it changes."""
        change, frequency = kind.change, kind.change.frequency
        often = frequency_phrase(self._phrases, frequency) if frequency else ""
        work = self.work(change.work or dose.work) if change.work or not often else ""
        what = ", ".join(part for part in (work, often) if part)
        rest_days = rest_day_sentences(self._phrases, frequency) if frequency else ()
        line = self._phrases.say(f"session.{kind.label}", what=what)
        return " ".join([line, *self._differences(dose, change), *rest_days])
