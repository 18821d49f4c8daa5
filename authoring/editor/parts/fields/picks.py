"""Fields that pick from what the library holds: terms, references, variants, entries."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from attrs import frozen
from PySide6.QtCore import QStringListModel, Qt
from PySide6.QtWidgets import QCompleter, QLineEdit, QPushButton, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.flow import FlowLayout


@frozen
class Option:
    """One thing that can be picked: its id, its words, and what else it is called."""

    id: str
    words: str
    also: tuple[str, ...] = ()


Options = Callable[[], Sequence[Option]]
Create = Callable[[str], str | None]
"""Make a new thing of these words; its id, or None where it could not be made."""


def find(options: Sequence[Option], typed: str) -> Option | None:
    """The option of these words: by its name, a look-alike, or its id; else None."""
    wanted = typed.strip().casefold()
    for option in options:
        if option.words.casefold() == wanted:
            return option
    for option in options:
        if wanted == option.id or wanted in (also.casefold() for also in option.also):
            return option
    return None


class _PickLine(QLineEdit):
    """A line that filters options as one types, by any part of a name or look-alike."""

    def __init__(self, options: Options, picked: Callable[[str], None]) -> None:
        super().__init__()
        self._options = options
        self._model = QStringListModel(self)
        completer = QCompleter(self._model, self)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setMaxVisibleItems(10)
        completer.activated.connect(picked)
        self.setCompleter(completer)
        self.textEdited.connect(self._fill)

    def _fill(self, _typed: str) -> None:
        words = [line for option in self._options() for line in (option.words, *option.also)]
        if words != self._model.stringList():
            self._model.setStringList(words)


class PickField(ValueField):
    """One thing, by typing part of its name. The value is its id, or None."""

    def __init__(
        self,
        options: Options,
        *,
        what: str = "",
        create: Create | None = None,
        optional: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        """Args:
        options: what can be picked now.
        what: the kind of thing, for sentences ("kit").
        create: makes a new one; None where that is not this field's to do.
        optional: whether an empty line means "not given".
        """
        super().__init__(parent)
        self.edit_key = None
        self._options, self._what, self._create, self._optional = options, what, create, optional
        self.line = _PickLine(options, self._take)
        self.holds(self.line)
        self._new = QPushButton()
        self._new.setProperty("quiet", True)
        self._new.hide()
        self._new.clicked.connect(self._make)
        self.layout_.addWidget(self._new, 0, Qt.AlignmentFlag.AlignLeading)
        self.line.textEdited.connect(self._read)
        self.line.returnPressed.connect(self._take_first)

    def show_value(self, value: Any) -> None:
        """Show the words of an id, or the id itself where nothing has it."""
        if value == self.value and self.line.hasFocus() and not self.fault:
            return
        self.value = value
        known = next((option for option in self._options() if option.id == value), None)
        self.line.setText("" if value is None else known.words if known else str(value))
        self._new.hide()
        self._say("")

    def _read(self, typed: str) -> None:
        words = typed.strip()
        self._new.hide()
        if not words and self._optional:
            self.offer(None)
            return
        option = find(self._options(), words)
        if option is not None:
            self.offer(option.id)
            return
        if words and self._create is not None:
            self._new.setText(tr("Add “{words}”", words=words))
            self._new.show()
        self.refuse(
            tr("Nothing here is called “{words}”; choose from the list.", words=words)
            if words
            else tr("Choose one from the list.")
        )

    def _take(self, words: str) -> None:
        option = find(self._options(), words)
        if option is not None:
            self.line.setText(option.words)
            self._new.hide()
            self.offer(option.id)

    def _take_first(self) -> None:
        """Enter takes the first thing that has the words typed in its name."""
        typed = self.line.text().strip().casefold()
        options = self._options()
        if not typed or find(options, typed) is not None:
            return
        for option in options:
            if any(typed in words.casefold() for words in (option.words, *option.also)):
                self._take(option.words)
                return

    def _make(self) -> None:
        made = self._create(self.line.text().strip()) if self._create is not None else None
        if made is not None:
            self._new.hide()
            self.offer(made)


class PicksField(ValueField):
    """Several things: those picked as buttons that take them off, then a line to pick more."""

    def __init__(
        self,
        options: Options,
        *,
        what: str = "",
        create: Create | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.edit_key = None
        self._options = options
        self._chips = QWidget()
        self._flow = FlowLayout(self._chips, gap=4)
        self.layout_.addWidget(self._chips)
        self._pick = PickField(options, what=what, create=create, optional=True)
        self._pick.line.setPlaceholderText(tr("Add by name"))
        self.layout_.addWidget(self._pick)
        self.setFocusProxy(self._pick.line)
        self._pick.edited.connect(self._add)
        self._pick.faulted.connect(self._say)
        self._pick.ended.connect(self.ended)
        self._name = ""
        self.value = ()

    def show_value(self, value: Any) -> None:
        """Show a tuple of ids."""
        if tuple(value) == self.value and self._flow.count() == len(self.value):
            return
        self.value = tuple(value)
        self._draw()

    def name_controls(self, name: str, description: str = "") -> None:
        """Name the line and the buttons."""
        self._name = name
        super().name_controls(tr("{field}: add by name", field=name), description)
        self._draw()

    def _draw(self) -> None:
        while (item := self._flow.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.deleteLater()
        known = {option.id: option.words for option in self._options()}
        for one in self.value:
            words = known.get(one, one)
            chip = QPushButton(f"{words}  ×")
            chip.setProperty("chip", True)
            chip.setAccessibleName(tr("{field}: take off {what}", field=self._name, what=words))
            chip.clicked.connect(lambda _=False, gone=one: self._remove(gone))
            self._flow.addWidget(chip)
        self._chips.setVisible(bool(self.value))

    def _add(self, picked: str | None) -> None:
        if picked is None:
            return
        if picked not in self.value:
            self.offer((*self.value, picked))
            self._draw()
        self._pick.value = None
        self._pick.line.clear()

    def _remove(self, gone: str) -> None:
        self.offer(tuple(one for one in self.value if one != gone))
        self._draw()
        self._pick.line.setFocus()
