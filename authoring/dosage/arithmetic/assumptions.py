"""What the time of a session rests on where a dose does not say it.

All are seconds, low to high. Where no source is named the figure is common practice.
"""

from __future__ import annotations

from collections.abc import Mapping

from attrs import field, frozen
from immutabledict import immutabledict

from authoring.model.vocabulary import Counting, PaceWord, RestUntil, Speed

Ends = tuple[float, float]

_SPEEDS: Mapping[Speed, Ends] = immutabledict(
    {
        Speed.SLOW: (4.0, 8.0),
        Speed.MODERATE: (2.0, 4.0),
        Speed.OWN_PACE: (2.0, 6.0),
        Speed.FAST: (1.0, 2.0),
        Speed.EXPLOSIVE: (1.0, 3.0),
    }
)

_COUNTED: Mapping[Counting, Ends] = immutabledict(
    {
        Counting.REPETITIONS: (2.0, 6.0),
        Counting.STEPS: (0.5, 2.0),
        Counting.STANDS: (2.0, 6.0),
        Counting.THROWS: (2.0, 6.0),
        Counting.CATCHES: (2.0, 6.0),
        Counting.CONTACTS: (0.5, 3.0),
        Counting.JUMPS: (1.0, 4.0),
        Counting.HOPS: (0.5, 3.0),
        Counting.BREATHS: (3.0, 6.0),
        Counting.LENGTHS: (15.0, 60.0),
        Counting.TURNS: (1.0, 4.0),
    }
)

_PACES: Mapping[PaceWord, Ends] = immutabledict(
    {
        PaceWord.EASY: (0.8, 2.5),
        PaceWord.STEADY: (1.1, 3.0),
        PaceWord.BRISK: (1.4, 3.3),
        PaceWord.HARD: (1.6, 5.0),
        PaceWord.SPRINT: (3.5, 8.0),
    }
)

_RESTS: Mapping[RestUntil, Ends] = immutabledict(
    {
        RestUntil.BREATH_SETTLES: (30.0, 120.0),
        RestUntil.WALK_BACK: (10.0, 60.0),
        RestUntil.READY: (30.0, 180.0),
    }
)


@frozen(kw_only=True)
class Assumptions:
    """Times that are assumed where the dose is silent.

    Attributes:
        counted_s: one of what is counted, without a tempo. A moderate repetition lasts 2 to
            4 s: 1 to 2 s each way (Ratamess et al., Med Sci Sports Exerc 2009;41:687-708);
            the ends are wider, as a patient's own pace varies.
        speed_s: one repetition at a speed in a word.
        phase_s: one way of a repetition whose tempo names only the other way.
        speed_m_s: metres a second at a pace in a word.
        any_speed_m_s: metres a second where nothing is said.
        set_rest_s: rest between sets; 1 to 2 min for assistance exercise (the same stand), less
            with light work.
        total_rest_s: pause on the way to a total.
        least_on_the_way: fewest done at a time on the way to a total, where its sets are open.
        hold_rest_s: rest between holds of one set.
        until_s: a rest that ends with an event.
        change_over_s: from one exercise to the next, set-up included.
        station_s: from one station of a circuit to the next.
        waking_h: hours a day in which "every 2 hours" is done.
    """

    counted_s: Mapping[Counting, Ends] = field(default=_COUNTED)
    speed_s: Mapping[Speed, Ends] = field(default=_SPEEDS)
    phase_s: Ends = (1.0, 2.0)
    speed_m_s: Mapping[PaceWord, Ends] = field(default=_PACES)
    any_speed_m_s: Ends = (0.8, 3.5)
    set_rest_s: Ends = (30.0, 90.0)
    total_rest_s: Ends = (10.0, 60.0)
    least_on_the_way: int = 5
    hold_rest_s: Ends = (2.0, 10.0)
    until_s: Mapping[RestUntil, Ends] = field(default=_RESTS)
    change_over_s: Ends = (30.0, 90.0)
    station_s: Ends = (10.0, 30.0)
    waking_h: Ends = (14.0, 16.0)


USUAL = Assumptions()
