"""From the model to what each view shows."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from attrs import frozen

from authoring.checks.result import CheckResult, Strength
from authoring.editor.i18n import ltr, tr, tr_n
from authoring.editor.place import is_within
from authoring.editor.stage_map.entry_view import EntryFace
from authoring.editor.stage_map.gate_layout import Criteria
from authoring.editor.stage_map.gate_view import GateFace
from authoring.editor.stage_map.geometry import Geometry
from authoring.editor.stage_map.head_view import StageFace
from authoring.editor.stage_map.model import Cell, Gate, MapModel
from authoring.editor.stage_map.names_view import RowFace
from authoring.editor.stage_map.words import MapWords

_ORDER = list(Strength)


@frozen
class Faces:
    """What the whole map shows."""

    entries: dict[str, EntryFace]
    words: dict[str, str]
    stages: tuple[StageFace, ...]
    gates: tuple[GateFace, ...]


def faces(
    model: MapModel, words: MapWords, checks: Sequence[CheckResult], folded: Collection[int]
) -> Faces:
    """What the whole map of a model shows.

    Args:
        checks: Protocol checks of this protocol.
        folded: numbers of the borders that are folded.
    """
    was = {
        strand.entry: strand.step.before.rung
        for strand in model.strands
        if strand.step is not None and strand.step.rungs
    }
    plates = any(cell.variant is not None and cell.variant.pictures for cell in model.cells)
    return Faces(
        entries={
            cell.entry.id: _entry(cell, words, checks, was.get(cell.entry.id), plates=plates)
            for cell in sorted(model.cells, key=lambda c: (c.stage, c.row, c.slot))
        },
        words={strand.entry: words.strand(strand) for strand in model.strands},
        stages=tuple(_stage(model, index, words) for index in range(len(model.stages))),
        gates=tuple(_gate(model, gate, words, gate.stage in folded) for gate in model.gates),
    )


def _entry(
    cell: Cell,
    words: MapWords,
    checks: Sequence[CheckResult],
    was: int | None,
    *,
    plates: bool,
) -> EntryFace:
    mine = [check for check in checks if is_within(check.path, cell.path)]
    worst = min((check.strength for check in mine), key=_ORDER.index, default=None)
    return EntryFace(
        cell=cell,
        name=words.name(cell),
        dose=ltr(words.brief(cell.dose)),
        block=words.block(cell),
        spoken=words.spoken(cell, len(mine)),
        strength=worst,
        was=was,
        plates=plates,
    )


def _stage(model: MapModel, index: int, words: MapWords) -> StageFace:
    stage = model.stages[index]
    name, facts = words.text(stage.name), words.stage_facts(stage)
    lead = words.text(stage.lead) or (words.text(stage.aims[0]) if stage.aims else "")
    count = sum(cell.stage == index for cell in model.cells)
    exercises = tr_n("{n} exercise", "{n} exercises", count)
    spoken = ", ".join(
        part for part in (tr("Stage {n}", n=index + 1), name, lead, *facts, exercises) if part
    )
    return StageFace(stage.id, index + 1, name or tr("No name"), lead, facts, spoken)


def _gate(model: MapModel, gate: Gate, words: MapWords, folded: bool) -> GateFace:
    title = tr("Finished when") if gate.last else tr("Move on when")
    on = tuple(words.criterion(criterion) for criterion in gate.move_on)
    back = tuple(words.criterion(criterion) for criterion in gate.step_back)
    spoken = f"{title}: " + ("; ".join(" ".join(filter(None, c)) for c in on) or tr("nothing yet"))
    if back:
        spoken += ". " + tr("Back when") + ": " + "; ".join(" ".join(filter(None, c)) for c in back)
    brief = Criteria(
        tuple(words.brief_criterion(criterion) for criterion in gate.move_on),
        tuple(words.brief_criterion(criterion) for criterion in gate.step_back),
    )
    stage_id = model.stages[gate.stage].id
    return GateFace(stage_id, title, Criteria(on, back), brief, folded, spoken)


def rows(model: MapModel, geometry: Geometry, words: MapWords) -> tuple[RowFace, ...]:
    """What stands beside each row."""
    return tuple(
        RowFace(
            ", ".join(dict.fromkeys(words.line(name) for name in row.names)),
            tr_n("{n} exercise", "{n} exercises", row.entries),
            top,
            height,
        )
        for row, (top, height) in zip(model.rows, geometry.rows, strict=True)
    )
