"""The pictures of a variant: a plate, the words for people who can't see it, their order."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.choices import ChoiceField
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.labels import label
from authoring.editor.parts.plate import paint_plate
from authoring.editor.theme import Type, theme
from authoring.editor.thumbnails import Thumbnails
from authoring.editor.workshop import picture_opening
from authoring.model.base import evolve
from authoring.model.card import Picture
from authoring.model.vocabulary import Phase


class PlateView(QWidget):
    """A picture on its plate."""

    def __init__(self, size: QSize, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._size = size
        self._picture: QPixmap | None = None
        self._words = ""
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_picture(self, picture: QPixmap | None, words: str, name: str) -> None:
        """Show a picture, or an empty plate with words.

        Args:
            name: what a screen reader says.
        """
        self._picture, self._words = picture, words
        self.setAccessibleName(name)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(theme().px(self._size.width()), theme().px(self._size.height()))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        paint_plate(painter, QRect(self.rect()), self._picture, self._words)
        painter.end()


def _small(words: str) -> QPushButton:
    button = QPushButton(words)
    button.setProperty("quiet", True)
    button.setProperty("small", True)
    return button


class PictureRow(QWidget):
    """One picture."""

    def __init__(self, context: FormContext, thumbnails: Thumbnails) -> None:
        super().__init__()
        self._thumbnails = thumbnails
        self._own, self._language = context.own, context.language
        self._number = 1
        self.plate = PlateView(QSize(84, 108))
        self.alt = TextField(context.own, context.language)
        self.alt.mark_spelling(context.session)
        self.alt_row = FieldRow("", self.alt)
        self.phase = ChoiceField(Phase)
        self.change = _small("")
        self.up, self.down, self.remove = _small("↑"), _small("↓"), _small("×")
        buttons = QHBoxLayout()
        buttons.setSpacing(theme().px(4))
        buttons.addWidget(self.phase)
        for button in (self.change, self.up, self.down, self.remove):
            buttons.addWidget(button)
        buttons.addStretch(1)
        words = QVBoxLayout()
        words.addWidget(self.alt_row)
        words.addLayout(buttons)
        words.addStretch(1)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(12))
        layout.addWidget(self.plate, 0, Qt.AlignmentFlag.AlignTop)
        layout.addLayout(words, 1)

    def show_value(self, picture: Picture, number: int, last: bool) -> None:
        """Show a picture."""
        self.alt.show_value(picture.alt)
        self.phase.show_value(picture.phase)
        name = tr("Words for people who can't see picture {n}", n=number)
        self.alt_row.name = name
        self.alt_row.label.setText(name)
        self.alt.name_controls(name)
        self.phase.name_controls(tr("Picture {n}: moment of the movement", n=number))
        words = tr("Open pose") if picture.pose else tr("Edit photo")
        self.change.setText(words)
        self.change.setAccessibleName(tr("Picture {n}: {what}", n=number, what=words.lower()))
        self.up.setAccessibleName(tr("Picture {n}: move up", n=number))
        self.down.setAccessibleName(tr("Picture {n}: move down", n=number))
        self.remove.setAccessibleName(tr("Picture {n}: remove", n=number))
        self.up.setEnabled(number > 1)
        self.down.setEnabled(not last)
        self._number = number
        self.show_picture(picture)
        wanted = tr("Say what it shows, for people who can't see it.")
        self.alt_row.say("" if picture.alt else wanted)

    def show_picture(self, picture: Picture) -> None:
        """Show the picture itself, as far as it has been drawn."""
        shown = self._thumbnails.of(picture, theme().px(108))
        alt = picture.alt.best(self._language or self._own, self._own)
        missing = tr("Drawn from a pose") if picture.pose else tr("Picture is missing")
        self.plate.show_picture(shown, missing, alt or tr("Picture {n}", n=self._number))


class PicturesField(ValueField):
    """Pictures in order. Photos come from files, by dropping or by pasting.

    Signals:
        photos_wanted(): the user wants to choose photos from the disk.
    """

    photos_wanted = Signal()

    def __init__(
        self, context: FormContext, thumbnails: Thumbnails, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._context, self._thumbnails = context, thumbnails
        self.rows: list[PictureRow] = []
        self._box = QVBoxLayout()
        self._box.setSpacing(theme().px(8))
        self.layout_.addLayout(self._box)
        self.none = label(
            tr("None. Drop a photo here, paste one, or choose a file (PNG, JPEG or WebP)."),
            Type.SMALL,
            soft=True,
            wrap=True,
        )
        self.layout_.addWidget(self.none)
        self.add_button = _small(tr("Add a photo"))
        self.add_button.clicked.connect(self.photos_wanted)
        self.layout_.addWidget(self.add_button, 0, Qt.AlignmentFlag.AlignLeading)
        self.setFocusProxy(self.add_button)
        self.value = ()

    def show_value(self, value: Any) -> None:
        """Show a tuple of pictures."""
        self.value = tuple(value or ())
        while len(self.rows) > len(self.value):
            gone = self.rows.pop()
            gone.hide()
            gone.deleteLater()
        while len(self.rows) < len(self.value):
            self._new_row()
        for index, (row, picture) in enumerate(zip(self.rows, self.value, strict=True)):
            row.show_value(picture, index + 1, index == len(self.value) - 1)
        self.none.setVisible(not self.value)

    def show_pictures(self) -> None:
        """Show the pictures that have been drawn meanwhile."""
        for row, picture in zip(self.rows, self.value, strict=True):
            row.show_picture(picture)

    def name_controls(self, name: str, description: str = "") -> None:
        """The controls carry their own names."""
        self.add_button.setAccessibleDescription(description)

    def focus_item(self, index: int | None, _path: str) -> None:
        """Go to the words of a picture, or to the button that adds one."""
        inside = index is not None and index < len(self.rows)
        (self.rows[index or 0].alt if inside else self.add_button).setFocus()

    def _new_row(self) -> None:
        row = PictureRow(self._context, self._thumbnails)
        row.alt.edited.connect(lambda alt: self._change(row, "text", alt=alt))
        row.alt.ended.connect(self.ended)
        row.phase.edited.connect(lambda phase: self._change(row, None, phase=phase))
        row.change.clicked.connect(lambda: self._open(row))
        row.up.clicked.connect(lambda: self._move(row, -1))
        row.down.clicked.connect(lambda: self._move(row, 1))
        row.remove.clicked.connect(lambda: self._remove(row))
        self.rows.append(row)
        self._box.addWidget(row)

    def _change(self, row: PictureRow, key: str | None, **changes: Any) -> None:
        index = self.rows.index(row)
        self.edit_key = None if key is None else f"[{index}]"
        new = evolve(self.value[index], **changes)
        self.offer((*self.value[:index], new, *self.value[index + 1 :]))
        row.show_value(new, index + 1, index == len(self.value) - 1)

    def _open(self, row: PictureRow) -> None:
        """Open the pose in its room, or the photo to be cut and levelled."""
        picture = self.value[self.rows.index(row)]
        if picture.pose is not None:
            picture_opening.open_pose(self._context.session, picture.pose)
        elif picture.image is not None:
            picture_opening.open_photo(
                self._context.session,
                picture.image,
                self,
                lambda name: self._change(row, None, image=name),
            )

    def _take(self, items: tuple[Picture, ...]) -> None:
        self.edit_key = None
        self.offer(items)
        self.show_value(items)

    def _move(self, row: PictureRow, by: int) -> None:
        index = self.rows.index(row)
        goal = index + by
        if 0 <= goal < len(self.value):
            items = list(self.value)
            items[index], items[goal] = items[goal], items[index]
            self._take(tuple(items))
            (self.rows[goal].up if by < 0 else self.rows[goal].down).setFocus()

    def _remove(self, row: PictureRow) -> None:
        index = self.rows.index(row)
        self._take((*self.value[:index], *self.value[index + 1 :]))
        self.add_button.setFocus()
