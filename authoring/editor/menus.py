"""The menu bar. It only names commands; the window carries them out."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu

from authoring.editor import i18n
from authoring.editor.commands import command
from authoring.editor.i18n import tr
from authoring.editor.room import GROUP
from authoring.editor.rooms import ROOMS
from authoring.editor.theme import SCALES, ThemeName

if TYPE_CHECKING:
    from authoring.editor.shell import MainWindow

_Std = QKeySequence.StandardKey


class Menus:
    """The menus of one window, and the commands that belong to the window itself."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window
        bar = window.menuBar()
        bar.clear()
        self.commands: list[QAction] = []
        self._groups: dict[str, QMenu] = {}
        self._file(bar.addMenu(tr("&File")))
        self._edit(bar.addMenu(tr("&Edit")))
        self._view(bar.addMenu(tr("&View")))
        self.room_menu = bar.addMenu("")
        self._help(bar.addMenu(tr("&Help")))
        self.name_undo()

    def _add(
        self, menu: QMenu, name: str, run: Callable[..., object], keys: str | _Std | list[str] = ""
    ) -> QAction:
        action = command(self._window, name, run, keys=keys, window_wide=True)
        menu.addAction(action)
        self.commands.append(action)
        return action

    def _file(self, menu: QMenu) -> None:
        window = self._window
        self._add(menu, tr("New library…"), window.start_wanted.emit, _Std.New)
        self._add(menu, tr("Open library…"), window.folder_wanted.emit, _Std.Open)
        self.recent = menu.addMenu(tr("Open recent"))
        self.recent.aboutToShow.connect(self._fill_recent)
        menu.addSeparator()
        self.save = self._add(menu, tr("Save"), window.save, _Std.Save)
        menu.addSeparator()
        self._add(menu, tr("Close window"), window.close, _Std.Close)
        self._add(menu, tr("Quit"), window.quit_wanted.emit, "Ctrl+Q")

    def _fill_recent(self) -> None:
        self.recent.clear()
        for folder in self._window.settings.recent:
            action = self.recent.addAction(str(folder))
            action.triggered.connect(
                lambda _=False, path=folder: self._window.library_wanted.emit(path)
            )
        if self.recent.isEmpty():
            self.recent.addAction(tr("None yet")).setEnabled(False)

    def _edit(self, menu: QMenu) -> None:
        window = self._window
        document = window.session.document
        self.undo = self._add(menu, tr("Undo"), document.undo, _Std.Undo)
        self.redo = self._add(menu, tr("Redo"), document.redo, ["Ctrl+Shift+Z", "Ctrl+Y"])
        menu.addSeparator()
        self._add(
            menu,
            tr("Find a card, stage or command"),
            window.open_search,
            ["Ctrl+F", "Ctrl+K"],
        )

    def _view(self, menu: QMenu) -> None:
        window = self._window
        for entry in ROOMS:
            keys = [entry.keys, entry.also] if entry.also else entry.keys
            self._add(menu, tr(entry.name), lambda key=entry.key: window.show_room(key), keys)
        menu.addSeparator()
        self._theme(menu.addMenu(tr("Theme")))
        self._size(menu.addMenu(tr("Text size")))
        self._language(menu.addMenu(tr("Language")))
        menu.addSeparator()
        self._add(menu, tr("Next pane"), window.next_pane, "F6")
        self._add(menu, tr("Next Protocol check"), window.next_check, "F8")
        single = menu.addAction(tr("Single letters as keys"))
        single.setCheckable(True)
        single.setChecked(window.settings.single_keys)
        single.toggled.connect(lambda on: setattr(window.settings, "single_keys", on))

    def _theme(self, menu: QMenu) -> None:
        words = {
            ThemeName.SYSTEM: tr("As the system"),
            ThemeName.LIGHT: tr("Light"),
            ThemeName.DARK: tr("Dark"),
            ThemeName.CONTRAST: tr("High contrast"),
        }
        settings = self._window.settings
        group = QActionGroup(menu)
        for name, text in words.items():
            action = self._choice(menu, group, text, settings.theme is name)
            action.triggered.connect(lambda _=False, n=name: setattr(settings, "theme", n))

    def _size(self, menu: QMenu) -> None:
        settings = self._window.settings
        group = QActionGroup(menu)
        for factor in SCALES:
            text = tr("{percent} %", percent=round(factor * 100))
            action = self._choice(menu, group, text, settings.scale == factor)
            action.triggered.connect(lambda _=False, f=factor: setattr(settings, "scale", f))
        menu.addSeparator()
        self._add(menu, tr("Larger text"), lambda: self._window.zoom(1), ["Ctrl++", "Ctrl+="])
        self._add(menu, tr("Smaller text"), lambda: self._window.zoom(-1), "Ctrl+-")

    def _language(self, menu: QMenu) -> None:
        settings = self._window.settings
        group = QActionGroup(menu)
        choices = {"": tr("As the system"), **{t: i18n.own_name(t) for t in i18n.languages()}}
        for tag, text in choices.items():
            action = self._choice(menu, group, text, settings.language == tag)
            action.triggered.connect(lambda _=False, t=tag: setattr(settings, "language", t))

    @staticmethod
    def _choice(menu: QMenu, group: QActionGroup, text: str, chosen: bool) -> QAction:
        action = menu.addAction(text)
        action.setCheckable(True)
        action.setChecked(chosen)
        group.addAction(action)
        return action

    def _help(self, menu: QMenu) -> None:
        self._add(menu, tr("Keys"), self._window.open_keys, ["F1", "Ctrl+?"])
        self._add(menu, tr("About Rungbook"), self._about)

    def _about(self) -> None:
        from authoring.editor.about import AboutDialog  # noqa: PLC0415 - late: start-up time

        AboutDialog(self._window).open()

    # ---- what changes while the window is open --------------------------------

    def name_undo(self) -> None:
        """Say in the Edit menu what undo and redo would do."""
        document = self._window.session.document
        self.undo.setText(
            tr("Undo “{name}”", name=document.undo_name) if document.undo_name else tr("Undo")
        )
        self.redo.setText(
            tr("Redo “{name}”", name=document.redo_name) if document.redo_name else tr("Redo")
        )
        self.undo.setEnabled(document.can_undo)
        self.redo.setEnabled(document.can_redo)
        self.save.setEnabled(document.is_dirty)

    def show_room(self, name: str, actions: list[QAction]) -> None:
        """Fill the menu of the open room."""
        # clear() would delete the other room's commands, and their keys with them.
        for action in self.room_menu.actions():
            self.room_menu.removeAction(action)
        for group in self._groups.values():
            group.deleteLater()
        self._groups = {}
        self.room_menu.setTitle(name)
        for action in actions:
            self._menu_of(action).addAction(action)
        self.room_menu.menuAction().setVisible(bool(actions))

    def _menu_of(self, action: QAction) -> QMenu:
        words = str(action.property(GROUP) or "")
        if not words:
            return self.room_menu
        if words not in self._groups:
            self._groups[words] = self.room_menu.addMenu(words)
        return self._groups[words]
