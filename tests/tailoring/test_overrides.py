"""A clinician may overrule anything: it is kept, re-checked, and said."""

from __future__ import annotations

import datetime as dt

import pytest

from authoring.model.base import evolve
from authoring.model.dose import Dose, Repetitions
from authoring.model.load import IntRange
from authoring.model.plan import LeftOut, Plan
from authoring.model.vocabulary import OverrideKind, Side, Sides
from authoring.tailoring.overrides import (
    Decision,
    OverrideError,
    add,
    choose_dose,
    choose_exercise,
    choose_variant,
    countersign,
    move_side,
    remove,
    seen_done,
)
from authoring.tailoring.release import release
from authoring.tailoring.request import Request, StageWish
from tests.tailoring.test_small_plans import BOTH, one_sided
from tests.tailoring.values import (
    CARD,
    PROTOCOL,
    PROTOCOL_ID,
    TODAY,
    all_no,
    codes,
    only,
    patient,
    small_library,
    small_plan,
    variant,
)

BY = Decision(who="M. Example", date=TODAY, why="Did it last week, no pain next day.")
SILENT = Decision(who="M. Example", date=TODAY)
DOSE = Dose(work=Repetitions(sets=IntRange(low=9), reps=(IntRange(low=30),)))
OTHER = evolve(
    CARD,
    id="00000000-0000-4000-8000-00000000000e",
    slug="other",
    variants=(variant("way", 0),),
)


def answered(**facts: object) -> Plan:
    return small_plan(patient(red_flags=all_no(PROTOCOL), **facts))


def test_another_rung_keeps_who_why_and_what_was_proposed() -> None:
    item = only(choose_variant(small_plan(), "strong-raise", "hop", BY))
    assert (item.variant, item.proposed) == ("hop", "one-leg")
    (kept,) = item.overrides
    assert (kept.what, kept.who, kept.why, kept.rules) == (
        OverrideKind.VARIANT,
        BY.who,
        BY.why,
        (),
    )
    assert codes(item)[0] == "overridden"


def test_a_rule_of_safety_is_set_aside_only_with_a_reason_and_the_plan_says_so() -> None:
    plan = small_plan(stage="calm")
    with pytest.raises(OverrideError, match="needs a reason"):
        choose_variant(plan, "calm-raise", "hop", SILENT)
    done = choose_variant(plan, "calm-raise", "hop", BY)
    assert only(done).overrides[0].rules == ("stage-forbids",)
    assert "stage-forbids" in codes(only(done))
    assert "hard-rule-set-aside" in codes(done)


def test_an_override_by_nobody_is_refused() -> None:
    with pytest.raises(OverrideError, match="who decides"):
        choose_variant(small_plan(), "strong-raise", "hop", evolve(BY, who=" "))


def test_a_second_sign_is_waited_for_where_the_clinic_asks_for_it() -> None:
    by = evolve(BY, second_sign=True)
    plan = evolve(small_plan(patient(red_flags=all_no(PROTOCOL)), stage="calm"))
    waiting = choose_variant(plan, "calm-raise", "hop", by)
    assert not release(waiting).may_print
    with pytest.raises(OverrideError, match="second clinician"):
        countersign(waiting, "calm-raise", "m. example", TODAY)
    signed = countersign(waiting, "calm-raise", "S. Second", TODAY)
    assert release(signed).may_print
    assert only(signed).overrides[0].countersign is not None


def test_a_second_sign_still_waits_after_another_decision() -> None:
    by = evolve(BY, second_sign=True)
    plan = choose_variant(answered(), "strong-raise", "hop", by)
    calm = small_plan(patient(red_flags=all_no(PROTOCOL)), stage="calm")
    waiting = choose_dose(choose_variant(calm, "calm-raise", "hop", by), "calm-raise", DOSE, BY)
    assert not release(waiting).may_print
    assert release(plan).may_print


def test_a_dose_that_takes_too_long_is_kept_and_said() -> None:
    done = choose_dose(small_plan(patient(minutes=15)), "strong-raise", DOSE, SILENT)
    assert only(done).dose == DOSE
    assert "time-over" in codes(done)


def test_what_was_taken_out_is_left_out_and_can_come_back() -> None:
    plan = remove(small_plan(), "strong-raise", BY)
    assert plan.items == ()
    (left,) = plan.left_out
    assert (left.entry, codes(left)) == ("strong-raise", ["removed"])
    back = add(plan, left, "two-legs", BY)
    assert (only(back).variant, back.left_out) == ("two-legs", ())
    assert [each.what for each in only(back).overrides] == [
        OverrideKind.REMOVED,
        OverrideKind.ADDED,
    ]


def test_any_card_of_the_library_can_be_added_or_take_the_place_of_another() -> None:
    library = small_library(CARD, PROTOCOL, OTHER)
    plan = small_plan(library=library)
    added = add(plan, LeftOut(card=OTHER.id), "way", BY, library)
    assert [item.card for item in added.items] == [CARD.id, OTHER.id]
    assert OTHER in added.cards
    instead = choose_exercise(plan, "strong-raise", OTHER.id, "way", BY, library)
    assert (only(instead).card, only(instead).entry) == (OTHER.id, "strong-raise")


def test_what_is_not_there_is_told_in_a_sentence() -> None:
    with pytest.raises(OverrideError, match="has no exercise 'x'"):
        remove(small_plan(), "x", BY)
    with pytest.raises(OverrideError, match="not there"):
        choose_variant(small_plan(), "strong-raise", "x", BY)


def test_seen_done_in_the_room_is_noted() -> None:
    day = dt.date(2026, 3, 2)
    assert only(seen_done(small_plan(), "strong-raise", day)).seen_done == day


def test_moving_one_side_up_leaves_the_other_alone() -> None:
    protocol = one_sided()
    library = small_library(protocol=protocol)
    plan = small_plan(patient(**BOTH), library, stage="")
    mine = next(item for item in plan.items if item.side is Side.RIGHT)
    plan = choose_dose(plan, mine.id, DOSE, BY)
    before = next(item for item in plan.items if item.side is Side.RIGHT)
    ask = Request(today=TODAY, protocols=(PROTOCOL_ID,))
    moved = move_side(library, plan, StageWish(PROTOCOL_ID, "strong", Side.LEFT), ask)
    left, right = sorted(moved.items, key=lambda item: item.side.value)
    assert (left.stage, left.side) == ("strong", Side.LEFT)
    assert evolve(right, id=before.id) == before
    assert next(iter(protocol.entries())).sides is Sides.AFFECTED
