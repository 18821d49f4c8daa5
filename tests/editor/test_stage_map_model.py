"""The map's values: where entries stand, what links say, how a fold looks."""

import pytest

from authoring.editor.session import Session
from authoring.editor.stage_map.faces import faces
from authoring.editor.stage_map.gate_layout import Criteria, lay_rows, needed_height
from authoring.editor.stage_map.geometry import Geometry, folded_to_fit, lay_out
from authoring.editor.stage_map.model import MapModel, map_model
from authoring.editor.stage_map.target import Target, find, target_of
from authoring.editor.stage_map.walking import beside
from authoring.editor.stage_map.words import MapWords
from authoring.editor.theme import Theme
from authoring.model.base import evolve
from authoring.model.criterion import AnyOf, Criterion, Measured, TimePassed, Window
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import Comparator, SideComparison, Since, Unit, WindowKind

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
    assert MapWords(session, "en").criterion(criterion) == ("≤ 2/10", "pain walking, next morning")


def grip(id_: str, value: float, side: SideComparison | None) -> Measured:
    return Measured(
        id=id_,
        measure="grip",
        comparator=Comparator.AT_LEAST,
        value=value,
        unit=Unit.PERCENT,
        side=side,
    )


@pytest.mark.parametrize(
    ("criterion", "value", "what"),
    [
        (grip("a", 90, SideComparison.PERCENT_OF_OTHER), "≥ 90%", "of other side, grip"),
        (grip("a", 80, SideComparison.PERCENT_OF_BASELINE), "≥ 80%", "of own first test, grip"),
        (grip("a", -20, SideComparison.DIFFERENCE_FROM_OTHER), "≥ −20%", "between sides, grip"),
        (
            AnyOf(id="one", parts=(grip("a", 90, None), grip("b", 80, None))),
            "≥ 90%",
            "grip, or ≥ 80% grip",
        ),
        (
            AnyOf(id="two", at_least=2, parts=tuple(grip(i, 90, None) for i in "abc")),
            "",
            "at least 2 of: ≥ 90% grip; ≥ 90% grip; ≥ 90% grip",
        ),
        (
            TimePassed(id="t", since=Since.OPERATION, at_least=6),
            "≥ 6 weeks",
            "since Operation",
        ),
    ],
)
def test_every_way_of_comparing_is_said_on_the_map(
    session: Session, criterion: Criterion, value: str, what: str
) -> None:
    assert MapWords(session, "en").criterion(criterion) == (value, what)


def test_a_border_says_everything_where_it_may_be_tall_enough(qapp: object) -> None:
    criteria = [
        ("≥ 90%", "of other side, heel raises on one foot"),
        ("≤ 2/10", "pain while walking"),
    ]
    full = Criteria(tuple(criteria))
    rows = lay_rows(full, Criteria(), 130, needed_height(full, 130, LIGHT), LIGHT)
    shown = [" ".join(run.words for line in row.lines for run in line) for row in rows]
    assert shown == [" ".join(criterion) for criterion in criteria]


def test_a_low_border_shows_every_criterion_and_counts_what_is_left(qapp: object) -> None:
    long = tuple((f"≥ {n}", "heel raises on one foot, 3 sessions in a row") for n in range(9))
    brief = tuple((f"≥ {n}", "heel raises on one foot") for n in range(9))
    back = (("> 5/10", "pain"), ("> 1", "falls"))
    rows = lay_rows(Criteria(long, back), Criteria(brief, back), 130, 152, LIGHT)
    assert rows[0].lines[0][-1].words.endswith("…")
    shown = sum(row.lines[0][0].words.startswith("≥") for row in rows)
    assert rows[-2].lines[0][0].words == f"{9 - shown} more"
    assert rows[-1].back
    assert all(row.top + 16 * len(row.lines) <= 152 for row in rows)


def test_the_last_border_folds_where_the_whole_protocol_then_fits(
    session: Session, protocol: Protocol
) -> None:
    stages = tuple(evolve(protocol.stages[0], id=f"s-{n}", blocks=()) for n in range(4))
    model = map_model(evolve(protocol, stages=stages), session.library)
    assert folded_to_fit(model, LIGHT, 1194) == (3,)
    assert spread(model, folded=(3,), room=1194).width <= 1194
    assert folded_to_fit(model, LIGHT, 1400) == ()
    assert folded_to_fit(model, LIGHT, 900) == ()


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
