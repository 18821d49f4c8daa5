"""Facts asked in forms: dates, weight, the surgeon's limits, tests; conditions; what to avoid."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.session import Session
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.section import Section
from authoring.model.base import Node, evolve
from authoring.model.patient import Presentation

DATES = ("injured", "operated", "weight_bearing", "limits", "tests", "seen")
SIDES = ("each_side",)
AVOID = (
    "conditions",
    "unmapped_conditions",
    "avoid_positions",
    "avoid_demands",
    "avoid_movements",
)
BODY = ("supports", "hands_free", "body_mass_kg", "height_cm", "limb", "stages")


class Facts(Section):
    """Some fields of the presentation, in a form that opens under its own heading."""

    def __init__(
        self, session: Session, desk: Desk, title: str, fields: Sequence[str], *, is_open: bool
    ) -> None:
        super().__init__(desk)
        self._session, self._fields, self._title = session, tuple(fields), title
        self.form: NodeForm | None = None
        self.opener = QPushButton()
        self.opener.setProperty("quiet", True)
        self.opener.setCheckable(True)
        self.opener.toggled.connect(self._open)
        self.rows.addWidget(self.opener, 0, Qt.AlignmentFlag.AlignLeading)
        self._shown: tuple[object, ...] = ()
        self._say()
        if is_open:
            self.opener.setChecked(True)

    def show_work(self) -> None:
        now = self.desk.work.presentation
        values = tuple(getattr(now, name) for name in self._fields)
        if values != self._shown:
            self._shown = values
            if self.form is not None and self.form.value is not now:
                self.form.show_value(now)
        self._say()

    def _say(self) -> None:
        given = sum(bool(value) for value in self._shown)
        sign = "▾" if self.opener.isChecked() else "▸"
        words = tr("{title}, {n} given", title=self._title, n=given) if given else self._title
        self.opener.setText(f"{sign} {words}")
        self.opener.setAccessibleName(words)

    def _open(self, on: bool) -> None:
        if on and self.form is None:
            self._build()
        if self.form is not None:
            self.form.setVisible(on)
        self._say()

    def _build(self) -> None:
        now = self.desk.work
        first = now.protocols[0] if now.protocols else self._session.protocol_id
        context = FormContext.of_protocol(self._session, first)
        self.form = NodeForm(Presentation, now.presentation, context, only=self._fields)
        self.form.edited.connect(self._take)
        self.form.ended.connect(self.desk.seal)
        self.rows.addWidget(self.form)

    def _take(self, value: Node, name: str, merge_key: str) -> None:
        changed = {field: getattr(value, field) for field in self._fields}
        self._shown = tuple(changed.values())
        self.answer(name, lambda p: evolve(p, **changed), merge_key)


def fact_sections(session: Session, desk: Desk) -> tuple[Facts, Facts, Facts]:
    """Dates and limits; conditions and what to avoid; the body and its supports."""
    return (
        Facts(session, desk, tr("Dates, weight, limits, tests"), DATES, is_open=False),
        Facts(session, desk, tr("Conditions, and what to avoid"), AVOID, is_open=False),
        Facts(session, desk, tr("Supports, body, stage so far"), BODY, is_open=False),
    )
