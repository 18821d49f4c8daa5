"""A sample page with nothing but the stop box and the pain rule. No Qt here."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.pain import rule_in_force
from authoring.editor.i18n import tr
from authoring.editor.page.composing import blaming, clinic_of, options_of
from authoring.editor.page.making import MadePage
from authoring.editor.page.wish import PageJob
from authoring.editor.workers import Token
from authoring.files.library import read_images
from authoring.handout.catalogue import load_phrases
from authoring.handout.compose import compose
from authoring.handout.context import Context
from authoring.handout.front import pain_guide, stop_box
from authoring.handout.pdf import write_pdf
from authoring.handout.sheet import Sheet, sheet_of_card
from authoring.model.base import evolve
from authoring.model.card import Card, Variant
from authoring.model.caution import Caution
from authoring.model.clinic import Clinic
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, Mode, Urgency

_ID = "00000000-0000-4000-8000-000000000000"


def make_sample(job: PageJob, token: Token) -> MadePage:
    """The sample page of a library's clinic as a PDF; what is wished for is not looked at.

    Raises:
        PageFault: it can't be made.
        Stopped: it is not wanted any more.
    """
    clinic = clinic_of(job)
    with blaming(job):
        context = _context(job, clinic)
        page = compose(
            sheet_of_card(_card(clinic.language)), context, options_of(job, clinic, draft=False)
        )
        token.check()
        parts = (
            stop_box(_signs(clinic.language), context),
            pain_guide(rule_in_force(None, None, None, clinic.pain), context),
        )
        title = tr("Sample")
        return MadePage(job, write_pdf(evolve(page, title=title, lead="", parts=parts)))


def _context(job: PageJob, clinic: Clinic) -> Context:
    names = {clinic.brand.logo.image} if clinic.brand.logo is not None else set()
    kept = {name: job.images[name] for name in names if name in job.images}
    images = {**read_images(job.opened.folder, names - kept.keys()), **kept}
    phrases = load_phrases(clinic.language)
    return Context(phrases=phrases, own=clinic.language, clinic=clinic, terms={}, images=images)


def _card(language: str) -> Card:
    variant = Variant(id="sample", rung=0, name=Text.plain(tr("Sample")), mode=Mode.DYNAMIC)
    return Card(
        id=_ID,
        slug="sample",
        language=language,
        title=Text.plain(tr("Sample")),
        variants=(variant,),
    )


def _signs(language: str) -> Sheet:
    """A sheet with one sign of each urgency."""
    protocol = Protocol(
        id=_ID,
        slug="sample",
        language=language,
        title=Text.plain(tr("Sample")),
        cautions=tuple(_cautions()),
    )
    return Sheet(language, (), protocols=(protocol,))


def _cautions() -> Iterator[Caution]:
    for urgency in Urgency:
        words = Text.plain(tr("A sign that your protocol names."))
        yield Caution(
            id=urgency.value.replace("_", "-"),
            kind=CautionKind.STOP_SIGN,
            urgency=urgency,
            text=words,
        )
