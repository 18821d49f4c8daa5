"""Answers that the tailor room is given, and the plan it holds."""

from authoring.editor.tailor.answers import flags_of, with_answer
from authoring.editor.tailor.room import TailorRoom
from authoring.model.base import evolve
from authoring.model.patient import OwnedKit
from authoring.model.plan import Plan
from authoring.model.vocabulary import Answer, Side, Unit

KNEE = "patellofemoral-pain"


def all_no(room: TailorRoom) -> None:
    """Answer every red flag with no, one by one."""
    asked = flags_of(room.desk.plan.protocols if room.desk.plan else ())
    for one in asked:
        room.desk.answer("", lambda p, one=one: with_answer(p, one, Answer.NO))


def at_home(room: TailorRoom) -> None:
    kit = ("chair", "mat", "wall", "worktop", "step", "cushion")
    owned = tuple(OwnedKit(kit=one) for one in kit)
    weights = OwnedKit(kit="dumbbell", sizes=(2.0, 4.0), unit=Unit.KILOGRAMS, count=2)
    room.desk.answer("", lambda p: evolve(p, side=Side.RIGHT, kit=(*owned, weights)))


def plan_of(room: TailorRoom) -> Plan:
    plan = room.desk.plan
    assert plan is not None
    return plan
