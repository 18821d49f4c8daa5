"""All poses with a search: the library's own first, then those that come with the program."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen
from PySide6.QtCore import QByteArray, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QLineEdit, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme
from authoring.editor.workers import LatestTask, Token
from authoring.figures.drawing import draw
from authoring.figures.wants import PoseError
from authoring.model.library import Library
from authoring.model.pose import Pose

_ID = int(Qt.ItemDataRole.UserRole)
_PICTURE = (52, 60)


@frozen
class Entry:
    """A pose in the list; ``own`` where the library holds it."""

    pose: Pose
    own: bool

    @property
    def title(self) -> str:
        """Its title in its own language."""
        return self.pose.title.best(self.pose.language, self.pose.language) or self.pose.slug


def entries(library: Library) -> tuple[Entry, ...]:
    """The library's own poses by title, then the program's."""
    own = sorted((Entry(p, True) for p in library.poses.values()), key=lambda e: e.title.casefold())
    stock = (Entry(pose, False) for pose in library.stock_poses.values())
    return (*own, *sorted(stock, key=lambda e: e.title.casefold()))


def matching(every: tuple[Entry, ...], words: str) -> tuple[Entry, ...]:
    """The poses whose title or short name has each of the words."""
    wanted = words.casefold().split()
    return tuple(
        each
        for each in every
        if all(word in f"{each.title} {each.pose.slug}".casefold() for word in wanted)
    )


def _draw_one(pose: Pose, _token: Token) -> tuple[Pose, bytes]:
    try:
        return pose, draw(pose).svg.encode()
    except PoseError:
        return pose, b""


class Gallery(QWidget):
    """Signals:
    chosen(id): a pose was chosen.
    """

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("pane", True)
        used = theme()
        self.field = QLineEdit()
        self.field.setPlaceholderText(tr("Search poses"))
        self.field.setAccessibleName(tr("Search poses"))
        self.field.setClearButtonEnabled(True)
        self.field.textChanged.connect(self._fill)
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Poses"))
        self.list.setIconSize(QSize(*(used.px(side) for side in _PICTURE)))
        self.list.setWordWrap(True)
        self.list.setUniformItemSizes(False)
        self.list.currentItemChanged.connect(self._on_item)
        self.none = label(tr("No pose has these words."), Type.SMALL, soft=True, wrap=True)
        self.none.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(used.px(8))
        layout.addWidget(self.field)
        layout.addWidget(self.none)
        layout.addWidget(self.list, 1)
        self._every: tuple[Entry, ...] = ()
        self._icons: dict[Pose, QIcon] = {}
        self._last: dict[str, QIcon] = {}
        self._now = ""
        self._drawing = LatestTask(_draw_one, delay_ms=0, parent=self)
        self._drawing.done.connect(self._take_picture)
        self._next = QTimer(self, singleShot=True, interval=20)
        self._next.timeout.connect(self._draw_next)

    def show_library(self, library: Library, pose_id: str) -> None:
        """List the poses of a library, one of them chosen."""
        every = entries(library)
        if every != self._every:
            self._every = every
            self._now = pose_id
            self._fill()
        elif pose_id != self._now:
            self._now = pose_id
            self._select()

    def _fill(self) -> None:
        shown = matching(self._every, self.field.text())
        self.list.blockSignals(True)
        self.list.clear()
        own: bool | None = None
        for entry in shown:
            if entry.own is not own:
                own = entry.own
                self._add_head(tr("This library") if own else tr("Come with the program"))
            item = QListWidgetItem(entry.title)
            item.setData(_ID, entry.pose.id)
            last = self._last.get(entry.pose.id)
            item.setIcon(self._icons.get(entry.pose) or last or _empty())
            item.setSizeHint(QSize(0, theme().px(_PICTURE[1] + 10)))
            self.list.addItem(item)
        self.list.blockSignals(False)
        self.none.setVisible(not shown)
        self._select()
        self._next.start()

    def _add_head(self, words: str) -> None:
        head = QListWidgetItem(words)
        head.setFlags(Qt.ItemFlag.NoItemFlags)
        head.setFont(theme().font(Type.SMALL))
        self.list.addItem(head)

    def _select(self) -> None:
        self.list.blockSignals(True)
        found = next((i for i in self._items() if i.data(_ID) == self._now), None)
        if found is None:
            self.list.setCurrentRow(-1)
        else:
            self.list.setCurrentItem(found)
            self.list.scrollToItem(found)
        self.list.blockSignals(False)

    def _items(self) -> Iterator[QListWidgetItem]:
        for row in range(self.list.count()):
            item = self.list.item(row)
            if item.data(_ID):
                yield item

    def _on_item(self, item: QListWidgetItem | None) -> None:
        if item is not None and item.data(_ID):
            self._now = str(item.data(_ID))
            self.chosen.emit(self._now)

    # ---- small pictures, one after another away from the window -------------------

    def _draw_next(self) -> None:
        by_id = {entry.pose.id: entry.pose for entry in self._every}
        for item in self._items():
            pose = by_id.get(str(item.data(_ID)))
            if pose is not None and pose not in self._icons:
                self._drawing.ask_now(pose)
                return

    def _take_picture(self, made: tuple[Pose, bytes]) -> None:
        pose, svg = made
        self._icons[pose] = self._last[pose.id] = _icon(svg)
        for item in self._items():
            if item.data(_ID) == pose.id:
                item.setIcon(self._icons[pose])
        self._next.start()


def _empty() -> QIcon:
    return _icon(b"")


def _icon(svg: bytes) -> QIcon:
    """A small picture on the light plate."""
    used = theme()
    wide, high = (used.px(side) for side in _PICTURE)
    picture = QPixmap(wide * 2, high * 2)
    picture.fill(used.colour("plate"))
    if svg:
        renderer = QSvgRenderer(QByteArray(svg))
        size = renderer.defaultSize().scaled(picture.size(), Qt.AspectRatioMode.KeepAspectRatio)
        painter = QPainter(picture)
        at = picture.rect().center()
        place = picture.rect()
        place.setSize(size)
        place.moveCenter(at)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        renderer.render(painter, place)
        painter.end()
    picture.setDevicePixelRatio(2)
    return QIcon(picture)
