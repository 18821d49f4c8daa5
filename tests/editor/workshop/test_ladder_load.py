"""The workshop's ladder by load: a ratio to rung 0 with its error, or nothing."""

from pytestqt.qtbot import QtBot

from authoring.editor.document import Document
from authoring.editor.library_edits import with_card
from authoring.editor.workshop.ladder_load import (
    NO_LOAD,
    LoadFace,
    RungLoad,
    load_face,
    weigh,
)
from authoring.editor.workshop.room import WorkshopRoom
from authoring.model.base import evolve
from authoring.model.card import Card, Picture, Variant
from authoring.model.library import Library, LibraryFile
from authoring.model.text import Text
from authoring.model.vocabulary import Mode, Region
from tests.editor.conftest import HEEL, LIBRARY_ID, make_card
from tests.mechanics.press_ups import press_up

POSES = {
    "full": evolve(press_up(), slug="full"),
    "knees": evolve(press_up(knees=True), slug="knees"),
    "bench": evolve(press_up(20.0, reach=126.5), slug="bench"),
}
MANIFEST = LibraryFile(id=LIBRARY_ID, name="Invented library", language="en")


def variant(key: str, rung: int, pose: str = "") -> Variant:
    alt = Text.plain("A press-up.")
    pictures = (Picture(pose=pose, alt=alt),) if pose else ()
    name = Text.plain(key.capitalize())
    return Variant(id=key, rung=rung, name=name, mode=Mode.DYNAMIC, pictures=pictures)


def card(*variants: Variant) -> Card:
    made: Card = evolve(
        make_card(HEEL, "press-up", "Press-up"), variants=variants, regions=(Region.SHOULDER,)
    )
    return made


def face(of: Card) -> LoadFace:
    library = Library(manifest=MANIFEST, cards={of.id: of}, poses=POSES)
    return load_face(weigh(library, of))


def test_each_rung_is_told_as_a_ratio_with_its_error() -> None:
    # Mier 2014, mean of men and women, held still: 66.05 on the toes against 52.0 on the
    # knees is 1.27 times.
    shown = face(card(variant("knees", 0, "knees"), variant("toes", 1, "full"), variant("one", 2)))
    assert shown.rungs == {1: RungLoad("1.2 ×", "1.1–1.4", False), 0: RungLoad("1 ×", "", False)}
    assert shown.note.splitlines() == [
        "Load on the hands, against the first way on rung 0 (estimate)",
        "1 way is not estimated.",
    ]


def test_rungs_within_the_error_say_that_they_are_too_close() -> None:
    shown = face(card(variant("bench", 0, "bench"), variant("toes", 1, "full")))
    assert shown.note.splitlines()[1] == "Too close to a neighbour to order: +1, 0."
    assert all(rung.close for rung in shown.rungs.values())


def test_a_ladder_with_one_drawn_rung_says_nothing() -> None:
    assert face(card(variant("toes", 0, "full"), variant("one", 1))) == NO_LOAD


def test_the_room_shows_the_loads_when_they_have_been_worked_out(
    room: WorkshopRoom, document: Document, qtbot: QtBot
) -> None:
    made = card(variant("knees", 0, "knees"), variant("toes", 1, "full"))
    document.edit(
        "Draw", lambda library: evolve(with_card(library, made), poses=POSES), merge_key=""
    )
    room.session.choose_card(made.id)
    loads = room.bench.pane.loads
    qtbot.waitUntil(lambda: loads.text().startswith("Load on the hands"), timeout=5000)
    assert loads.isVisible()
    ladder = room.bench.ladder
    assert ladder.accessibleDescription() == "progression 1: 1.2 × 1.1–1.4; as named: 1 ×"
