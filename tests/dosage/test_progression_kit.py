"""The real steps of dumbbells, plates, cuffs, bands and surfaces."""

from authoring.dosage.progression.kit import even, loaded_bar, sizes, steps_for
from authoring.model.card import KitNeed, Variant
from authoring.model.load import NumberRange, UnitLoad, WeightLoad
from authoring.model.patient import OwnedKit
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Carried,
    Mode,
    Unit,
)


def test_plates_go_on_in_pairs() -> None:
    # A 10 kg bar with two 1.25, two 2.5 and three 5 kg plates: one pair of each.
    bar = loaded_bar(10, {1.25: 2, 2.5: 2, 5: 3})
    assert bar.sizes == (10, 12.5, 15, 17.5, 20, 22.5, 25, 27.5)


def test_kit_is_found_by_what_the_variant_needs() -> None:
    variant = Variant(
        id="a",
        rung=0,
        name=Text.plain("A"),
        mode=Mode.DYNAMIC,
        equipment=(KitNeed(kit="bar"), KitNeed(kit="plate")),
    )
    owned = (
        OwnedKit(kit="bar", sizes=(20,), unit=Unit.KILOGRAMS),
        OwnedKit(kit="plate", sizes=(1.25, 5), unit=Unit.KILOGRAMS, count=2),
        OwnedKit(kit="dumbbell", sizes=(3,), unit=Unit.KILOGRAMS),
    )
    load = WeightLoad(amount=NumberRange(low=20), carried=Carried.BAR)
    assert steps_for(load, variant, owned) == sizes((20, 22.5, 30, 32.5))


def test_a_weight_in_each_hand_needs_two_of_a_size() -> None:
    owned = (
        OwnedKit(kit="dumbbell", sizes=(2, 4), count=2),
        OwnedKit(kit="dumbbell", sizes=(3,), count=1),
    )
    each = WeightLoad(amount=NumberRange(low=2), carried=Carried.EACH_HAND)
    one = WeightLoad(amount=NumberRange(low=2), carried=Carried.ONE_HAND)
    assert steps_for(each, None, owned) == sizes((2, 4))
    assert steps_for(one, None, owned) == sizes((2, 3, 4))


def test_pounds_at_hand_stand_for_kilograms_asked_for() -> None:
    # 5 lb = 2.268 kg and 10 lb = 4.536 kg (NIST Special Publication 811).
    owned = (OwnedKit(kit="cuff", sizes=(5, 10), unit=Unit.POUNDS),)
    load = WeightLoad(amount=NumberRange(low=2), carried=Carried.CUFF)
    assert steps_for(load, None, owned) == sizes((2.268, 4.536))


def test_surfaces_have_heights() -> None:
    owned = (OwnedKit(kit="step", sizes=(10, 15, 20), unit=Unit.CENTIMETRES),)
    load = UnitLoad(amount=NumberRange(low=10), unit=Unit.CENTIMETRES)
    assert steps_for(load, None, owned) == sizes((10, 15, 20))
    assert steps_for(load, None, ()) == even(5, assumed=True)
