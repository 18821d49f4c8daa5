"""Commands: named actions that menus, the shortcut sheet and the command search share."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QWidget

from authoring.editor.i18n import ltr

Keys = str | QKeySequence.StandardKey | Sequence[str]


def sequences(keys: Keys) -> list[QKeySequence]:
    """Key sequences of a command; the first is the one that is shown."""
    if isinstance(keys, QKeySequence.StandardKey):
        return list(QKeySequence.keyBindings(keys))
    names = [keys] if isinstance(keys, str) else list(keys)
    return [QKeySequence(name) for name in names if name]


def command(
    owner: QWidget,
    name: str,
    run: Callable[[], object] | None = None,
    *,
    keys: Keys = "",
    window_wide: bool = False,
) -> QAction:
    """Make a command and add it to its widget.

    Args:
        owner: the widget in which the keys work, its children included.
        name: what menus call it ("Add a stage"); already translated, without "&".
        run: what it does; None for a command that is only connected later.
        keys: "Ctrl+D", a list of such, or a standard key. A single letter works only
            outside text fields, and only while the user's settings allow it.
        window_wide: whether the keys work wherever the focus is in the window.
    """
    action = QAction(name, owner)
    made = sequences(keys)
    action.setShortcuts(made)
    action.setShortcutContext(
        Qt.ShortcutContext.WindowShortcut
        if window_wide
        else Qt.ShortcutContext.WidgetWithChildrenShortcut
    )
    if run is not None:
        action.triggered.connect(lambda _checked=False: run())
    action.setProperty("keys", [key.toString() for key in made])
    owner.addAction(action)
    return action


def is_single_key(action: QAction) -> bool:
    """Whether a command's keys are single letters or digits, without Ctrl or Alt."""
    keys = action.property("keys") or []
    return any(len(key) == 1 for key in keys)


def allow_single_keys(actions: Sequence[QAction], allowed: bool) -> None:
    """Switch commands of single letters on or off by their keys; menus still offer them."""
    for action in filter(is_single_key, actions):
        keys = action.property("keys") or []
        kept = [QKeySequence(key) for key in keys if allowed or len(key) > 1]
        action.setShortcuts(kept)


def shown_keys(action: QAction) -> str:
    """A command's first keys as this system writes them, "" for none."""
    keys = action.shortcuts()
    return ltr(keys[0].toString(QKeySequence.SequenceFormat.NativeText)) if keys else ""
