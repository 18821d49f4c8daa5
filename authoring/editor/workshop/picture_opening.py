"""From a picture of a card to where it is changed: the room for poses, or the photo's panel."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from authoring.editor.i18n import tr
from authoring.editor.session import Session
from authoring.editor.workshop.photo_panel import PhotoPanel
from authoring.files.errors import FileProblem
from authoring.files.photo_edits import PhotoEdit, edited_bytes


def open_pose(session: Session, slug: str) -> None:
    """Show the pose of this name in its room."""
    pose = session.library.pose_called(slug)
    if pose is None:
        session.tell(tr("There is no pose called “{name}”.", name=slug))
        return
    session.choose_pose(pose.id)
    session.open_room("poses")


def open_photo(
    session: Session, image: str, parent: QWidget, take: Callable[[str], None]
) -> PhotoPanel | None:
    """Open a photo to be cut, levelled and brightened.

    Args:
        take: is given the name of the new photo; the old one stays for other cards.
    """
    ending = image.rpartition(".")[2]
    try:
        data = session.document.image_bytes(image) or b""
        panel = PhotoPanel(data, parent.window())
    except (FileProblem, OSError, ValueError):
        session.tell(tr("This photo can't be read. Put in another copy of it."))
        return None

    def use(edit: PhotoEdit) -> None:
        take(session.document.add_image(edited_bytes(data, ending, edit), ending))

    panel.chosen.connect(use)
    panel.finished.connect(panel.deleteLater)
    panel.open()
    return panel
