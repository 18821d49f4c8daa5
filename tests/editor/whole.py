"""The whole editor over a copy of the example clinic, with every system dialog stubbed."""

from __future__ import annotations

import json
import sys
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QDesktopServices, QDrag
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QMenu, QWidget

from authoring.commands.new import new_library
from authoring.editor.appearance import Appearance
from authoring.editor.document import Document
from authoring.editor.garbage import Garbage, spare_what_is_there
from authoring.editor.jobs import take_short_turns
from authoring.editor.library_window import bring_all, read_library
from authoring.editor.protocol_checks import Judge
from authoring.editor.rooms import ROOMS
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.files.library import CARDS

ROOM_KEYS = tuple(entry.key for entry in ROOMS)


def larkfield(folder: Path, cards: int = 0) -> Path:
    """Make a copy of the example clinic; its cards are copied until there are enough."""
    new_library(folder, example=True)
    sources = [
        json.loads(path.read_bytes()) for path in sorted((folder / CARDS).glob("*.card.json"))
    ]
    for number in range(cards - len(sources)):
        card = dict(sources[number % len(sources)])
        card["slug"] = f"{card['slug']}-{number}"
        card["id"] = str(uuid.uuid5(uuid.NAMESPACE_DNS, card["slug"]))
        if isinstance(card["title"], str):
            card["title"] = f"{card['title']} {number}"
        path = folder / CARDS / f"{card['slug']}.card.json"
        path.write_text(json.dumps(card, indent=2, ensure_ascii=False), encoding="utf-8")
    return folder


class Dialogs:
    """The one seam to the system's own dialogs: what the user chooses in them."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.file: Path | None = None
        self.asked: list[str] = []
        monkeypatch.setattr(QFileDialog, "exec", lambda dialog: self._exec(dialog.windowTitle()))
        monkeypatch.setattr(
            QFileDialog, "open", lambda dialog: self._open(dialog, dialog.windowTitle())
        )
        monkeypatch.setattr(QFileDialog, "selectedFiles", lambda _dialog: [str(self.file)])
        monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: self._folder())
        monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_, **__: self._name())
        monkeypatch.setattr(QPrintDialog, "exec", lambda _dialog: self._note("print"))
        monkeypatch.setattr(QDesktopServices, "openUrl", lambda _url: self._note("show"))
        # A drag runs a loop of its own that waits for a real mouse.
        monkeypatch.setattr(QDrag, "exec", lambda *_: Qt.DropAction.IgnoreAction)

    def _note(self, what: str) -> int:
        self.asked.append(what)
        return 0

    def _exec(self, title: str) -> int:
        self._note(title)
        return int(self.file is not None)

    def _open(self, dialog: QFileDialog, title: str) -> None:
        self._note(title)
        dialog.done(0)

    def _folder(self) -> str:
        self._note("folder")
        return "" if self.file is None else str(self.file)

    def _name(self) -> tuple[str, str]:
        self._note("file")
        return ("" if self.file is None else str(self.file), "")


@contextmanager
def whole_window(
    folder: Path, settings: Settings, appearance: Appearance, data: Path, judge: Judge | None
) -> Iterator[MainWindow]:
    """The window as the program opens it; it is let go of at the end, saved or not."""
    garbage, turns = Garbage(), sys.getswitchinterval()
    take_short_turns()
    bring_all()
    document = Document(read_library(folder))
    spare_what_is_there()
    session = Session(document, settings, judge=judge, data=data)
    appearance.in_steps = True
    window = MainWindow(session, appearance)
    window.show()
    window.activateWindow()
    QApplication.processEvents()
    window.safekeeping.begin()
    session.checks.start()
    window.shelf.prepare()
    try:
        yield window
    finally:
        session.storage.close()
        session.checks.close()
        window.hide()
        window.deleteLater()
        QApplication.processEvents()
        garbage.stop()
        sys.setswitchinterval(turns)


def settle() -> None:
    """Do what the event loop does between two events, letting go of what is done with."""
    QApplication.processEvents()
    # Outside a loop, processEvents leaves these for later, and widgets would pile up.
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


class Strays(QObject):
    """Notes each widget that is shown as a window though it is a part of one."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self.found: list[str] = []
        app.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Show and isinstance(watched, QWidget):
            whole = watched.windowFlags() & Qt.WindowType.WindowType_Mask
            if watched.isWindow() and whole == Qt.WindowType.Window and not _is_window(watched):
                self.found.append(f"{type(watched).__name__} {watched.accessibleName()}")
        return False


def _is_window(widget: QWidget) -> bool:
    return isinstance(widget, QDialog | QMenu | MainWindow)


def keep_active(window: MainWindow) -> None:
    """Activate what a window manager would: here, none does when a dialog closes."""
    active = QApplication.activeWindow()
    if active is None or not active.isVisible():
        (QApplication.activeModalWidget() or window).activateWindow()
        QApplication.processEvents()


def focus_of(window: MainWindow) -> QWidget:
    """What gets the keys now: the focus in an open menu, a dialog or the window."""
    popup = QApplication.activePopupWidget()
    if popup is not None:
        return popup
    top = QApplication.activeModalWidget() or window
    return QApplication.focusWidget() or top.focusWidget() or top
