"""Of either/or choices the picks of least loss, against every way to pick and to fit."""

from __future__ import annotations

from itertools import combinations, product

from hypothesis import given
from hypothesis import strategies as st

from authoring.model.base import evolve
from authoring.model.dose import Repetitions
from authoring.model.load import IntRange
from authoring.model.plan import PlanItem
from authoring.model.protocol import Choice, Entry
from authoring.tailoring.case import case_of, places_of
from authoring.tailoring.cuts import change_over_s, cuts_of, times_of
from authoring.tailoring.fit import Cost
from authoring.tailoring.propose import propose
from authoring.tailoring.request import Request, StageWish
from authoring.tailoring.select import Selected, select
from tests.checks.build import REPETITIONS, entry
from tests.tailoring.values import (
    CARD,
    PROTOCOL,
    PROTOCOL_ID,
    TODAY,
    patient,
    put,
    small_library,
)

BLOCK = "stages[1].blocks[0]"


def cost_of(way: tuple[Selected, ...], seconds: int) -> Cost:
    """The least loss of one pick, found by trying everything: wait, or each number of sets."""
    ways = [
        [None, *cuts_of(each.place, each.dose, (), None, times_of(each.place))[0]] for each in way
    ]
    found: list[Cost] = []
    for tried in product(*ways):
        if sum(cut.seconds for cut in tried if cut is not None) > seconds:
            continue
        waits = [e.place.priority for e, cut in zip(way, tried, strict=True) if cut is None]
        sets = sum(cut.removed for cut in tried if cut is not None)
        found.append(Cost(waits.count(1), waits.count(2), sets, waits.count(3)))
    return min(found)


def sets_of(item: PlanItem) -> int:
    assert item.dose is not None
    assert isinstance(item.dose.work, Repetitions)
    return item.dose.work.sets.top


@given(st.lists(st.integers(1, 4), min_size=2, max_size=4), st.integers(1, 2), st.integers(1, 20))
def test_the_pick_of_least_loss_is_taken(sets: list[int], pick: int, minutes: int) -> None:
    cards = [
        evolve(CARD, id=f"00000000-0000-4000-8000-0000000002{n:02}", slug=f"card-{n}")
        for n in range(len(sets) + 1)
    ]
    own = Choice(id="one-of", pick=min(pick, len(sets)))
    entries: list[Entry] = []
    for number, count in enumerate((*sets, 2)):
        work = evolve(REPETITIONS.work, sets=IntRange(low=count))
        made = entry(f"e{number}", "one-leg", dose=evolve(REPETITIONS, work=work))
        choice = "one-of" if number < len(sets) else None
        entries.append(evolve(made, card=cards[number].id, choice=choice, priority=2))
    protocol = put(PROTOCOL, f"{BLOCK}.entries", tuple(entries))
    protocol = put(protocol, f"{BLOCK}.choices", (own,))
    library = small_library(cards[0], protocol, *cards[1:])
    ask = Request(today=TODAY, protocols=(PROTOCOL_ID,), stages=(StageWish(PROTOCOL_ID, "strong"),))
    person = patient(minutes=minutes)
    case = case_of(library, person, ask)
    chosen = [select(place, case, ()) for place in places_of(case).open]
    seconds = minutes * 60 + change_over_s()
    picks = combinations(chosen[:-1], own.pick)
    least = min(cost_of((*each, chosen[-1]), seconds) for each in picks)
    plan = propose(library, person, ask)
    kept = {item.entry: item for item in plan.items}
    lost = [e for e in plan.left_out if "choice-other" not in [r.code for r in e.reasons]]
    taken = sum(
        count - sets_of(kept[f"e{n}"]) for n, count in enumerate((*sets, 2)) if f"e{n}" in kept
    )
    assert (len(lost), taken) == (least.shoulds, least.sets)
