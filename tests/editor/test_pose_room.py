"""The room "Poses" as a user works in it: with the mouse, with keys alone, and back again."""

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot

from authoring.editor.messages import Message
from authoring.editor.pose_room.canvas import HandleDot
from authoring.editor.pose_room.room import PoseRoom
from authoring.editor.shell import MainWindow
from authoring.figures.alt_text import suggested_alt
from authoring.figures.dragging import HANDLES, Handle
from authoring.figures.solver import settle
from authoring.files.library import open_library
from authoring.model.pose import BodyPoint, Pose, PropKind, View
from authoring.model.vocabulary import Joint, Motion, Phase, Side

NO_KEYS = Qt.KeyboardModifier.NoModifier
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def room(window: MainWindow, qtbot: QtBot) -> PoseRoom:
    window.resize(1366, 768)
    window.show_room("poses")
    made = window.room
    assert isinstance(made, PoseRoom)
    drawn(made, qtbot)
    return made


def drawn(room: PoseRoom, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not room.drawing.is_busy, timeout=5000)


def shown(room: PoseRoom) -> Pose:
    assert room.pose is not None
    return room.pose


def dot(room: PoseRoom, name: str, side: Side = Side.NONE) -> HandleDot:
    return room.bench.canvas.dots[Handle(name, side)]


def pull(qtbot: QtBot, room: PoseRoom, handle: HandleDot, by: QPoint) -> None:
    start = handle.mapTo(room.bench.canvas, handle.rect().center())
    qtbot.mousePress(handle, LEFT, NO_KEYS, handle.rect().center())
    for share in (0.25, 0.5, 0.75, 1.0):
        goal = start + QPoint(round(by.x() * share), round(by.y() * share))
        qtbot.mouseMove(handle, handle.mapFrom(room.bench.canvas, goal))
    end = handle.mapFrom(room.bench.canvas, start + by)
    qtbot.mouseRelease(handle, LEFT, NO_KEYS, end)
    drawn(room, qtbot)


def test_a_squat_is_made_from_scratch_saved_and_named(
    room: PoseRoom, qtbot: QtBot, folder: Path
) -> None:
    room.bench.new_button.click()
    room.bench.moments.add.click()
    drawn(room, qtbot)
    assert [each.phase for each in shown(room).phases] == [Phase.START, Phase.END]
    pull(qtbot, room, dot(room, "pelvis"), QPoint(-45, 75))
    document = room.session.document
    assert document.undo_name == "Move pelvis"
    pose = shown(room)
    body = settle(pose, pose.phases[1])
    assert body.angles[Joint.KNEE, Motion.FLEXION, "r"] > 40
    assert abs(body.body.points["ball.r"][1]) < 0.5
    pull(qtbot, room, dot(room, "hand", Side.RIGHT), QPoint(60, -60))
    pull(qtbot, room, dot(room, "hand", Side.LEFT), QPoint(60, -60))
    assert suggested_alt(shown(room)).startswith("Standing; the hips sink")
    assert room.bench.alt_words == suggested_alt(shown(room))
    with qtbot.waitSignal(room.session.storage.saved):
        room.session.storage.save()
    assert open_library(folder).library.poses == room.session.library.poses


def test_one_pull_is_one_step_of_undo(room: PoseRoom, qtbot: QtBot) -> None:
    room.begin()
    drawn(room, qtbot)
    before = shown(room)
    pull(qtbot, room, dot(room, "hand", Side.RIGHT), QPoint(40, -40))
    assert shown(room) != before
    assert room.session.document.undo_name == "Move right hand"
    room.session.document.undo()
    assert shown(room) == before


def test_arrow_keys_push_a_handle_and_join_in_one_step(room: PoseRoom, qtbot: QtBot) -> None:
    room.begin()
    drawn(room, qtbot)
    before = shown(room)
    at = settle(before, before.phases[0]).body.points["grip.r"]
    handle = dot(room, "hand", Side.RIGHT)
    handle.setFocus()
    qtbot.keyClick(handle, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(handle, Qt.Key.Key_Up)
    drawn(room, qtbot)
    after = settle(shown(room), shown(room).phases[0]).body.points["grip.r"]
    # Seen from the right, forward is to the right; Shift makes the step 5 cm.
    assert after[0] - at[0] == pytest.approx(5, abs=1)
    assert after[1] - at[1] == pytest.approx(1, abs=1)
    room.session.document.undo()
    assert shown(room) == before


def test_tab_goes_through_the_handles_and_each_has_its_name(room: PoseRoom, qtbot: QtBot) -> None:
    room.begin()
    drawn(room, qtbot)
    dot(room, "head").setFocus()
    names = []
    for _ in HANDLES:
        focus = room.window().focusWidget()
        assert isinstance(focus, HandleDot)
        names.append(focus.accessibleName())
        qtbot.keyClick(focus, Qt.Key.Key_Tab)
    assert names[:4] == ["Head", "Trunk", "Right elbow", "Right hand"]
    assert len(set(names)) == len(HANDLES)


def test_a_foot_stands_until_it_is_let_go(
    room: PoseRoom, qtbot: QtBot, told: list[Message]
) -> None:
    room.begin()
    room.bench.moments.add.click()
    drawn(room, qtbot)
    foot = dot(room, "foot", Side.RIGHT)
    assert foot.resting
    foot.setFocus()
    qtbot.keyClick(foot, Qt.Key.Key_Delete)
    drawn(room, qtbot)
    assert not foot.resting
    assert room.session.document.undo_name == "Let go with right foot"
    for _ in range(4):
        qtbot.keyClick(foot, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    drawn(room, qtbot)
    first, second = (settle(shown(room), each).body.points for each in shown(room).phases)
    assert first["ball.r"][1] == pytest.approx(0, abs=0.5)
    assert second["heel.r"][1] > 10
    assert second["ball.l"][1] == pytest.approx(0, abs=0.5)


def test_a_typed_angle_is_taken_and_one_beyond_the_usual_is_questioned(
    room: PoseRoom, qtbot: QtBot
) -> None:
    """The elbow bends to 150 degrees (American Academy of Orthopaedic Surgeons, 1965)."""
    room.begin()
    drawn(room, qtbot)
    line = room.bench.side.angles.lines[Joint.ELBOW, Motion.FLEXION, "r"]
    assert line.accessibleName() == "Elbow, flexion (− extension), right"
    assert line.accessibleDescription() == "usual 0 to 150°"
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "90")
    drawn(room, qtbot)
    pose = shown(room)
    assert settle(pose, pose.phases[0]).angles[Joint.ELBOW, Motion.FLEXION, "r"] == 90
    assert room.session.document.undo_name == "Change elbow"
    line.selectAll()
    qtbot.keyClicks(line, "178")
    drawn(room, qtbot)
    assert room.bench.odd[0].sentence == (
        "At the start, the right elbow has 178 degrees of flexion, and 150 is the usual most."
    )
    line.selectAll()
    qtbot.keyClicks(line, "much")
    assert room.bench.side.angles.fault.sentence == "Write degrees, such as 45 or −10."


def test_what_cannot_be_reached_is_said_beside_the_drawing(room: PoseRoom, qtbot: QtBot) -> None:
    room.begin()
    side = room.bench.side
    side.tabs.choose("things")
    side.put_support(PropKind.TABLE)
    drawn(room, qtbot)
    assert [prop.id for prop in shown(room).supports] == ["table"]
    from authoring.model.base import evolve
    from authoring.model.pose import Contact

    far = Contact(point=BodyPoint.HEEL, on="table", side=Side.RIGHT)

    def lift_both(pose: Pose) -> Pose:
        return evolve(pose, contacts=(*pose.contacts, far))

    room.edit(lift_both, "Change")
    drawn(room, qtbot)
    assert "can't be" in room.bench.problem.sentence
    assert "cm away" in room.bench.problem.sentence


def test_a_pose_of_the_program_is_copied_before_it_is_changed(
    room: PoseRoom, qtbot: QtBot, told: list[Message]
) -> None:
    stock = room.session.library.stock_poses["bridge"]
    room.session.choose_pose(stock.id)
    drawn(room, qtbot)
    assert not any(each.isVisible() for each in room.bench.canvas.dots.values())
    assert not room.edit(lambda pose: pose, "Change")
    assert told[-1].sentence == "This pose comes with the program. Start from it to change it."
    room.bench.copy_button.click()
    drawn(room, qtbot)
    assert shown(room).slug == "bridge-2"
    assert shown(room).phases == stock.phases
    room.bench.view.chosen.emit(View.FRONT)
    assert shown(room).camera.view is View.FRONT
    assert stock.camera.view is View.SIDE


def test_the_gallery_finds_poses_by_words(room: PoseRoom, qtbot: QtBot) -> None:
    gallery = room.bench.gallery
    gallery.field.setText("bridge")
    titles = [gallery.list.item(row).text() for row in range(gallery.list.count())]
    assert titles[0] == "Come with the program"
    assert len(titles) >= 2
    gallery.field.setText("no such words")
    assert gallery.none.isVisible()


def test_a_pose_goes_into_the_card_with_words_for_each_moment(room: PoseRoom, qtbot: QtBot) -> None:
    pose = room.session.library.stock_poses["heel-raise-both"]
    room.session.choose_pose(pose.id)
    room.bench.use_button.click()
    card = room.session.card
    assert card is not None
    pictures = card.variants[0].pictures
    assert [(each.pose, each.phase) for each in pictures] == [
        ("heel-raise-both", Phase.START),
        ("heel-raise-both", Phase.END),
    ]
    assert pictures[1].alt.best("en", "en") == suggested_alt(pose)
    assert room.session.document.undo_name == "Add a drawn pose"
