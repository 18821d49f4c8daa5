"""Clips as bytes on the system's clipboard."""

from __future__ import annotations

from PySide6.QtCore import QMimeData, QStringListModel

from authoring.files.convert import from_json, to_json
from authoring.files.errors import FileProblem
from authoring.files.strict_json import read_json, write_json
from authoring.model.base import ModelError
from authoring.model.edits.clip import Clip

CLIP_MIME = "application/x-rungbook-clip+json"


def clip_bytes(clip: Clip) -> bytes:
    """A clip for the clipboard."""
    return write_json(to_json(clip))


def clip_data(clip: Clip, words: str) -> QMimeData:
    """What goes on the clipboard: the clip for us, and words for other programs."""
    # Qt's own object, not one made here: the clipboard outlives Python at the program's
    # end, and letting go of an object of Python's then ends in a crash.
    model = QStringListModel([""])
    data = model.mimeData([model.index(0)])
    data.clear()
    data.setText(words)
    data.setData(CLIP_MIME, clip_bytes(clip))
    return data


def clip_of(data: QMimeData | None) -> Clip | None:
    """The clip on the clipboard, or None where there is none that can be used."""
    # An empty clipboard has no data at all, whatever Qt's declarations say.
    if data is None or not data.hasFormat(CLIP_MIME):
        return None
    try:
        return from_json(Clip, read_json(bytes(data.data(CLIP_MIME).data())))
    except (FileProblem, ModelError, KeyError, TypeError, ValueError):
        return None
