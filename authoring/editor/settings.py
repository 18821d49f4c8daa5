"""What one user chose: theme, text size, language of the interface, recent libraries."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QByteArray, QObject, QSettings, Signal

from authoring.editor.theme import SCALES, ThemeName

_MOST_RECENT = 10


class Settings(QObject):
    """The user's choices, kept in an .ini file in the user's own folder.

    Signals:
        appearance_changed(): theme or text size.
        language_changed(): language of the interface.
        single_keys_changed(): whether single letters work as shortcuts.
    """

    appearance_changed = Signal()
    language_changed = Signal()
    single_keys_changed = Signal()

    def __init__(self, path: Path | None = None, parent: QObject | None = None) -> None:
        """Args: path: the .ini file; None means the usual place of this system."""
        super().__init__(parent)
        if path is None:
            self._store = QSettings(
                QSettings.Format.IniFormat, QSettings.Scope.UserScope, "Rungbook", "Rungbook"
            )
        else:
            self._store = QSettings(str(path), QSettings.Format.IniFormat)

    @property
    def theme(self) -> ThemeName:
        """Theme chosen; follows the desktop until one is."""
        found = str(self._store.value("view/theme", ThemeName.SYSTEM.value))
        known = {name.value: name for name in ThemeName}
        return known.get(found, ThemeName.SYSTEM)

    @theme.setter
    def theme(self, name: ThemeName) -> None:
        self._store.setValue("view/theme", name.value)
        self.appearance_changed.emit()

    @property
    def scale(self) -> float:
        """Text size as a factor; one of :data:`SCALES`."""
        try:
            found = float(str(self._store.value("view/scale", "1.0")))
        except ValueError:
            return 1.0
        return found if found in SCALES else 1.0

    @scale.setter
    def scale(self, factor: float) -> None:
        self._store.setValue("view/scale", str(factor))
        self.appearance_changed.emit()

    @property
    def language(self) -> str:
        """Tag of the interface's language, "" to follow the system."""
        return str(self._store.value("view/language", ""))

    @language.setter
    def language(self, tag: str) -> None:
        self._store.setValue("view/language", tag)
        self.language_changed.emit()

    @property
    def single_keys(self) -> bool:
        """Whether single letters work as shortcuts outside text fields."""
        return str(self._store.value("keys/single", "true")) == "true"

    @single_keys.setter
    def single_keys(self, on: bool) -> None:
        self._store.setValue("keys/single", "true" if on else "false")
        self.single_keys_changed.emit()

    @property
    def recent(self) -> tuple[Path, ...]:
        """Library folders opened lately, the latest first."""
        found = self._store.value("libraries/recent", [])
        paths: Sequence[object] = found if isinstance(found, list) else [found]
        return tuple(Path(str(path)) for path in paths if str(path))

    def remember(self, folder: Path) -> None:
        """Put a library folder first among the recent ones."""
        kept = [path for path in self.recent if path != folder]
        self._store.setValue("libraries/recent", [str(p) for p in [folder, *kept]][:_MOST_RECENT])

    def forget(self, folder: Path) -> None:
        """Take a library folder that is not there any more off the recent ones."""
        kept = [str(path) for path in self.recent if path != folder]
        self._store.setValue("libraries/recent", kept)

    @property
    def geometry(self) -> QByteArray:
        """Place and size of the last window; empty for none."""
        found = self._store.value("window/geometry", QByteArray())
        return found if isinstance(found, QByteArray) else QByteArray()

    @geometry.setter
    def geometry(self, value: QByteArray) -> None:
        self._store.setValue("window/geometry", value)

    def kept(self, key: str, default: str = "") -> str:
        """A choice of one room ("stage_map/folded"), as text."""
        return str(self._store.value(f"rooms/{key}", default))

    def keep(self, key: str, value: str) -> None:
        """Keep a choice of one room."""
        self._store.setValue(f"rooms/{key}", value)
