"""Beginning: the first page, the example clinic, recent libraries, several windows."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from authoring.editor import i18n
from authoring.editor.app import Editor, free_folder
from authoring.editor.settings import Settings
from authoring.files.library import open_library
from authoring.model.text import Text
from tests.editor.conftest import LIBRARY_ID

pytestmark = pytest.mark.usefixtures("bare")


@pytest.fixture
def chosen(tmp_path: Path) -> Path:
    """The folder that the user chooses whenever one is asked for."""
    place = tmp_path / "chosen"
    place.mkdir()
    return place


@pytest.fixture
def editor(
    qapp: QApplication, settings: Settings, chosen: Path, tmp_path: Path
) -> Iterator[Editor]:
    settings.language = "en"
    made = Editor(qapp, settings, ask=lambda *_: chosen, data=tmp_path / "data")
    yield made
    made.jobs.finish()
    for window in tuple(made.windows):
        window.session.storage.close()
        window.session.checks.close()
        window.deleteLater()
    if made.first_run is not None:
        made.first_run.deleteLater()
    made.focus_ring.deleteLater()
    made.appearance.deleteLater()
    made.deleteLater()
    i18n.use("en")


def button(page: QWidget, words: str) -> QPushButton:
    return next(one for one in page.findChildren(QPushButton) if one.text() == words)


def test_nothing_opened_before_leads_to_the_first_page(editor: Editor) -> None:
    editor.start(None)
    assert editor.first_run is not None
    assert editor.first_run.isVisible()
    words = [one.text() for one in editor.first_run.findChildren(QPushButton) if one.text()]
    assert words[:3] == [
        "Look around the example clinic",
        "Begin an empty library",
        "Open a library folder",
    ]


def test_the_example_clinic_is_copied_to_a_folder_of_the_user_s(
    editor: Editor, chosen: Path, qtbot: QtBot
) -> None:
    editor.start(None)
    assert editor.first_run is not None
    button(editor.first_run, "Look around the example clinic").click()
    qtbot.waitUntil(lambda: bool(editor.windows), timeout=20_000)
    clinic = open_library(chosen).library.clinic
    assert clinic is not None
    assert clinic.name == Text.plain("Larkfield Movement Clinic")
    assert editor.first_run is None


def test_an_empty_library_goes_beside_what_is_there(
    editor: Editor, chosen: Path, qtbot: QtBot
) -> None:
    (chosen / "letter.txt").write_text("not ours", encoding="utf-8")
    editor.start(None)
    assert editor.first_run is not None
    button(editor.first_run, "Begin an empty library").click()
    qtbot.waitUntil(lambda: bool(editor.windows), timeout=20_000)
    assert not open_library(chosen / "My library").library.cards


def test_a_folder_without_a_library_is_said_to_be_so(editor: Editor, chosen: Path) -> None:
    assert not editor.open(chosen)
    assert editor.first_run is not None
    assert editor.first_run.toast.sentence == (
        f"{chosen}: this folder holds no library (there is no library.json in it); choose a "
        "library folder, or start one with 'rungbook new'."
    )


def test_the_last_library_opens_by_itself_and_a_page_stands_meanwhile(
    editor: Editor, settings: Settings, folder: Path, qtbot: QtBot
) -> None:
    settings.remember(folder)
    editor.start(None)
    assert editor.opening is not None
    assert editor.opening.accessibleName() == "Opening the library…"
    qtbot.waitUntil(lambda: bool(editor.windows), timeout=20_000)
    assert editor.opening is None
    assert editor.windows[0].session.library.manifest.id == LIBRARY_ID


def test_a_library_opens_once_and_others_in_windows_of_their_own(
    editor: Editor, folder: Path, chosen: Path, qtbot: QtBot
) -> None:
    assert editor.open(folder)
    assert editor.open(folder)
    assert len(editor.windows) == 1
    editor.windows[0].menus.commands[0].trigger()
    qtbot.waitUntil(lambda: len(editor.windows) == 2, timeout=20_000)
    one, other = editor.windows
    assert one.session.document is not other.session.document
    assert editor.settings.recent == (chosen, folder)
    assert one.close()
    assert editor.windows == [other]


def test_a_new_folder_never_takes_a_name_that_is_there(tmp_path: Path) -> None:
    assert free_folder(tmp_path / "new", "Larkfield") == tmp_path / "new"
    (tmp_path / "Larkfield").mkdir()
    assert free_folder(tmp_path, "Larkfield") == tmp_path / "Larkfield 2"


def test_the_first_window_needs_neither_model_nor_files() -> None:
    """What is imported before the first window decides how soon it is there."""
    code = (
        "import sys, authoring.editor.app\n"
        "late = ('authoring.model', 'authoring.files', 'authoring.checks', 'jsonschema', 'babel')\n"
        "sys.exit(' '.join(sorted(n for n in sys.modules if n.startswith(late))))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=False,
        cwd=Path(__file__).parents[2],
    )
    assert done.stderr.strip() == ""
