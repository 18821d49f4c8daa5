"""What the map shows, as values: cells, links and gates of one protocol. No Qt here."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from authoring.model.card import Card, Variant
from authoring.model.criterion import Criterion
from authoring.model.dose import Dose
from authoring.model.edits.lines import Line, LineName, line_name, packed_rows, progression_lines
from authoring.model.edits.places import placed_entries
from authoring.model.edits.steps import Step, dose_of, step
from authoring.model.library import Library
from authoring.model.protocol import Block, Entry, Protocol, Stage
from authoring.model.text import Text
from authoring.model.vocabulary import BlockKind, TermKind


@frozen
class Cell:
    """One entry on the map.

    Attributes:
        path: its place in the protocol.
        stage, row: column and row, counted from 0.
        slot: place among the entries of the same column and row.
        joined: whether it is an either/or with the entry above it.
        card, variant: None where they are missing.
    """

    entry: Entry
    path: str
    number: int
    stage: int
    row: int
    slot: int
    joined: bool
    block: Block
    card: Card | None
    variant: Variant | None
    dose: Dose | None

    @property
    def rungs(self) -> tuple[int, ...]:
        """The rungs that the card has."""
        return tuple(v.rung for v in self.card.variants) if self.card is not None else ()

    @property
    def tagged(self) -> bool:
        """Whether the block is worth a word: a warm-up, a circuit, one with a name."""
        return self.block.kind is not BlockKind.MAIN


@frozen
class Strand:
    """A link between two entries; ``step`` is None where their cards differ."""

    base: str
    entry: str
    step: Step | None


@frozen
class Gate:
    """The border after a stage: what leads on, and what leads back from the next one."""

    stage: int
    move_on: tuple[Criterion, ...]
    step_back: tuple[Criterion, ...]
    last: bool


@frozen
class Row:
    """One row: the names of its lines, and how many slots its tallest cell has."""

    names: tuple[LineName, ...]
    entries: int
    slots: int


@frozen
class MapModel:
    """Everything on the map of one protocol."""

    protocol: Protocol
    stages: tuple[Stage, ...]
    cells: tuple[Cell, ...]
    rows: tuple[Row, ...]
    strands: tuple[Strand, ...]
    gates: tuple[Gate, ...]

    def cell(self, entry_id: str) -> Cell | None:
        """The cell of an entry, or None."""
        return next((cell for cell in self.cells if cell.entry.id == entry_id), None)


def map_model(protocol: Protocol, library: Library) -> MapModel:
    """The map of a protocol."""
    cards = library.cards
    lines = progression_lines(protocol)
    rows = packed_rows(protocol, lines, cards=cards)
    purposes = {t.id: t.name for t in library.manifest.terms if t.kind is TermKind.PURPOSE}
    homes: dict[str, tuple[int, int]] = {}
    sizes = []
    for index, row in enumerate(rows):
        stacks = [0] * len(protocol.stages)
        for line in row:
            for stage, ids in enumerate(line.cells):
                for entry_id in ids:
                    homes[entry_id] = (index, stacks[stage])
                    stacks[stage] += 1
        names = tuple(_name(protocol, line, cards, purposes, library) for line in row)
        sizes.append(Row(tuple(dict.fromkeys(names)), sum(stacks), max(stacks, default=0)))
    entries = {entry.id: entry for entry in protocol.entries()}
    strands = tuple(
        Strand(link.base, link.entry, step(entries[link.base], entries[link.entry], cards))
        for row in rows
        for line in row
        for link in line.links
    )
    return MapModel(
        protocol,
        protocol.stages,
        _cells(protocol, cards, homes),
        tuple(sizes),
        strands,
        _gates(protocol),
    )


def _name(
    protocol: Protocol,
    line: Line,
    cards: Mapping[str, Card],
    purposes: Mapping[str, Text],
    library: Library,
) -> LineName:
    return line_name(
        protocol,
        line,
        cards=cards,
        purposes=purposes,
        library_language=library.manifest.language,
    )


def _cells(
    protocol: Protocol, cards: Mapping[str, Card], homes: Mapping[str, tuple[int, int]]
) -> tuple[Cell, ...]:
    numbers = protocol.numbers()
    last: dict[tuple[int, int], str | None] = {}
    found = []
    for place, entry in placed_entries(protocol):
        row, slot = homes[entry.id]
        card = cards.get(entry.card)
        key = (place.stage, row)
        joined = entry.choice is not None and last.get(key) == entry.choice
        last[key] = entry.choice
        found.append(
            Cell(
                entry=entry,
                path=f"stages[{place.stage}].blocks[{place.block}].entries[{place.entry}]",
                number=numbers[entry.id],
                stage=place.stage,
                row=row,
                slot=slot,
                joined=joined,
                block=protocol.stages[place.stage].blocks[place.block],
                card=card,
                variant=card.variant(entry.start) if card is not None else None,
                dose=dose_of(entry, card),
            )
        )
    return tuple(found)


def _gates(protocol: Protocol) -> tuple[Gate, ...]:
    stages = protocol.stages
    gates = []
    for index, stage in enumerate(stages):
        last = index == len(stages) - 1
        back = () if last else stages[index + 1].step_back
        gates.append(Gate(index, stage.move_on, back, last))
    return tuple(gates)
