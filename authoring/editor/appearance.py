"""Puts the chosen theme, size and language on the whole application."""

from __future__ import annotations

from PySide6.QtCore import QLibraryInfo, QLocale, QObject, Qt, QTranslator, Signal
from PySide6.QtWidgets import QApplication, QLineEdit, QPlainTextEdit

from authoring.editor import i18n, theme
from authoring.editor.chunks import Chunks
from authoring.editor.settings import Settings
from authoring.editor.style_sheet import style_sheet


class Appearance(QObject):
    """Applies settings, and follows the desktop where the user left the choice to it.

    The toolkit takes half a millisecond to restyle each part of a window, seen or not:
    four tenths of a second for five rooms. With ``in_steps``, windows put their rooms away
    before, and each step is taken on its own, so that keys and mouse are heard between.

    Signals:
        putting_away(bool): rooms may go, to be made anew: all of them, or the hidden ones.
        restyled(): colours changed; painted widgets draw themselves anew.
        rebuilt(): lengths, words or direction changed; windows build their parts anew.
    """

    putting_away = Signal(bool)
    restyled = Signal()
    rebuilt = Signal()

    def __init__(self, app: QApplication, settings: Settings) -> None:
        super().__init__(app)
        self._app = app
        self._settings = settings
        self._shown: theme.Theme | None = None
        self._own_words: QTranslator | None = None
        self.in_steps = False
        self._steps: Chunks | None = None
        self._again = self._all_away = False
        self._tag = ""
        app.setStyle("Fusion")
        theme.load_fonts()
        self.apply()
        settings.appearance_changed.connect(self._change)
        settings.language_changed.connect(self._change)
        app.styleHints().colorSchemeChanged.connect(self._change)

    # ---- in steps -------------------------------------------------------------

    def _change(self) -> None:
        if not self.in_steps:
            self.apply()
        elif self._steps is not None and not self._steps.is_done:
            self._again = True
        elif self._is_other():
            self._again = False
            self._steps = Chunks([self._put_hidden_away, self._put_all_away, self.apply], self)
            self._steps.finished.connect(self._look_again)

    def _look_again(self) -> None:
        if self._again:
            self._change()

    def _is_other(self) -> bool:
        """Whether the settings want something else than is shown."""
        settings = self._settings
        used = theme.wanted(settings.theme, settings.scale)
        return used != self._shown or settings.language != self._tag

    def _put_hidden_away(self) -> None:
        self.putting_away.emit(False)

    def _put_all_away(self) -> None:
        """Put away what is seen, too: but not to change colours while somebody writes there."""
        settings, shown = self._settings, self._shown
        colours_alone = (
            shown is not None and settings.scale == shown.scale and settings.language == self._tag
        )
        if not (colours_alone and _is_writing()):
            self._all_away = True
            self.putting_away.emit(True)

    # ---- the whole ------------------------------------------------------------

    def apply(self) -> None:
        """Bring the application in line with the settings and the desktop."""
        before, language_before = self._shown, i18n.language()
        self._tag = self._settings.language
        i18n.use(self._tag or QLocale.system().name())
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
        other = used.scale != before.scale or i18n.language() != language_before
        if other or self._all_away:
            self._all_away = False
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


def _is_writing() -> bool:
    """Whether the focus is in a text, or in something that is open over a window."""
    over = QApplication.activeModalWidget() or QApplication.activePopupWidget()
    return over is not None or isinstance(QApplication.focusWidget(), QLineEdit | QPlainTextEdit)
