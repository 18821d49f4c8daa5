"""Three-way merge of whole libraries: file by file, each by :func:`merge`.

A file that only one side has changed, added or deleted is taken as that side has it. One
that a side deleted and the other changed is a conflict of the file as a whole.
"""

from __future__ import annotations

from collections.abc import Mapping

import attrs
from immutabledict import immutabledict

from authoring.exchange.conflict import Conflict, ConflictKind, Name, Side
from authoring.exchange.merge import merge
from authoring.exchange.table import ROOT
from authoring.model.base import Node
from authoring.model.library import Library
from authoring.model.sentence import Sentence

FileChoices = Mapping[tuple[str, Name], Side]
"""Sides chosen, by the key of the file and the conflict's name."""

_NONE_CHOSEN: FileChoices = immutabledict()


@attrs.frozen
class MergedLibrary:
    """What the merge of three libraries came to.

    Attributes:
        files: the merged files by key, as ``mine`` has them in each open conflict; a file
            that can't be built is left out, and ``faults`` says why.
        conflicts: of each file that has any, settled ones included.
        images: names of the pictures that both together have.
    """

    files: Mapping[str, Node]
    conflicts: Mapping[str, tuple[Conflict, ...]]
    faults: Mapping[str, Sentence]
    images: frozenset[str]


def files_of(library: Library) -> dict[str, Node]:
    """The files of a library: by id, and the record and the clinic by their names."""
    found: dict[str, Node] = {"library": library.manifest}
    if library.clinic is not None:
        found["clinic"] = library.clinic
    return {**found, **library.protocols, **library.cards, **library.poses}


def merge_libraries(
    base: Library, mine: Library, theirs: Library, choices: FileChoices = _NONE_CHOSEN
) -> MergedLibrary:
    """Both sides' changes to one library.

    Raises:
        ModelError: they are not three versions of one library.
    """
    tables = [files_of(each) for each in (base, mine, theirs)]
    files: dict[str, Node] = {}
    conflicts: dict[str, tuple[Conflict, ...]] = {}
    faults: dict[str, Sentence] = {}
    for key in dict.fromkeys(k for table in tables for k in table):
        chosen = {name: side for (file, name), side in choices.items() if file == key}
        value, found, fault = _file([table.get(key) for table in tables], chosen)
        if value is not None:
            files[key] = value
        if found:
            conflicts[key] = found
        if fault is not None:
            faults[key] = fault
    kept = base.images & mine.images & theirs.images
    images = kept | (mine.images - base.images) | (theirs.images - base.images)
    return MergedLibrary(files, conflicts, faults, images)


def _file(
    versions: list[Node | None], chosen: Mapping[Name, Side]
) -> tuple[Node | None, tuple[Conflict, ...], Sentence | None]:
    base, mine, theirs = versions
    if theirs in (mine, base):
        return mine, (), None
    if mine == base:
        return theirs, (), None
    if base is not None and mine is not None and theirs is not None:
        merged = merge(base, mine, theirs, chosen)
        return merged.value, merged.conflicts, merged.fault
    # Deleted by one side and changed by the other, or added by both, each another way.
    whole = ConflictKind.DELETED if base is not None else ConflictKind.TOGETHER
    conflict = Conflict(whole, ROOT, "", mine, theirs)
    side = chosen.get(conflict.name, Side.MINE)
    return (mine if side is Side.MINE else theirs), (conflict,), None
