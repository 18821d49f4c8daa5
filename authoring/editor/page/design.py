"""Rows that choose how much of a plan is printed, for whom, and which sheets go with it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.page.kept import Kept
from authoring.editor.parts.fields.choices import PlainChoice
from authoring.editor.parts.flow import FlowLayout
from authoring.editor.parts.labels import label
from authoring.editor.parts.ticks import Tick
from authoring.editor.theme import Type, theme
from authoring.handout.choices import Audience, ExtraKind, Layout
from authoring.handout.readers import languages_for_readers


class Design(QWidget):
    """Layout, reader and extra sheets of the pages, kept for the library.

    Signals:
        changed(): another layout, reader or sheet was chosen.
    """

    changed = Signal()

    def __init__(self, kept: Kept, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._kept = kept
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setSpacing(theme().px(4))
        self.layout_choice = self._choice(
            tr("Layout"),
            "layout",
            [
                (None, tr("Choose for me")),
                (Layout.FULL, tr("Full")),
                (Layout.COMPACT, tr("Compact, for one sheet")),
                (Layout.OVERVIEW, tr("Overview, one page for the wall")),
            ],
        )
        self.audience_choice = self._choice(
            tr("For whom"),
            "for",
            [
                (Audience.ADULT, tr("An adult")),
                (Audience.CHILD, tr("A child")),
                (Audience.CARER, tr("Whoever cares for the patient")),
            ],
        )
        self.sheets: dict[ExtraKind, Tick] = {}
        self._build_sheets()
        self.refresh()

    def _head(self, name: str, control: QWidget | None) -> None:
        if self._rows.count():
            self._rows.addSpacing(theme().px(8))
        self._rows.addWidget(label(name, Type.SMALL, soft=True, buddy=control))

    def _choice(self, name: str, key: str, choices: list[tuple[object, str]]) -> PlainChoice:
        field = PlainChoice(choices)
        field.edited.connect(lambda value: self._keep(key, "" if value is None else value.value))
        field.name_controls(name)
        self._head(name, field)
        self._rows.addWidget(field)
        return field

    def _build_sheets(self) -> None:
        names = {
            ExtraKind.WALLET: tr("Wallet card"),
            ExtraKind.DIARY: tr("Blank diary"),
            ExtraKind.SUMMARY: tr("Summary for a colleague"),
        }
        self._head(tr("Extra sheets"), None)
        group = QWidget()
        group.setAccessibleName(tr("Extra sheets"))
        row = FlowLayout(group, gap=12)
        for kind, words in names.items():
            tick = Tick(words)
            tick.setAccessibleName(tr("Extra sheets: {sheet}", sheet=words))
            tick.clicked.connect(self._keep_sheets)
            self.sheets[kind] = tick
            row.addWidget(tick)
        self._rows.addWidget(group)

    def _keep(self, key: str, words: str) -> None:
        self._kept.keep(key, words)
        self.changed.emit()

    def _keep_sheets(self) -> None:
        self._keep("with", ",".join(kind.value for kind in self.extras))

    @property
    def layout_wished(self) -> Layout | None:
        """The layout; None to let the page maker choose as the command does."""
        found: Layout | None = self.layout_choice.value
        return found

    @property
    def audience(self) -> Audience:
        """Whom the program's own sentences speak to."""
        found: Audience = self.audience_choice.value
        return found if self.audience_choice.isEnabled() else Audience.ADULT

    @property
    def extras(self) -> frozenset[ExtraKind]:
        """The sheets that go with the handout."""
        return frozenset(kind for kind, tick in self.sheets.items() if tick.isChecked())

    def refresh(self, language: str = "en") -> None:
        """Show what is kept; ``language`` is that of the page.

        A language without words for a child or a carer speaks to the adult.
        """
        layouts = {one.value: one for one in Layout}
        self.layout_choice.show_value(layouts.get(self._kept.of("layout")))
        readers = {one.value: one for one in Audience}
        known = language.partition("-")[0] in languages_for_readers()
        wanted = readers.get(self._kept.of("for"), Audience.ADULT)
        self.audience_choice.show_value(wanted if known else Audience.ADULT)
        self.audience_choice.setEnabled(known)
        self.audience_choice.setToolTip(
            "" if known else tr("This language has words for an adult only.")
        )
        wished = self._kept.of("with").split(",")
        for kind, tick in self.sheets.items():
            tick.setChecked(kind.value in wished)
