"""The tailor room: answers make a plan, a plan makes pages, and both stay the clinician's."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from authoring.editor.page.outlet import Outlet
from authoring.editor.page.printing import PrintJob
from authoring.editor.session import Session
from authoring.editor.shell import MainWindow
from authoring.editor.tailor import plans_folder
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.room import TailorRoom
from authoring.model.base import evolve
from authoring.model.patient import Presentation
from authoring.model.plan import Plan
from authoring.model.vocabulary import Answer, OverrideKind, Side
from tests.editor.tailor.drive import KNEE, all_no, at_home, plan_of

NO = Qt.Key.Key_N

# ---- red flags -------------------------------------------------------------------------------


def test_a_red_flag_that_was_not_asked_blocks_the_print_in_one_sentence(room: TailorRoom) -> None:
    count = len(room.questions.flags.flag_rows)
    assert count > 1
    assert not room.head.print.isEnabled()
    sentence = f"{count} red flags were not asked, so nothing prints yet."
    assert room.page.foot.sentence == sentence
    assert room.head.print.accessibleDescription() == sentence


def test_a_letter_answers_a_flag_and_goes_on_to_the_next(room: TailorRoom, qtbot: QtBot) -> None:
    rows = room.questions.flags.flag_rows
    rows[0].answers.button(Answer.NOT_ASKED).setFocus()
    for _ in rows:
        focus = room.window().focusWidget()
        assert focus is not None
        qtbot.keyClick(focus, NO)
        qtbot.wait(1)
    given = plan_of(room).presentation
    assert given is not None
    assert [a.answer for a in given.red_flags] == [Answer.NO] * len(rows)
    assert room.head.print.isEnabled()


def test_a_yes_shows_what_the_protocol_says_to_do(room: TailorRoom) -> None:
    row = room.questions.flags.flag_rows[0]
    row.answers.button(Answer.YES).click()
    own = row.asked.protocol.language
    action = row.asked.flag.action.best(own, own)
    assert row.action.sentence == action
    assert action in room.page.foot.sentence
    assert room.head.print.isEnabled()  # the flag's action itself may print at once


# ---- the plan ---------------------------------------------------------------------------------


def test_every_exercise_and_everything_left_out_has_a_reason_in_the_open(room: TailorRoom) -> None:
    at_home(room)
    views = list(room.plan_pane.items.values())
    assert views
    assert all(view.reasons.sentences for view in views)
    assert all(view.face.reasons for view in room.plan_pane.lefts)
    assert len(views) == len(plan_of(room).items)
    assert len(room.plan_pane.lefts) == len(plan_of(room).left_out)


def test_less_time_shows_fewer_minutes_and_lists_what_waits(room: TailorRoom) -> None:
    at_home(room)
    before = room.plan_pane.face
    room.desk.answer("", lambda p: evolve(p, minutes=10))
    after = room.plan_pane.face
    assert before is not None
    assert after is not None
    assert after.minutes <= 10 < before.minutes
    assert room.plan_pane.stages.minutes.text() == f"{after.minutes} of 10 minutes"
    assert len(after.left) > len(before.left)


def test_another_rung_is_one_press_and_keeps_its_author(room: TailorRoom, qtbot: QtBot) -> None:
    at_home(room)
    item, view = next(
        (item, view) for item, view in room.plan_pane.items.items() if view.easier.isEnabled()
    )
    before = view.face.rung
    qtbot.mouseClick(view.easier, Qt.MouseButton.LeftButton)
    now = room.plan_pane.items[item]
    assert now.face.rung < before
    assert now.face.was == before
    assert any("M.O." in words for words in now.reasons.sentences)


def test_a_dose_is_typed_in_place(room: TailorRoom, qtbot: QtBot) -> None:
    at_home(room)
    item, view = next(iter(room.plan_pane.items.items()))
    view.change.click()
    line = view.form.dose
    assert room.window().focusWidget() is line
    line.clear()
    qtbot.keyClicks(line, "2 x 6")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    changed = next(each for each in plan_of(room).items if each.id == item)
    assert [made.what for made in changed.overrides] == [OverrideKind.DOSE]
    assert room.plan_pane.items[item].face.dose.split() == ["2", "×", "6"]


def test_an_exercise_goes_and_comes_back(room: TailorRoom) -> None:
    at_home(room)
    count = len(plan_of(room).items)
    item = next(iter(room.plan_pane.items))
    room.plan_pane.items[item].remove.click()
    assert item not in room.plan_pane.items
    left = next(
        view
        for view in room.plan_pane.lefts
        if view.face.left.entry == item and view.face.reasons[0] == "The clinician took it out."
    )
    left.add.click()
    assert len(plan_of(room).items) == count


def test_a_choice_holds_when_an_answer_changes(room: TailorRoom) -> None:
    at_home(room)
    item = next(i for i, view in room.plan_pane.items.items() if view.easier.isEnabled())
    room.plan_pane.step(item, -1)
    chosen = room.plan_pane.items[item].face.variant
    room.desk.answer("", lambda p: evolve(p, days_per_week=3))
    assert room.plan_pane.items[item].face.variant == chosen


def test_the_plan_has_an_undo_of_its_own(room: TailorRoom, session: Session, qtbot: QtBot) -> None:
    label = room.questions.who.label
    room.desk.answer("Irritability", lambda p: evolve(p, rest_pain=4.0))
    library = session.library
    label.setFocus()
    qtbot.keyClick(room.questions.pains.rest, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert room.desk.work.presentation.rest_pain is None
    assert session.library is library
    qtbot.keyClick(room.questions.pains.rest, Qt.Key.Key_Y, Qt.KeyboardModifier.ControlModifier)
    assert room.desk.work.presentation.rest_pain == 4.0


@pytest.mark.parametrize(("keys", "pain"), [("3", 3), ("10", 10), ("1", 1), ("07", 7), ("0", 0)])
def test_digits_score_pain(room: TailorRoom, qtbot: QtBot, keys: str, pain: int) -> None:
    qtbot.keyClicks(room.questions.pains.rest, keys)
    assert room.desk.work.presentation.rest_pain == pain
    qtbot.keyClick(room.questions.pains.rest, Qt.Key.Key_Delete)
    assert room.desk.work.presentation.rest_pain is None


def test_the_heavy_line_is_the_protocols_limit(room: TailorRoom) -> None:
    clinic = plan_of(room).pain
    protocol = plan_of(room).protocols[0]
    rule = protocol.pain or clinic
    assert rule is not None
    limit = rule.during[0].up_to  # the example clinic's first band says carry on
    assert room.questions.pains.rest.limit == limit
    assert room.questions.pains.allowed.text() == f"this protocol allows {limit:g}"


def test_a_label_like_a_name_is_warned_of(room: TailorRoom, qtbot: QtBot) -> None:
    qtbot.keyClicks(room.questions.who.label, "Anna Example")
    assert room.questions.who.label_row.fault == (
        "This looks like a name or a number of identity; use a label of your own."
    )
    room.questions.who.label.clear()
    qtbot.keyClicks(room.questions.who.label, "A17")
    assert room.questions.who.label_row.fault == ""


# ---- where it goes ------------------------------------------------------------------------------


def test_a_plan_is_saved_outside_the_library_and_opens_again(
    room: TailorRoom, tmp_path: Path, folder: Path
) -> None:
    at_home(room)
    all_no(room)
    room.desk.answer("", lambda p: evolve(p, label="A17"))
    item = next(i for i, view in room.plan_pane.items.items() if view.easier.isEnabled())
    room.plan_pane.step(item, -1)
    refused: list[str] = []
    room.desk.refused.connect(refused.append)
    room.ask_folder = lambda _parent: folder / "cards"
    room.save_plan()
    assert refused == [
        "Plans are about patients, so they stay outside the library; choose another."
    ]
    room.ask_folder = lambda _parent: tmp_path / "plans"
    room.save_plan()
    kept = plans_folder.recent(tmp_path / "plans")
    assert [one.label.split()[0] for one in kept] == ["A17"]
    before = plan_of(room)
    room.desk.begin()
    assert plan_of(room).label == ""
    assert room.desk.open(kept[0].path)
    assert plan_of(room) == before


def test_work_that_was_not_saved_is_there_after_a_crash(room: TailorRoom, session: Session) -> None:
    room.desk.answer("", lambda p: evolve(p, label="B2", rest_pain=3.0))
    room.desk.keep_copy()
    again = Desk(session)
    assert again.work.presentation.label == "B2"
    assert again.work.presentation.rest_pain == 3.0


def test_the_notes_hold_every_exercise_and_why_others_wait(room: TailorRoom) -> None:
    at_home(room)
    room.desk.answer("", lambda p: evolve(p, minutes=10))
    room.copy_notes()
    words = QApplication.clipboard().text()
    face = room.plan_pane.face
    assert face is not None
    assert all(item.name in words and item.dose in words for item in face.items)
    assert all(left.name in words and left.reasons[0] in words for left in face.left)


# ---- review --------------------------------------------------------------------------------------


def test_a_review_proposes_and_the_clinician_makes_the_next_plan(room: TailorRoom) -> None:
    at_home(room)
    all_no(room)
    room.middle.begin_review()
    pane = room.middle.currentWidget()
    for flag in pane.flags:  # type: ignore[union-attr]
        flag.answers.button(Answer.NO).click()
    item = plan_of(room).items[0].id
    row = pane.items[item]  # type: ignore[union-attr]
    row.figure_given.emit("pain_during", 7.0)
    assert row.outcome.text().startswith("Proposed: ")
    assert row.reasons.sentences
    before = plan_of(room).id
    pane.next.click()  # type: ignore[union-attr]
    after = plan_of(room)
    assert after.id != before
    assert after.since is not None
    assert after.since.plan == before
    assert room.middle.currentWidget() is room.plan_pane


# ---- how few actions it takes --------------------------------------------------------------------


class Hand:
    """Presses keys and the mouse, and counts."""

    def __init__(self, qtbot: QtBot, window: QWidget) -> None:
        self._qtbot, self._window = qtbot, window
        self.count = 0

    def key(
        self,
        key: Qt.Key,
        modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier,
        where: QWidget | None = None,
    ) -> None:
        self.count += 1
        target = where or self._window.focusWidget()
        assert target is not None
        self._qtbot.keyClick(target, key, modifier)
        self._qtbot.wait(1)


def test_a_known_protocol_is_tailored_and_printed_in_few_actions(
    window: MainWindow,
    session: Session,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Twelve at most beside the red flags, each of which is asked and answered by itself."""
    session.settings.keep("tailor/clinician", "M.O.")
    knee = next(p for p in session.library.protocols.values() if p.slug == KNEE)
    session.choose_protocol(knee.id)
    printed: list[PrintJob] = []
    hand = Hand(qtbot, window)

    def to_printer(self: Outlet, job: object, _paper: object, _count: int) -> None:
        hand.count += 1  # the printer's own dialog is answered
        printed.append(PrintJob(job, QPrinter()))  # type: ignore[arg-type]

    monkeypatch.setattr(Outlet, "print", to_printer)
    window.activateWindow()
    hand.key(Qt.Key.Key_F9, where=window)
    room = window.room
    assert isinstance(room, TailorRoom)
    hand.key(Qt.Key.Key_A)  # a label of one letter: typing a longer one is one more each
    hand.key(Qt.Key.Key_Tab)
    hand.key(Qt.Key.Key_Tab)
    hand.key(Qt.Key.Key_R)
    hand.key(Qt.Key.Key_Tab)
    flags = len(room.questions.flags.flag_rows)
    for _ in range(flags):
        hand.key(NO)
    hand.key(Qt.Key.Key_Tab)
    hand.key(Qt.Key.Key_L)
    hand.key(Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)
    assert room.page.foot.sentence == ""
    plan: Plan | None = printed[0].page.plan
    assert plan is not None
    presentation: Presentation | None = plan.presentation
    assert presentation is not None
    assert (presentation.label, presentation.side) == ("a", Side.RIGHT)
    assert presentation.irritability is not None
    assert [a.answer for a in presentation.red_flags] == [Answer.NO] * flags
    assert hand.count - flags <= 12
