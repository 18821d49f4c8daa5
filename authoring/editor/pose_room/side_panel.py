"""What is typed about a pose: angles, contacts and rules, things, and the picture itself."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QMenu, QScrollArea, QVBoxLayout, QWidget

from authoring.editor.i18n import mark, tr
from authoring.editor.ids import fresh_id
from authoring.editor.parts.labels import label
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.parts.segmented import Segmented
from authoring.editor.pose_room.angles_panel import AnglesPanel
from authoring.editor.pose_room.context import PoseContext
from authoring.editor.pose_room.moments import small
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.editor.vocabulary_words import words_of
from authoring.model.base import evolve
from authoring.model.pose import Pose, PosePhase, Prop, PropKind

_TABS: Final = (
    ("angles", mark("Angles")),
    ("contacts", mark("Contacts")),
    ("things", mark("Things")),
    ("picture", mark("Picture")),
)

_SIZES: Final[Mapping[PropKind, Mapping[str, float | bool]]] = {
    PropKind.WALL: {"forward_cm": 45, "height_cm": 200},
    PropKind.BOX: {"forward_cm": 20, "length_cm": 40, "height_cm": 20},
    PropKind.CHAIR: {"forward_cm": -52, "length_cm": 42},
    PropKind.TABLE: {"forward_cm": 30, "length_cm": 60, "width_cm": 90, "height_cm": 74},
    PropKind.WORKTOP: {"forward_cm": 30, "length_cm": 60, "width_cm": 120, "height_cm": 90},
    PropKind.MAT: {"forward_cm": -90, "length_cm": 180, "width_cm": 60, "height_cm": 1},
    PropKind.PILLOW: {"forward_cm": -15, "length_cm": 30, "width_cm": 40, "height_cm": 8},
    PropKind.PLINTH: {"forward_cm": -95, "length_cm": 190, "width_cm": 65, "height_cm": 60},
    PropKind.BALL: {"forward_cm": -30, "height_cm": 60},
    PropKind.ROLL: {"forward_cm": 0, "length_cm": 15, "height_cm": 15},
    PropKind.DOOR_FRAME: {"forward_cm": 15, "width_cm": 80, "height_cm": 200},
    PropKind.RAIL: {"forward_cm": 40, "width_cm": 100, "height_cm": 95},
}
"""Sizes to start from, cm (common sizes of furniture and kit, no source)."""


def support_of(kind: PropKind, taken: frozenset[str]) -> Prop:
    """A support of a usual size, a little way off the body."""
    return Prop(id=fresh_id(kind.value, taken), kind=kind, **_SIZES[kind])  # type: ignore[arg-type]  # floats and one bool


class SidePanel(QFrame):
    """Signals:
    angle_typed(key, degrees)
    edited(change, name, merge_key): ``change`` is pure, from the old pose to the new one.
    ended(): a field was left.
    """

    angle_typed = Signal(object, float)
    edited = Signal(object, str, str)
    ended = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("panel", True)
        self.setProperty("pane", True)
        self._session = session
        self._context = PoseContext.of_pose(session)
        self._shown: tuple[str, str, int] = ("", "", -1)
        self._forms: list[tuple[NodeForm, Callable[[Pose], object]]] = []
        used = theme()
        self.tabs = Segmented(tr("What to write"), [(key, tr(w)) for key, w in _TABS], "angles")
        self.tabs.chosen.connect(lambda _key: self._rebuild())
        self.angles = AnglesPanel()
        self.angles.typed.connect(self.angle_typed)
        self.angles.ended.connect(self.ended)
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._inside = QWidget()
        self._place = QVBoxLayout(self._inside)
        self._place.setContentsMargins(used.px(12), used.px(8), used.px(12), used.px(12))
        self._place.setSpacing(used.px(12))
        self._place.addWidget(self.angles)
        self.area.setWidget(self._inside)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.setSpacing(used.px(4))
        layout.addWidget(self.tabs)
        layout.addWidget(self.area, 1)
        self._pose: Pose | None = None
        self._index = 0

    def show_pose(self, pose: Pose, index: int, *, locked: bool) -> None:
        """Show a pose's moment in the open tab."""
        self._pose, self._index = pose, index
        self.angles.show_locked(locked)
        for name in ("contacts", "things", "picture"):
            self.tabs.button(name).setEnabled(not locked)
        if locked and self.tabs.value != "angles":
            self.tabs.choose("angles")
        state = (pose.id, str(self.tabs.value), index)
        if state != self._shown:
            self._rebuild()
            return
        for form, find in self._forms:
            value = find(pose)
            if isinstance(value, Pose | PosePhase):
                form.show_value(value)

    # ---- tabs -------------------------------------------------------------------

    def _rebuild(self) -> None:
        pose, tab = self._pose, str(self.tabs.value)
        if pose is None:
            return
        self._shown = (pose.id, tab, self._index)
        self._forms.clear()
        while (item := self._place.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None and widget is not self.angles:
                widget.hide()
                widget.deleteLater()
        self.angles.setVisible(tab == "angles")
        match tab:
            case "angles":
                self._place.addWidget(self.angles)
            case "contacts":
                self._contacts(pose)
            case "things":
                self._things(pose)
            case _:
                self._add_form(Pose, pose, _PICTURE_FIELDS, lambda now: now)
        self._place.addStretch(1)
        self.area.verticalScrollBar().setValue(0)

    def _contacts(self, pose: Pose) -> None:
        index = self._index
        self._place.addWidget(label(tr("At every moment"), Type.STRONG))
        self._add_form(Pose, pose, ("contacts", "rules", "touches"), lambda now: now)
        words = tr("At this moment: {moment}", moment=words_of(pose.phases[index].phase).lower())
        self._place.addWidget(label(words, Type.STRONG))
        self._add_form(
            PosePhase,
            pose.phases[index],
            ("phase", "contacts", "rules", "touches", "airborne", "base"),
            lambda now: now.phases[index] if index < len(now.phases) else None,
        )

    def _things(self, pose: Pose) -> None:
        self.add_support = small(tr("Add a support"))
        menu = QMenu(self.add_support)
        for kind in PropKind:
            menu.addAction(words_of(kind)).triggered.connect(partial(self._put, kind))
        self.add_support.setMenu(menu)
        self._place.addWidget(self.add_support, 0, Qt.AlignmentFlag.AlignLeading)
        self._add_form(Pose, pose, ("supports", "held", "lines"), lambda now: now)

    def _put(self, kind: PropKind, _checked: bool = False) -> None:
        self.put_support(kind)

    def put_support(self, kind: PropKind) -> None:
        """Add a support of a usual size."""
        made = support_of(kind, self._context.taken())
        name = tr("Add “{what}”", what=words_of(kind))

        def change(pose: Pose) -> Pose:
            return evolve(pose, supports=(*pose.supports, made))

        self.edited.emit(change, name, "")

    def _add_form(
        self,
        cls: type[Pose] | type[PosePhase],
        value: Pose | PosePhase,
        only: tuple[str, ...],
        find: Callable[[Pose], object],
    ) -> None:
        form = NodeForm(cls, value, self._context, only=only)
        index = self._index

        def take(node: object, name: str, key: str) -> None:
            self.edited.emit(_change_of(node, only, index), name, key)

        form.edited.connect(take)
        form.ended.connect(self.ended)
        self._forms.append((form, find))
        self._place.addWidget(form)


_PICTURE_FIELDS: Final = (
    "title",
    "side",
    "regions",
    "camera",
    "arrows",
    "ghost",
    "dashed",
    "earlier",
    "base",
    "slug",
    "licence",
)


def _change_of(node: object, only: tuple[str, ...], index: int) -> Callable[[Pose], Pose]:
    """The edit that takes over what a form shows, and nothing else."""
    taken = {name: getattr(node, name) for name in only}

    def change(pose: Pose) -> Pose:
        if isinstance(node, Pose):
            return evolve(pose, **taken)
        moment = evolve(pose.phases[index], **taken)
        return evolve(pose, phases=(*pose.phases[:index], moment, *pose.phases[index + 1 :]))

    return change
