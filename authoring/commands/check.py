"""``rungbook check``: every result of every check, of libraries and of single files."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from functools import partial
from pathlib import Path

from attrs import field, frozen

from authoring.checks.library import iter_library
from authoring.checks.result import (
    CheckResult,
    Strength,
    Subject,
    schema_result,
    unknown_field_result,
)
from authoring.commands.outcome import Tell, silent
from authoring.commands.source import library_of
from authoring.files.documents import Invalid, Loaded, read_document
from authoring.files.errors import FileProblem
from authoring.files.library import CLINIC, MANIFEST, OpenLibrary, open_library


@frozen
class Found:
    """One result and the file it is about."""

    file: Path
    result: CheckResult


@frozen
class Report:
    """What a run of the checks found.

    Attributes:
        found: results, files in order, most important first within each.
        unreadable: files inside a library that could not be used at all.
        form_only: files that lie in no library, so that only their form could be judged.
    """

    found: tuple[Found, ...]
    unreadable: tuple[FileProblem, ...] = ()
    form_only: tuple[Path, ...] = ()

    def count(self, strength: Strength) -> int:
        """How many results have this strength."""
        return sum(item.result.strength is strength for item in self.found)


_ORDER = {strength: index for index, strength in enumerate(Strength)}


def check_paths(paths: Iterable[Path], today: dt.date, tell: Tell = silent) -> Report:
    """Check libraries and files.

    Args:
        paths: library folders and files of any of our formats.
        today: day against which review dates are held.
        tell: called with the files of a library read or checked so far, and all of them.

    Raises:
        FileProblem: a named path can't be used.
    """
    found: list[Found] = []
    unreadable: list[FileProblem] = []
    form_only: list[Path] = []
    libraries = _Libraries(today, tell)
    for path in paths:
        if _is_folder(path):
            report = libraries.checked(path).report
        else:
            report = _check_file(path, libraries)
        found += report.found
        unreadable += report.unreadable
        form_only += report.form_only
    return Report(tuple(found), tuple(unreadable), tuple(form_only))


def _is_folder(path: Path) -> bool:
    """Whether it is a folder; what can't even be asked is refused when it is read."""
    try:
        return path.is_dir()
    except OSError:
        return False


def _sorted(found: Iterable[Found]) -> tuple[Found, ...]:
    unique = dict.fromkeys(found)
    return tuple(sorted(unique, key=lambda item: (item.file, _ORDER[item.result.strength])))


# ---- a library ------------------------------------------------------------------------


@frozen
class _Checked:
    """A library as it was read, and all that its checks found."""

    opened: OpenLibrary
    report: Report


@frozen
class _Libraries:
    """Libraries checked so far: however many files of one are named, it is checked once."""

    today: dt.date
    tell: Tell
    _done: dict[Path, _Checked] = field(factory=dict)

    def checked(self, folder: Path) -> _Checked:
        """A library, read and checked.

        Raises:
            FileProblem: it can't be opened.
        """
        if folder not in self._done:
            opened = open_library(folder, partial(self.tell, "Reading"))
            self._done[folder] = _Checked(opened, _check_opened(opened, self.today, self.tell))
        return self._done[folder]


def _check_opened(opened: OpenLibrary, today: dt.date, tell: Tell) -> Report:
    library = opened.library
    total = 1 + (library.clinic is not None) + len(library.protocols) + len(library.cards)
    found: list[Found] = []
    for done, results in enumerate(iter_library(library, today), 1):
        found += [Found(_file(opened, result), result) for result in results]
        tell("Checking", done, total)
    found += _unknown_fields(opened)
    found += [item for problem in opened.problems for item in _faults(problem)]
    return Report(_sorted(found), opened.problems)


def _file(opened: OpenLibrary, result: CheckResult) -> Path:
    by_subject = {Subject.CLINIC: CLINIC, Subject.LIBRARY: MANIFEST}
    name = by_subject.get(result.subject, result.subject_id)
    return opened.paths.get(name, opened.folder / by_subject.get(result.subject, ""))


def _unknown_fields(opened: OpenLibrary) -> Iterator[Found]:
    ids = {path: key for key, path in opened.paths.items()}
    for file, fields in opened.unknown.items():
        subject = _subject_of(file)
        for name in fields:
            yield Found(file, unknown_field_result(subject, ids.get(file, ""), name))


def _subject_of(file: Path) -> Subject:
    for ending, subject in (
        (".card.json", Subject.CARD),
        (".protocol.json", Subject.PROTOCOL),
        (CLINIC, Subject.CLINIC),
    ):
        if file.name.endswith(ending):
            return subject
    return Subject.LIBRARY


def _faults(problem: FileProblem) -> Iterator[Found]:
    """Every fault of a file that has the right format; the one sentence of any other."""
    subject = _subject_of(problem.path)
    if isinstance(problem, Invalid):
        for fault in problem.faults:
            yield Found(
                problem.path, schema_result(subject, "", fault.path, fault.sentence, fault.mend)
            )
    else:
        yield Found(problem.path, schema_result(subject, "", "", problem.sentence, problem.mend))


# ---- one file ---------------------------------------------------------------------------


def _check_file(path: Path, libraries: _Libraries) -> Report:
    loaded = read_document(path)
    folder = library_of(path)
    checked = libraries.checked(folder) if folder is not None else None
    here = path.resolve()
    if checked is None or not any(file.resolve() == here for file in _files(checked.opened)):
        return Report(_sorted(_alone(path, loaded)), form_only=(path,))
    return Report(tuple(item for item in checked.report.found if item.file.resolve() == here))


def _files(opened: OpenLibrary) -> Iterator[Path]:
    """Every file that the checks of a library look at."""
    yield from opened.paths.values()
    yield from (problem.path for problem in opened.problems)


def _alone(path: Path, loaded: Loaded) -> Iterator[Found]:
    """A file outside any library: only its form can be judged."""
    for name in loaded.unknown:
        yield Found(path, unknown_field_result(_subject_of(path), "", name))
