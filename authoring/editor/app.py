"""Starts the editor and keeps its windows: one for each open library.

Only what the first painted window needs is imported here; the rest follows while that
window is on the screen.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QStandardPaths, QTimer
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from authoring.editor.appearance import Appearance
from authoring.editor.chunks import Chunks
from authoring.editor.crash import keep_work
from authoring.editor.focus_ring import FocusRing
from authoring.editor.garbage import Garbage, spare_what_is_there
from authoring.editor.i18n import tr
from authoring.editor.jobs import Jobs, take_short_turns
from authoring.editor.opening import Opening
from authoring.editor.settings import Settings

if TYPE_CHECKING:
    from authoring.editor.first_run import FirstRun
    from authoring.editor.shell import MainWindow
    from authoring.files.library import OpenLibrary

Ask = Callable[[QWidget | None, str, Path], Path | None]
"""Ask for a folder: parent, title, where to begin; None where the user turns back."""


def run(folder: Path | None) -> int:
    """Open the editor; the exit status once its last window is closed.

    Args:
        folder: library to open; None for the last one, or for the first page.
    """
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        app = QApplication(sys.argv[:1])
    app.setApplicationName("Rungbook")
    app.setOrganizationName("Rungbook")
    Garbage(app)
    take_short_turns()
    editor = Editor(app, Settings())
    sys.excepthook = keep_work(editor)
    editor.start(folder)
    return app.exec()


def documents_folder() -> Path:
    """The user's documents."""
    found = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    return Path(found) if found else Path.home()


def ask_for_folder(parent: QWidget | None, title: str, start: Path) -> Path | None:
    """Ask with the system's own dialog."""
    chosen = QFileDialog.getExistingDirectory(parent, title, str(start))
    return Path(chosen) if chosen else None


class Editor(QObject):
    """The open windows and what opens and closes them."""

    def __init__(
        self,
        app: QApplication,
        settings: Settings,
        ask: Ask = ask_for_folder,
        data: Path | None = None,
    ) -> None:
        """Args:
        ask: how a folder is asked for.
        data: where recovery files are kept; None for the user's data folder.
        """
        super().__init__(app)
        self.settings = settings
        self.appearance = Appearance(app, settings)
        self.appearance.in_steps = True
        self.focus_ring = FocusRing(app)
        self.windows: list[MainWindow] = []
        self.first_run: FirstRun | None = None
        self.opening: Opening | None = None
        self.jobs = Jobs(self)
        self._steps: list[Chunks] = []
        self._ask = ask
        self._data = data

    def start(self, folder: Path | None) -> None:
        """Open a library, else the last one, else the first page."""
        wanted = folder or next(iter(self.settings.recent), None)
        if wanted is None:
            self.show_first_run()
        else:
            self.request(wanted)

    # ---- libraries --------------------------------------------------------------

    def request(self, folder: Path) -> None:
        """Show a library in a window of its own; it is read away from the window."""
        folder = folder.absolute()
        if self._is_open(folder):
            return
        if not self.windows and self.first_run is None and self.opening is None:
            self.opening = Opening(self.settings.geometry)
            self.opening.show()
            # Reading begins when the page is on the screen: it would slow its painting.
            QTimer.singleShot(1, self, lambda: self._read(folder))
        else:
            self._read(folder)

    def _is_open(self, folder: Path) -> bool:
        known = next((w for w in self.windows if w.session.document.folder == folder), None)
        if known is not None:
            known.raise_()
            known.activateWindow()
        return known is not None

    def _read(self, folder: Path) -> None:
        def read() -> OpenLibrary:
            # What the window will need is brought here, too: importing takes long.
            from authoring.editor import library_window  # noqa: PLC0415 - late: start-up

            return library_window.read_library(folder)

        self.jobs.run(read, lambda opened, error: self._opened(folder, opened, error))

    def open(self, folder: Path) -> bool:
        """As :meth:`request`, and come back when it is done; False where it can't be opened."""
        folder = folder.absolute()
        if self._is_open(folder):
            return True
        self._read(folder)
        self.jobs.finish()
        for steps in tuple(self._steps):
            steps.finish()
        return self._is_open(folder)

    def _opened(
        self, folder: Path, opened: OpenLibrary | None, error: BaseException | None
    ) -> None:
        from authoring.editor import library_window  # noqa: PLC0415 - late: start-up time
        from authoring.editor.workers import sentence_of  # noqa: PLC0415 - late: start-up time

        if opened is None:
            self._warn(sentence_of(error or FileNotFoundError(folder)))
            self._put_away_opening()
            return
        spare_what_is_there()
        self.settings.remember(folder)
        window = library_window.make_window(opened, self.settings, self.appearance, self._data)
        # Each step for itself: a window that is being made must not hold up those there are.
        room = library_window.FIRST_ROOM
        steps = Chunks(
            [
                lambda: window.shelf.room(room),
                lambda: window.show_room(room),
                lambda: self._show(window),
                lambda: self._begin(window),
            ],
            self,
        )
        self._steps.append(steps)
        steps.finished.connect(lambda: self._steps.remove(steps))

    def _show(self, window: MainWindow) -> None:
        window.library_wanted.connect(self.request)
        window.folder_wanted.connect(self.choose_folder)
        window.start_wanted.connect(self.start_empty)
        window.quit_wanted.connect(self.quit)
        window.closed.connect(lambda: self._forget(window))
        self.windows.append(window)
        window.restoreGeometry(self.settings.geometry)
        window.show()
        self._put_away_pages()

    def _begin(self, window: MainWindow) -> None:
        """Begin what goes on beside the window."""
        if window not in self.windows:
            return
        session = window.session
        for problem in session.document.opened.problems[:1]:
            session.messages.warn(str(problem))
        window.safekeeping.begin()
        session.checks.start()
        from authoring.editor import library_window  # noqa: PLC0415 - late: start-up time

        self.jobs.run(library_window.bring_all, lambda _done, _error: self._prepare(window))

    def _prepare(self, window: MainWindow) -> None:
        if window in self.windows:
            window.shelf.prepare()

    def _put_away_opening(self) -> None:
        if self.opening is not None:
            self.opening.close()
            self.opening = None

    def _put_away_pages(self) -> None:
        self._put_away_opening()
        if self.first_run is not None:
            self.first_run.close()
            self.first_run = None

    def _forget(self, window: MainWindow) -> None:
        self.windows = [one for one in self.windows if one is not window]
        window.deleteLater()

    def _warn(self, sentence: str) -> None:
        if self.windows:
            self.windows[-1].session.messages.warn(sentence)
            return
        self.show_first_run().warn(sentence)

    def show_first_run(self) -> FirstRun:
        """Show the page that says how to begin."""
        from authoring.editor.first_run import FirstRun  # noqa: PLC0415 - late: start-up time

        if self.first_run is None:
            page = FirstRun(self.settings)
            page.example_wanted.connect(self.start_example)
            page.empty_wanted.connect(self.start_empty)
            page.folder_wanted.connect(self.choose_folder)
            page.library_wanted.connect(self.request)
            self.first_run = page
        self.first_run.show()
        return self.first_run

    def quit(self) -> None:
        """Close every window; one that the user keeps open keeps the program running."""
        for window in tuple(self.windows):
            if not window.close():
                return

    # ---- beginning ------------------------------------------------------------

    def choose_folder(self) -> None:
        """Ask for a library folder and open it."""
        folder = self._ask(self._parent(), tr("Open a library folder"), documents_folder())
        if folder is not None:
            self.request(folder)

    def start_example(self) -> None:
        """Copy the example clinic to a folder of the user's and open it."""
        self._start(tr("Folder for the example clinic"), "Larkfield", example=True)

    def start_empty(self) -> None:
        """Begin an empty library in a folder of the user's and open it."""
        self._start(tr("Folder for the new library"), tr("My library"), example=False)

    def _start(self, title: str, name: str, *, example: bool) -> None:
        chosen = self._ask(self._parent(), title, documents_folder())
        if chosen is None:
            return
        folder = free_folder(chosen, name)

        def make() -> None:
            from authoring.commands.new import new_library  # noqa: PLC0415 - late: start-up

            new_library(folder, example=example)

        self.jobs.run(make, lambda _done, error: self._started(folder, error))

    def _started(self, folder: Path, error: BaseException | None) -> None:
        from authoring.editor.workers import sentence_of  # noqa: PLC0415 - late: start-up time

        if error is not None:
            self._warn(sentence_of(error))
        else:
            self.request(folder)

    def _parent(self) -> QWidget | None:
        return QApplication.activeWindow()


def free_folder(chosen: Path, name: str) -> Path:
    """The chosen folder where it is empty, else a new one in it ("Larkfield 2")."""
    if not chosen.exists() or (chosen.is_dir() and not any(chosen.iterdir())):
        return chosen
    folder, number = chosen / name, 2
    while folder.exists():
        folder, number = chosen / f"{name} {number}", number + 1
    return folder
