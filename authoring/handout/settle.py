"""Which layout a handout has where none was asked for."""

from __future__ import annotations

from authoring.handout.choices import ExtraKind, Layout
from authoring.handout.compose import Options, compose
from authoring.handout.context import Context
from authoring.handout.document import Exercise, HandoutDocument, PrintSize
from authoring.handout.errors import HandoutError
from authoring.handout.pdf import count_pages
from authoring.handout.sheet import Sheet
from authoring.model.base import evolve

ONE_SHEET = 2
"""Pages of one sheet of paper, printed on both sides."""

_NONE: frozenset[ExtraKind] = frozenset()


def laid_out(
    sheet: Sheet, context: Context, options: Options, layout: Layout | None
) -> HandoutDocument:
    """The handout in the layout asked for; else the fullest that fits one sheet, else full.

    The fit is counted without the sheets that only go with the handout. Large print is for
    people who need room, so it is never compact unless that was asked for.

    Raises:
        HandoutError, PhraseMissingError: as for :func:`compose`; an overview that does not
            fit one page.
    """
    if layout is not None:
        made = compose(sheet, context, evolve(options, layout=layout))
        if made.layout is Layout.OVERVIEW:
            _refuse_long(compose(sheet, context, evolve(options, layout=layout, extras=_NONE)))
        return made
    full = compose(sheet, context, options)
    if len(sheet.stages) > ONE_SHEET:  # each stage opens a page
        return full
    plain = evolve(options, extras=_NONE)
    if options.print_size is PrintSize.LARGE or _fits(compose(sheet, context, plain)):
        return full
    compact = compose(sheet, context, evolve(plain, layout=Layout.COMPACT))
    if not _fits(compact):
        return full
    return compose(sheet, context, evolve(options, layout=Layout.COMPACT))


def _refuse_long(overview: HandoutDocument) -> None:
    """Refuse an overview of more than one page; large print may take several."""
    if overview.print_size is PrintSize.LARGE or count_pages(overview) == 1:
        return
    exercises = sum(isinstance(part, Exercise) for part in overview.parts)
    raise HandoutError(
        f"An overview is one page, and {exercises} exercises with these stop signs do not fit it; "
        "take exercises out, or choose the compact or full layout."
    )


def _fits(document: HandoutDocument) -> bool:
    return count_pages(document) <= ONE_SHEET
