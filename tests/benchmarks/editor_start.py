"""Starts a window, says "shown" at its first paint (and "ready" once its library is there)."""

import os
import sys
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication, QMainWindow


class Herald(QObject):
    """Tells of the first paint, and ends a program that has nothing more to show."""

    def __init__(self, app: QApplication, *, alone: bool) -> None:
        super().__init__(app)
        self._app, self._alone, self._told = app, alone, False
        app.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Paint and not self._told:
            self._told = True
            QTimer.singleShot(0, self._tell)
        return False

    def _tell(self) -> None:
        say("shown")
        if self._alone:
            self._app.quit()


def say(word: str) -> None:
    sys.stdout.write(f"{word}\n")
    sys.stdout.flush()


def bare() -> None:
    app = QApplication([])
    Herald(app, alone=True)
    window = QMainWindow()
    window.resize(1366, 768)
    window.show()
    app.exec()


def editor(folder: Path) -> None:
    from authoring.editor.app import Editor
    from authoring.editor.settings import Settings

    app = QApplication([])
    Herald(app, alone=False)
    made = Editor(app, Settings(folder.parent / "start.ini"), data=folder.parent / "data")
    made.start(folder)

    def look() -> None:
        if made.windows:
            say("ready")
            os._exit(0)

    watch = QTimer(app, interval=2)
    watch.timeout.connect(look)
    watch.start()
    app.exec()


if __name__ == "__main__":
    if len(sys.argv) > 1:
        editor(Path(sys.argv[1]))
    else:
        bare()
