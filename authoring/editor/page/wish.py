"""What page is wished for, and everything needed to make it. No Qt here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from attrs import evolve, field, frozen

from authoring.checks.result import Subject
from authoring.editor.i18n import tr
from authoring.editor.place import Place
from authoring.files.library import OpenLibrary
from authoring.handout.choices import Audience, ExtraKind, Layout
from authoring.handout.document import PageSize, PrintSize
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.plan import Plan
from authoring.model.protocol import Protocol


@frozen
class PageWish:
    """What is to stand on the pages; None means the clinic's own choice.

    Attributes:
        subject: ``PROTOCOL`` or ``CARD``; ``CLINIC`` for a sample of the clinic's own wording.
        subject_id: its id.
        stages: numbers of a protocol's stages, counted from 1; none means all.
        layout: None means compact where only that fits one duplex sheet, else full.
        audience: whom the program's own sentences speak to.
        extras: sheets that go with the handout.
    """

    subject: Subject
    subject_id: str
    stages: tuple[int, ...] = ()
    paper: PageSize | None = None
    print_size: PrintSize | None = None
    language: str | None = None
    layout: Layout | None = None
    audience: Audience = Audience.ADULT
    extras: frozenset[ExtraKind] = frozenset()


@frozen
class PageJob:
    """A page to make: a snapshot, so that editing can go on meanwhile.

    Attributes:
        library: the library as it stands, unsaved edits included.
        opened: its folder, for pictures.
        images: bytes of pictures that are not in the folder yet, by file name.
        draft: whether "Draft, not for patients" is printed on every page, whatever is found.
        today: day against which the rule of the command line holds review dates; it finds
            out whether the page is a draft. None for a page that is only looked at.
        plan: a patient's plan to make the page of, whatever the wish's subject is.
    """

    library: Library
    opened: OpenLibrary
    images: Mapping[str, bytes] = field(repr=False)
    wish: PageWish
    draft: bool = True
    today: dt.date | None = None
    plan: Plan | None = field(default=None, repr=False)

    @property
    def document(self) -> Protocol | Card | Plan | None:
        """The plan, protocol or card; None where the library has none of this id."""
        if self.plan is not None:
            return self.plan
        if self.wish.subject is Subject.CARD:
            return self.library.cards.get(self.wish.subject_id)
        return self.library.protocols.get(self.wish.subject_id)

    @property
    def place(self) -> Place:
        """The protocol or card as a place."""
        return Place(self.wish.subject, self.wish.subject_id)


class PageFault(Exception):  # noqa: N818 - shown to people: one sentence
    """The page can't be made: ``sentence`` says what and where.

    ``place`` is where it can be mended, None where that is not known.
    """

    def __init__(self, sentence: str, place: Place | None = None) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.place = place


def stages_kept(wanted: tuple[int, ...], count: int) -> tuple[int, ...]:
    """Those of the wanted stages that a protocol of ``count`` stages has; () for all of them."""
    kept = tuple(sorted({number for number in wanted if 1 <= number <= count}))
    return () if len(kept) == count else kept


def first_of(job: PageJob) -> PageJob | None:
    """The page of the first wanted stage alone; None where there is but one, or none.

    Several stages are set in full unless another layout is wished for; an overview holds one.
    """
    document = job.document
    if not isinstance(document, Protocol) or job.wish.layout is Layout.OVERVIEW:
        return None
    stages = job.wish.stages or tuple(range(1, len(document.stages) + 1))
    if len(stages) < 2:
        return None
    layout = job.wish.layout or Layout.FULL
    early = evolve(job.wish, stages=stages[:1], layout=layout, extras=frozenset())
    return evolve(job, wish=early)


def title_of(job: PageJob) -> str:
    """What the page is called, for file names and printers: "Ankle sprain, stage 2"."""
    document = job.document
    if document is None:
        return tr("Handout")
    if isinstance(document, Plan):
        return tr("Plan for {label}", label=document.label) if document.label else tr("Plan")
    language = job.wish.language or document.language
    title = document.title.best(language, document.language).strip() or document.slug
    stages = job.wish.stages
    if len(stages) == 1:
        return tr("{title}, stage {n}", title=title, n=stages[0])
    if stages:
        numbers = ", ".join(map(str, stages))
        return tr("{title}, stages {numbers}", title=title, numbers=numbers)
    return title
