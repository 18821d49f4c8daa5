"""Opens the editor, types into the workshop by keys, waits for the copy and to be killed."""

import sys
import time
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPlainTextEdit

from authoring.checks.result import Subject
from authoring.editor.app import Editor
from authoring.editor.settings import Settings
from authoring.editor.workshop.room import WorkshopRoom


def main(folder: Path, data: Path, typed: str) -> None:
    """Never returns by itself."""
    app = QApplication([])
    editor = Editor(app, Settings(data.parent / "crash.ini"), data=data)
    editor.settings.language = "en"
    assert editor.open(folder)
    window = editor.windows[0]
    # Rooms and forms are built in pieces while nothing else is to do.
    _wait(lambda: QApplication.activeWindow() is window)
    QTest.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
    _wait(lambda: isinstance(window.room, WorkshopRoom))
    window.room.show_place(Subject.CARD, window.session.card_id, "variants[0].name")
    _wait(lambda: isinstance(QApplication.focusWidget(), QPlainTextEdit))
    QTest.keyClicks(QApplication.focusWidget() or window, typed)
    storage = window.session.storage

    def tell() -> None:
        if storage.is_kept:
            sys.stdout.write("kept\n")
            sys.stdout.flush()
            watch.stop()

    watch = QTimer(app, interval=50)
    watch.timeout.connect(tell)
    watch.start()
    app.exec()


def _wait(happened: Callable[[], bool]) -> None:
    until = time.monotonic() + 30
    while not happened():
        assert time.monotonic() < until
        QTest.qWait(20)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3])
