"""The least loss that makes exercises fit a session: what waits, which sets go, what alternates.

Exact: the first cost, in rising order, for which a way to fit exists. Lower bounds cut the
search: the least load of the exercises still to be placed, for what may still be lost.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import evolve, field, frozen

MUST, SHOULD, MAY = 1, 2, 3


@frozen
class Cut:
    """One way to do an exercise.

    Attributes:
        removed: sets taken off.
        seconds: time in a session, the change to the next exercise included.
        uses: amount of each thing that a cap counts.
    """

    removed: int
    seconds: int
    uses: tuple[float, ...] = ()


@frozen
class Job:
    """An exercise that looks for room.

    Attributes:
        priority: 1 must be done, 2 should, 3 may be left out.
        cuts: ways to do it, from all its sets to the fewest.
        may_alternate: whether every other day of the plan is often enough for it.
    """

    priority: int
    cuts: tuple[Cut, ...]
    may_alternate: bool = False


@frozen
class Room:
    """What there is room for.

    Attributes:
        seconds: in a session; None means any.
        most: exercises; None means any.
        caps: the most of each thing that is counted.
    """

    seconds: int | None = None
    most: int | None = None
    caps: tuple[float, ...] = ()


@frozen(order=True)
class Cost:
    """What is lost, the worst first: the tail of the tuple that a plan minimises.

    Exercises that must or should be done wait only when no set can be taken off any more;
    those that may be left out go before any set does.
    """

    musts: int = 0
    shoulds: int = 0
    sets: int = 0
    mays: int = 0
    days: int = 0


@frozen
class Placing:
    """What becomes of one exercise.

    Attributes:
        cut: index of the way it is done; None where it waits.
        day: 0 every day, 1 on the first and 2 on the second of two alternating days.
    """

    cut: int | None
    day: int = 0


_ANY = 10**9
_STEPS = 20_000
"""Steps of all packings together; a case that needs more is fitted without alternating days."""


@frozen(eq=False)
class _Search:
    jobs: tuple[Job, ...]
    room: Room
    _least: dict[tuple[int, ...], int] = field(factory=dict)

    def solve(self) -> tuple[Cost, tuple[Placing, ...]] | None:
        """The least cost and its way; None where finding it takes too many steps."""
        steps = 0
        for cost in self._costs():
            packing = _Packing(self, cost, _STEPS - steps)
            found = packing.find()
            steps += packing.steps
            if found is not None:
                return cost, found
            if steps >= _STEPS:
                return None
        raise AssertionError("nothing at all always fits")

    @property
    def seconds(self) -> int:
        """Seconds of a session; where any are allowed, those of all jobs."""
        if self.room.seconds is not None:
            return self.room.seconds
        return sum(job.cuts[0].seconds for job in self.jobs)

    def _count(self, priority: int) -> int:
        return sum(job.priority == priority for job in self.jobs)

    def _costs(self) -> Iterator[Cost]:
        """Costs in rising order that the bounds do not rule out."""
        limit = 2 * self.seconds
        n = [self._count(priority) for priority in (MUST, SHOULD, MAY)]
        most_sets = sum(job.cuts[-1].removed for job in self.jobs)
        days = sum(job.may_alternate for job in self.jobs)
        over = len(self.jobs) - (len(self.jobs) if self.room.most is None else self.room.most)
        for musts in range(n[0] + 1):
            if self.least(0, musts, -1, -1, -1, -1) > limit or musts + n[1] + n[2] < over:
                continue
            for shoulds in range(n[1] + 1):
                bound = self.least(0, musts, shoulds, -1, -1, -1)
                if bound > limit or musts + shoulds + n[2] < over:
                    continue
                for sets in range(most_sets + 1):
                    if self.least(0, musts, shoulds, sets, -1, -1) > limit:
                        continue
                    for mays in range(max(0, over - musts - shoulds), n[2] + 1):
                        if self.least(0, musts, shoulds, sets, mays, -1) > limit:
                            continue
                        for alternated in range(days + 1):
                            bound = self.least(0, musts, shoulds, sets, mays, alternated)
                            if bound <= limit:
                                yield Cost(musts, shoulds, sets, mays, alternated)

    def least(self, at: int, musts: int, shoulds: int, sets: int, mays: int, days: int) -> int:
        """Least seconds on two days together of the jobs from ``at`` on; -1 leaves a count open.

        ``_ANY`` or more where the counts can't be met.
        """
        if at == len(self.jobs):
            return _ANY if max(musts, shoulds, sets, mays, days) > 0 else 0
        key = (at, musts, shoulds, sets, mays, days)
        known = self._least.get(key)
        if known is None:
            known = self._least[key] = min(self._ways(*key))
        return known

    def _ways(
        self, at: int, musts: int, shoulds: int, sets: int, mays: int, days: int
    ) -> Iterator[int]:
        job = self.jobs[at]
        left = {MUST: musts, SHOULD: shoulds, MAY: mays}[job.priority]
        yield _ANY
        if left:
            lost = (
                musts - (job.priority == MUST and musts > 0),
                shoulds - (job.priority == SHOULD and shoulds > 0),
                mays - (job.priority == MAY and mays > 0),
            )
            yield self.least(at + 1, lost[0], lost[1], sets, lost[2], days)
        for cut in job.cuts:
            if 0 <= sets < cut.removed:
                continue
            rest = -1 if sets < 0 else sets - cut.removed
            yield 2 * cut.seconds + self.least(at + 1, musts, shoulds, rest, mays, days)
            if job.may_alternate and days:
                fewer = days - (days > 0)
                yield cut.seconds + self.least(at + 1, musts, shoulds, rest, mays, fewer)


class _Packing:
    """A way to fit with exactly one cost, earlier exercises spared first."""

    def __init__(self, search: _Search, cost: Cost, most_steps: int) -> None:
        self._search = search
        self._cost = cost
        self._most = most_steps
        self.steps = 0
        self._limit = search.seconds
        self._way: list[Placing] = []

    def find(self) -> tuple[Placing, ...] | None:
        cost = self._cost
        left = (cost.musts, cost.shoulds, cost.sets, cost.mays, cost.days)
        used = (0, 0, *(0.0 for _ in self._search.room.caps))
        return tuple(self._way) if self._go(0, left, used) else None

    def _go(self, at: int, left: tuple[int, ...], used: tuple[float, ...]) -> bool:
        self.steps += 1
        if self.steps > self._most:
            return False
        if at == len(self._search.jobs):
            return not any(left)
        if used[0] + used[1] + self._search.least(at, *left) > 2 * self._limit:
            return False
        for placing, next_left, next_used in self._steps(at, left, used):
            self._way.append(placing)
            if self._go(at + 1, next_left, next_used):
                return True
            self._way.pop()
        return False

    def _steps(
        self, at: int, left: tuple[int, ...], used: tuple[float, ...]
    ) -> Iterator[tuple[Placing, tuple[int, ...], tuple[float, ...]]]:
        job = self._search.jobs[at]
        musts, shoulds, sets, mays, days = left
        for index, cut in enumerate(job.cuts):
            if cut.removed > sets:
                continue
            rest = (musts, shoulds, sets - cut.removed, mays)
            for day in (0, 1, 2) if job.may_alternate and days else (0,):
                if day == 2 and used[0] == used[1]:
                    continue  # the same as the first day
                after = self._after(used, cut, day)
                if after is not None:
                    yield Placing(index, day), (*rest, days - (day > 0)), after
        if job.priority == MUST and musts:
            yield Placing(None), (musts - 1, shoulds, sets, mays, days), used
        if job.priority == SHOULD and shoulds:
            yield Placing(None), (musts, shoulds - 1, sets, mays, days), used
        if job.priority == MAY and mays:
            yield Placing(None), (musts, shoulds, sets, mays - 1, days), used

    def _after(self, used: tuple[float, ...], cut: Cut, day: int) -> tuple[float, ...] | None:
        """Seconds of both days and counted things with this exercise too; None if too much."""
        first = used[0] + (cut.seconds if day in (0, 1) else 0)
        second = used[1] + (cut.seconds if day in (0, 2) else 0)
        counted = tuple(a + b for a, b in zip(used[2:], cut.uses, strict=True))
        caps = self._search.room.caps
        fits = max(first, second) <= self._limit
        fits = fits and all(a <= b + 1e-9 for a, b in zip(counted, caps, strict=True))
        return (first, second, *counted) if fits else None


def fit(jobs: Sequence[Job], room: Room) -> tuple[Cost, tuple[Placing, ...]]:
    """The least cost at which the jobs fit the room, and what becomes of each.

    Exact up to a number of steps that no protocol of a usual size needs; beyond it the
    alternating days, then the cutting of sets, are given up.

    Of several ways with that cost the one that spares earlier jobs most: the first job as
    little changed as can be, then the second.

    Args:
        jobs: in order of entry number; each with at least one cut and with as many ``uses``
            as the room has caps.
    """
    whole = tuple(Placing(0) for _ in jobs)
    if _fits_whole(jobs, room):
        return Cost(), whole
    found = _Search(tuple(jobs), room).solve()
    if found is None:
        found = _Search(tuple(evolve(job, may_alternate=False) for job in jobs), room).solve()
    return found if found is not None else _one_by_one(jobs, room)


def _one_by_one(jobs: Sequence[Job], room: Room) -> tuple[Cost, tuple[Placing, ...]]:
    """A way to fit where the least one takes too long to find: whole exercises, by priority."""
    way = [Placing(None) for _ in jobs]
    for index in sorted(range(len(jobs)), key=lambda i: (jobs[i].priority, i)):
        kept = [job for i, job in enumerate(jobs) if way[i].cut is not None or i == index]
        if _fits_whole(kept, room):
            way[index] = Placing(0)
    waits = [job.priority for job, each in zip(jobs, way, strict=True) if each.cut is None]
    cost = Cost(musts=waits.count(MUST), shoulds=waits.count(SHOULD), mays=waits.count(MAY))
    return cost, tuple(way)


def _fits_whole(jobs: Sequence[Job], room: Room) -> bool:
    seconds = sum(job.cuts[0].seconds for job in jobs)
    if room.seconds is not None and seconds > room.seconds:
        return False
    if room.most is not None and len(jobs) > room.most:
        return False
    return all(
        sum(job.cuts[0].uses[index] for job in jobs) <= cap + 1e-9
        for index, cap in enumerate(room.caps)
    )
