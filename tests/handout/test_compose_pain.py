"""The pain rule in force is the exercise's, else the stage's, the protocol's, the clinic's,
else the default; none is assumed after an operation or for bone stress.

Default bands 0-2, above 2 to 5, above 5: pain-monitoring model (Silbernagel KG et al. Am J
Sports Med 2007;35:897-906, after Thomeé R. Phys Ther 1997;77:1690-1703; value from memory).
"""

from __future__ import annotations

import pytest

from authoring.handout.document import Exercise, HandoutDocument, PainGuide
from authoring.model.base import evolve
from authoring.model.pain import NextMorning, PainBand, PainRule
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import PainAction, Pathway
from tests.checks.build import CLINIC, put
from tests.handout.clinic_sheets import PROTOCOLS, SMALL, SMALL_CARD, parts_of, printed, small


def rule(top: float, **facts: object) -> PainRule:
    """Carry on up to ``top``, stop above it."""
    bands = (
        PainBand(up_to=top, action=PainAction.CARRY_ON),
        PainBand(up_to=10, action=PainAction.STOP_TODAY),
    )
    return PainRule(during=bands, **facts)


BARE = evolve(SMALL, pain=None)


def guides(document: HandoutDocument) -> list[list[str]]:
    return [[zone.label for zone in guide.zones] for guide in parts_of(document, PainGuide)]


def labels(top: int) -> list[str]:
    return [f"0 to {top}", f"{top + 1} or more"]


@pytest.mark.parametrize("stages", [(), (1,), (2,)])
def test_every_page_prints_the_same_rule_from_the_nearest_holder(stages: tuple[int, ...]) -> None:
    clinic = evolve(CLINIC, pain=rule(6))
    steps = [
        (BARE, CLINIC, ["0 to 2", "3 to 5", "6 or more"]),
        (BARE, clinic, labels(6)),
        (evolve(BARE, pain=rule(5)), clinic, labels(5)),
    ]
    for protocol, holder, expected in steps:
        assert guides(small(protocol, SMALL_CARD, *stages, clinic=holder)) == [expected]


def test_a_stage_with_its_own_rule_prints_it_and_the_others_theirs() -> None:
    protocol = put(evolve(BARE, pain=rule(5)), "stages[1].pain", rule(3))
    assert guides(small(protocol)) == [labels(5), labels(3)]
    assert guides(small(protocol, SMALL_CARD, 1)) == [labels(5)]
    assert guides(small(protocol, SMALL_CARD, 2)) == [labels(3)]


def test_equal_rules_of_stages_are_printed_once() -> None:
    protocol = put(put(BARE, "stages[0].pain", rule(4)), "stages[1].pain", rule(4))
    assert guides(small(protocol)) == [labels(4)]


def test_an_exercise_with_its_own_rule_says_all_of_it() -> None:
    own = rule(
        1,
        after=(PainBand(up_to=10, action=PainAction.REST),),
        next_morning=NextMorning(most=3, action=PainAction.STEP_BACK),
    )
    protocol = put(SMALL, "stages[0].blocks[0].entries[0].pain", own)
    (exercise,) = parts_of(small(protocol, SMALL_CARD, 1), Exercise)
    assert exercise.details[-4:] == (
        "For this exercise, pain of 0 or 1: Fine. Carry on.",
        "For this exercise, pain of 2 or more: Stop for today.",
        "After exercise, any pain: Rest until it settles.",
        "Pain above 3 next morning? Go back a stage.",
    )


@pytest.mark.parametrize("pathway", Pathway)
def test_no_rule_is_assumed_after_an_operation_or_for_bone_stress(pathway: Pathway) -> None:
    barred = pathway in (Pathway.POST_OPERATIVE, Pathway.BONE_STRESS)
    protocol = evolve(BARE, pathway=pathway)
    for clinic in (CLINIC, evolve(CLINIC, pain=rule(6))):
        (guide,) = parts_of(small(protocol, clinic=clinic), PainGuide)
        assert (guide.zones == ()) == barred
        if barred:
            assert guide.notes == (
                "We will tell you how much pain is OK. If you are not sure, stop and ask us.",
            )
    assert guides(small(evolve(protocol, pain=rule(3)))) == [labels(3)]


@pytest.mark.parametrize("stages", [(), (1,)])
@pytest.mark.parametrize("slug", PROTOCOLS)
def test_the_example_prints_the_bands_of_its_stage(slug: str, stages: tuple[int, ...]) -> None:
    protocol: Protocol = PROTOCOLS[slug]
    here = [stage for n, stage in enumerate(protocol.stages, 1) if n in stages or not stages]
    rules = [stage.pain or protocol.pain for stage in here]
    tops = [[band.up_to for band in each.during] for each in rules if each is not None]
    found = parts_of(printed(slug, stages), PainGuide)
    same = all(each == rules[0] for each in rules)
    assert [[zone.high for zone in guide.zones] for guide in found] == (tops[:1] if same else tops)


@pytest.mark.parametrize(
    ("tops", "expected"),
    [
        ((2, 5, 10), ["0 to 2", "3 to 5", "6 or more"]),
        ((3, 4, 10), ["0 to 3", "4", "5 or more"]),
        ((3, 5, 10), ["0 to 3", "4 or 5", "6 or more"]),
        ((0, 10), ["0", "1 or more"]),
        ((9, 10), ["0 to 9", "10"]),
        ((2.5, 5.5, 10), ["0 to 2", "3 to 5", "6 or more"]),
        ((2.2, 2.8, 10), ["0 to 2", "3 or more"]),
        ((10,), ["any pain"]),
    ],
)
def test_bands_read_in_whole_numbers_that_leave_no_gap(
    tops: tuple[float, ...], expected: list[str]
) -> None:
    bands = tuple(PainBand(up_to=top, action=PainAction.GO_EASIER) for top in tops)
    (guide,) = parts_of(small(evolve(SMALL, pain=PainRule(during=bands))), PainGuide)
    assert [zone.label for zone in guide.zones] == [*expected]
    numbers = [n for zone in guide.zones for n in range(zone.low, zone.high + 1)]
    assert numbers == list(range(11))


@pytest.mark.parametrize(
    ("morning", "expected"),
    [
        (NextMorning(), "More sore or swollen next morning? Go easier next time."),
        (
            NextMorning(settles_within_h=48, action=PainAction.REST),
            "Still more sore or swollen 48 hours later? Rest until it settles.",
        ),
        (NextMorning(most=5), "Pain above 5 next morning? Go easier next time."),
        (NextMorning(words=Text.plain("Worse? Call.")), "Worse? Call."),
    ],
)
def test_the_next_morning_rule_is_said_with_its_own_number(
    morning: NextMorning, expected: str
) -> None:
    (guide,) = parts_of(small(evolve(SMALL, pain=rule(3, next_morning=morning))), PainGuide)
    assert guide.notes == (expected,)


@pytest.mark.parametrize("action", PainAction)
def test_every_action_has_words_and_a_tone(action: PainAction) -> None:
    bands = (PainBand(up_to=10, action=action),)
    pain = PainRule(during=bands, after=bands, next_morning=NextMorning(action=action))
    (guide,) = parts_of(small(evolve(SMALL, pain=pain)), PainGuide)
    assert guide.zones[0].action.endswith(".")
    assert guide.zones[0].tone in (0, 1, 2)
    assert (action is PainAction.CARRY_ON) == (guide.zones[0].tone == 0)
    assert guide.scale_alt.startswith("Pain scale from 0, no pain, to 10, worst pain. any pain is")


def test_the_clinics_own_words_replace_ours() -> None:
    bands = (PainBand(up_to=10, action=PainAction.REST, words=Text.plain("Ease off.")),)
    (guide,) = parts_of(small(evolve(SMALL, pain=PainRule(during=bands))), PainGuide)
    assert guide.zones[0].action == "Ease off."
