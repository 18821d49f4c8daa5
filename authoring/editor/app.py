"""Starts the editor and keeps its windows: one for each open library."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, QStandardPaths
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from authoring.editor.appearance import Appearance
from authoring.editor.document import Document
from authoring.editor.first_run import FirstRun
from authoring.editor.focus_ring import FocusRing
from authoring.editor.i18n import tr
from authoring.editor.messages import Message
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.files.errors import FileProblem
from authoring.files.library import open_library

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
    editor = Editor(app, Settings())
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
        super().__init__(app)
        self.settings = settings
        self.appearance = Appearance(app, settings)
        self.focus_ring = FocusRing(app)
        self.windows: list[MainWindow] = []
        self.first_run: FirstRun | None = None
        self._ask = ask
        self._data = data

    def start(self, folder: Path | None) -> None:
        """Open a library, else the last one, else the first page."""
        last = next(iter(self.settings.recent), None)
        for one in (folder, last):
            if one is not None and self.open(one):
                return
        if self.first_run is None:
            self.show_first_run()

    # ---- windows --------------------------------------------------------------

    def open(self, folder: Path) -> bool:
        """Show a library in a window of its own.

        False where it can't be opened; why is said to the user.
        """
        folder = folder.absolute()
        known = next((w for w in self.windows if w.session.document.folder == folder), None)
        if known is not None:
            known.raise_()
            known.activateWindow()
            return True
        try:
            opened = open_library(folder)
        except FileProblem as problem:
            self.settings.forget(folder)
            self._warn(str(problem))
            return False
        self._show(Session(Document(opened), self.settings, data=self._data))
        self.settings.remember(folder)
        if self.first_run is not None:
            self.first_run.close()
            self.first_run = None
        return True

    def _show(self, session: Session) -> None:
        session.document.setParent(session)
        window = MainWindow(session, self.appearance)
        window.library_wanted.connect(self.open)
        window.folder_wanted.connect(self.choose_folder)
        window.start_wanted.connect(self.start_empty)
        window.quit_wanted.connect(self.quit)
        window.closed.connect(lambda: self._forget(window))
        self.windows.append(window)
        window.restoreGeometry(self.settings.geometry)
        window.show()
        for problem in session.document.opened.problems[:1]:
            session.messages.warn(str(problem))
        window.safekeeping.begin()
        session.checks.start()

    def _forget(self, window: MainWindow) -> None:
        self.windows = [one for one in self.windows if one is not window]
        window.deleteLater()

    def _warn(self, sentence: str) -> None:
        if self.windows:
            self.windows[-1].session.messages.warn(sentence)
            return
        self.show_first_run()
        if self.first_run is not None:
            self.first_run.toast.show_message(Message(sentence, is_problem=True))

    def show_first_run(self) -> None:
        """Show the page that says how to begin."""
        if self.first_run is None:
            page = FirstRun(self.settings)
            page.example_wanted.connect(self.start_example)
            page.empty_wanted.connect(self.start_empty)
            page.folder_wanted.connect(self.choose_folder)
            page.library_wanted.connect(self.open)
            self.first_run = page
        self.first_run.show()

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
            self.open(folder)

    def start_example(self) -> None:
        """Copy the example clinic to a folder of the user's and open it."""
        self._start(tr("Folder for the example clinic"), "Larkfield", example=True)

    def start_empty(self) -> None:
        """Begin an empty library in a folder of the user's and open it."""
        self._start(tr("Folder for the new library"), tr("My library"), example=False)

    def _start(self, title: str, name: str, *, example: bool) -> None:
        from authoring.commands.new import new_library  # noqa: PLC0415 - late: start-up time

        chosen = self._ask(self._parent(), title, documents_folder())
        if chosen is None:
            return
        folder = free_folder(chosen, name)
        try:
            new_library(folder, example=example)
        except FileProblem as problem:
            self._warn(str(problem))
            return
        self.open(folder)

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
