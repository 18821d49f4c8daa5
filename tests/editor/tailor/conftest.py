"""The tailor room over the example clinic, with the versions that were approved."""

import shutil
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from authoring.editor.session import Session
from authoring.editor.shell import MainWindow
from authoring.editor.tailor.room import TailorRoom
from tests.editor.page_jobs import EXAMPLE
from tests.editor.tailor.drive import KNEE


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The example clinic, with the versions that were approved."""
    place = tmp_path / "larkfield"
    shutil.copytree(EXAMPLE, place)
    return place


@pytest.fixture
def room(window: MainWindow, session: Session, qtbot: QtBot) -> TailorRoom:
    """The room with the knee protocol chosen, and a clinician who is known here."""
    session.settings.keep("tailor/clinician", "M.O.")
    knee = next(p for p in session.library.protocols.values() if p.slug == KNEE)
    session.choose_protocol(knee.id)
    window.activateWindow()
    window.show_room("tailor")
    made = window.room
    assert isinstance(made, TailorRoom)
    return made
