"""The panel that says what stands on the pages, and on which paper."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from authoring.checks.result import Subject
from authoring.editor.i18n import own_name, tr
from authoring.editor.page.design import Design
from authoring.editor.page.files import FORMATS, Format, format_words
from authoring.editor.page.kept import Kept
from authoring.editor.page.stages import StageTicks
from authoring.editor.page.wish import PageWish, stages_kept
from authoring.editor.parts.fields.choices import PlainChoice, QuietCombo
from authoring.editor.parts.fields.picks import Option, PickField
from authoring.editor.parts.labels import label
from authoring.editor.parts.segmented import Segmented
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.theme import Type, theme
from authoring.handout.catalogue import languages
from authoring.handout.document import PageSize, PrintSize
from authoring.model.clinic import Clinic
from authoring.model.protocol import Protocol

_WIDTH = 304


class Choices(QFrame):
    """What, which stages, paper, print size, language, kind of file. Choices are kept.

    Signals:
        changed(): something else is wished for.
    """

    changed = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("panel", True)
        self.setProperty("pane", True)
        self.setAccessibleName(tr("What is printed"))
        self.setFixedWidth(theme().px(_WIDTH))
        self._session = session
        self._settings: Settings = session.settings
        self._here = Kept(session.settings, session.document.folder)
        self._listed: tuple[object, Sequence[Option]] | None = None
        self._build()
        self.refresh()

    # ---- building -------------------------------------------------------------

    def _build(self) -> None:
        used = theme()
        inner = QWidget()
        self._rows = QVBoxLayout(inner)
        self._rows.setContentsMargins(used.px(12), used.px(12), used.px(12), used.px(12))
        self._rows.setSpacing(used.px(4))
        self._build_what()
        self._build_how()
        self._rows.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(inner)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.addWidget(scroll)

    def _row(self, name: str, control: QWidget) -> None:
        if self._rows.count():
            self._rows.addSpacing(theme().px(8))
        self._rows.addWidget(label(name, Type.SMALL, soft=True, buddy=control))
        self._rows.addWidget(control)

    def _build_what(self) -> None:
        what = ((Subject.PROTOCOL, tr("Protocol")), (Subject.CARD, tr("Card")))
        self.subject = Segmented(tr("What"), what, self._kept_subject())
        self.subject.chosen.connect(self._take_subject)
        self._row(tr("What"), self.subject)
        self.protocol = QuietCombo()
        self.protocol.setAccessibleName(tr("Protocol"))
        self.protocol.setMinimumContentsLength(10)
        self.protocol.setSizeAdjustPolicy(
            QuietCombo.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        self.protocol.activated.connect(self._take_protocol)
        self._offered: list[str] = []
        self.card = PickField(self._cards)
        self.card.line.setPlaceholderText(tr("Type part of a name"))
        self.card.edited.connect(self._session.choose_card)
        self.card.name_controls(tr("Card"), tr("Type part of a name"))
        self._rows.addWidget(self.protocol)
        self._rows.addWidget(self.card)
        self.stages = StageTicks()
        self.stages.chosen.connect(self._take_stages)
        self._rows.addSpacing(theme().px(8))
        self._rows.addWidget(self.stages)

    def _build_how(self) -> None:
        self.design = Design(self._here)
        self.design.changed.connect(self.changed)
        self._rows.addSpacing(theme().px(8))
        self._rows.addWidget(self.design)
        papers = ((PageSize.A4, tr("A4")), (PageSize.LETTER, tr("Letter")))
        self.paper = Segmented(tr("Paper"), papers)
        self.paper.chosen.connect(lambda value: self._keep_here("paper", value))
        self._row(tr("Paper"), self.paper)
        sizes = ((PrintSize.STANDARD, tr("Standard")), (PrintSize.LARGE, tr("Large")))
        self.print_size = Segmented(tr("Print size"), sizes)
        self.print_size.chosen.connect(lambda value: self._keep_here("size", value))
        self._row(tr("Print size"), self.print_size)
        tags = languages()
        self.language = PlainChoice([(tag, own_name(tag)) for tag in tags])
        self.language.edited.connect(self._take_language)
        self.language.name_controls(tr("Language"))
        self._row(tr("Language"), self.language)
        self.format = Segmented(
            tr("Save as"), [(one, format_words(one)) for one in FORMATS], self._kept_format()
        )
        self.format.chosen.connect(lambda value: self._keep("format", value.value))
        self._row(tr("Save as"), self.format)

    # ---- what can be chosen -----------------------------------------------------

    def _protocols(self) -> Sequence[Option]:
        found = [
            Option(key, p.title.best(p.language, p.language).strip() or p.slug)
            for key, p in self._session.library.protocols.items()
        ]
        return sorted(found, key=lambda option: option.words.casefold())

    def _cards(self) -> Sequence[Option]:
        cards = self._session.library.cards
        if self._listed is None or self._listed[0] is not cards:
            found = [
                Option(key, c.title.best(c.language, c.language).strip() or c.slug)
                for key, c in cards.items()
            ]
            self._listed = cards, sorted(found, key=lambda option: option.words.casefold())
        return self._listed[1]

    # ---- what is chosen -----------------------------------------------------------

    def _kept(self, key: str) -> str:
        return self._settings.kept(f"page/{key}")

    def _keep(self, key: str, value: str) -> None:
        self._settings.keep(f"page/{key}", value)
        self.changed.emit()

    def _keep_here(self, key: str, value: PageSize | PrintSize) -> None:
        self._here.keep(key, value.value)
        self.changed.emit()

    def _take_language(self, tag: str) -> None:
        self.design.refresh(tag)
        self._keep("language", tag)

    def _kept_subject(self) -> Subject:
        library = self._session.library
        wanted = Subject.CARD if self._kept("what") == "card" else Subject.PROTOCOL
        if wanted is Subject.PROTOCOL and not library.protocols and library.cards:
            return Subject.CARD
        if wanted is Subject.CARD and not library.cards:
            return Subject.PROTOCOL
        return wanted

    def _kept_format(self) -> Format:
        known = {one.value: one for one in FORMATS}
        return known.get(self._kept("format"), Format.PDF)

    def _kept_stages(self) -> tuple[int, ...]:
        protocol_id, _, numbers = self._kept("stages").partition(":")
        if protocol_id != self._session.protocol_id:
            return ()
        return tuple(int(one) for one in numbers.split(",") if one.isdigit())

    def _take_subject(self, subject: Subject) -> None:
        self._settings.keep("page/what", "card" if subject is Subject.CARD else "protocol")
        self.refresh()
        self.changed.emit()

    def _take_protocol(self, index: int) -> None:
        self._session.choose_protocol(self._offered[index])

    def _take_stages(self, numbers: tuple[int, ...]) -> None:
        words = ",".join(map(str, numbers))
        self._keep("stages", f"{self._session.protocol_id}:{words}")

    @property
    def chosen_format(self) -> Format:
        """The kind of file to save."""
        return self.format.value or Format.PDF

    def wish(self) -> PageWish:
        """What is wished for, as it stands."""
        session = self._session
        card = self.subject.value is Subject.CARD
        protocol = session.protocol
        count = len(protocol.stages) if protocol is not None and not card else 0
        return PageWish(
            Subject.CARD if card else Subject.PROTOCOL,
            session.card_id if card else session.protocol_id,
            stages_kept(self._kept_stages(), count),
            self.paper.value,
            self.print_size.value,
            self._region(self.language.value),
            layout=self.design.layout_wished,
            audience=self.design.audience,
            extras=self.design.extras,
        )

    def _region(self, language: str | None) -> str | None:
        """The clinic's own tag where it is of the language chosen: "en-GB" for "en"."""
        clinic = self._session.library.clinic
        own = clinic.language if clinic is not None else ""
        return own if own.partition("-")[0] == language else language

    # ---- drawing --------------------------------------------------------------------

    def refresh(self) -> None:
        """Show what the library holds now."""
        session, subject = self._session, self._kept_subject()
        is_card = subject is Subject.CARD
        self.subject.choose(subject)
        self.protocol.setVisible(not is_card)
        self.card.setVisible(is_card)
        self._show_protocols()
        self.card.show_value(session.card_id or None)
        protocol = None if is_card else session.protocol
        names = _stage_names(protocol) if protocol is not None else []
        self.stages.setVisible(bool(names))
        self.stages.show_stages(names, stages_kept(self._kept_stages(), len(names)))
        self._show_how(session.library.clinic)

    def _show_protocols(self) -> None:
        options = self._protocols()
        words = [option.words for option in options]
        combo = self.protocol
        if words != [combo.itemText(index) for index in range(combo.count())]:
            combo.clear()
            combo.addItems(words)
        self._offered = [option.id for option in options]
        if self._session.protocol_id in self._offered:
            combo.setCurrentIndex(self._offered.index(self._session.protocol_id))
        combo.setToolTip(combo.currentText())

    def _show_how(self, clinic: Clinic | None) -> None:
        papers = {one.value: one for one in PageSize}
        sizes = {one.value: one for one in PrintSize}
        paper = clinic.paper.value if clinic is not None else PageSize.A4.value
        size = clinic.print_size.value if clinic is not None else PrintSize.STANDARD.value
        self.paper.choose(papers.get(self._here.of("paper"), papers[paper]))
        self.print_size.choose(sizes.get(self._here.of("size"), sizes[size]))
        tags = languages()
        own = clinic.language.partition("-")[0] if clinic is not None else tags[0]
        kept = self._kept("language")
        self.language.show_value(kept if kept in tags else own if own in tags else tags[0])
        self.language.setEnabled(len(tags) > 1)
        self.design.refresh(self.language.value)
        self.format.choose(self._kept_format())


def _stage_names(protocol: Protocol) -> list[str]:
    own = protocol.language
    return [stage.name.best(own, own).strip() for stage in protocol.stages]
