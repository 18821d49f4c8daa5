"""Saving and printing: asks where to, works away from the window, says how it ended."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, QStandardPaths, QUrl, Signal
from PySide6.QtGui import QDesktopServices
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QFileDialog, QWidget

from authoring.editor.i18n import tr, tr_n
from authoring.editor.page.files import (
    FORMATS,
    Format,
    file_name,
    format_words,
    save_page,
    with_ending,
)
from authoring.editor.page.printing import PrintJob, print_page, printer_for
from authoring.editor.page.wish import PageJob, title_of
from authoring.editor.session import Session
from authoring.editor.workers import LatestTask, sentence_of
from authoring.handout.document import PageSize

AskFile = Callable[[QWidget | None, Path, Format], Path | None]
"""Ask for a file: parent, where to begin, its kind; None where the user turns back."""

AskPrinter = Callable[[QWidget | None, QPrinter], bool]
"""Let the user choose a printer; False where the user turns back."""

ShowFolder = Callable[[Path], object]

_FOLDER = "page/folder"


def ask_for_file(parent: QWidget | None, start: Path, kind: Format) -> Path | None:
    """Ask with the system's own dialog; it warns where a file would be replaced."""
    dialog = QFileDialog(parent, tr("Save the page"), str(start.parent))
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    filters = {one: f"{format_words(one)} (*{one.value})" for one in FORMATS}
    dialog.setNameFilters(list(filters.values()))
    dialog.selectNameFilter(filters[kind])
    dialog.setDefaultSuffix(kind.value[1:])
    dialog.filterSelected.connect(
        lambda chosen: dialog.setDefaultSuffix(
            next(one.value[1:] for one, words in filters.items() if words == chosen)
        )
    )
    dialog.selectFile(start.name)
    if not dialog.exec() or not dialog.selectedFiles():
        return None
    return Path(dialog.selectedFiles()[0])


def ask_for_printer(parent: QWidget | None, printer: QPrinter) -> bool:
    """Ask with the system's own dialog."""
    dialog = QPrintDialog(printer, parent)
    if printer.toPage():
        dialog.setMinMax(printer.fromPage(), printer.toPage())
    return bool(dialog.exec())


def show_folder(path: Path) -> None:
    """Open the folder of a file in the system's own file manager."""
    QDesktopServices.openUrl(QUrl.fromLocalFile(str(path.parent)))


class Outlet(QObject):
    """Sends a page to a file or a printer, one at a time.

    Signals:
        busy_changed(str): what is being done ("Saving the page"), "" for nothing.
        slow(): it takes longer than a second; show progress and a way to stop.
        progressed(done, of)
    """

    busy_changed = Signal(str)
    slow = Signal()
    progressed = Signal(int, int)

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session, self._parent = session, parent
        self.ask_file: AskFile = ask_for_file
        self.ask_printer: AskPrinter = ask_for_printer
        self.show_folder: ShowFolder = show_folder
        self._saving = LatestTask(save_page, delay_ms=0, parent=self)
        self._saving.done.connect(self._saved)
        self._printing = LatestTask(print_page, delay_ms=0, parent=self)
        self._printing.done.connect(self._printed)
        for task, words in ((self._saving, _saving), (self._printing, _printing)):
            task.failed.connect(self._failed)
            task.slow.connect(self.slow)
            task.progressed.connect(self.progressed)
            task.busy_changed.connect(
                lambda on, words=words: self.busy_changed.emit(words() if on else "")
            )

    @property
    def is_busy(self) -> bool:
        """Whether something is being saved or printed."""
        return self._saving.is_busy or self._printing.is_busy

    def cancel(self) -> None:
        """Stop what is being done; a file that is not whole is not written."""
        self._saving.cancel()
        self._printing.cancel()
        self._session.tell(tr("Stopped."))

    # ---- saving ---------------------------------------------------------------

    def save(self, job: PageJob, kind: Format) -> None:
        """Ask for a file and write the page to it."""
        if self.is_busy:
            return
        start = self._folder() / file_name(title_of(job), kind)
        chosen = self.ask_file(self._parent, start, kind)
        if chosen is None:
            return
        path = with_ending(chosen, kind)
        self._session.settings.keep(_FOLDER, str(path.parent))
        self._saving.ask_now((job, path))

    def _folder(self) -> Path:
        kept = self._session.settings.kept(_FOLDER)
        if kept and Path(kept).is_dir():
            return Path(kept)
        place = QStandardPaths.StandardLocation.DocumentsLocation
        return Path(QStandardPaths.writableLocation(place) or Path.home())

    def _saved(self, path: Path) -> None:
        self._session.tell(
            tr("Saved “{name}”.", name=path.name),
            tr("Show in folder"),
            lambda: self.show_folder(path),
        )

    # ---- printing ---------------------------------------------------------------

    def print(self, job: PageJob, paper: PageSize, count: int) -> None:
        """Ask for a printer and print the page."""
        if self.is_busy:
            return
        printer = printer_for(job, paper, count)
        if self.ask_printer(self._parent, printer):
            self._printing.ask_now(PrintJob(job, printer))

    def _printed(self, count: int) -> None:
        self._session.tell(
            tr_n("{n} page sent to the printer.", "{n} pages sent to the printer.", count)
        )

    def _failed(self, error: BaseException) -> None:
        self._session.messages.warn(sentence_of(error))


def _saving() -> str:
    return tr("Saving the page")


def _printing() -> str:
    return tr("Printing")
