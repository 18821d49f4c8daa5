"""What the details panel is about: a noun of the protocol and where it stands. No Qt here."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from authoring.model.base import Node
from authoring.model.protocol import Block, Protocol, Stage


@frozen
class Target:
    """A part of a protocol by kind and id.

    ``kind`` is "entry", "stage", "gate" (the criteria after a stage), "back" (the step-back
    criteria of a stage), "block" or "protocol"; the id is "" for the protocol.
    """

    kind: str
    part_id: str = ""


ABOUT = Target("protocol")

SKIPPED = {
    "protocol": ("stages", "id", "slug"),
    "stage": ("blocks", "id", "move_on", "step_back"),
    "gate": (),
    "back": (),
    "block": ("entries", "id"),
    "entry": ("id", "card", "number"),
}
"""Fields that the map edits itself, or nobody should."""

ONLY = {"gate": ("move_on",), "back": ("step_back",)}
"""Fields shown alone."""


def find(protocol: Protocol, target: Target) -> tuple[Node, str] | None:
    """The noun of a target and its path, or None where it is gone."""
    if target.kind == "protocol":
        return protocol, ""
    for path, node in _parts(protocol, target.kind):
        if getattr(node, "id", "") == target.part_id:
            return node, path
    return None


def _parts(protocol: Protocol, kind: str) -> Iterator[tuple[str, Node]]:
    for s, stage in enumerate(protocol.stages):
        if kind in ("stage", "gate", "back"):
            yield f"stages[{s}]", stage
        elif kind == "block":
            yield from _blocks(stage, s)
        else:
            for path, block in _blocks(stage, s):
                for e, entry in enumerate(block.entries):
                    yield f"{path}.entries[{e}]", entry


def _blocks(stage: Stage, s: int) -> Iterator[tuple[str, Block]]:
    for b, block in enumerate(stage.blocks):
        yield f"stages[{s}].blocks[{b}]", block


def target_of(protocol: Protocol, path: str) -> tuple[Target, str]:
    """The part that a path leads to or into, and the rest of the path inside it."""
    kinds = ("entry", "block", "stage")
    for kind in kinds:
        for start, node in _parts(protocol, kind):
            if path == start or path.startswith((f"{start}.", f"{start}[")):
                rest = path[len(start) :].lstrip(".")
                if kind == "stage" and rest.startswith("move_on"):
                    return Target("gate", getattr(node, "id", "")), rest
                if kind == "stage" and rest.startswith("step_back"):
                    return Target("back", getattr(node, "id", "")), rest
                return Target(kind, getattr(node, "id", "")), rest
    return ABOUT, path
