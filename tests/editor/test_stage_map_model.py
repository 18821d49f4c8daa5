"""The map's values: where entries stand, what links say, how a fold looks."""

import pytest

from authoring.editor.session import Session
from authoring.editor.stage_map.faces import faces
from authoring.editor.stage_map.geometry import Geometry, lay_out
from authoring.editor.stage_map.model import MapModel, map_model
from authoring.editor.stage_map.target import Target, find, target_of
from authoring.editor.stage_map.walking import beside
from authoring.editor.stage_map.words import MapWords
from authoring.editor.theme import Theme
from authoring.model.base import evolve
from authoring.model.criterion import Measured, Window
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import Comparator, Unit, WindowKind

LIGHT = Theme.of("light")


@pytest.fixture
def protocol(session: Session) -> Protocol:
    found = session.protocol
    assert found is not None
    return found


@pytest.fixture
def model(session: Session, protocol: Protocol) -> MapModel:
    return map_model(protocol, session.library)


def spread(model: MapModel, **changes: object) -> Geometry:
    return lay_out(model, LIGHT, **changes)  # type: ignore[arg-type]


def test_linked_entries_share_a_row_and_stand_in_their_stages(model: MapModel) -> None:
    places = [(cell.entry.id, cell.stage, cell.row) for cell in model.cells]
    assert places == [("heel-1", 0, 0), ("heel-2", 1, 0)]


def test_a_harder_variant_is_drawn_higher(model: MapModel) -> None:
    (thread,) = spread(model).threads
    assert thread.points[0].y() > thread.points[-1].y()
    assert not thread.broken


def test_a_link_to_another_card_is_broken(session: Session, protocol: Protocol) -> None:
    squat = next(key for key in session.library.cards if key.endswith("b"))
    stage = protocol.stages[1]
    entry = evolve(stage.blocks[0].entries[0], card=squat)
    block = evolve(stage.blocks[0], entries=(entry,))
    changed = evolve(protocol, stages=(protocol.stages[0], evolve(stage, blocks=(block,))))
    model = map_model(changed, session.library)
    words = MapWords(session, "en")
    assert spread(model).threads[0].broken
    assert words.strand(model.strands[0]) == "new card"


def test_from_right_to_left_the_map_is_mirrored(model: MapModel) -> None:
    plain, mirrored = spread(model), spread(model, mirrored=True)
    for key, rect in plain.entries.items():
        assert mirrored.entries[key].x() == plain.width - rect.x() - rect.width()


def test_folded_borders_take_less_room(model: MapModel) -> None:
    assert spread(model, folded=(0, 1)).width < spread(model).width


def test_wide_windows_are_used_and_narrow_ones_scroll(model: MapModel) -> None:
    assert spread(model, room=3000).width > spread(model).width
    assert spread(model, room=100).width == spread(model).width


def test_entries_of_one_row_never_overlap(session: Session, protocol: Protocol) -> None:
    stage = protocol.stages[0]
    entries = tuple(evolve(stage.blocks[0].entries[0], id=f"e-{n}") for n in range(5))
    block = evolve(stage.blocks[0], entries=entries)
    changed = evolve(protocol, stages=(evolve(stage, blocks=(block,)), protocol.stages[1]))
    rects = list(spread(map_model(changed, session.library)).entries.values())
    pairs = [(a, b) for i, a in enumerate(rects) for b in rects[i + 1 :]]
    assert not any(a.intersects(b) for a, b in pairs)


@pytest.mark.parametrize(
    ("start", "across", "down", "end"),
    [
        ("heel-1", 1, 0, "heel-2"),
        ("heel-2", -1, 0, "heel-1"),
        ("heel-2", 1, 0, ""),
        ("heel-1", 0, 1, ""),
        ("", 0, 1, "heel-1"),
    ],
)
def test_arrows_lead_along_and_between(
    model: MapModel, start: str, across: int, down: int, end: str
) -> None:
    assert beside(model, start, across=across, down=down) == end


def test_a_reader_hears_what_height_and_marks_say(session: Session, model: MapModel) -> None:
    shown = faces(model, MapWords(session, "en"), (), ())
    spoken = shown.entries["heel-2"].spoken
    assert spoken == "2, One leg, progression 1 of 0 to +1, Moving, 3 by 8–12"
    assert shown.entries["heel-2"].was == 0
    assert shown.stages[0].spoken == "Stage 1, Settle, 1 exercise"
    assert shown.gates[0].spoken == "Move on when: nothing yet"


def test_a_criterion_shows_its_value_first(session: Session) -> None:
    criterion = Measured(
        id="pain",
        measure="pain-walking",
        comparator=Comparator.AT_MOST,
        value=2,
        unit=Unit.PAIN_0_10,
        window=Window(kind=WindowKind.NEXT_MORNING),
    )
    assert MapWords(session, "en").criterion(criterion) == ("≤ 2/10", "pain walking, a.m.")


@pytest.mark.parametrize(
    ("path", "target", "rest"),
    [
        ("", Target("protocol"), ""),
        ("title", Target("protocol"), "title"),
        ("stages[1]", Target("stage", "load"), ""),
        ("stages[1].name", Target("stage", "load"), "name"),
        ("stages[0].move_on", Target("gate", "settle"), "move_on"),
        ("stages[0].move_on[2].value", Target("gate", "settle"), "move_on[2].value"),
        ("stages[1].step_back[0]", Target("back", "load"), "step_back[0]"),
        ("stages[0].blocks[0]", Target("block", "main"), ""),
        ("stages[0].blocks[0].entries[0].dose", Target("entry", "heel-1"), "dose"),
    ],
)
def test_a_path_leads_to_the_part_it_is_about(
    protocol: Protocol, path: str, target: Target, rest: str
) -> None:
    assert target_of(protocol, path) == (target, rest)
    assert find(protocol, target) is not None


def test_words_are_in_the_language_that_is_edited(session: Session, model: MapModel) -> None:
    name = Text({"en": "One leg", "fr": "Une jambe"})
    cell = model.cells[1]
    assert cell.variant is not None
    french = evolve(cell, variant=evolve(cell.variant, name=name))
    session.edit_texts_in("fr")
    assert MapWords(session, "en").name(french) == "Une jambe"
