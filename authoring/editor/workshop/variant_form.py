"""The form of one variant."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QPushButton, QVBoxLayout, QWidget

from authoring.checks.result import CheckResult
from authoring.editor.chunks import Chunks
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.labels import label
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.place import steps
from authoring.editor.shapes import shapes_of
from authoring.editor.theme import theme
from authoring.editor.thumbnails import Thumbnails, shown_on_plate
from authoring.editor.vocabulary_words import field_words
from authoring.editor.workshop import edits, hard_word_marks
from authoring.editor.workshop.cautions_field import CautionsField
from authoring.editor.workshop.difference import DifferenceStrip
from authoring.editor.workshop.field_set import FieldSet
from authoring.editor.workshop.hold_field import HoldField
from authoring.editor.workshop.pictures_field import PicturesField, PlateView
from authoring.editor.workshop.small_fields import KindField, KitField
from authoring.editor.workshop.words import variant_name
from authoring.model.base import Fact
from authoring.model.card import Card, KitNeed, Variant
from authoring.model.vocabulary import Mode

_BELOW = (
    "start",
    "steps",
    "dose",
    "hold",
    "cautions",
    "demands",
    "cues",
    "breathing",
    "in_short",
    "pictures",
)
_READ_BY_PATIENTS = ("start", "steps", "cues", "breathing", "in_short")
_MORE = ("equipment", "supports", "limbs", "sources", "id")


class VariantForm(QWidget):
    """Edits one variant of a card.

    Signals:
        edited(variant, name, merge_key): a new value of the variant.
        ended(): the user left a field.
        photos_wanted(): choose photos from the disk.
        comparing_ended(): the strip of differences was closed.
    """

    edited = Signal(object, str, str)
    ended = Signal()
    photos_wanted = Signal()
    comparing_ended = Signal()

    def __init__(
        self, context: FormContext, thumbnails: Thumbnails, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._context, self._thumbnails = context, thumbnails
        self.variant: Variant | None = None
        self._path = ""
        self._shown = ("", "")
        self._results: tuple[CheckResult, ...] = ()
        self._different: tuple[str, ...] = ()
        self._compared = False
        self.fields = FieldSet(Variant, context, self)
        self.fields.edited.connect(self.edited)
        self.fields.ended.connect(self.ended)
        self.more: NodeForm | None = None
        self._build()

    # ---- building -------------------------------------------------------------

    def _build(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(12))
        self.strip = DifferenceStrip()
        self.strip.only_wanted.connect(lambda _on: self._show_which())
        self.strip.ended.connect(self.comparing_ended)
        layout.addWidget(self.strip)
        layout.addLayout(self._top())
        self._below = QVBoxLayout()
        self._below.setSpacing(theme().px(12))
        layout.addLayout(self._below)
        self.chunks = Chunks([partial(self._add_below, name) for name in _BELOW], self)
        self.more_button = QPushButton(tr("More fields"))
        self.more_button.setProperty("quiet", True)
        self.more_button.setAccessibleDescription(
            tr("Kit in detail, supports, limbs, sources, short id")
        )
        self.more_button.clicked.connect(self.open_more)
        layout.addWidget(self.more_button, 0, Qt.AlignmentFlag.AlignLeading)
        self._more_place = QVBoxLayout()
        layout.addLayout(self._more_place)
        layout.addStretch(1)

    def _top(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(theme().px(12))
        grid.setVerticalSpacing(theme().px(12))
        grid.addWidget(self._row("name"), 0, 0, 1, 2)
        grid.addWidget(self._row("mode"), 1, 0, 1, 2)
        grid.addWidget(self._row("rung"), 2, 0)
        grid.addWidget(self._row("position"), 2, 1)
        grid.addWidget(self._row("equipment"), 3, 0, 1, 2)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 2)
        self.plate = PlateView(QSize(150, 186))
        self.plate_button = QPushButton(tr("Add a photo"))
        self.plate_button.setProperty("quiet", True)
        self.plate_button.setProperty("small", True)
        self.plate_button.clicked.connect(self._on_plate)
        beside = QVBoxLayout()
        beside.setSpacing(theme().px(4))
        beside.addWidget(self.plate)
        beside.addWidget(self.plate_button, 0, Qt.AlignmentFlag.AlignLeading)
        beside.addStretch(1)
        grid.addLayout(beside, 0, 2, 4, 1)
        return grid

    def _add_below(self, name: str) -> None:
        row = self._row(name)
        self._below.addWidget(row)  # first: a row without a parent would be a window
        row.setVisible(self._is_wanted(name))
        self._mark_difference(name)
        self._mark_hard_words()

    def _row(self, name: str) -> FieldRow:
        match name:
            case "mode":
                return self.fields.row(name, KindField())
            case "equipment":
                return self.fields.row(name, KitField(_kit_fact(), self._context), tr("Kit"))
            case "cautions":
                return self.fields.row(name, CautionsField(self._context))
            case "hold":
                return self.fields.row(name, HoldField(self._context), tr("How it is held"))
            case "pictures":
                self.pictures = PicturesField(self._context, self._thumbnails)
                self.pictures.photos_wanted.connect(self.photos_wanted)
                return self.fields.row(name, self.pictures)
        return self.fields.row(name)

    def open_more(self) -> None:
        """Show the fields that are rarely needed."""
        if self.variant is None:
            return
        if self.more is None:
            self.more = NodeForm(Variant, self.variant, self._context, only=_MORE)
            self.more.edited.connect(self.edited)
            self.more.ended.connect(self.ended)
            self._more_place.addWidget(self.more)
            self.more.show_checks(self._results, self._path)
            self.more.focus_first()
        self.more_button.hide()

    def _close_more(self) -> None:
        if self.more is not None:
            self.more.hide()
            self.more.deleteLater()
            self.more = None
        self.more_button.show()

    # ---- showing --------------------------------------------------------------

    def show_variant(self, card: Card, variant: Variant, source: Variant | None) -> None:
        """Show a variant.

        Args:
            source: the variant to compare it with, None for none.
        """
        other = self._shown != (card.id, variant.id)
        self._shown, self.variant = (card.id, variant.id), variant
        self._path = f"variants[{card.variants.index(variant)}]"
        if other:
            self._close_more()
        self.fields.show_value(variant, anew=other)
        if self.more is not None:
            self.more.show_value(variant)
        self._show_plate(variant)
        self._compare(card, variant, source)
        self._mark_hard_words()

    def _mark_hard_words(self) -> None:
        read = [field for name, field in self.fields.texts() if _for_patients(name)]
        hard_word_marks.mark(read, self._context)

    def _show_plate(self, variant: Variant) -> None:
        first = shown_on_plate(variant)
        picture = self._thumbnails.of(first, theme().px(186))
        alt = first.alt.best(self._context.own, self._context.own) if first is not None else ""
        posed = first is not None and first.pose is not None
        words = tr("Drawn from a pose") if posed else tr("No picture")
        self.plate.show_picture(picture, words, alt or words)
        self.plate_button.setText(tr("Pictures") if variant.pictures else tr("Add a photo"))

    def show_pictures(self, variant: Variant) -> None:
        """Show the pictures that have been drawn meanwhile."""
        self._show_plate(variant)
        if "pictures" in self.fields.rows:
            self.pictures.show_pictures()

    def show_plate(self, wanted: bool) -> None:
        """Show the large plate beside the first fields, or leave their room to them."""
        self.plate.setVisible(wanted)
        self.plate_button.setVisible(wanted)

    def _on_plate(self) -> None:
        if self.variant is not None and self.variant.pictures:
            self.fields.focus_path("pictures[0]")
        else:
            self.photos_wanted.emit()

    def _compare(self, card: Card, variant: Variant, source: Variant | None) -> None:
        self._compared = source is not None and source.id != variant.id
        if source is None or not self._compared:
            self._different = ()
            self.strip.only.setChecked(False)
            self.strip.hide()
        else:
            self._different = edits.differing(variant, source)
            words = [field_words(Variant, name) for name in self._different]
            name = variant_name(card, source, self._context.language)
            self.strip.show_difference(name, words)
        for name in self.fields.rows:
            self._mark_difference(name)
        self._show_which()

    def _mark_difference(self, name: str) -> None:
        row, differs = self.fields.rows[name], name in self._different
        marked = f"{row.name} · {tr('differs')}" if differs else row.name
        if row.label.text() != marked:
            row.label.setText(marked)
            row.label.setProperty("strong", differs)
            row.label.style().unpolish(row.label)
            row.label.style().polish(row.label)

    def _show_which(self) -> None:
        for name, row in self.fields.rows.items():
            row.setVisible(self._is_wanted(name))

    def _is_wanted(self, name: str) -> bool:
        if name not in self._different and self._compared and self.strip.only.isChecked():
            return False
        if name != "hold" or self.variant is None:
            return True
        return self.variant.mode is Mode.ISOMETRIC or self.variant.hold is not None

    def show_checks(self, results: Iterable[CheckResult]) -> None:
        """Put the results under their fields."""
        self._results = tuple(results)
        self.fields.show_checks(self._results, self._path)
        if self.more is not None:
            self.more.show_checks(self._results, self._path)

    # ---- focus ----------------------------------------------------------------

    def focus_path(self, path: str) -> None:
        """Put the focus where a path inside the variant leads; on the name for ""."""
        self.strip.only.setChecked(False)
        self.chunks.finish()
        first = str(next(iter(steps(path)), "name"))
        if first in _MORE and first != "equipment":
            self.open_more()
            if self.more is not None:
                self.more.focus_path(path)
            return
        self.fields.focus_path(path or "name")

    def focused_path(self) -> str:
        """Place in the card of the text that has the focus, "" for none."""
        for name, field in self.fields.texts():
            if field.edit.hasFocus():
                return f"{self._path}.{name}"
        return ""

    def focus_name(self) -> None:
        """Put the focus on the name, all of it selected."""
        field = dict(self.fields.texts())["name"]
        field.edit.setFocus(Qt.FocusReason.OtherFocusReason)
        field.edit.selectAll()


def _for_patients(name: str) -> bool:
    return str(next(iter(steps(name)), "")) in _READ_BY_PATIENTS


def _kit_fact() -> Fact:
    return next(shape.known for shape in shapes_of(KitNeed) if shape.name == "kit")


def teaching() -> QWidget:
    """What stands in the form's place while no variant is chosen."""
    return label(
        tr(
            "No variant is chosen. A variant is one way to do the exercise: add the exercise "
            "as named first, then an easier and a harder one."
        ),
        soft=True,
        wrap=True,
    )
