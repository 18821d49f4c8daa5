"""Menus and small editors that open where the user is on the map."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QMenu

from authoring.checks.result import Subject
from authoring.editor.i18n import tr
from authoring.editor.parts.gauge import rung_sign
from authoring.editor.parts.icons import mode_words
from authoring.editor.place import Place
from authoring.editor.room import GROUP
from authoring.editor.stage_map.in_place import DosePopup, Pick, PickPopup
from authoring.editor.stage_map.model import Cell
from authoring.editor.stage_map.target import Target
from authoring.editor.stage_map.walking import beside
from authoring.editor.stage_map.words import MapWords
from authoring.editor.vocabulary_words import words_of
from authoring.model.vocabulary import BlockKind

if TYPE_CHECKING:
    from authoring.editor.stage_map.room import StageMapRoom


class MapMenus:
    """What opens over the map of a room."""

    def __init__(self, room: StageMapRoom) -> None:
        self._room = room
        self.popup: DosePopup | PickPopup | None = None
        self.menu: QMenu | None = None

    # ---- helpers --------------------------------------------------------------------

    @property
    def _cell(self) -> Cell | None:
        model = self._room.model
        return model.cell(self._room.selecting.entry_id) if model is not None else None

    def _words(self) -> MapWords:
        protocol = self._room.session.protocol
        return MapWords(self._room.session, protocol.language if protocol is not None else "en")

    def _under(self, cell: Cell) -> QPoint:
        view = self._room.map.board.view(cell.entry.id)
        if view is None:
            return self._room.mapToGlobal(QPoint(40, 40))
        return view.mapToGlobal(QPoint(0, view.height() + 4))

    def _pick(self, title: str, picks: list[Pick], at: QPoint, run: Callable[[str], None]) -> None:
        self.popup = PickPopup(title, picks, self._room)
        self.popup.picked.connect(run)
        self.popup.open_at(at)

    # ---- entries --------------------------------------------------------------------

    def add_card(self) -> None:
        """Choose a card to add to the stage."""
        session, stage = self._room.session, self._room.selecting.stage_id
        if session.protocol is None:
            return
        if not stage:
            self._room.actions_of_map.add_stage()
            stage = self._room.selecting.stage_id
        words = self._words()
        picks = [
            Pick(
                card.id,
                words.text(card.title, card.language),
                ", ".join(words_of(region) for region in card.regions[:2]),
            )
            for card in session.library.cards.values()
        ]
        picks.sort(key=lambda pick: pick.name.casefold())
        cell = self._cell
        at = self._under(cell) if cell is not None else self._stage_point(stage)
        add = self._room.actions_of_map.add
        self._pick(tr("Add an exercise"), picks, at, lambda card: add(card, stage))

    def _stage_point(self, stage_id: str) -> QPoint:
        head = self._room.map.heads.get(stage_id)
        if head is None:
            return self._room.mapToGlobal(QPoint(40, 40))
        return head.mapToGlobal(QPoint(0, head.height()))

    def edit_dose(self) -> None:
        """Edit the dose of the selected entry in one line."""
        cell = self._cell
        if cell is None:
            return
        popup = DosePopup(cell.dose, self._words().name(cell), self._room)
        entry = cell.entry.id
        popup.chosen.connect(lambda dose: self._room.actions_of_map.set_dose(entry, dose))
        popup.form_wanted.connect(lambda: self._room.open_target(Target("entry", entry), "dose"))
        self.popup = popup
        popup.open_at(self._under(cell))

    def choose_variant(self) -> None:
        """Choose the variant to start with from the card's ladder."""
        cell = self._cell
        if cell is None or cell.card is None:
            return
        words, own = self._words(), cell.card.language
        ladder = sorted(cell.card.variants, key=lambda variant: -variant.rung)
        picks = [
            Pick(
                variant.id,
                f"{rung_sign(variant.rung):>3}  {words.text(variant.name, own)}",
                f"{mode_words(variant.mode)}, {words.brief(variant.dose)}",
            )
            for variant in ladder
        ]
        entry, choose = cell.entry.id, self._room.actions_of_map.choose_variant
        title = tr("Start with which version?")
        self._pick(title, picks, self._under(cell), lambda key: choose(entry, key))

    def build_on(self) -> None:
        """Choose the earlier entry that the selected one builds on."""
        cell, model = self._cell, self._room.model
        if cell is None or model is None:
            return
        words = self._words()
        earlier = [c for c in model.cells if c.stage < cell.stage]
        picks = [Pick("", tr("On nothing"))]
        picks += [
            Pick(c.entry.id, f"{c.number}  {words.name(c)}", tr("Stage {n}", n=c.stage + 1))
            for c in sorted(earlier, key=lambda c: (-c.stage, c.number))
        ]
        entry, link = cell.entry.id, self._room.actions_of_map.build_on
        title = tr("Build on which exercise?")
        self._pick(title, picks, self._under(cell), lambda key: link(entry, key or None))

    def either_or(self) -> None:
        """Make an either/or of the selected entry and the one above it, or end it."""
        cell, model = self._cell, self._room.model
        if cell is not None and model is not None:
            above = beside(model, cell.entry.id, across=0, down=-1)
            self._room.actions_of_map.either_or(cell.entry.id, above)

    def make_circuit(self) -> None:
        """Put the selected entry and all of its block into a circuit, or take it apart."""
        cell = self._cell
        if cell is None:
            return
        if cell.block.kind is BlockKind.CIRCUIT:
            self._room.actions_of_map.no_circuit(cell.block.id)
        else:
            ids = tuple(entry.id for entry in cell.block.entries)
            self._room.actions_of_map.circuit(ids)

    def open_card(self) -> None:
        """Go to the card of the selected entry, at the variant it starts with."""
        cell = self._cell
        if cell is None or cell.card is None:
            return
        index = next((i for i, v in enumerate(cell.card.variants) if v is cell.variant), 0)
        place = Place(Subject.CARD, cell.card.id, f"variants[{index}]")
        self._room.session.go_to(place)

    # ---- all kinds ------------------------------------------------------------------

    def copy(self) -> None:
        """Copy what is selected."""
        chosen = self._room.session.selection
        if chosen.kind in ("entry", "stage") and chosen.ids:
            self._room.actions_of_map.copy(chosen.kind, chosen.ids)

    def paste(self) -> None:
        """Paste into the block of the selected entry, or the stage's last."""
        cell, model = self._cell, self._room.model
        if cell is not None:
            self._room.actions_of_map.paste(cell.block.id)
        elif model is not None and model.stages:
            stage = next(
                (s for s in model.stages if s.id == self._room.selecting.stage_id), model.stages[0]
            )
            self._room.actions_of_map.paste(stage.blocks[-1].id if stage.blocks else "")

    def remove(self) -> None:
        """Remove what is selected."""
        chosen = self._room.session.selection
        if chosen.kind == "entry" and chosen.ids:
            self._room.actions_of_map.remove(chosen.ids[0])
        elif chosen.kind == "stage" and chosen.ids:
            self._room.actions_of_map.remove_stage(chosen.ids[0])

    def edit_gate(self) -> None:
        """Edit what must be true to move on from the selected stage."""
        if self._room.selecting.stage_id:
            self._room.open_target(Target("gate", self._room.selecting.stage_id), "move_on")

    def entry_menu(self, _entry_id: str, at: QPoint) -> None:
        """The menu of an entry."""
        self._open_menu(tr("Exercise"), at)

    def part_menu(self, kind: str, part_id: str, at: QPoint) -> None:
        """The menu of a stage's head or of a border."""
        if kind == "gate":
            self.menu = QMenu(self._room)
            target = Target("gate", part_id)
            on = self.menu.addAction(tr("Edit what leads on"))
            on.triggered.connect(lambda: self._room.open_target(target, "move_on"))
            back = self.menu.addAction(tr("Edit what leads back"))
            following = self._following(part_id)
            back.setEnabled(bool(following))
            back.triggered.connect(
                lambda: self._room.open_target(Target("back", following), "step_back")
            )
            self.menu.popup(at)
        else:
            self._open_menu(tr("Stage"), at)

    def _following(self, stage_id: str) -> str:
        model = self._room.model
        ids = [stage.id for stage in model.stages] if model is not None else []
        at = ids.index(stage_id) + 1 if stage_id in ids else len(ids)
        return ids[at] if at < len(ids) else ""

    def _open_menu(self, group: str, at: QPoint) -> None:
        """The commands of one group, and those that are about whatever is selected."""
        actions = self._room.actions()
        self.menu = QMenu(self._room)
        self.menu.addActions([each for each in actions if each.property(GROUP) == group])
        self.menu.addSeparator()
        self.menu.addActions([each for each in actions if each.property(GROUP) == ""][:1])
        self.menu.popup(at)
