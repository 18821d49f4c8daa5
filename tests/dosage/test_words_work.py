"""The work of a dose reads as on the page: the headline, and the sentences that end a set.

Expected words keep the rules of the printed page: "3 sets of 12", "4 holds of 30 seconds",
"12, then 10, then 8"; never a sign for "times", a trade word, a bare range or a sum to do.
The doses are those of the publications and notations named beside them.
"""

from __future__ import annotations

import pytest

from authoring.dosage.words import DoseWords
from authoring.handout.catalogue import load_phrases
from authoring.model.dose import (
    Distance,
    Dose,
    Duration,
    Either,
    Holds,
    Interval,
    Intervals,
    LeftOpen,
    Repetitions,
    Rest,
    TotalRepetitions,
    Work,
)
from authoring.model.load import EffortLoad, IntRange, NumberRange, PaceLoad, WeightLoad
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Counting,
    DecidedBy,
    IntervalRole,
    PaceWord,
    RestUntil,
    Until,
)

WORDS = DoseWords(load_phrases("en"), "en", "leg")


def n(low: int, high: int | None = None) -> IntRange:
    return IntRange(low=low, high=high)


def reps(sets: IntRange | int, *counts: IntRange | int, **facts: object) -> Repetitions:
    numbers = tuple(n(count) if isinstance(count, int) else count for count in counts)
    return Repetitions(sets=n(sets) if isinstance(sets, int) else sets, reps=numbers, **facts)


def holds(count: IntRange | int, *seconds: IntRange | int, **facts: object) -> Holds:
    times = tuple(n(each) if isinstance(each, int) else each for each in seconds)
    return Holds(holds=n(count) if isinstance(count, int) else count, hold_s=times, **facts)


def part(activity: str, role: IntervalRole = IntervalRole.WORK, **amount: object) -> Interval:
    return Interval(role=role, activity=Text.plain(activity), **amount)


RUN_WALK = (
    part("run", seconds=n(60)),
    part("walk", IntervalRole.RECOVER, seconds=n(120)),
)

HEADLINES: list[tuple[Work, str]] = [
    # ACSM position stand 2009, Med Sci Sports Exerc 41:687: 1-3 sets of 8-12 for novices.
    (reps(3, 12), "3 sets of 12"),
    (reps(n(1, 3), n(8, 12)), "1 to 3 sets of 8 to 12"),
    (reps(3, n(8, 12)), "3 sets of 8 to 12"),
    (reps(1, 12), "12 times"),
    (reps(1, 1), "1 time"),
    (reps(1, n(8, 12)), "8 to 12 times"),
    # Alfredson H et al. Am J Sports Med 1998;26:360: 3 x 15.
    (reps(3, 15), "3 sets of 15"),
    # DeLorme TL, Watkins AL. Arch Phys Med 1948;29:263: three tens.
    (reps(3, 10), "3 sets of 10"),
    # Per-set lists, common practice: a pyramid 12/10/8.
    (reps(3, 12, 10, 8), "12, then 10, then 8"),
    (reps(2, 20, n(8, 12)), "20, then 8 to 12"),
    (reps(n(2, 3), 12, 10, 8), "2 to 3 sets: 12, then 10, then 8"),
    (reps(2, 10, 8, counting=Counting.STEPS), "10, then 8 steps"),
    # Counts that are no repetitions (falls, throwing and jumping programmes).
    (reps(1, 10, counting=Counting.STANDS), "10 stands"),
    (reps(2, 10, counting=Counting.STEPS), "2 sets of 10 steps"),
    (reps(2, 25, counting=Counting.THROWS), "2 sets of 25 throws"),
    (reps(1, 100, counting=Counting.CONTACTS), "100 landings"),
    (reps(3, 5, counting=Counting.JUMPS), "3 sets of 5 jumps"),
    (reps(3, 6, counting=Counting.HOPS), "3 sets of 6 hops"),
    (reps(2, 12, counting=Counting.CATCHES), "2 sets of 12 catches"),
    (reps(1, 30, counting=Counting.BREATHS), "30 breaths"),
    (reps(4, 1, counting=Counting.LENGTHS), "4 sets of 1 length"),
    (reps(1, 20, counting=Counting.TURNS), "20 turns"),
    # "As many as good form allows, at most 20" (AMRAP with a cap, common practice).
    (
        reps(3, 20, until=Until.GOOD_FORM),
        "3 sets, as many as you can do well, up to 20",
    ),
    (
        reps(2, n(8, 20), until=Until.GOOD_FORM),
        "2 sets, as many as you can do well, up to 20",
    ),
    (reps(3, until=Until.GOOD_FORM), "3 sets, as many as you can do well"),
    (reps(1, until=Until.FATIGUE), "1 set, until you are tired"),
    (reps(3, until=Until.QUALITY), "3 sets, each for as long as your form is good"),
    (reps(4, 8, until=Until.QUALITY), "4 sets of 8"),
    # Knight KL. Am J Sports Med 1979;7:336: the last set as often as can be (from memory).
    (
        reps(4, 10, 6, 6, 6, last_set_until=Until.GOOD_FORM),
        "10, then 6, then 6, then 6; last set: as many as you can do well",
    ),
    (
        reps(3, 10, last_set_until=Until.FATIGUE),
        "3 sets of 10; last set: until you are tired",
    ),
    (
        reps(3, 10, last_set_until=Until.QUALITY),
        "3 sets of 10; last set: for as long as your form is good",
    ),
    (reps(3, 10, last_set_until=Until.COUNT), "3 sets of 10"),
    # A total to build up to over any number of sets.
    (TotalRepetitions(total=n(50)), "50 in all"),
    (TotalRepetitions(total=n(30, 60), counting=Counting.HOPS), "30 to 60 hops in all"),
    # Rio E et al. Br J Sports Med 2015;49:1277: 5 holds of 45 s.
    (holds(5, 45), "5 holds of 45 seconds"),
    (holds(4, 30), "4 holds of 30 seconds"),
    (holds(1, 30), "1 hold of 30 seconds"),
    (holds(n(3, 5), n(30, 45)), "3 to 5 holds of 30 to 45 seconds"),
    (holds(2, 60), "2 holds of 1 minute"),
    (holds(2, n(60, 120)), "2 holds of 1 to 2 minutes"),
    (holds(2, 90), "2 holds of 90 seconds"),
    (holds(10, 1), "10 holds of 1 second"),
    (holds(10, 5, sets=n(3)), "3 sets of 10 holds of 5 seconds"),
    (holds(1, 30, sets=n(3)), "3 holds of 30 seconds"),
    # McGill S. Strength Cond J 2010;32(3):33: 8, 6 and 4 holds of 10 s (from memory).
    (
        Holds(sets=n(3), holds_by_set=(n(8), n(6), n(4)), hold_s=(n(10),)),
        "8, then 6, then 4 holds of 10 seconds",
    ),
    (
        Holds(sets=n(2), holds_by_set=(n(8), n(1)), until=Until.GOOD_FORM),
        "8, then 1 hold, as long as you can do well",
    ),
    (holds(3, 30, 20, 10), "3 holds: 30, then 20, then 10 seconds"),
    (holds(3, until=Until.FATIGUE), "3 holds, each until you are tired"),
    (holds(3, until=Until.GOOD_FORM), "3 holds, as long as you can do well"),
    (holds(3, until=Until.QUALITY), "3 holds, each for as long as your form is good"),
    # Time and distance.
    (Duration(seconds=n(30)), "30 seconds"),
    (Duration(seconds=n(900, 1200)), "15 to 20 minutes"),
    (Duration(seconds=n(60)), "1 minute"),
    (Duration(seconds=n(45, 60)), "45 to 60 seconds"),
    (Duration(bouts=n(3), seconds=n(40)), "3 rounds of 40 seconds"),
    (Duration(bouts=n(2, 3), seconds=n(120)), "2 to 3 rounds of 2 minutes"),
    (Distance(metres=NumberRange(low=400)), "400 metres"),
    (Distance(metres=NumberRange(low=1)), "1 metre"),
    (Distance(metres=NumberRange(low=1000)), "1 kilometre"),
    (Distance(metres=NumberRange(low=2500, high=5000)), "2.5 to 5 kilometres"),
    (Distance(metres=NumberRange(low=1234)), "1234 metres"),
    (Distance(bouts=n(6), metres=NumberRange(low=20)), "6 rounds of 20 metres"),
    # Run and walk in turn, as graded return-to-run tables write it.
    (
        Intervals(rounds=n(10), parts=RUN_WALK),
        "10 rounds: run 1 minute, then walk 2 minutes",
    ),
    (Intervals(rounds=n(1), parts=RUN_WALK), "Run 1 minute, then walk 2 minutes"),
    (
        Intervals(
            rounds=n(4),
            parts=(
                part("walk", IntervalRole.WARM_UP, seconds=n(300)),
                part("sprint", metres=NumberRange(low=30)),
            ),
        ),
        "4 rounds: sprint 30 metres",
    ),
    # Buchheit M, Laursen PB. Sports Med 2013;43:313: sets of short intervals (from memory).
    (
        Intervals(sets=n(2), rounds=n(6, 8), parts=RUN_WALK),
        "2 sets of 6 to 8 rounds: run 1 minute, then walk 2 minutes",
    ),
    (
        Intervals(sets=n(3), rounds=n(1), parts=RUN_WALK),
        "3 sets: run 1 minute, then walk 2 minutes",
    ),
    # Either/or, and doses left open on purpose.
    (
        Either(doses=(Dose(work=reps(3, 10)), Dose(work=holds(4, 30)))),
        "3 sets of 10 or 4 holds of 30 seconds",
    ),
    (
        Either(doses=tuple(Dose(work=Duration(seconds=n(s))) for s in (60, 120, 180))),
        "1 minute, 2 minutes or 3 minutes",
    ),
    (LeftOpen(), "As we agreed with you"),
    (LeftOpen(decided_by=DecidedBy.SURGEON), "As your surgeon tells you"),
    (LeftOpen(decided_by=DecidedBy.PATIENT), "You choose"),
]


@pytest.mark.parametrize(("work", "expected"), HEADLINES, ids=[words for _, words in HEADLINES])
def test_work_reads_as_on_the_page(work: Work, expected: str) -> None:
    assert WORDS.headline(Dose(work=work)) == expected


def seconds(low: int, high: int | None = None) -> Rest:
    return Rest(seconds=n(low, high))


ENDS: list[tuple[Dose, tuple[str, ...]]] = [
    (Dose(work=reps(3, 12), rest=seconds(60)), ("Rest 1 minute after each set.",)),
    (Dose(work=reps(3, 12), rest=seconds(60, 90)), ("Rest 60 to 90 seconds after each set.",)),
    (Dose(work=reps(1, 12), rest=seconds(30)), ("Then rest 30 seconds.",)),
    (Dose(work=reps(3, 12), rest=seconds(0)), ("Do not rest in between.",)),
    (Dose(work=reps(3, 12), rest=Rest(times_work=1)), ("Rest as long as the set took.",)),
    (Dose(work=reps(3, 12), rest=Rest(times_work=0.5)), ("Rest half as long as the set took.",)),
    (
        Dose(work=reps(3, 12), rest=Rest(times_work=3)),
        ("Rest 3 times as long as the set took.",),
    ),
    *(
        (Dose(work=reps(3, 12), rest=Rest(until=until)), (words,))
        for until, words in (
            (RestUntil.BREATH_SETTLES, "Rest until your breath is calm."),
            (RestUntil.WALK_BACK, "Rest as you walk back."),
            (RestUntil.READY, "Rest until you feel ready."),
            (RestUntil.OTHER_SIDE_DONE, "Rest while the other side works."),
        )
    ),
    # Rio 2015: 2 minutes between the holds.
    (Dose(work=holds(5, 45), rest=seconds(120)), ("Rest 2 minutes in between.",)),
    (Dose(work=holds(1, 30, sets=n(3)), rest=seconds(60)), ("Rest 1 minute in between.",)),
    (Dose(work=holds(1, 30), rest=seconds(60)), ("Then rest 1 minute.",)),
    (
        Dose(work=holds(10, 5, sets=n(3), rest_between_holds=seconds(3)), rest=seconds(60)),
        ("Rest 3 seconds in between.", "Rest 1 minute after each set."),
    ),
    (
        Dose(work=holds(10, 5, rest_between_holds=seconds(3)), rest=seconds(60)),
        ("Rest 3 seconds in between.", "Then rest 1 minute."),
    ),
    (
        Dose(work=Duration(bouts=n(3), seconds=n(40)), rest=seconds(20)),
        ("Rest 20 seconds after each round.",),
    ),
    (
        Dose(
            work=Intervals(sets=n(2), rounds=n(6), parts=RUN_WALK, rest_between_sets=seconds(240)),
            rest=seconds(10),
        ),
        ("Rest 4 minutes after each set.", "Rest 10 seconds after each round."),
    ),
    (
        Dose(
            work=Holds(
                sets=n(2),
                holds_by_set=(n(8), n(6)),
                hold_s=(n(10),),
                rest_between_holds=seconds(3),
            ),
            rest=seconds(30),
        ),
        ("Rest 3 seconds in between.", "Rest 30 seconds after each set."),
    ),
    (Dose(work=Duration(seconds=n(40)), rest=seconds(20)), ("Then rest 20 seconds.",)),
    # What ends a set.
    (Dose(work=reps(3, 8, until=Until.QUALITY)), ("Stop each set before your form slips.",)),
    (
        Dose(work=reps(3, 12, 10, 8, until=Until.GOOD_FORM)),
        ("Stop each set before your form slips.",),
    ),
    (Dose(work=reps(3, 8, until=Until.FATIGUE)), ("Stop each set when you are tired.",)),
    (Dose(work=holds(3, 30, until=Until.QUALITY)), ("Stop each hold before your form slips.",)),
    (Dose(work=holds(3, 30, until=Until.GOOD_FORM)), ("Stop each hold before your form slips.",)),
    (Dose(work=holds(3, 30, until=Until.FATIGUE)), ("Stop each hold when you are tired.",)),
    (
        Dose(work=TotalRepetitions(total=n(50))),
        ("Stop each set before your form slips.", "Split them into as many sets as you need."),
    ),
    (
        Dose(work=TotalRepetitions(total=n(50), most_sets=5, until=Until.COUNT)),
        ("Split them into up to 5 sets.",),
    ),
    (
        Dose(work=TotalRepetitions(total=n(50), most_sets=1, until=Until.FATIGUE)),
        ("Stop each set when you are tired.", "Do them in one set."),
    ),
    # Parts that are done once, and the pace of a part.
    (
        Dose(
            work=Intervals(
                rounds=n(4),
                parts=(
                    part("walk", IntervalRole.WARM_UP, seconds=n(300)),
                    part("run", seconds=n(60), loads=(PaceLoad(word=PaceWord.EASY),)),
                    part("stroll", IntervalRole.COOL_DOWN, metres=NumberRange(low=200)),
                ),
            )
        ),
        (
            "First: walk 5 minutes.",
            "Run: Go at an easy pace.",
            "At the end: stroll 200 metres.",
        ),
    ),
    (
        Dose(
            work=Either(
                doses=(
                    Dose(work=reps(3, 10), loads=(WeightLoad(amount=NumberRange(low=5)),)),
                    Dose(work=holds(4, 30)),
                )
            )
        ),
        ("3 sets of 10: Use 5 kg.",),
    ),
    (Dose(work=LeftOpen(words=Text.plain("We add 5 a week."))), ("We add 5 a week.",)),
    (
        Dose(work=reps(3, 10), session_limit_min=30),
        ("Stop after 30 minutes in all.",),
    ),
    (
        Dose(
            work=reps(3, 10),
            loads=(
                WeightLoad(amount=NumberRange(low=5)),
                EffortLoad(rating=NumberRange(low=6, high=7)),
            ),
        ),
        ("Use 5 kg.", "Effort: 6 to 7 out of 10."),
    ),
]


@pytest.mark.parametrize(("dose", "expected"), ENDS, ids=[" ".join(words) for _, words in ENDS])
def test_what_follows_the_headline_is_whole_sentences(
    dose: Dose, expected: tuple[str, ...]
) -> None:
    assert WORDS.details(dose) == expected
