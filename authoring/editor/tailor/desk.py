"""The work on one patient: its undo stack, its file, and its recovery copy.

The desk belongs to the session, so that the work outlives the room, which is made anew when
the text size changes.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from authoring.editor.history import History
from authoring.editor.i18n import tr
from authoring.editor.protocol_checks import today
from authoring.editor.sentences import said
from authoring.editor.session import Session
from authoring.editor.tailor import plans_folder, work
from authoring.editor.tailor.choices import Choice
from authoring.editor.tailor.report import Draft
from authoring.editor.tailor.work import Work
from authoring.files.atomic import make_folder
from authoring.files.errors import FileProblem
from authoring.model.base import ModelError, evolve
from authoring.model.patient import Presentation
from authoring.model.plan import Plan
from authoring.tailoring.overrides import OverrideError

_CLINICIAN = "tailor/clinician"
_FOLDER = "tailor/folder"
_KEEP_MS = 2000


class Desk(QObject):
    """Signals:
    changed(): the work is another value.
    refused(sentence): a decision can't be made as it is.
    name_wanted(): a decision needs a clinician's name first.
    """

    changed = Signal()
    refused = Signal(str)
    name_wanted = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        first = (session.protocol_id,) if session.protocol_id else ()
        self._history: History[Work] = History(work.fresh(first))
        self.path: Path | None = None
        self.review: Draft | None = None
        self._saved: Plan | None = None
        self._keep = QTimer(self, singleShot=True, interval=_KEEP_MS)
        self._keep.timeout.connect(self.keep_copy)
        session.document.changed.connect(self.refresh)
        self._copy = _Copy(session)
        self._restore()
        self.refresh()

    # ---- what is there ----------------------------------------------------------

    @property
    def work(self) -> Work:
        """The work as it stands."""
        return self._history.value

    @property
    def plan(self) -> Plan | None:
        """The plan as it stands, None while nothing is chosen."""
        return self.work.plan

    @property
    def clinician(self) -> str:
        """Who decides, as remembered on this computer."""
        return self._session.settings.kept(_CLINICIAN)

    @clinician.setter
    def clinician(self, name: str) -> None:
        self._session.settings.keep(_CLINICIAN, name.strip())
        self.refresh()

    @property
    def folder(self) -> Path | None:
        """The folder for plans, None until one is chosen."""
        kept = self._session.settings.kept(_FOLDER)
        return Path(kept) if kept else None

    def choose_folder(self, folder: Path) -> bool:
        """Keep plans in a folder; False where it lies in the library."""
        if plans_folder.is_inside(folder, self._session.document.opened.folder):
            self.refused.emit(
                tr("Plans are about patients, so they stay outside the library; choose another.")
            )
            return False
        self._session.settings.keep(_FOLDER, str(folder))
        return True

    @property
    def is_dirty(self) -> bool:
        """Whether something a person did is not saved."""
        return self.plan is not self._saved and bool(self._history.steps)

    # ---- editing ------------------------------------------------------------------

    def refresh(self, *_library: object) -> None:
        """Make the plan anew from what the library is now; nothing a person did."""
        now = self.work
        if now.kept is not None and not self._history.steps:
            self.changed.emit()
            return
        made = work.proposed(now, self._session.library, self.clinician, today())
        self._history = History(made, self._history.steps, self._history.undone)
        self.changed.emit()

    def edit(self, name: str, change: Callable[[Work], Work], merge_key: str = "") -> bool:
        """Change what the plan is made from; the plan is made anew."""
        try:
            new = change(self.work)
            new = work.proposed(new, self._session.library, self.clinician, today())
        except ModelError as error:
            self.refused.emit(str(error))
            return False
        self.put(name, new, merge_key)
        return True

    def answer(
        self, name: str, change: Callable[[Presentation], Presentation], merge_key: str = ""
    ) -> bool:
        """Change a fact about the patient."""
        return self.edit(
            name, lambda now: evolve(now, presentation=change(now.presentation)), merge_key
        )

    def decide(self, name: str, choice: Choice) -> bool:
        """Make a decision on the plan; False with a sentence where it can't be made."""
        return self._decide(name, lambda now: work.decided(now, self._session.library, choice))

    def sign(self, item: str, who: str) -> bool:
        """Put a second clinician's sign under the decisions about an exercise."""
        return self._decide(tr("Sign"), lambda now: work.signed(now, item, who, today()))

    def see_done(self, item: str, done: bool) -> None:
        """Note that an exercise was seen done in the room today."""
        day = today() if done else None
        self.put(tr("Seen done"), work.seen(self.work, item, day))

    def _decide(self, name: str, change: Callable[[Work], Work]) -> bool:
        try:
            new = change(self.work)
        except (OverrideError, ModelError) as error:
            self.refused.emit(str(error))
            return False
        self.put(name, new)
        return True

    def put(self, name: str, new: Work, merge_key: str = "") -> None:
        """Put another value in the work's place, as a step of its own undo."""
        self._history = self._history.edited(name, new, merge_key)
        self._keep.start()
        self.changed.emit()

    def seal(self) -> None:
        """End a step of typing."""
        self._history = self._history.sealed()

    def undo(self) -> None:
        """Take the last step on this plan back."""
        self._history = self._history.undo()
        self.changed.emit()

    def redo(self) -> None:
        """Bring the step that was taken back again."""
        self._history = self._history.redo()
        self.changed.emit()

    # ---- files ----------------------------------------------------------------------

    def begin(self) -> None:
        """Begin with a new patient."""
        first = (self._session.protocol_id,) if self._session.protocol_id else ()
        self._start(work.fresh(first), None, None)

    def open(self, path: Path) -> bool:
        """Open a plan; False with a sentence where it can't be read."""
        try:
            plan = plans_folder.read_plan(path)
        except FileProblem as problem:
            self.refused.emit(said(problem.whole))
            return False
        self._start(work.opened(plan), path, plan)
        return True

    def _start(self, new: Work, path: Path | None, saved: Plan | None) -> None:
        self._history = History(new)
        self.path, self._saved = path, saved
        self.review = None
        self._keep.stop()
        self._copy.drop()
        self.refresh()

    def save(self) -> Path | None:
        """Write the plan into the chosen folder; None with a sentence where that fails."""
        plan, folder = self.plan, self.folder
        if plan is None or folder is None:
            return None
        path = self.path or plans_folder.path_for(folder, plan)
        try:
            plans_folder.write_plan(path, plan)
        except FileProblem as problem:
            self.refused.emit(said(problem.whole))
            return None
        self.path, self._saved = path, plan
        self._keep.stop()
        self._copy.drop()
        self.changed.emit()
        return path

    # ---- recovery -----------------------------------------------------------------------

    def keep_copy(self) -> None:
        """Keep what is not saved in the user's data folder."""
        if self.is_dirty and self.plan is not None:
            self._copy.keep(self.plan)

    def _restore(self) -> None:
        plan = self._copy.read()
        if plan is None:
            return
        self._history = History(work.opened(plan))
        words = tr("The plan for {label} was not saved; here it is again.", label=plan.label or "–")
        QTimer.singleShot(0, lambda: self._session.tell(words, tr("Begin anew"), self.begin))


class _Copy:
    """The copy of what is not saved, in the user's data folder."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._path = plans_folder.recovery_path(session.storage.path)

    def keep(self, plan: Plan) -> None:
        """Write it; a failure is said."""
        try:
            make_folder(self._path.parent.parent)
            plans_folder.write_plan(self._path, plan)
        except FileProblem as problem:
            self._session.messages.warn(said(problem.whole))

    def drop(self) -> None:
        """Take it away."""
        self._path.unlink(missing_ok=True)

    def read(self) -> Plan | None:
        """What it holds; None where there is none, or none that can be read."""
        if not self._path.exists():
            return None
        try:
            return plans_folder.read_plan(self._path)
        except FileProblem as problem:
            self._session.messages.warn(said(problem.whole))
            return None


def desk_of(session: Session) -> Desk:
    """The session's desk; made when it is first asked for."""
    found = session.findChild(Desk, "", Qt.FindChildOption.FindDirectChildrenOnly)
    return found if isinstance(found, Desk) else Desk(session)
