"""Opens the editor, types into the workshop by keys, waits for the copy and to be killed."""

import sys
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from authoring.editor.app import Editor
from authoring.editor.settings import Settings


def main(folder: Path, data: Path, typed: str) -> None:
    """Never returns by itself."""
    app = QApplication([])
    editor = Editor(app, Settings(data.parent / "crash.ini"), data=data)
    editor.settings.language = "en"
    assert editor.open(folder)
    window = editor.windows[0]
    window.activateWindow()
    QTest.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
    room = window.room
    room.show_place(*_name_of_first_variant(window))  # type: ignore[arg-type]
    field = QApplication.focusWidget()
    QTest.keyClicks(field, typed)
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


def _name_of_first_variant(window: object) -> tuple[object, str, str]:
    from authoring.checks.result import Subject

    return Subject.CARD, window.session.card_id, "variants[0].name"  # type: ignore[attr-defined]


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3])
