"""The main window. It assembles: menu bar, header, rooms, key line, messages."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QEvent, Signal
from PySide6.QtGui import QAction, QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QApplication,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.appearance import Appearance
from authoring.editor.chunks import Chunks
from authoring.editor.command_search import CommandSearch, Found, Places, findable
from authoring.editor.commands import allow_single_keys
from authoring.editor.header import Header
from authoring.editor.i18n import tr
from authoring.editor.menus import Menus
from authoring.editor.parts.key_line import KeyLine
from authoring.editor.place import Place
from authoring.editor.room import Room
from authoring.editor.rooms import ROOMS, room_for
from authoring.editor.safekeeping import Safekeeping
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shelf import WAITING, Shelf
from authoring.editor.shortcut_sheet import ShortcutSheet
from authoring.editor.tab_walk import TabWindow
from authoring.editor.theme import SCALES
from authoring.editor.toast import Toast
from authoring.files.library import is_library
from authoring.model.library import Library


class MainWindow(TabWindow):
    """One library's window.

    Signals:
        library_wanted(Path): open another library.
        start_wanted(): begin a new library.
        folder_wanted(): choose a library folder and open it.
        quit_wanted(): close every window.
        closed(): the window is gone, and its work is safe.
    """

    library_wanted = Signal(object)
    start_wanted = Signal()
    folder_wanted = Signal()
    quit_wanted = Signal()
    closed = Signal()

    def __init__(self, session: Session, appearance: Appearance, *, waiting: bool = False) -> None:
        """Args: waiting: open no room yet."""
        super().__init__()
        self.session = session
        session.setParent(self)
        self.settings: Settings = session.settings
        self._appearance = appearance
        self._key = self._back_to = WAITING
        self._next_check = 0
        self._build()
        self.toast = Toast(self)
        document = session.document
        document.changed.connect(self._on_change)
        document.history_changed.connect(self._show_state)
        session.storage.state_changed.connect(self._show_state)
        self.safekeeping = Safekeeping(session.storage, session.messages, self)
        session.messages.told.connect(self.toast.show_message)
        session.place_asked.connect(self._show_place)
        session.room_asked.connect(self.show_room)
        session.protocol_chosen.connect(lambda _id: self._show_title())
        session.card_chosen.connect(lambda _id: self._show_title())
        self.settings.single_keys_changed.connect(self._allow_single_keys)
        appearance.putting_away.connect(self._put_away)
        appearance.rebuilt.connect(self._rebuild)
        QApplication.instance().focusChanged.connect(self._on_focus)  # type: ignore[union-attr]  # there is one
        self.setAcceptDrops(True)
        self.resize(1366, 768)
        if not waiting:
            self.show_room(ROOMS[0].key)
        self._show_state()

    # ---- assembling -----------------------------------------------------------

    def _build(self) -> None:
        ground = QWidget()
        ground.setObjectName("ground")
        layout = QVBoxLayout(ground)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.header = Header(ROOMS)
        self.header.room_wanted.connect(self.show_room)
        self.header.search_wanted.connect(self.open_search)
        self.shelf = Shelf(self.session)
        self.shelf.made.connect(lambda room: room.key_hints_changed.connect(self._show_hints))
        self.key_line = KeyLine()
        layout.addWidget(self.header)
        layout.addWidget(self.shelf, 1)
        layout.addWidget(self.key_line)
        self.setCentralWidget(ground)
        self.menus = Menus(self)
        self._places = Places()
        self.search = CommandSearch(self._findable, self.session.go_to, self)
        self.header.show_clinic(_clinic_name(self.session.library))

    def _put_away(self, every: bool) -> None:
        """Let go of all rooms or the hidden ones before the look changes: it costs them dear."""
        if every and self._key != WAITING:
            self._back_to, self._key = self._key, WAITING
        self.shelf.put_away(but=self._key)

    def _rebuild(self) -> None:
        """Build all parts anew, for another look or language; the work stays."""
        # Putting the old rooms away moves the focus: until there is a new one, none is open.
        key, self._key = self._key or self._back_to, WAITING
        for action in self.menus.commands:
            self.removeAction(action)
            action.deleteLater()
        self.search.deleteLater()
        self.toast.deleteLater()
        self._build()
        self.toast = Toast(self)
        self.session.messages.told.connect(self.toast.show_message)
        self._show_state()
        if not self._appearance.in_steps:
            self.show_room(key)
            return

        def go_back() -> None:
            if self._key == WAITING:
                self.show_room(key)

        Chunks([lambda: self.shelf.room(key), go_back, self.shelf.prepare], self.shelf)

    # ---- rooms ----------------------------------------------------------------

    @property
    def room(self) -> Room:
        """The room that is open."""
        return self.shelf.room(self._key)

    def show_room(self, key: str) -> None:
        """Open a room by its key; it is made when it is first opened."""
        if key == self._key:
            return
        self._key = key
        self.toast.room_left()
        self.shelf.show_room(key)
        self.header.show_room(key)
        name = next(tr(entry.name) for entry in ROOMS if entry.key == key)
        self.menus.show_room(name, self.room.actions())
        self._allow_single_keys()
        self.room.focus_first()
        self._show_title()
        self._show_hints()

    def _show_place(self, place: Place) -> None:
        self.show_room(room_for(place.subject).key)
        self.room.show_place(place.subject, place.subject_id, place.path)

    def next_check(self) -> None:
        """Go to the next result of the Protocol checks, round and round."""
        results = self.session.checks.results
        if not results:
            self.session.tell(tr("The Protocol checks have nothing to say."))
            return
        result = results[self._next_check % len(results)]
        self._next_check = (self._next_check + 1) % len(results)
        self.session.go_to(Place.of(result))
        self.session.tell(result.sentence)

    def next_pane(self) -> None:
        """Move the focus on to the next pane of the room, or to the header after the last."""
        panes = [pane for pane in self.findChildren(QWidget) if pane.property("pane")]
        seen = [pane for pane in panes if pane.isVisible() and _can_enter(pane)]
        stops: list[QWidget] = [*seen, self.header.button(self._key or ROOMS[0].key)]
        focus = self.focusWidget()
        here = [i for i, pane in enumerate(stops) if focus is pane or pane.isAncestorOf(focus)]
        target = stops[(here[-1] + 1) % len(stops)] if here else stops[0]
        enter = getattr(target, "enter", None)
        if callable(enter):
            enter()
            return
        if target.focusPolicy() == target.focusPolicy().NoFocus:
            inside = [child for child in target.findChildren(QWidget) if _can_focus(child)]
            target = inside[0] if inside else target
        target.setFocus()

    # ---- commands -------------------------------------------------------------

    def save(self) -> None:
        """Write every changed file."""
        self.session.storage.save()

    def open_search(self) -> None:
        """Open the command search."""
        self.search.open_with()

    def open_keys(self) -> None:
        """Open the sheet of all keys."""
        name = next((tr(entry.name) for entry in ROOMS if entry.key == self._key), "")
        groups = {tr("Everywhere"): self.menus.commands, name: self.room.actions()}
        ShortcutSheet(groups, self).open()

    def zoom(self, step: int) -> None:
        """Take the next larger or smaller text size."""
        index = SCALES.index(self.settings.scale) + step
        if 0 <= index < len(SCALES):
            self.settings.scale = SCALES[index]

    def commands(self) -> list[QAction]:
        """The window's own commands and those of the open room."""
        return [*self.menus.commands, *self.room.actions()]

    def _findable(self) -> Sequence[Found]:
        return findable(self.session.library, self.commands(), self._places)

    def _allow_single_keys(self) -> None:
        allow_single_keys(self.room.actions(), self.settings.single_keys)

    # ---- what the window says ---------------------------------------------------

    def _on_change(self, _before: object, _after: object) -> None:
        self.toast.work_changed()
        self.header.show_clinic(_clinic_name(self.session.library))
        self._show_title()

    def _show_title(self) -> None:
        if not self._key:
            return
        what = self.room.title()
        library = self.session.library.manifest.name
        parts = [part for part in (what, library, tr("Rungbook")) if part]
        self.setWindowTitle("[*]" + " · ".join(parts))

    def _show_state(self) -> None:
        dirty = self.session.document.is_dirty
        self.setWindowModified(dirty)
        self.menus.name_undo()
        self.key_line.show_state(self.session.storage.state_words())

    def _show_hints(self) -> None:
        if self._key:
            self.key_line.show_hints(self.room.key_hints())

    def _on_focus(self, _old: QWidget | None, new: QWidget | None) -> None:
        if new is not None and new.window() is self:
            self._show_hints()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if event.mimeData().hasUrls():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        event.acceptProposedAction()
        libraries = [path for path in paths if is_library(path)]
        for path in libraries:
            self.library_wanted.emit(path)
        others = [path for path in paths if path not in libraries]
        if others and not self.room.drop_files(others):
            self.session.tell(tr("“{name}” can't be used here.", name=others[0].name))

    def closeEvent(self, event: QCloseEvent) -> None:
        if not self.safekeeping.may_close(self.close):
            event.ignore()
            return
        self.settings.geometry = self.saveGeometry()
        self.session.storage.close()
        self.session.checks.close()
        event.accept()
        self.closed.emit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.session.storage.look()


def _clinic_name(library: Library) -> str:
    clinic, own = library.clinic, library.manifest.language
    return clinic.name.best(own, clinic.language) if clinic else library.manifest.name


def _can_enter(pane: QWidget) -> bool:
    return _can_focus(pane) or any(map(_can_focus, pane.findChildren(QWidget)))


def _can_focus(widget: QWidget) -> bool:
    policy = widget.focusPolicy()
    return policy != policy.NoFocus and widget.isVisible() and widget.isEnabled()
