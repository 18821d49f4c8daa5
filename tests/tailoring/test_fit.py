"""The fit against every way there is: small cases by brute force."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.tailoring.fit import Cost, Cut, Job, Placing, Room, fit


def cost_of(jobs: list[Job], way: tuple[Placing, ...]) -> Cost:
    waits = [job.priority for job, each in zip(jobs, way, strict=True) if each.cut is None]
    sets = sum(
        job.cuts[each.cut].removed
        for job, each in zip(jobs, way, strict=True)
        if each.cut is not None
    )
    days = sum(each.day > 0 for each in way)
    return Cost(waits.count(1), waits.count(2), sets, waits.count(3), days)


def fits(jobs: list[Job], way: tuple[Placing, ...], room: Room) -> bool:
    days = [0, 0]
    uses = [0.0 for _ in room.caps]
    kept = 0
    for job, each in zip(jobs, way, strict=True):
        if each.cut is None:
            continue
        kept += 1
        cut = job.cuts[each.cut]
        for day in (0, 1):
            if each.day in (0, day + 1):
                days[day] += cut.seconds
        uses = [a + b for a, b in zip(uses, cut.uses, strict=True)]
    return (
        (room.seconds is None or max(days) <= room.seconds)
        and (room.most is None or kept <= room.most)
        and all(a <= b for a, b in zip(uses, room.caps, strict=True))
    )


def spared(way: tuple[Placing, ...]) -> tuple[tuple[float, int], ...]:
    """How much each job is changed, first job first: the tie-break."""
    return tuple((99 if each.cut is None else each.cut, each.day) for each in way)


def least(jobs: list[Job], room: Room) -> tuple[Cost, tuple[tuple[float, int], ...]]:
    choices = [
        [
            *(
                Placing(index, day)
                for index in range(len(job.cuts))
                for day in ((0, 1, 2) if job.may_alternate else (0,))
            ),
            Placing(None),
        ]
        for job in jobs
    ]
    ways = [way for way in product(*choices) if fits(jobs, way, room)]
    return min((cost_of(jobs, way), spared(way)) for way in ways)


@st.composite
def cases(draw: st.DrawFn) -> tuple[list[Job], Room]:
    caps = draw(st.integers(0, 1))
    jobs = []
    for _ in range(draw(st.integers(0, 5))):
        per_set = draw(st.integers(30, 240))
        sets = draw(st.integers(1, 3))
        cuts = tuple(
            Cut(removed, per_set * (sets - removed) + 60, ((sets - removed) * 10.0,) * caps)
            for removed in range(sets)
        )
        jobs.append(Job(draw(st.integers(1, 3)), cuts, draw(st.booleans())))
    room = Room(
        draw(st.none() | st.integers(0, 2400)),
        draw(st.none() | st.integers(0, 5)),
        tuple(draw(st.integers(0, 90)) for _ in range(caps)),
    )
    return jobs, room


@given(cases())
def test_no_way_to_fit_costs_less_and_the_tie_spares_the_first(
    case: tuple[list[Job], Room],
) -> None:
    jobs, room = case
    cost, way = fit(jobs, room)
    assert fits(jobs, way, room)
    assert cost == cost_of(jobs, way)
    assert (cost, spared(way)) == least(jobs, room)


def job(priority: int, sets: int = 3, each: int = 120, *, alternate: bool = False) -> Job:
    cuts = tuple(Cut(removed, each * (sets - removed)) for removed in range(sets))
    return Job(priority, cuts, alternate)


@pytest.mark.parametrize(
    ("jobs", "minutes", "cost"),
    [
        ([job(1), job(2), job(3)], 18, Cost()),
        ([job(1), job(2), job(3)], 12, Cost(mays=1)),  # the low priority goes before a set does
        ([job(1), job(2), job(3)], 10, Cost(sets=1, mays=1)),
        ([job(1), job(2)], 10, Cost(sets=1)),
        ([job(1), job(2)], 3, Cost(shoulds=1, sets=2)),
        ([job(1)], 1, Cost(musts=1)),
        ([job(1, alternate=True), job(2, alternate=True)], 6, Cost(days=2)),
    ],
)
def test_what_is_lost_comes_in_the_order_of_the_design(
    jobs: list[Job], minutes: int, cost: Cost
) -> None:
    assert fit(jobs, Room(minutes * 60))[0] == cost


def test_of_equals_the_later_one_gives_way() -> None:
    _, way = fit([job(2), job(2), job(2)], Room(most=2))
    assert [each.cut for each in way] == [0, 0, None]
