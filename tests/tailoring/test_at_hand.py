"""What every home has counts as at hand, and a dose never names kit that its variant lacks.

That a home has a chair, a wall and a table is common practice, no source.
"""

from __future__ import annotations

import pytest

from authoring.dosage.kit_loads import without_missing_kit
from authoring.dosage.placed_dose import dose_here
from authoring.model.base import evolve
from authoring.model.card import KitNeed
from authoring.model.dose import Dose, DoseChange, Repetitions, WeekRow
from authoring.model.load import BandLoad, EffortLoad, IntRange, Load, NumberRange, WeightLoad
from authoring.model.plan import Plan
from authoring.model.protocol import Entry
from authoring.model.vocabulary import SupportKind, TermKind, Unit
from authoring.tailoring.propose import propose
from authoring.tailoring.request import Request, StageWish
from tests.tailoring.values import (
    CARD,
    CARD_ID,
    TODAY,
    all_no,
    clinic_library,
    codes,
    owned,
    patient,
    put,
    small_library,
    small_plan,
    term,
    variant,
)

CHAIR = put(CARD, "variants[2].equipment", (KitNeed(kit="chair"),))
CHAIRS = small_library(CHAIR, terms=(*small_library().manifest.terms, term(TermKind.KIT, "chair")))


def start_kept(plan: Plan) -> bool:
    return any(item.variant == CHAIR.variants[2].id for item in plan.items)


@pytest.mark.parametrize(
    ("facts", "kept", "assumed"),
    [
        ({}, True, True),
        ({"supports": (SupportKind.CHAIR,)}, True, False),
        ({"kit": owned("chair")}, True, False),
        ({"kit": owned("chair"), "supports": ()}, True, False),
        ({"supports": ()}, False, False),
        ({"supports": (SupportKind.WALL,)}, False, False),
    ],
)
def test_a_chair_that_is_listed_as_kit_is_at_hand_where_it_is_as_a_support(
    facts: dict[str, object], kept: bool, assumed: bool
) -> None:
    plan = small_plan(patient(**facts), CHAIRS)
    assert start_kept(plan) is kept
    assert ("supports-assumed" in codes(plan)) is assumed


def test_a_chair_of_a_written_height_is_checked() -> None:
    high = put(CARD, "variants[2].equipment", (KitNeed(kit="chair", size=60, unit="cm"),))
    library = evolve(CHAIRS, cards={CARD_ID: high})
    assert "kit-size" in codes(small_plan(patient(), library).items[0])
    low = patient(kit=owned("chair", sizes=(45.0,), unit=Unit.CENTIMETRES))
    assert not start_kept(small_plan(low, library))


def test_no_kit_at_all_still_gives_an_acute_plan() -> None:
    library = clinic_library()
    for protocol in library.protocols.values():
        ask = Request(
            today=TODAY,
            protocols=(protocol.id,),
            stages=(StageWish(protocol.id, protocol.stages[0].id),),
        )
        plan = propose(library, patient(red_flags=all_no(protocol)), ask)
        assert len(plan.items) >= 3, protocol.slug
        assert "supports-assumed" in codes(plan)
        chairs = [r.text for left in plan.left_out for r in left.reasons if "kit" in r.code]
        assert not any(text.startswith(("Chair is", "Table is", "Wall is")) for text in chairs)


# ---- loads of kit that a variant lacks --------------------------------------------------------

BAND, EFFORT = BandLoad(band="band"), EffortLoad(rating=NumberRange(low=5))
WEIGHT = WeightLoad(amount=NumberRange(low=4))
REPS = Repetitions(sets=IntRange(low=2), reps=(IntRange(low=8),))


@pytest.mark.parametrize(
    ("kit", "loads", "left"),
    [
        ((), (BAND, EFFORT), (EFFORT,)),
        (("mat",), (BAND,), ()),
        (("loop-band",), (BandLoad(),), (BandLoad(),)),
        (("band",), (BAND,), (BAND,)),
        ((), (WEIGHT, EFFORT), (EFFORT,)),
        (("chair",), (WEIGHT,), ()),
        (("dumbbell",), (WEIGHT,), (WEIGHT,)),
        ((), (WeightLoad(amount=NumberRange(low=0)),), (WeightLoad(amount=NumberRange(low=0)),)),
    ],
)
def test_a_dose_for_another_variant_loses_loads_of_kit_it_lacks(
    kit: tuple[str, ...], loads: tuple[Load, ...], left: tuple[Load, ...]
) -> None:
    week = WeekRow(from_week=1, change=DoseChange(loads=loads))
    dose = Dose(work=REPS, loads=loads, weeks=(week,))
    own = variant("other", 0, equipment=tuple(KitNeed(kit=each) for each in kit))
    made = without_missing_kit(dose, own)
    assert (made.loads, made.weeks[0].change.loads) == (left, left)
    entry = Entry(id="e1", card=CARD_ID, start="first", dose=dose, dose_fits=("first", "other"))
    assert dose_here(entry, own) == made
    assert dose_here(entry, evolve(own, id="first")) == dose


def test_side_steps_without_a_band_say_nothing_of_a_band() -> None:
    library = clinic_library()
    protocol = next(p for p in library.protocols.values() if p.slug == "patellofemoral-pain")
    ask = Request(
        today=TODAY,
        protocols=(protocol.id,),
        stages=(StageWish(protocol.id, protocol.stages[1].id),),
    )
    plan = propose(library, patient(red_flags=all_no(protocol)), ask)
    (item,) = [each for each in plan.items if each.variant == "side-step-no-band"]
    assert item.dose is not None
    assert not any(isinstance(load, BandLoad) for load in item.dose.loads)
