"""Decisions against the rules, two sides, several protocols, and reviews in the tailor room."""

import datetime as dt
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from authoring.editor.library_edits import with_clinic
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.tailor.answers import flags_of, with_answer
from authoring.editor.tailor.left_view import LeftView
from authoring.editor.tailor.review_pane import ReviewPane
from authoring.editor.tailor.room import TailorRoom
from authoring.model.base import evolve
from authoring.model.patient import SideState
from authoring.model.vocabulary import Answer, Side, WeightUnit
from tests.editor.tailor.drive import all_no, at_home, plan_of


def pane_of(room: TailorRoom) -> ReviewPane:
    assert room.middle.review is not None
    return room.middle.review


def put_back_against_a_rule(room: TailorRoom, session: Session, sign: bool) -> LeftView:
    """A joint that is hot and swollen takes exercises out; one of them is put back."""
    clinic = session.library.clinic
    assert clinic is not None
    new = evolve(clinic, second_sign=sign)
    session.document.edit("Second sign", lambda library: with_clinic(library, new))
    at_home(room)
    all_no(room)
    room.desk.answer("", lambda p: evolve(p, conditions=("hot-swollen-joint",)))
    left = next(
        view
        for view in room.plan_pane.lefts
        if any(reason.code == "contraindicated" for reason in view.face.left.reasons)
        and view.add.isEnabled()
    )
    left.add.click()
    return left


# ---- against a rule --------------------------------------------------------------------------


def test_a_contraindication_is_overridden_only_with_a_reason(
    room: TailorRoom, session: Session, qtbot: QtBot
) -> None:
    left = put_back_against_a_rule(room, session, sign=False)
    card = left.face.left.card
    assert card not in [item.card for item in plan_of(room).items]
    assert left.fault.sentence.startswith("This needs a reason, because it sets a rule aside:")
    assert room.window().focusWidget() is left.why
    qtbot.keyClick(left.why, Qt.Key.Key_Return)  # no reason is none
    assert card not in [item.card for item in plan_of(room).items]
    qtbot.keyClicks(left.why, "Swelling is gone since Monday")
    qtbot.keyClick(left.why, Qt.Key.Key_Return)
    item = next(item for item in plan_of(room).items if item.card == card)
    made = item.overrides[-1]
    assert (made.who, made.why) == ("M.O.", "Swelling is gone since Monday")
    assert "contraindicated" in made.rules
    view = room.plan_pane.items[item.id]
    assert any("Swelling is gone since Monday" in words for words in view.reasons.sentences)
    assert not view.face.waits
    assert room.head.print.isEnabled()


def test_where_the_clinic_asks_for_it_another_clinician_signs_before_anything_prints(
    room: TailorRoom, session: Session, qtbot: QtBot
) -> None:
    left = put_back_against_a_rule(room, session, sign=True)
    card = left.face.left.card
    qtbot.keyClicks(left.why, "Swelling is gone")
    qtbot.keyClick(left.why, Qt.Key.Key_Return)
    item = next(item.id for item in plan_of(room).items if item.card == card)
    form = room.plan_pane.items[item].form
    waiting = "A choice waits for a second clinician's sign, so nothing prints yet."
    assert room.page.foot.sentence == waiting
    assert not room.head.print.isEnabled()
    qtbot.keyClicks(form.sign, "m.o.")
    qtbot.keyClick(form.sign, Qt.Key.Key_Return)
    assert room.page.foot.sentence == waiting
    form.sign.clear()
    qtbot.keyClicks(form.sign, "K.T.")
    qtbot.keyClick(form.sign, Qt.Key.Key_Return)
    signed = next(each for each in plan_of(room).items if each.id == item).overrides[-1]
    assert signed.countersign is not None
    assert signed.countersign.who == "K.T."
    assert room.head.print.isEnabled()
    room.desk.answer("", lambda p: evolve(p, days_per_week=3))
    assert room.head.print.isEnabled()  # the sign holds on a plan made anew


@pytest.mark.parametrize("sign", [False, True])
def test_an_opened_plan_asks_for_a_second_sign_only_where_one_was_asked(
    room: TailorRoom, session: Session, qtbot: QtBot, tmp_path: Path, sign: bool
) -> None:
    left = put_back_against_a_rule(room, session, sign)
    qtbot.keyClicks(left.why, "Swelling is gone")
    qtbot.keyClick(left.why, Qt.Key.Key_Return)
    room.desk.choose_folder(tmp_path / "plans")
    path = room.desk.save()
    assert path is not None
    assert room.desk.open(path)
    room.desk.answer("", lambda p: evolve(p, days_per_week=3))
    assert room.head.print.isEnabled() is not sign


def test_a_choice_without_a_clinician_asks_for_the_name_in_its_place(room: TailorRoom) -> None:
    at_home(room)
    room.desk.clinician = ""
    item, view = next(iter(room.plan_pane.items.items()))
    view.remove.click()
    assert item in room.plan_pane.items
    who = room.questions.who
    assert who.clinician_row.fault == "Say who decides first: every choice is kept with a name."
    assert room.window().focusWidget() is who.clinician
    who.clinician.setText("M.O.")
    who.clinician.editingFinished.emit()
    assert who.clinician_row.fault == ""
    view.remove.click()
    assert item not in room.plan_pane.items


# ---- two sides, several protocols ------------------------------------------------------------


def test_each_side_has_a_stage_and_exercises_of_its_own(room: TailorRoom) -> None:
    at_home(room)
    sides = (SideState(side=Side.LEFT, rest_pain=1.0), SideState(side=Side.RIGHT, rest_pain=1.0))
    room.desk.answer("", lambda p: evolve(p, side=Side.BOTH, each_side=sides))
    shown = room.plan_pane.stages.shown
    assert [one.face.side for one in shown] == [Side.LEFT, Side.RIGHT]
    right = {i.entry: i.variant for i in plan_of(room).items if i.side is Side.RIGHT}
    shown[0].numbers.button(2).click()
    stages = {each.side: each.stage for each in plan_of(room).stages}
    assert stages == {Side.LEFT: "s2-build", Side.RIGHT: "s1-settle"}
    mine = {each.stage for each in plan_of(room).items if each.side is Side.LEFT}
    assert mine == {"s2-build"}
    after = {i.entry: i.variant for i in plan_of(room).items if i.side is Side.RIGHT}
    assert after.items() >= right.items() > set()
    names = [view.name.text() for view in room.plan_pane.items.values()]
    assert any(name.endswith(", left") for name in names)
    assert any(name.endswith(", right") for name in names)


def test_a_plan_of_two_protocols_asks_and_proposes_for_both(
    room: TailorRoom, session: Session
) -> None:
    at_home(room)
    first = plan_of(room).protocols[0].id
    other = next(p.id for p in session.library.protocols.values() if p.id != first)
    sources = room.questions.sources
    sources.more.setCurrentIndex(sources.more.findData(other))
    sources.more.activated.emit(sources.more.currentIndex())
    assert [each.id for each in plan_of(room).protocols] == [first, other]
    assert {item.protocol for item in plan_of(room).items} == {first, other}
    asked = flags_of(plan_of(room).protocols)
    assert len(room.questions.flags.flag_rows) == len(asked)
    for one in asked:
        if one.protocol.id == first:
            room.desk.answer("", lambda p, one=one: with_answer(p, one, Answer.NO))
    assert not room.head.print.isEnabled()
    all_no(room)
    assert room.head.print.isEnabled()


# ---- reviews ---------------------------------------------------------------------------------


def begin(room: TailorRoom) -> ReviewPane:
    at_home(room)
    all_no(room)
    room.middle.begin_review()
    pane = pane_of(room)
    for flag in pane.flags:
        flag.answers.button(Answer.NO).click()
    return pane


def went_well(pane: ReviewPane) -> list[str]:
    """Every exercise was done often and without pain; those for which a step up is proposed."""
    for row in pane.items.values():
        for column, value in (
            ("sessions_done", "9"),
            ("sessions_running", "6"),
            ("pain_during", "0"),
            ("pain_next_morning", "0"),
            ("reps_reached", "60"),
            ("seconds_reached", "300"),
        ):
            row.cells[column].setText(value)
            row.cells[column].textEdited.emit(value)
    return [item for item, row in pane.items.items() if row.confirm.isVisible()]


def test_only_a_confirmed_step_up_is_taken(room: TailorRoom) -> None:
    pane = begin(room)
    before = {item.id: item for item in plan_of(room).items}
    first, second, *_ = went_well(pane)
    pane.items[first].confirm.click()
    pane.next.click()
    after = {item.id: item for item in plan_of(room).items}
    codes = {item: {reason.code for reason in after[item].reasons} for item in (first, second)}
    assert "review-confirmed" in codes[first]
    assert "review-waits-for-confirmation" in codes[second]
    assert (after[first].variant, after[first].dose) != (
        before[first].variant,
        before[first].dose,
    )
    assert (after[second].variant, after[second].dose) == (
        before[second].variant,
        before[second].dose,
    )


def test_what_a_review_asked_and_answered_outlives_a_change_of_text_size(
    window: MainWindow, room: TailorRoom, settings: Settings, qtbot: QtBot
) -> None:
    pane = begin(room)
    first = went_well(pane)[0]
    pane.items[first].confirm.click()
    said = pane.report
    settings.scale = 1.3
    fresh = window.room
    assert isinstance(fresh, TailorRoom)
    assert fresh is not room
    qtbot.waitUntil(lambda: fresh.isVisible() and fresh.middle.review is not None)
    again = pane_of(fresh)
    assert again.report == said
    assert again.items[first].cells["reps_reached"].text() == "60"
    assert again.items[first].confirm.isChecked()
    assert again.flags[0].answers.value is Answer.NO


def test_a_load_in_pounds_and_pain_afterwards_are_reported_as_such(room: TailorRoom) -> None:
    pane = begin(room)
    item, row = next(iter(pane.items.items()))
    row.cells["pain_after"].textEdited.emit("4")
    row.cells["load_reached"].textEdited.emit("12,5")
    row.unit.combo.activated.emit(row.unit.combo.findText("lb"))
    row.settled.combo.activated.emit(row.settled.combo.findText("No"))
    said = next(each for each in pane.report.items if each.item == item)
    assert (said.pain_after, said.settled) == (4.0, False)
    assert (said.load_reached, said.load_unit) == (12.5, WeightUnit.LB)


def test_the_day_of_a_review_is_that_of_the_next_plan(room: TailorRoom) -> None:
    pane = begin(room)
    day = plan_of(room).created + dt.timedelta(days=9)
    pane.whole.edited.emit(evolve(pane.report, date=day, sessions_done=5), "", "")
    assert pane.report.sessions_done == 5
    assert pane.flags[0].answers.value is Answer.NO
    pane.next.click()
    assert plan_of(room).created == day


def test_a_review_that_was_put_away_begins_anew(room: TailorRoom) -> None:
    before = plan_of(room)
    pane = begin(room)
    went_well(pane)
    pane.away.click()
    assert room.middle.review is None
    room.middle.begin_review()
    assert pane_of(room).report.items == ()
    assert plan_of(room).id == before.id


def test_an_answer_changed_during_a_review_keeps_what_was_said(room: TailorRoom) -> None:
    pane = begin(room)
    went_well(pane)
    room.desk.answer("", lambda p: evolve(p, minutes=10))
    again = pane_of(room)
    assert again is not pane
    assert list(again.items) == [item.id for item in plan_of(room).items]
    assert all(row.cells["reps_reached"].text() == "60" for row in again.items.values())
    assert again.next.isEnabled()


def test_a_new_patient_ends_the_review_of_the_last(room: TailorRoom) -> None:
    begin(room)
    room.desk.begin()
    assert room.middle.review is None
    assert room.middle.currentWidget() is room.plan_pane


def test_a_review_without_a_clinician_asks_for_the_name(room: TailorRoom) -> None:
    pane = begin(room)
    room.desk.clinician = ""
    before = plan_of(room).id
    pane = pane_of(room)
    pane.next.click()
    assert plan_of(room).id == before
    assert room.window().focusWidget() is room.questions.who.clinician
