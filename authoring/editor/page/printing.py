"""Prints a page: its PDF drawn on the printer's paper, away from the window."""

from __future__ import annotations

from attrs import frozen
from PySide6.QtCore import QBuffer, QIODevice, QRect, QRectF, QSize, QSizeF
from PySide6.QtGui import QImage, QPageSize, QPainter
from PySide6.QtPdf import QPdfDocument, QPdfDocumentRenderOptions
from PySide6.QtPrintSupport import QPrinter

from authoring.editor.i18n import tr
from authoring.editor.page.wish import PageFault, PageJob, title_of
from authoring.editor.workers import Stopped, Token
from authoring.handout.document import PageSize

MOST_DPI = 600
"""Finer dots than an office printer's add nothing but time."""

_ROUNDED = 0.995
"""Printers give their paper in whole dots, some a little less than it has."""

_STRIP = 800
"""Lines of dots that are drawn at once, so that a page needs little memory."""


@frozen
class PrintJob:
    """A page and the printer that the user chose for it."""

    page: PageJob
    printer: QPrinter


def printer_for(job: PageJob, paper: PageSize, count: int) -> QPrinter:
    """A printer as it is offered first: the page's own paper, all pages."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    kinds = {PageSize.A4: QPageSize.PageSizeId.A4, PageSize.LETTER: QPageSize.PageSizeId.Letter}
    printer.setPageSize(QPageSize(kinds[paper]))
    printer.setFullPage(True)
    printer.setDocName(title_of(job))
    if count:
        printer.setFromTo(1, count)
    return printer


def print_page(job: PrintJob, token: Token) -> int:
    """Print; how many sheets were sent.

    Raises:
        PageFault: the page can't be made, or the printer takes nothing.
        Stopped: not wanted any more; the printer is told so.
    """
    from authoring.editor.page.composing import page_bytes  # noqa: PLC0415  (slow to import)

    data = page_bytes(job.page, ".pdf", token.check)
    buffer = QBuffer()
    buffer.setData(data)
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    pdf = QPdfDocument()
    pdf.load(buffer)
    pages = _wanted(job.printer, pdf.pageCount())
    painter = QPainter()
    if not painter.begin(job.printer):
        raise PageFault(
            tr("The printer {name} takes nothing; see whether it is on.", name=_name(job.printer))
        )
    try:
        _print_all(pdf, pages, job.printer, painter, token)
    except Stopped:
        job.printer.abort()
        raise
    finally:
        painter.end()
        pdf.close()
    return len(pages)


def _name(printer: QPrinter) -> str:
    return printer.printerName() or printer.outputFileName()


def _wanted(printer: QPrinter, count: int) -> list[int]:
    """Indexes of the pages asked for, in the order asked for, copies included."""
    ranges = printer.pageRanges()
    some = printer.printRange() is QPrinter.PrintRange.PageRange and not ranges.isEmpty()
    pages = [index for index in range(count) if not some or ranges.contains(index + 1)]
    if printer.pageOrder() is QPrinter.PageOrder.LastPageFirst:
        pages.reverse()
    copies = 1 if printer.supportsMultipleCopies() else max(printer.copyCount(), 1)
    if printer.collateCopies():
        return pages * copies
    return [page for page in pages for _ in range(copies)]


def _print_all(
    pdf: QPdfDocument, pages: list[int], printer: QPrinter, painter: QPainter, token: Token
) -> None:
    painter.setRenderHint(QPainter.RenderHint.LosslessImageRendering)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    for number, page in enumerate(pages):
        token.step(number, len(pages))
        if number and not printer.newPage():
            raise PageFault(
                tr("The printer {name} stopped after {n} pages.", name=_name(printer), n=number)
            )
        _print_one(pdf, page, printer, painter, token)


def _print_one(
    pdf: QPdfDocument, page: int, printer: QPrinter, painter: QPainter, token: Token
) -> None:
    """One page in strips, as large as the paper allows and in its middle."""
    paper = QRectF(printer.paperRect(QPrinter.Unit.DevicePixel))
    printable = QRectF(printer.pageRect(QPrinter.Unit.DevicePixel))
    origin = paper.topLeft() - printable.topLeft()
    points = pdf.pagePointSize(page)
    scale = _scale(printer, points, paper)
    at = QRectF(0, 0, points.width() * scale, points.height() * scale)
    at.moveCenter(paper.center())
    at.translate(origin - paper.topLeft())
    fine = min(1.0, MOST_DPI / max(printer.resolution(), 1))
    dots = QSize(round(at.width() * fine), round(at.height() * fine))
    for top in range(0, dots.height(), _STRIP):
        token.check()
        height = min(_STRIP, dots.height() - top)
        strip = _strip(pdf, page, dots, QRect(0, top, dots.width(), height))
        target = QRectF(at.x(), at.y() + top / fine, at.width(), height / fine)
        painter.drawImage(target, strip)


def _scale(printer: QPrinter, points: QSizeF, paper: QRectF) -> float:
    """Dots a point: true to size where the paper is as large, else as much as it holds."""
    true = printer.resolution() / 72
    fits = min(paper.width() / points.width(), paper.height() / points.height())
    return true if fits > true * _ROUNDED else fits


def _strip(pdf: QPdfDocument, page: int, dots: QSize, part: QRect) -> QImage:
    options = QPdfDocumentRenderOptions()
    options.setScaledSize(dots)
    # One dot more than drawn: the drawing is scaled by the last dot less the first.
    options.setScaledClipRect(part.adjusted(0, 0, 1, 1))
    drawn = pdf.render(page, part.size(), options)
    white = QImage(part.size(), QImage.Format.Format_RGB32)
    white.fill(0xFFFFFFFF)
    painter = QPainter(white)
    painter.drawImage(0, 0, drawn)
    painter.end()
    return white
