"""Where plans are kept: a folder outside the library, and what lies in it. No Qt here."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from attrs import frozen

from authoring.editor.i18n import tr
from authoring.editor.page.files import Format, file_name
from authoring.files.atomic import make_folder, write_atomic
from authoring.files.documents import document_bytes, read_document
from authoring.files.errors import FileProblem
from authoring.model.plan import Plan

ENDING = ".plan.json"
MOST_RECENT = 12


@frozen
class KeptPlan:
    """A plan file as the list shows it."""

    path: Path
    label: str
    day: dt.date


def is_inside(folder: Path, library: Path) -> bool:
    """Whether a folder is the library's or lies in it: plans never enter a pack."""
    here, there = folder.resolve(), library.resolve()
    return here == there or there in here.parents


def recent(folder: Path) -> tuple[KeptPlan, ...]:
    """Plans in a folder, the latest first; the label is read off the file's name."""
    try:
        files = [path for path in folder.iterdir() if path.name.endswith(ENDING)]
        dated = sorted(((path.stat().st_mtime, path) for path in files), reverse=True)
    except OSError:
        return ()
    return tuple(
        KeptPlan(path, path.name[: -len(ENDING)], dt.datetime.fromtimestamp(when, dt.UTC).date())
        for when, path in dated[:MOST_RECENT]
    )


def path_for(folder: Path, plan: Plan) -> Path:
    """A file for a plan that takes no other plan's place: "A17 2026-03-02.plan.json"."""
    words = f"{plan.label or tr('Plan')} {plan.created:%Y-%m-%d}"
    name = file_name(words, Format.PDF)[: -len(Format.PDF.value)]
    path, number = folder / f"{name}{ENDING}", 2
    while path.exists() and not _is_of(path, plan):
        path, number = folder / f"{name} ({number}){ENDING}", number + 1
    return path


def _is_of(path: Path, plan: Plan) -> bool:
    try:
        return read_plan(path).id == plan.id
    except FileProblem:
        return False


def read_plan(path: Path) -> Plan:
    """A plan from its file.

    Raises:
        FileProblem: it can't be read, or is no plan.
    """
    found = read_document(path, Plan).document
    if not isinstance(found, Plan):  # read_document has refused any other
        raise TypeError("not a plan")
    return found


def write_plan(path: Path, plan: Plan) -> None:
    """Write a plan, whole or not at all.

    Raises:
        FileProblem: it can't be written.
    """
    make_folder(path.parent)
    write_atomic(path, document_bytes(plan))


def recovery_path(of_library: Path) -> Path:
    """Where a plan that is not saved yet is kept, beside the library's unsaved work."""
    return of_library.with_name(f"{of_library.stem}{ENDING}")
