"""The panel beside the map: every field of what is selected."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QToolButton, QVBoxLayout, QWidget

from authoring.checks.result import Subject
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.place import with_value_at
from authoring.editor.session import Session
from authoring.editor.stage_map.target import ONLY, SKIPPED, Target, find
from authoring.editor.theme import Type, theme
from authoring.model.base import Node

_WIDTH = 360
_OF_FORMS = {
    Qt.Key.Key_Return,
    Qt.Key.Key_Enter,
    Qt.Key.Key_Insert,
    Qt.Key.Key_Delete,
    Qt.Key.Key_Left,
    Qt.Key.Key_Right,
    Qt.Key.Key_Up,
    Qt.Key.Key_Down,
}


class DetailsPanel(QFrame):
    """A form for one target; it follows the document.

    Signals:
        closed(): the user is done with it.
    """

    closed = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("panel", True)
        self.setProperty("pane", True)
        self.setFixedWidth(theme().px(_WIDTH))
        self._session = session
        self._target: Target | None = None
        self._form: NodeForm | None = None
        self._title = label(style=Type.HEADING, wrap=True)
        close = QToolButton()
        close.setText(tr("Close"))
        close.setProperty("quiet", True)
        close.setAccessibleName(tr("Close the details"))
        close.clicked.connect(self.closed)
        head = QHBoxLayout()
        head.addWidget(self._title, 1)
        head.addWidget(close, 0, Qt.AlignmentFlag.AlignTop)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        # Forms come and go inside one page: a form that changes its window, or leaves it,
        # has each of its parts styled anew.
        page = QWidget()
        self._page = QVBoxLayout(page)
        self._page.setContentsMargins(0, 0, 0, 0)
        self._scroll.setWidget(page)
        layout = QVBoxLayout(self)
        pad = theme().px(12)
        layout.setContentsMargins(pad, pad, 1, 1)
        layout.setSpacing(theme().px(8))
        layout.addLayout(head)
        layout.addWidget(self._scroll, 1)
        session.checks.changed.connect(self._show_checks)

    @property
    def target(self) -> Target | None:
        """What it is about, None for nothing."""
        return self._target

    def show_target(self, target: Target, title: str) -> bool:
        """Show a part of the protocol; False where it is gone."""
        self._title.setText(title)
        found = self._find(target)
        if found is None:
            return False
        node, _ = found
        if target == self._target and self._form is not None:
            self._form.show_value(node)
        else:
            self._make_form(node, target)
        self._show_checks()
        return True

    def clear(self) -> None:
        """Be about nothing."""
        gone, self._target, self._form = self._form, None, None
        if gone is not None:
            # It may be in the middle of telling of an edit: it goes afterwards.
            self._page.removeWidget(gone)
            gone.hide()
            gone.deleteLater()

    def focus_path(self, path: str) -> None:
        """Put the focus into a field."""
        if self._form is not None:
            self._form.focus_path(path)

    # ---- inside -------------------------------------------------------------------

    def event(self, event: QEvent) -> bool:
        """Keep plain keys in the form: arrows, Enter and letters are not the map's here."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
            plain = held in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier)
            if plain and (event.key() < Qt.Key.Key_Escape or event.key() in _OF_FORMS):
                event.accept()
                return True
        return super().event(event)

    def _find(self, target: Target | None) -> tuple[Node, str] | None:
        protocol = self._session.protocol
        return find(protocol, target) if protocol is not None and target is not None else None

    def _make_form(self, node: Node, target: Target) -> None:
        self.clear()
        self._target = target
        context = FormContext.of_protocol(self._session, self._session.protocol_id)
        self._form = NodeForm(
            type(node),
            node,
            context,
            only=ONLY.get(target.kind, ()),
            skip=SKIPPED[target.kind],
            parent=self._scroll.widget(),
        )
        self._form.setContentsMargins(0, 0, theme().px(12), theme().px(12))
        self._form.edited.connect(self._edited)
        self._form.ended.connect(self._session.document.seal)
        self._page.addWidget(self._form)
        self._scroll.verticalScrollBar().setValue(0)
        self._form.show()

    def _edited(self, node: Node, name: str, merge_key: str) -> None:
        found = self._find(self._target)
        if found is None:
            return
        _, path = found
        key = f"{path} {merge_key}" if merge_key else ""
        self._session.document.edit_protocol(
            name,
            self._session.protocol_id,
            # The form gives back a noun of the kind it was given.
            lambda protocol: with_value_at(protocol, path, node) if path else node,  # type: ignore[arg-type, return-value]
            merge_key=key,
        )

    def _show_checks(self) -> None:
        found = self._find(self._target)
        if found is None or self._form is None:
            return
        _, path = found
        results = self._session.checks.about(Subject.PROTOCOL, self._session.protocol_id, path)
        self._form.show_checks(results, path)
