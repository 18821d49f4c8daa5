"""The sheet of all keys, by where they work."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.commands import shown_keys
from authoring.editor.i18n import tr
from authoring.editor.parts.labels import KeyCap, label
from authoring.editor.theme import Type, theme


class ShortcutSheet(QDialog):
    """Every command that has keys."""

    def __init__(
        self, groups: Mapping[str, Sequence[QAction]], parent: QWidget | None = None
    ) -> None:
        """Args: groups: commands by the name of the place where their keys work."""
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Keys"))
        page = QWidget()
        grid = QGridLayout(page)
        grid.setHorizontalSpacing(theme().px(16))
        grid.setVerticalSpacing(theme().px(8))
        grid.setColumnStretch(1, 1)
        row = 0
        for name, actions in groups.items():
            with_keys = [action for action in actions if shown_keys(action)]
            if not with_keys:
                continue
            grid.addWidget(label(name, Type.HEADING), row, 0, 1, 2)
            row += 1
            for action in with_keys:
                grid.addWidget(KeyCap(shown_keys(action)), row, 0, Qt.AlignmentFlag.AlignRight)
                grid.addWidget(label(action.text().replace("&", "")), row, 1)
                row += 1
        grid.setRowStretch(row, 1)
        scroll = QScrollArea()
        scroll.setWidget(page)
        scroll.setWidgetResizable(True)
        scroll.setAccessibleName(tr("Keys"))
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.button(QDialogButtonBox.StandardButton.Close).setText(tr("Close"))
        close.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(scroll)
        layout.addWidget(close)
        self.resize(theme().px(520), theme().px(600))
