"""Fields that the workshop shows in fewer words than a general form would."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.choices import PlainChoice
from authoring.editor.parts.fields.picks import PicksField
from authoring.editor.parts.icons import as_icon, icon_of_mode, mode_words
from authoring.editor.parts.segmented import Segmented
from authoring.editor.theme import theme
from authoring.model.base import Fact
from authoring.model.card import KitNeed
from authoring.model.vocabulary import Mode

_OTHERS = tuple(mode for mode in Mode if mode not in (Mode.DYNAMIC, Mode.ISOMETRIC))
_OTHER = "other"


class KindField(ValueField):
    """Moving, holding, or another kind of work, which is then chosen beside it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit_key = None
        self.kinds: Segmented[object] = Segmented(
            tr("Kind of work"),
            [
                (Mode.DYNAMIC, mode_words(Mode.DYNAMIC)),
                (Mode.ISOMETRIC, mode_words(Mode.ISOMETRIC)),
                (_OTHER, tr("Other")),
            ],
        )
        self.others = PlainChoice([(mode, mode_words(mode)) for mode in _OTHERS])
        self.others.name_controls(tr("Other kind of work"))
        row = QHBoxLayout()
        row.setSpacing(theme().px(8))
        row.addWidget(self.kinds)
        row.addWidget(self.others)
        row.addStretch(1)
        self.layout_.addLayout(row)
        self.setFocusProxy(self.kinds.button(Mode.DYNAMIC))
        for mode in (Mode.DYNAMIC, Mode.ISOMETRIC):
            button = self.kinds.button(mode)
            # Qt puts icon and words close together: a thin gap more.
            button.setText(f"\N{NO-BREAK SPACE}{button.text()}")
            button.setMinimumWidth(button.minimumWidth() + theme().px(26))
        self._show_icons()
        self.kinds.chosen.connect(self._choose)
        self.others.edited.connect(self.offer)

    def _show_icons(self) -> None:
        for mode in (Mode.DYNAMIC, Mode.ISOMETRIC):
            self.kinds.button(mode).setIcon(as_icon(icon_of_mode(mode)))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        # Icons are painted once, in the colours of the theme that is in use.
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "kinds"):
            self._show_icons()

    def show_value(self, value: Any) -> None:
        """Show a mode."""
        self.value = value
        other = value in _OTHERS
        self.kinds.choose(_OTHER if other else value)
        self.others.setVisible(other)
        if other:
            self.others.show_value(value)
        self.setFocusProxy(self.kinds.button(_OTHER if other else value))

    def name_controls(self, name: str, description: str = "") -> None:
        """The buttons carry their own names."""
        self.kinds.setAccessibleDescription(description)

    def _choose(self, chosen: object) -> None:
        mode = chosen if isinstance(chosen, Mode) else _OTHERS[0]
        if chosen is _OTHER and self.value in _OTHERS:
            return
        self.offer(mode)
        self.show_value(mode)
        self.kinds.button(chosen).setFocus(Qt.FocusReason.OtherFocusReason)


class KitField(ValueField):
    """Kit by name; counts and sizes stay as they are and are edited in a form of their own."""

    def __init__(self, known: Fact, context: FormContext, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit_key = None
        self.picks = PicksField(lambda: context.options(known, {}), create=context.creator(known))
        self.layout_.addWidget(self.picks)
        self.setFocusProxy(self.picks.focusProxy() or self.picks)
        self.picks.edited.connect(self._take)
        self.picks.faulted.connect(self._say)
        self.picks.ended.connect(self.ended)
        self.value = ()

    def show_value(self, value: Any) -> None:
        """Show a tuple of kit."""
        self.value = tuple(value or ())
        self.picks.show_value(tuple(dict.fromkeys(need.kit for need in self.value)))

    def name_controls(self, name: str, description: str = "") -> None:
        """Name the line and the buttons."""
        self.picks.name_controls(name, description)

    def _take(self, ids: tuple[str, ...]) -> None:
        known = {need.kit for need in self.value}
        kept = [need for need in self.value if need.kit in ids]
        self.offer((*kept, *(KitNeed(kit=one) for one in ids if one not in known)))
