"""Puts the chosen theme, size and language on the whole application."""

from __future__ import annotations

from PySide6.QtCore import QLibraryInfo, QLocale, QObject, Qt, QTranslator, Signal
from PySide6.QtWidgets import QApplication

from authoring.editor import i18n, theme
from authoring.editor.settings import Settings
from authoring.editor.style_sheet import style_sheet


class Appearance(QObject):
    """Applies settings, and follows the desktop where the user left the choice to it.

    Signals:
        restyled(): colours changed; painted widgets draw themselves anew.
        rebuilt(): lengths, words or direction changed; windows build their parts anew.
    """

    restyled = Signal()
    rebuilt = Signal()

    def __init__(self, app: QApplication, settings: Settings) -> None:
        super().__init__(app)
        self._app = app
        self._settings = settings
        self._shown: theme.Theme | None = None
        self._own_words: QTranslator | None = None
        app.setStyle("Fusion")
        theme.load_fonts()
        self.apply()
        settings.appearance_changed.connect(self.apply)
        settings.language_changed.connect(self.apply)
        app.styleHints().colorSchemeChanged.connect(self.apply)

    def apply(self) -> None:
        """Bring the application in line with the settings and the desktop."""
        before, language_before = self._shown, i18n.language()
        i18n.use(self._settings.language or QLocale.system().name())
        if i18n.language() != language_before or self._own_words is None:
            self._translate_toolkit()
        used = theme.choose(self._settings.theme, self._settings.scale)
        if used != before:
            self._restyle(used)
        self._shown = used
        self._app.setLayoutDirection(
            Qt.LayoutDirection.RightToLeft
            if i18n.is_right_to_left()
            else Qt.LayoutDirection.LeftToRight
        )
        if before is None:
            return
        if used.scale != before.scale or i18n.language() != language_before:
            self.rebuilt.emit()
        elif used != before:
            self.restyled.emit()

    def _translate_toolkit(self) -> None:
        """Put the toolkit's own words (text menus, file windows, keys) in the same language."""
        if self._own_words is not None:
            self._app.removeTranslator(self._own_words)
            self._own_words.deleteLater()
        self._own_words = QTranslator(self)
        folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
        if self._own_words.load(f"qtbase_{i18n.language()}", folder):
            self._app.installTranslator(self._own_words)

    def _restyle(self, used: theme.Theme) -> None:
        self._app.setFont(used.font(theme.Type.BODY))
        self._app.setPalette(theme.palette(used))
        self._app.setStyleSheet(style_sheet(used))
