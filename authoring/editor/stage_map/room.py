"""The stage map room: title, map, details, checks."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QPlainTextEdit,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from authoring.checks.result import CheckResult, Subject
from authoring.editor.i18n import tr
from authoring.editor.parts.check_strip import CheckStrip
from authoring.editor.parts.empty_page import EmptyPage
from authoring.editor.place_words import where_inside
from authoring.editor.room import KeyHint, Room
from authoring.editor.session import NOTHING, Selection, Session
from authoring.editor.stage_map.actions import MapActions
from authoring.editor.stage_map.commands import add_commands
from authoring.editor.stage_map.details import DetailsPanel
from authoring.editor.stage_map.faces import faces, rows
from authoring.editor.stage_map.geometry import folded_to_fit, lay_out
from authoring.editor.stage_map.map_view import MapView
from authoring.editor.stage_map.menus import MapMenus
from authoring.editor.stage_map.model import MapModel, map_model
from authoring.editor.stage_map.selecting import Selecting
from authoring.editor.stage_map.target import ABOUT, Target, target_of
from authoring.editor.stage_map.title_bar import TitleBar
from authoring.editor.stage_map.words import MapWords
from authoring.editor.theme import theme
from authoring.model.library import Library

_STRIP = 122
_FOLDED = "stage_map/folded"


class StageMapRoom(Room):
    """The whole protocol and what makes it harder."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.model: MapModel | None = None
        self.folded = session.settings.kept(_FOLDED, "") == "yes"
        self.actions_of_map = MapActions(session, self)
        self.map = MapView(session.thumbnails)
        self.details = DetailsPanel(session)
        self.bar = TitleBar(session)
        self.strip = CheckStrip(
            session, self._is_ours, lambda result: where_inside(session.library, result)
        )
        self.strip.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self.strip.list.setMaximumHeight(theme().px(_STRIP))
        self.selecting = Selecting(self)
        self.menus = MapMenus(self)
        self._build()
        self._connect()
        add_commands(self)

    def _build(self) -> None:
        used = theme()
        gap = used.px(24)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(gap, used.px(12), gap, used.px(12))
        layout.setSpacing(used.px(12))
        layout.addWidget(self.bar)
        middle = QHBoxLayout()
        middle.setSpacing(used.px(16))
        middle.addWidget(self.map, 1)
        middle.addWidget(self.details)
        self.empty = self._empty_page()
        middle.addWidget(self.empty, 1)
        layout.addLayout(middle, 1)
        layout.addWidget(self.strip)
        self.details.hide()

    def _empty_page(self) -> QWidget:
        words = tr(
            "A protocol holds stages, from early to late. Each stage holds exercises from "
            "your cards, and says what must be true to move on."
        )
        begin = QPushButton(tr("Begin a protocol"))
        begin.clicked.connect(self.bar.new_protocol)
        return EmptyPage(tr("No protocol yet"), words, begin)

    def _connect(self) -> None:
        board, view = self.map.board, self.map
        board.entry_pressed.connect(self.selecting.entry)
        board.entry_reached.connect(self.selecting.reached_entry)
        view.stage_reached.connect(self.selecting.reached_stage)
        board.entry_opened.connect(lambda _id: self.open_details())
        board.menu_wanted.connect(self.menus.entry_menu)
        board.dropped.connect(self._dropped)
        board.nothing_pressed.connect(lambda: self.session.select(NOTHING))
        view.stage_pressed.connect(self.selecting.stage)
        view.stage_opened.connect(lambda _id: self.open_details())
        view.gate_pressed.connect(self.selecting.gate)
        view.gate_opened.connect(lambda _id: self.open_details())
        view.menu_wanted.connect(self.menus.part_menu)
        view.room_changed.connect(self._draw)
        view.entered.connect(self.focus_first)
        self.details.closed.connect(self.close_details)
        self.bar.about_wanted.connect(lambda: self.open_target(ABOUT))
        self.bar.begun.connect(self._ask_for_title)
        self.actions_of_map.select_wanted.connect(self.selecting.made)
        # Methods, no lambdas: Qt lets go of a method when the room goes.
        self.session.protocol_chosen.connect(self._other_words)
        self.session.text_language_changed.connect(self._other_words)
        self.session.selection_changed.connect(self._show_selection)
        self.session.checks.changed.connect(self._checks_changed)

    # ---- drawing --------------------------------------------------------------------

    def title(self) -> str:
        """Title of the protocol."""
        protocol = self.session.protocol
        if protocol is None:
            return ""
        return MapWords(self.session, protocol.language).text(protocol.title)

    def refresh(self, before: Library, after: Library) -> None:
        """Draw the protocol as it is."""
        protocol = self.session.protocol
        for part in (self.map, self.strip):
            part.setVisible(protocol is not None)
        self.empty.setVisible(protocol is None)
        self.bar.refresh()
        if protocol is None:
            self.details.hide()
            return
        unchanged = (
            self.model is not None
            and self.model.protocol is protocol
            and before.cards == after.cards
            and before is not after
        )
        if not unchanged:
            self.model = map_model(protocol, after)
            self._draw()
        self._follow_details()
        if self.hasFocus():  # there was nothing in the map to have it, so far
            self.focus_first()

    def _other_words(self, _id: str) -> None:
        self.refresh_all()

    def _draw(self) -> None:
        model, protocol = self.model, self.session.protocol
        if model is None or protocol is None:
            return
        words = MapWords(self.session, protocol.language)
        fitting = folded_to_fit(model, theme(), self.map.room)
        folded = range(len(model.stages)) if self.folded else fitting
        mirrored = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        geometry = lay_out(model, theme(), folded, room=self.map.room, mirrored=mirrored)
        checks = self.session.checks.about(Subject.PROTOCOL, protocol.id)
        shown = faces(model, words, checks, folded)
        self.map.show_map(geometry, shown.entries, shown.words, shown.stages, shown.gates)
        self.map.names.show_rows(rows(model, geometry, words))
        self._mark_selected()

    def _is_ours(self, result: CheckResult) -> bool:
        return result.subject is Subject.PROTOCOL and result.subject_id == self.session.protocol_id

    def _checks_changed(self) -> None:
        if self.isVisible():
            self._draw()

    # ---- selecting ------------------------------------------------------------------

    def _show_selection(self, _chosen: Selection) -> None:
        self._mark_selected()
        # Only now: a redraw must not take a form away from under what is being typed.
        if self.details.isVisible():
            self._follow_selection()

    def _mark_selected(self) -> None:
        chosen = self.session.selection
        self.map.board.select(chosen.ids[0] if chosen.kind == "entry" and chosen.ids else "")
        for key, head in self.map.heads.items():
            head.select(chosen.kind == "stage" and key in chosen.ids)
        self.map.stop_at(self.selecting.stop())
        self.key_hints_changed.emit()

    def focus_first(self) -> None:
        """Put the focus on what is selected, or on the first entry or stage."""
        chosen, model = self.session.selection, self.model
        first = model.cells[0].entry.id if model is not None and model.cells else ""
        if chosen.kind == "stage" and chosen.ids[0] in self.map.heads:
            self.selecting.stage(chosen.ids[0])
        elif chosen.kind == "gate" and chosen.ids[0] in self.map.gates:
            self.selecting.gate(chosen.ids[0])
        elif self.selecting.entry_id or first:
            self.selecting.entry(self.selecting.entry_id or first)
        elif model is not None and model.stages:
            self.selecting.stage(model.stages[0].id)
        else:
            self.setFocus()

    # ---- details --------------------------------------------------------------------

    def _target(self) -> Target | None:
        chosen = self.session.selection
        if chosen.kind in ("entry", "stage", "gate") and chosen.ids:
            return Target(chosen.kind, chosen.ids[0])
        return None

    def open_details(self) -> None:
        """Show every field of what is selected; of the protocol where nothing is."""
        self.open_target(self._target() or ABOUT)

    def open_target(self, target: Target, path: str = "") -> None:
        """Show every field of a part, and put the focus into one of them."""
        self.details.show()
        if self.details.show_target(target, self._title_of(target)):
            self.details.focus_path(path)

    def _ask_for_title(self) -> None:
        """Put the focus into the title of a new protocol, to be written over."""
        self.open_target(ABOUT, "title")
        line = self.focusWidget()
        if isinstance(line, QPlainTextEdit):
            line.selectAll()

    def close_details(self) -> None:
        """Put the panel away, and the focus back on the map."""
        self.details.hide()
        self.details.clear()
        self.focus_first()

    def _follow_selection(self) -> None:
        target = self._target()
        if target is not None:
            self.details.show_target(target, self._title_of(target))

    def _follow_details(self) -> None:
        target = self.details.target
        if target is None or not self.details.isVisible():
            return
        if self.details.show_target(target, self._title_of(target)):
            return
        if self.details.isAncestorOf(self.focusWidget() or self):
            self.close_details()
        else:
            self.details.hide()
            self.details.clear()

    def _title_of(self, target: Target) -> str:
        protocol = self.session.protocol
        if protocol is None or self.model is None:
            return ""
        words = MapWords(self.session, protocol.language)
        cell = self.model.cell(target.part_id)
        if cell is not None:
            return f"{cell.number}  {words.name(cell)}"
        for index, stage in enumerate(self.model.stages):
            if stage.id == target.part_id:
                name = tr("Stage {n}", n=index + 1) + f": {words.text(stage.name)}"
                return tr("Move on from {stage}", stage=name) if target.kind == "gate" else name
        return tr("About this protocol")

    # ---- from outside ---------------------------------------------------------------

    def show_place(self, subject: Subject, subject_id: str, path: str) -> None:
        """Show what a check or a search hit is about, its field focused."""
        protocol = self.session.protocol
        if protocol is None:
            return
        self.refresh_all()
        target, rest = target_of(protocol, path)
        if target.kind == "entry":
            self.selecting.entry(target.part_id)
        elif target.kind == "stage":
            self.selecting.stage(target.part_id)
        elif target.kind == "gate":
            self.selecting.gate(target.part_id)
        self.open_target(target, rest)

    def _dropped(self, entry_id: str, stage: int, row: int) -> None:
        if self.model is None:
            return
        near = next((c.entry.id for c in self.model.cells if (c.stage, c.row) == (stage, row)), "")
        self.actions_of_map.drop(entry_id, stage, near)

    def toggle_folded(self) -> None:
        """Fold the borders to a count, or unfold them."""
        self.folded = not self.folded
        self.session.settings.keep(_FOLDED, "yes" if self.folded else "")
        self._draw()

    def key_hints(self) -> Sequence[KeyHint]:
        """Keys for what is selected."""
        if self.session.selection.kind == "entry":
            return (
                KeyHint("D", tr("dose")),
                KeyHint("L", tr("variant")),
                KeyHint("Alt ↑ ↓", tr("harder, easier")),
                KeyHint("Alt ← →", tr("move a stage")),
                KeyHint("Ins", tr("add")),
                KeyHint("Del", tr("remove")),
                KeyHint("F2", tr("every field")),
            )
        return (
            KeyHint("← → ↑ ↓", tr("walk")),
            KeyHint("Ins", tr("add an exercise")),
            KeyHint("F2", tr("every field")),
            KeyHint("B", tr("borders")),
        )
