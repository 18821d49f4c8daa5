"""Which layout a handout has where none was asked for."""

from __future__ import annotations

from authoring.handout.choices import Layout
from authoring.handout.compose import Options, compose
from authoring.handout.context import Context
from authoring.handout.document import HandoutDocument, PrintSize
from authoring.handout.pdf import count_pages
from authoring.handout.sheet import Sheet
from authoring.model.base import evolve

ONE_SHEET = 2
"""Pages of one sheet of paper, printed on both sides."""


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
        return compose(sheet, context, evolve(options, layout=layout))
    full = compose(sheet, context, options)
    plain = evolve(options, extras=frozenset())
    if options.print_size is PrintSize.LARGE or _fits(compose(sheet, context, plain)):
        return full
    compact = compose(sheet, context, evolve(plain, layout=Layout.COMPACT))
    if not _fits(compact):
        return full
    return compose(sheet, context, evolve(options, layout=Layout.COMPACT))


def _fits(document: HandoutDocument) -> bool:
    return count_pages(document) <= ONE_SHEET
