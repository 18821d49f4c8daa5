"""A working day in one window: every kind of action, each under watch."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QWidget

from authoring.editor.library_room.filters import FilterTree
from authoring.editor.library_room.room import PAGES, LibraryRoom
from authoring.editor.page.room import PageRoom
from authoring.editor.page.spread import Fit
from authoring.editor.shell import MainWindow
from authoring.editor.theme import ThemeName
from authoring.handout.document import PageSize, PrintSize
from tests.editor.whole import focus_of, keep_active
from tests.editor.whole_watch import Watch

CTRL, ALT, SHIFT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ShiftModifier,
)
PLAIN = Qt.KeyboardModifier.NoModifier
Key = Qt.Key


class Tour:
    """Goes through the rooms and does what people do there."""

    def __init__(self, window: MainWindow, watch: Watch, settle_ms: int = 400) -> None:
        """Args: settle_ms: how long what follows an action is watched, too."""
        self.window, self.watch, self._settle_ms = window, watch, settle_ms

    def press(self, name: str, key: Qt.Key, held: Qt.KeyboardModifier = PLAIN) -> None:
        """Press a key under watch."""
        keep_active(self.window)
        self.watch.act(
            name, lambda: QTest.keyClick(focus_of(self.window), key, held), self._settle_ms
        )

    def type(self, name: str, words: str) -> None:
        """Type letters, each under watch; what follows the last settles."""
        for index, letter in enumerate(words):
            wait = self._settle_ms if index == len(words) - 1 else self._settle_ms // 6
            self.watch.act(name, self._typing(letter), wait)

    def _typing(self, letter: str) -> Callable[[], None]:
        return lambda: QTest.keyClicks(focus_of(self.window), letter)

    def text_of(self, name: str) -> QWidget:
        """A text field of the open room, by its accessible name."""
        return next(
            one
            for one in self.window.room.findChildren(QWidget)
            if isinstance(one, QLineEdit | QPlainTextEdit)
            and one.accessibleName() == name
            and one.isVisible()
        )

    # ---- rooms ------------------------------------------------------------------

    def on_the_map(self) -> None:
        """Walk, move, dose, add, link, fill in a form."""
        press = self.press
        press("walk across", Key.Key_Right)
        press("walk down", Key.Key_Down)
        press("move a stage on", Key.Key_Right, ALT)
        press("move down", Key.Key_Down, CTRL)
        press("harder", Key.Key_Up, ALT)
        press("duplicate", Key.Key_D, CTRL)
        press("carry on", Key.Key_Right, CTRL)
        press("open the dose", Key.Key_D)
        self.type("type a dose", "3 x 8-12, rest 90 s")
        press("keep the dose", Key.Key_Return)
        press("offer cards", Key.Key_Insert)
        self.type("find a card", "heel r")
        press("add the card", Key.Key_Return)
        press("copy", Key.Key_C, CTRL)
        press("paste", Key.Key_V, CTRL)
        press("offer variants", Key.Key_L)
        press("turn back", Key.Key_Escape)
        press("open the form of an entry", Key.Key_F2)
        press("close the form", Key.Key_Escape)
        press("open the form of the protocol", Key.Key_I, CTRL)
        self.text_of("Title").setFocus()
        self.type("type a title", "Ankle")
        press("close the form", Key.Key_Escape)
        press("add a stage", Key.Key_N, CTRL | SHIFT)
        press("duplicate a stage", Key.Key_D, CTRL | SHIFT)
        press("fold borders", Key.Key_B)
        press("unfold borders", Key.Key_B)
        for _ in range(6):
            press("undo", Key.Key_Z, CTRL)
        for _ in range(3):
            press("redo", Key.Key_Z, CTRL | SHIFT)

    def in_the_workshop(self) -> None:
        """Write a variant, walk the ladder, choose another card."""
        press = self.press
        press("walk the ladder", Key.Key_Up, CTRL)
        press("change its rung", Key.Key_Up, ALT)
        self.text_of("Name").setFocus()
        self.type("type a name", "slowly")
        self.type("type a long name", " and with both hands on the wall")
        press("undo", Key.Key_Z, CTRL)
        press("offer cards", Key.Key_J, CTRL)
        self.type("find a card", "squat")
        press("take the card", Key.Key_Return)
        press("new card", Key.Key_N, CTRL | SHIFT)
        press("undo", Key.Key_Z, CTRL)

    def anywhere(self) -> None:
        """Search, go through checks, save."""
        press = self.press
        press("open the search", Key.Key_F, CTRL)
        self.type("search", "heel raise")
        press("go to what was found", Key.Key_Return)
        press("next check", Key.Key_F8)
        press("next pane", Key.Key_F6)
        self.watch.act("save", self.window.save, 5 * self._settle_ms)
        press("sheet of keys", Key.Key_F1)
        press("close it", Key.Key_Escape)

    def rooms(self, names: tuple[str, ...]) -> None:
        """Open every room, then each again."""
        for again in (" for the first time", ""):
            for number, name in enumerate(names):
                keep_active(self.window)
                press = self._opening(Key(Key.Key_1 + number))
                self.watch.act(f"open {name}{again}", press, 3 * self._settle_ms)

    def _opening(self, key: Qt.Key) -> Callable[[], None]:
        return lambda: QTest.keyClick(focus_of(self.window), key, CTRL)

    def in_the_library(self) -> None:
        """Find, filter, and open every page."""
        press, room = self.press, self.window.room
        assert isinstance(room, LibraryRoom)
        self.text_of("Find in the library").setFocus()
        self.type("find in the library", "knee wll")
        tree = room.findChildren(FilterTree)[0]
        first = tree.model().index(0, 0, tree.model().index(0, 0))
        self.watch.act("tick a filter", partial(tree.flip, first), self._settle_ms)
        self.watch.act("untick a filter", partial(tree.flip, first), self._settle_ms)
        press("walk down what is found", Key.Key_Down)
        for entry in PAGES:
            for again in (" for the first time", ""):
                name = f"open the page {entry.key}{again}"
                self.watch.act(name, partial(room.open_page, entry.key), 2 * self._settle_ms)

    def on_the_page(self) -> None:
        """Choose stages, paper and size, turn pages, zoom."""
        room = self.window.room
        assert isinstance(room, PageRoom)
        choices = room.choices
        for name, button in (
            ("choose a stage", choices.stages.ticks[1]),
            ("choose the whole protocol", choices.stages.whole),
            ("choose a paper", choices.paper.button(PageSize.LETTER)),
            ("choose a print size", choices.print_size.button(PrintSize.LARGE)),
        ):
            self.watch.act(name, button.click, 5 * self._settle_ms)
        self.press("next page", Key.Key_PageDown, CTRL)
        self.watch.act("whole page", lambda: room.view.set_zoom(Fit.PAGE), self._settle_ms)

    def in_the_clinic(self) -> None:
        """Open every section, and write in one."""
        for number in range(1, 7):
            for again in (" for the first time", ""):
                self.press(f"open section {number}{again}", Key(Key.Key_0 + number), ALT)
        self.press("open section 1", Key.Key_1, ALT)
        self.text_of("Name").setFocus()
        self.type("type the clinic's name", "North")

    def looks(self) -> None:
        """Theme and text size."""
        press, settings = self.press, self.window.settings
        for theme in (ThemeName.DARK, ThemeName.CONTRAST, ThemeName.LIGHT):
            wear = partial(setattr, settings, "theme", theme)
            self.watch.act(f"{theme.value} theme", wear, 3 * self._settle_ms)
        press("larger text", Key.Key_Plus, CTRL)
        press("smaller text", Key.Key_Minus, CTRL)
