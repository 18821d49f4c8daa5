"""Keeps a document's work: saves it, keeps a recovery file, watches the folder.

Nothing here blocks: files are written and read by jobs over immutable snapshots.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QLockFile, QObject, QStandardPaths, QTimer, Signal

from authoring.editor import outside, recovery
from authoring.editor.document import Document
from authoring.editor.i18n import tr
from authoring.editor.jobs import Jobs
from authoring.editor.outside import Outside
from authoring.editor.recovery import Recovered
from authoring.editor.workers import sentence_of
from authoring.files import saving
from authoring.files.errors import FileProblem, OutsideChange, Unconfirmed
from authoring.files.library import CARDS, PROTOCOLS, OpenLibrary
from authoring.model.base import evolve
from authoring.model.library import Library

RECOVERY_DELAY_MS = 2000
"""Unsaved work is kept this long after the last edit, at the latest four times as long."""
_LOOK_DELAY_MS = 400


def data_folder() -> Path:
    """The user's own folder for this program's data."""
    where = QStandardPaths.StandardLocation.AppDataLocation
    return Path(QStandardPaths.writableLocation(where))


def now() -> dt.datetime:
    """This computer's clock."""
    return dt.datetime.now(tz=dt.UTC).astimezone()


class Storage(QObject):
    """What happens between a document and the disk.

    Signals:
        saved(): every changed file is on the disk.
        save_failed(error): nothing was written, or the disk did not confirm it; the work
            is still here, and still counts as unsaved.
        outside_found(Outside): somebody else changed files meanwhile.
        state_changed(): :meth:`state_words` says something else.
        troubled(str): the recovery file or the folder can't be used; one sentence.
    """

    saved = Signal()
    save_failed = Signal(object)
    outside_found = Signal(object)
    state_changed = Signal()
    troubled = Signal(str)

    def __init__(
        self, document: Document, data: Path | None = None, parent: QObject | None = None
    ) -> None:
        """Args: data: where recovery files are kept; None for the user's data folder."""
        super().__init__(parent)
        self.document = document
        self.jobs = Jobs(self)
        self.path = recovery.recovery_path(data or data_folder(), document.folder)
        self.outside: Outside = ()
        self._saving = self._again = False
        self._unsettled: saving.SaveJob | None = None
        self._saved_at: dt.datetime | None = None
        self._kept_at: dt.datetime | None = None
        self._kept: Library | None = None
        self._looking = False
        self._trouble = ""
        self._lock: QLockFile | None = None
        self._keep_soon = QTimer(self, singleShot=True, interval=RECOVERY_DELAY_MS)
        self._keep_soon.timeout.connect(self.keep)
        self._keep_at_last = QTimer(self, singleShot=True, interval=4 * RECOVERY_DELAY_MS)
        self._keep_at_last.timeout.connect(self.keep)
        self._look_soon = QTimer(self, singleShot=True, interval=_LOOK_DELAY_MS)
        self._look_soon.timeout.connect(self.look)
        self._watcher: QFileSystemWatcher | None = None
        document.changed.connect(self._on_change)
        document.dirty_changed.connect(lambda _dirty: self.state_changed.emit())

    # ---- saving ---------------------------------------------------------------

    @property
    def is_saving(self) -> bool:
        """Whether a save is under way."""
        return self._saving

    def save(self) -> None:
        """Write every changed file, all together or none; editing goes on meanwhile."""
        if self._saving:
            self._again = True
            return
        if not self.document.is_dirty:
            self.saved.emit()
            return
        job, earlier = self.document.snapshot(), self._unsettled
        self._saving = True
        self.state_changed.emit()
        self.jobs.run(
            lambda: saving.save(job, earlier),
            lambda done, error: self._after_save(job, done, error),
        )

    def _after_save(
        self, job: saving.SaveJob, done: saving.Saved | None, error: BaseException | None
    ) -> None:
        self._saving = False
        again, self._again = self._again, False
        if error is not None or done is None:
            if isinstance(error, Unconfirmed):
                self._unsettled = job
            self.state_changed.emit()
            self.save_failed.emit(error)
            if isinstance(error, OutsideChange):
                # Asked again, even where the answer was to decide later.
                self.outside = ()
                self.look()
            return
        self._unsettled = None
        self.document.doubt(done.doubted)
        self.document.settle(done.opened, done.opened.library)
        self.keep()
        if done.doubt is not None:
            self.state_changed.emit()
            self.save_failed.emit(done.doubt)
            return
        self._saved_at = now()
        self.state_changed.emit()
        if again and self.document.is_dirty:
            self.save()
        else:
            self.saved.emit()

    def state_words(self) -> str:
        """Whether the work is safe, for the foot of the window."""
        if self._saving:
            return tr("Saving…")
        if self.document.is_dirty:
            if self._kept_at is None:
                return tr("Not saved yet")
            clock = self._kept_at.strftime("%H:%M")
            return tr("Not saved yet; recovery copy kept {time}", time=clock)
        if self._saved_at is None:
            return tr("All saved in {folder}", folder=self.document.folder.name)
        clock = self._saved_at.strftime("%H:%M")
        return tr("Saved {time} in {folder}", time=clock, folder=self.document.folder.name)

    # ---- the recovery file ------------------------------------------------------

    @property
    def can_keep(self) -> bool:
        """Whether this window has a recovery file of its own."""
        return self._lock is not None

    @property
    def is_kept(self) -> bool:
        """Whether the recovery file holds the work as it stands now."""
        return self._kept is not None and self._kept is self.document.library

    def claim(self) -> bool:
        """Claim the recovery file for this window; False where another program has it."""
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
        except OSError:
            return False
        lock = QLockFile(str(self.path) + ".lock")
        lock.setStaleLockTime(0)
        if not lock.tryLock(0):
            return False
        self._lock = lock
        return True

    def found(self) -> Recovered | None:
        """Unsaved work of an earlier run, None for none.

        Raises:
            FileProblem: there is some, and it can't be read.
        """
        if self._lock is None or not self.path.is_file():
            return None
        return recovery.read_recovery(self.path)

    def restore(self, kept: Recovered) -> None:
        """Put unsaved work of an earlier run back, as one step that can be undone."""
        opened, value = recovery.restored(self.document.opened, kept)
        self.document.keep_images(kept.images)
        name = tr("Restore unsaved work")
        self.document.take_over(name, opened, self.document.on_disk, value)

    def discard(self) -> None:
        """Forget unsaved work of an earlier run."""
        self._run_keep(None)

    def _on_change(self, _before: Library, _after: Library) -> None:
        self._keep_soon.start()
        if not self._keep_at_last.isActive():
            self._keep_at_last.start()

    def keep(self) -> None:
        """Keep unsaved work now; the file goes where there is none."""
        self._keep_soon.stop()
        self._keep_at_last.stop()
        self._run_keep(self.document.snapshot() if self.document.is_dirty else None)

    def _run_keep(self, job: saving.SaveJob | None) -> None:
        if self._lock is None:
            return
        path, at = self.path, now()

        def work() -> dt.datetime | None:
            if job is None:
                path.unlink(missing_ok=True)
                return None
            recovery.write_recovery(path, job, at)
            return at

        kept = None if job is None else job.after
        self.jobs.run(work, lambda at, error: self._after_keep(kept, at, error))

    def _after_keep(
        self, kept: Library | None, at: dt.datetime | None, error: BaseException | None
    ) -> None:
        if error is not None:
            self._tell_trouble(tr("No recovery copy can be kept: {why}", why=sentence_of(error)))
            return
        self._kept_at, self._kept = at, kept
        self.state_changed.emit()

    def _tell_trouble(self, sentence: str) -> None:
        if sentence != self._trouble:
            self._trouble = sentence
            self.troubled.emit(sentence)

    # ---- outside changes --------------------------------------------------------

    def watch(self) -> None:
        """Look at the folder from now on whenever the system says that it changed."""
        folder = self.document.folder
        self._watcher = QFileSystemWatcher(self)
        there = [path for path in (folder, folder / CARDS, folder / PROTOCOLS) if path.is_dir()]
        self._watcher.addPaths([str(path) for path in there])
        self._watcher.directoryChanged.connect(lambda _path: self._look_soon.start())

    def look(self) -> None:
        """Look whether somebody else changed files; `outside_found` tells."""
        if self._looking:
            return
        if self._saving:
            self._look_soon.start()
            return
        self._looking = True
        opened, unsettled = self.document.opened, self._unsettled
        self.jobs.run(
            lambda: outside.look(opened, unsettled),
            lambda done, error: self._seen(opened, done, error),
        )

    def _seen(
        self, opened: OpenLibrary, found: Outside | None, error: BaseException | None
    ) -> None:
        self._looking = False
        if opened is not self.document.opened:
            self._look_soon.start()
        elif isinstance(error, FileProblem):
            self._tell_trouble(sentence_of(error))
        elif found is not None:
            problems, changes = outside.told_apart(found)
            if problems:
                known = evolve(opened, problems=(*opened.problems, *problems))
                self.document.settle(known, self.document.on_disk)
                self._tell_trouble(" ".join(map(str, problems)))
            if changes != self.outside:
                self.outside = changes
                if changes:
                    self.outside_found.emit(changes)

    def take_theirs(self) -> None:
        """Take the changed files over; one's own work on them can be undone back."""
        opened, on_disk = self._rebased()
        value = outside.theirs(self.document.library, self.outside)
        self._take(tr("Take over outside changes"), opened, on_disk, value)

    def keep_mine(self) -> None:
        """Keep one's own work; the next save writes over the changed files."""
        opened, on_disk = self._rebased()
        self.document.settle(opened, on_disk)
        self.outside = ()
        self.keep()
        self.state_changed.emit()

    def keep_both(self) -> None:
        """Take the changed files over, and keep one's own changed cards and protocols as copies."""
        opened, on_disk = self._rebased()
        value = outside.both(
            self.document.library, self.document.on_disk, self.outside, tr("{name} (mine)")
        )
        self._take(tr("Keep both versions"), opened, on_disk, value)

    def _rebased(self) -> tuple[OpenLibrary, Library]:
        return outside.rebased(self.document.opened, self.document.on_disk, self.outside)

    def _take(self, name: str, opened: OpenLibrary, on_disk: Library, value: Library) -> None:
        self.outside = ()
        self.document.take_over(name, opened, on_disk, value)
        self.keep()
        self.state_changed.emit()

    def close(self) -> None:
        """Finish what is being written, and let go of the recovery file."""
        self._keep_soon.stop()
        self._keep_at_last.stop()
        self._look_soon.stop()
        self.jobs.finish()
        if self._lock is not None:
            self._lock.unlock()
            self._lock = None
