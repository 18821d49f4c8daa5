"""What the program is, and what it is not."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QVBoxLayout, QWidget

from authoring import __version__
from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme


class AboutDialog(QDialog):
    """Version and advice."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("About Rungbook"))
        layout = QVBoxLayout(self)
        layout.setSpacing(theme().px(12))
        layout.addWidget(label(tr("Rungbook {version}", version=__version__), Type.TITLE))
        layout.addWidget(
            label(
                tr(
                    "Rungbook advises and computes; a licensed clinician decides and signs, "
                    "and local protocols come first."
                ),
                wrap=True,
            )
        )
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.button(QDialogButtonBox.StandardButton.Close).setText(tr("Close"))
        close.rejected.connect(self.reject)
        layout.addWidget(close)
        self.resize(theme().px(420), theme().px(180))
